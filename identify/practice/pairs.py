"""The pairs that are confused, found in the tables and in what experience says of lookalikes."""

from collections.abc import Callable, Iterable, Iterator
from itertools import combinations

from identify.frozen import replace
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Shape
from identify.model.observation import ObservationModel
from identify.model.rulebook import RuleBook
from identify.model.verdict import Hazard
from identify.practice.exercise import Kind, Pair
from identify.reasoning.apart import alike, nears_of
from identify.reasoning.hazards import Hazards
from identify.reasoning.hypotheses import row_weights

MM_INCH = 25.4
LOOKED_AT = 5  # examples of a pair of which the hazard is worked out
NEAR_CREST_MM = 1.0  # crests nearer than this are measured for each other's
NEAR_PITCH = 0.13  # of a pitch: leaves nearer than this are tried on one thread
NEAR_ANGLE_DEG = 16.0  # a half angle read on the wrong basis is taken for the next cone within this
SYSTEMS = {"G": "G (BSPP)", "ISO7": "R (BSPT)", "NPT": "NPT"}
OUT, IN = "out", "in"
_SHAPES = {Shape.CONVEX: OUT, Shape.BALL: OUT, Shape.CONCAVE: IN}
Examples = dict[tuple[str, str], list[tuple[int, int]]]


def pairs_of(catalogue: Catalogue, book: RuleBook, hazards: Hazards) -> tuple[Pair, ...]:
    """Return every pair that can be practised, the gravest and most usual first."""
    found = [*_cones(catalogue), *_pipes(catalogue), *_leaves(catalogue, book.observation)]
    found += [*_angles(catalogue), *_sizes(catalogue), *_notes(catalogue, book)]
    weights = row_weights(catalogue, book.priors)
    weighed = [_weighed(pair, catalogue, hazards, weights) for pair in found if pair.examples]
    return tuple(sorted(weighed, key=lambda pair: (-pair.hazard.rank, -pair.common, pair.key)))


def _weighed(pair: Pair, catalogue: Catalogue, hazards: Hazards, weights: list[float]) -> Pair:
    """Return a pair with the worst hazard of some of its examples, and how usual it is."""
    ends, step = catalogue.ends, len(pair.examples) // LOOKED_AT + 1
    worse = max(
        (hazards.of(ends[a], ends[b])
         for one, other in pair.examples[::step] for a, b in ((one, other), (other, one))),
        key=lambda hazard: hazard.rank,
    )  # fmt: skip
    rows = {row for example in pair.examples for row in example}
    if pair.kind is Kind.PART and any(catalogue.ends[row].refuse for row in rows):
        worse = Hazard.HIGH  # one of the two is not to be handled at all
    return replace(pair, hazard=worse, common=sum(weights[row] for row in rows))


def side_of(end: EndConnection) -> str:
    """Return where the cone or ball of an end points, empty where it has none or both."""
    sides = {_SHAPES.get(seat.shape, "") for seat in end.seats}
    return sides.pop() if len(sides) == 1 else ""


def _usable(catalogue: Catalogue) -> Iterator[tuple[int, EndConnection]]:
    """Yield hydraulic ends with one thread that is screwed."""
    for row, end in enumerate(catalogue.ends):
        if not end.refuse and end.gender in ("male", "female") and len(end.threads) == 1:
            yield row, end


def _made(kind: Kind, found: Examples, words: str, side: Callable[[str], str]) -> Iterator[Pair]:
    """Yield the pairs that were found; `words` has a place for each side."""
    for (one, other), examples in sorted(found.items()):
        sides = side(one), side(other)
        yield Pair(kind, one, other, words.format(*sides), sides, tuple(examples))


def _add(found: Examples, one: str, other: str, rows: tuple[int, int]) -> None:
    """Keep an example under its pair, whose names stand in one order."""
    key, example = ((one, other), rows) if one <= other else ((other, one), rows[::-1])
    found.setdefault(key, []).append(example)


def _cones(catalogue: Catalogue) -> Iterator[Pair]:
    """Yield two families on one thread, one with its cone out, the other with its cone in."""
    by_thread: dict[tuple[str, str], list[tuple[int, EndConnection, str]]] = {}
    for row, end in _usable(catalogue):
        side = side_of(end)
        if side and end.gender == "male":  # a nut hides what it holds
            by_thread.setdefault((end.gender, end.threads[0]), []).append((row, end, side))
    found: Examples = {}
    for same in by_thread.values():
        for (row, end, side), (more, other, far) in combinations(same, 2):
            if end.family != other.family and side != far:
                _add(found, end.family, other.family, (row, more))
    names = {key: family.name for key, family in catalogue.families.items()}
    yield from _made(Kind.CONE, found, "cone out or in: {} or {}", names.__getitem__)


def _pipes(catalogue: Catalogue) -> Iterator[Pair]:
    """Yield the pipe threads of which a caliper alone tells little."""
    found: Examples = {}
    ends = [(row, end) for row, end in _usable(catalogue)]
    threads = {row: catalogue.threads[end.threads[0]] for row, end in ends}
    pipes = [(row, end) for row, end in ends if threads[row].system in SYSTEMS]
    for (row, end), (more, other) in combinations(pipes, 2):
        one, far = threads[row], threads[more]
        near = abs(one.major_mm - far.major_mm) < NEAR_CREST_MM
        if end.gender == other.gender and one.system != far.system and near:
            _add(found, one.system, far.system, (row, more))
    yield from _made(Kind.PIPE, found, "{} or {}", SYSTEMS.__getitem__)


