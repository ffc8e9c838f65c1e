"""The five short exercises, each made from two rows of the tables that are confused."""

from __future__ import annotations

import random

from identify.drawing.instruments import Lane, angle_on_display, comb_over, rule_under
from identify.frozen import TYPE_CHECKING
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.model.rule import Tool
from identify.practice.exercise import CANNOT_TELL, Exercise, Kind, Option, Pair, Shown
from identify.practice.pairs import (
    IN,
    MM_INCH,
    OUT,
    SYSTEMS,
    half_angles,
    half_of,
    misread,
    side_of,
)  # fmt: skip
from identify.practice.room import Room, crest_feature
from identify.reading.parse import reading_from
from identify.simulation.blueprint import Cone

if TYPE_CHECKING:
    from identify.model.thread import Thread
    from identify.simulation.parts import Part

LEAVES = 3  # on one picture
_SIZES_SHOWN = 5
_CANNOT = Option(CANNOT_TELL, "cannot tell from what is shown")
_WORDS = {OUT: "out: it stands out towards you", IN: "in: it is cut into the part"}


def make_short(
    room: Room, pair: Pair, rng: random.Random, seed: str, level: int
) -> Exercise | None:
    """Return a short exercise on a pair, None where these parts give none."""
    rows = rng.choice(pair.examples)
    if rng.random() < 0.5 and pair.kind is not Kind.SIZE:
        rows = rows[::-1]
    truth, confused = (room.catalogue.ends[row] for row in rows)
    part = room.part(rng, rows[0], level)
    whole = room.whole(rng, part)
    made = _MAKERS[pair.kind](room, rng, truth, confused, part, level)
    if made is None:
        return None
    question, options, shown, pictures = made
    return Exercise(
        pair, seed, level, truth, confused, part, question, options, shown, whole, pictures,
        by_eye=pair.kind is Kind.CONE,
    )  # fmt: skip


Made = tuple[str, tuple[Option, ...], tuple[Reading, ...], tuple[Shown, ...]]


def _thread(room: Room, end: EndConnection) -> Thread:
    return room.catalogue.threads[end.threads[0]]


def _read(
    room: Room, rng: random.Random, part: Part, level: int, *asked: tuple[Feature, Tool]
) -> tuple[Reading, ...]:
    """Return the displays: the gender, and what a person of the level reads of these features."""
    person = room.person(level) if level else room.exact
    found = [reading_from(Feature.GENDER, part.seen_as)]
    found += filter(None, (room.read(rng, part, each, person, tool) for each, tool in asked))
    return tuple(found)


def _cone(
    room: Room, rng: random.Random, truth: EndConnection, confused: EndConnection,
    part: Part, level: int,
) -> Made:  # fmt: skip
    sides = {row: side_of(end) for row, end in enumerate(room.catalogue.ends)}
    options = tuple(
        Option(side, words, frozenset(row for row, each in sides.items() if each == side))
        for side, words in _WORDS.items()
    )
    question = "Look at the end. Does its cone, or its ball, stand out or is it cut in?"
    shown = _read(room, rng, part, level, (crest_feature(truth), Tool.CALIPER),
                  (Feature.PITCH, Tool.METRIC_GAUGE))  # fmt: skip
    return question, options, shown, (room.picture(truth, part),)


def _pipe(
    room: Room, rng: random.Random, truth: EndConnection, confused: EndConnection,
    part: Part, level: int,
) -> Made:  # fmt: skip
    rows: dict[str, set[int]] = {system: set() for system in SYSTEMS}
    for row, end in enumerate(room.catalogue.ends):
        if len(end.threads) == 1 and end.gender == truth.gender:
            system = room.catalogue.threads[end.threads[0]].system
            if system in rows:
                rows[system].add(row)
    options = tuple(Option(each, SYSTEMS[each], frozenset(rows[each])) for each in SYSTEMS)
    asked = [
        (crest_feature(truth), Tool.CALIPER),
        (Feature.PITCH, Tool.INCH_GAUGE),
        (Feature.TAPER, Tool.CALIPER),
        (Feature.FLANK_ANGLE, Tool.NONE),
    ]
    if level:  # some were not taken, and then it cannot always be told
        asked = rng.sample(asked, rng.choice((2, 3, 4)))
    shown = _read(room, rng, part, level, *asked)
    return "A pipe thread. Which is it?", (*options, _CANNOT), shown, ()