def _leaves(catalogue: Catalogue, model: ObservationModel) -> Iterator[Pair]:
    """Yield two pitches, each with a leaf of its own, that are tried on one thread."""
    leaves = [*model.leaves_mm, *(MM_INCH / tpi for tpi in model.leaves_tpi)]
    found: Examples = {}
    ends = []
    for row, end in _usable(catalogue):
        thread = catalogue.threads[end.threads[0]]
        crest = thread.crest(end.gender)
        if crest and any(abs(leaf - thread.pitch_mm) < 1e-3 for leaf in leaves):
            ends.append((row, end.gender, thread, crest.middle_mm))
    ends.sort(key=lambda each: each[3])
    for place, (row, gender, thread, crest_mm) in enumerate(ends):
        for more, same, other, far_mm in ends[place + 1 :]:
            if far_mm - crest_mm >= NEAR_CREST_MM:
                break
            apart = abs(thread.pitch_mm - other.pitch_mm) / thread.pitch_mm
            if gender == same and 1e-3 < apart < NEAR_PITCH:
                _add(found, thread.pitch_words, other.pitch_words, (row, more))
    yield from _made(Kind.LEAF, found, "{} or {}", "leaf {}".format)


def half_angles(catalogue: Catalogue) -> tuple[float, ...]:
    """Return the half angles of cones on hydraulic ends with one way of making them [deg]."""
    return tuple(sorted({angle for _, end in _usable(catalogue) if (angle := half_of(end))}))


def half_of(end: EndConnection) -> float:
    """Return the half angle of an end made in one way [deg], 0 where it has no cone."""
    only = end.seats[0]
    cone = only.shape in (Shape.CONVEX, Shape.CONCAVE)
    return only.half_angle_deg or 0.0 if len(end.seats) == 1 and cone else 0.0


def misread(half_deg: float, angles: Iterable[float]) -> tuple[float, ...]:
    """Return the cones for which a half angle is taken if its number is read on the other basis."""
    others = [angle for angle in angles if angle != half_deg]
    taken = []
    for wrong in (2 * half_deg, half_deg / 2):
        nearest = min(others, key=lambda angle: abs(angle - wrong))
        if abs(nearest - wrong) <= NEAR_ANGLE_DEG:
            taken.append(nearest)
    return tuple(taken)


def _angles(catalogue: Catalogue) -> Iterator[Pair]:
    angles = half_angles(catalogue)
    confused = {pair for half in angles for taken in misread(half, angles)
                for pair in ((half, taken), (taken, half))}  # fmt: skip
    ends = [(row, end, half) for row, end in _usable(catalogue) if (half := half_of(end))]
    found: Examples = {}
    for (row, end, half), (more, other, far) in combinations(ends, 2):
        if (end.gender, side_of(end)) != (other.gender, side_of(other)):
            continue
        if (half, far) not in confused:
            continue
        threads = [catalogue.threads[each.threads[0]] for each in (end, other)]
        if abs(threads[0].major_mm - threads[1].major_mm) < NEAR_CREST_MM:
            _add(found, f"{half:g}", f"{far:g}", (row, more))
    yield from _made(Kind.ANGLE, found, "{} or {}", "half angle {}°".format)


def trade_mm(end: EndConnection) -> float | None:
    """Return the length that the dash size of an end seems to say [mm], None if it has none."""
    return int(end.dash.lstrip("-")) / 16 * MM_INCH if end.dash else None


def _sizes(catalogue: Catalogue) -> Iterator[Pair]:
    """Yield families in which what a caliper shows is the name of another size."""
    forms: dict[tuple[str, str], list[tuple[int, EndConnection, float]]] = {}
    for row, end in _usable(catalogue):
        trade = trade_mm(end)
        if trade and end.gender == "male":
            forms.setdefault((end.family, end.form_key), []).append((row, end, trade))
    found: Examples = {}
    for (family, _), sizes in forms.items():
        for row, end, trade in sizes:
            major = catalogue.threads[end.threads[0]].major_mm
            taken = min(sizes, key=lambda each: abs(each[2] - major))
            if taken[2] != trade and taken[1].threads != end.threads:
                found.setdefault((family, "measure"), []).append((row, taken[0]))
    names = {key: family.name for key, family in catalogue.families.items()}
    yield from _made(Kind.SIZE, found, "size or measure: {}", lambda one: names.get(one, ""))


def _notes(catalogue: Catalogue, book: RuleBook) -> Iterator[Pair]:
    """Yield what experience says is confused, as far as a first measurement does not part it."""
    names = {key: family.name for key, family in catalogue.families.items()}
    nears = nears_of(book.observation)
    for note in book.lookalikes:
        ones, others = (
            [row for row, name in enumerate(catalogue.ids) if name.startswith(f"{each}:")]
            for each in (note.a, note.b)
        )
        examples = [
            (row, more)
            for row in ones
            for more in others
            if catalogue.ends[row].gender == catalogue.ends[more].gender
            and alike(catalogue, catalogue.ends[row], catalogue.ends[more], nears)
        ]
        one, other = (names[each.split(":")[0]] for each in (note.a, note.b))
        yield Pair(Kind.PART, note.a, note.b, f"{one} or {other}", (one, other), tuple(examples))