def _leaf(
    room: Room, rng: random.Random, truth: EndConnection, confused: EndConnection,
    part: Part, level: int,
) -> Made | None:  # fmt: skip
    own, other = _thread(room, truth), _thread(room, confused)
    model = room.book.observation
    leaves = [*model.leaves_mm, *(MM_INCH / tpi for tpi in model.leaves_tpi)]
    near = [own.pitch_mm, other.pitch_mm]
    leaves.sort(key=lambda leaf: abs(leaf - own.pitch_mm))
    near += [leaf for leaf in leaves if all(abs(leaf - each) > _ONE_LEAF_MM for each in near)]
    lanes, options = [], []
    of_pair = {own.pitch_mm: own, other.pitch_mm: other}
    for pitch in sorted(near[:LEAVES]):
        thread = of_pair.get(pitch) or _nearest(room, truth, own.major_mm, pitch)
        words = leaf_words(pitch, model.leaves_mm)
        lanes.append(Lane(words, pitch))
        if thread:
            rows = room.thread_rows(thread.designation, truth.gender)
            options.append(Option(thread.designation, f"leaf {words}: {thread.designation}", rows))
    shown = _read(room, rng, part, level, (crest_feature(truth), Tool.CALIPER),
                  (Feature.PITCH, Tool.CALIPER))  # fmt: skip
    kept = tuple(each for each in shown if each.feature is not Feature.PITCH)
    strips = [(each.label, comb_over(own, each)) for each in lanes]
    strips.append(("rule, mm", rule_under(own)))
    question = (
        "Each leaf begins in the first gap of the thread. Which leaf still fits in the tenth gap? "
        "With the size on the display, what thread is it?"
    )
    return question, tuple(options), kept, tuple(strips)


def leaf_words(pitch_mm: float, metric: tuple[float, ...]) -> str:
    """Return what is stamped on a leaf: a pitch in mm, or threads per inch."""
    if any(abs(pitch_mm - each) < _ONE_LEAF_MM for each in metric):
        return f"{pitch_mm:g} mm"
    return f"{round(MM_INCH / pitch_mm, 2):g} tpi"


def _nearest(room: Room, truth: EndConnection, major_mm: float, pitch_mm: float) -> Thread | None:
    """Return the thread of hydraulic ends with a pitch and about this diameter, None if none."""
    known = {
        each: room.catalogue.threads[each]
        for end in room.catalogue.ends
        if end.gender == truth.gender and len(end.threads) == 1
        for each in end.threads
    }
    same = [each for each in known.values() if abs(each.pitch_mm - pitch_mm) < _ONE_LEAF_MM]
    return min(same, key=lambda each: abs(each.major_mm - major_mm), default=None)


def _angle(
    room: Room, rng: random.Random, truth: EndConnection, confused: EndConnection,
    part: Part, level: int,
) -> Made | None:  # fmt: skip
    angles = half_angles(room.catalogue)
    own, far = half_of(truth), half_of(confused)
    if far not in misread(own, angles):
        return None
    halves = {row: half_of(end) for row, end in enumerate(room.catalogue.ends)}
    options = tuple(
        Option(
            f"{angle:g}",
            f"half {angle:g}°, included {2 * angle:g}°",
            frozenset(row for row, half in halves.items() if half == angle),
        )
        for angle in angles
    )
    across = abs(2 * own - far) < abs(own / 2 - far)  # the number that is misread as the other
    cone = part.truth.get(Feature.SEAT_ANGLE)
    if not isinstance(cone, Cone):
        return None
    number = round((2 if across else 1) * cone.half_deg)
    said = f"{number} deg {'included' if across else 'half'} by protractor"
    shape = reading_from(Feature.SEAT_SHAPE, "convex" if side_of(truth) == OUT else "concave")
    sheet = angle_on_display(own, number, across=across)
    shown = (*_read(room, rng, part, 0, (crest_feature(truth), Tool.CALIPER)),
             shape, reading_from(Feature.SEAT_ANGLE, said))  # fmt: skip
    question = "The protractor lies as drawn. Which cone is it?"
    return question, options, shown, (("", sheet),)


def _size(
    room: Room, rng: random.Random, truth: EndConnection, confused: EndConnection,
    part: Part, level: int,
) -> Made | None:  # fmt: skip
    ends = [each for each in room.catalogue.ends
            if (each.family, each.form_key) == (truth.family, truth.form_key)]  # fmt: skip
    threads = {each.threads: each for each in reversed(ends)}
    sizes = sorted(threads.values(), key=lambda each: _thread(room, each).major_mm)
    if truth not in sizes or confused not in sizes:
        return None
    low, high = sorted((sizes.index(truth), sizes.index(confused)))
    kept = sizes[low : high + 1] if high - low < _SIZES_SHOWN else [truth, confused]
    for each in sorted(sizes, key=lambda one: abs(sizes.index(one) - sizes.index(truth))):
        if len(kept) < _SIZES_SHOWN and each not in kept:
            kept.append(each)
    options = tuple(
        Option(each.size, each.size, room.thread_rows(each.threads[0], each.gender))
        for each in sorted(kept, key=sizes.index)
    )
    tool = Tool.INCH_GAUGE if _thread(room, truth).tpi else Tool.METRIC_GAUGE
    shown = _read(room, rng, part, level, (crest_feature(truth), Tool.CALIPER),
                  (Feature.PITCH, tool))  # fmt: skip
    question = f"It is a {truth.family_name}, {truth.form}. Which size is it?"
    return question, options, shown, ()


_ONE_LEAF_MM = 1e-3  # pitches nearer than this are one leaf
_MAKERS = {
    Kind.CONE: _cone, Kind.PIPE: _pipe, Kind.LEAF: _leaf, Kind.ANGLE: _angle, Kind.SIZE: _size,
}  # fmt: skip
