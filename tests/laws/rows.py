"""Laws of single rows and of what they say of each other: geometry, order, words, mates.

They are written here anew, apart from those that the loader applies, so that each guards the other.
"""

import re
from collections import Counter
from collections.abc import Iterator
from math import hypot, isclose

from identify.model.catalogue import Catalogue, slug
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import GENDERS, MATERIALS, O_RINGS, Feature
from identify.model.source import Confidence, Support
from tests.laws.registry import law
from tests.laws.sizes import threads_named


@law
def id_is_made_of_family_size_and_form(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        sound = (
            end.id == f"{end.family}:{slug(end.size)}:{end.form_key}"
            and end.id.count(":") == 2
            and not set(end.id) & set(' "')
            and tables.families[end.family].name == end.family_name
            and end.form_key.split("-")[0] == end.gender
        )
        if not sound:
            yield end.id


@law
def words_are_those_of_the_model(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        kind = tables.sources[end.provenance.source].kind
        sound = (
            end.gender in GENDERS
            and end.material in MATERIALS
            and {seat.o_ring for seat in end.seats} <= set(O_RINGS)
            and (end.standards or kind != "standard")
            and end.seal
        )
        if not sound:
            yield end.id


@law
def shares_of_a_seat_total_one(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if not isclose(sum(seat.share for seat in end.seats), 1, abs_tol=1e-6):
            yield end.id


@law
def cones_have_a_half_angle_and_flats_have_none(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        for seat in end.seats:
            angle = seat.half_angle_deg
            if seat.shape in (Shape.CONVEX, Shape.CONCAVE) and not 10 < (angle or 0) < 60:
                yield f"{end.id} {seat.shape} {angle}"
            if seat.shape in (Shape.FLAT, Shape.PLUG, Shape.NONE) and angle is not None:
                yield f"{end.id} {seat.shape} {angle}"


@law
def thread_is_of_the_end_gender(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        thread = tables.thread_of(end)
        if thread and end.gender == "male" and not thread.external:
            yield end.id
        if thread and end.gender == "female" and not thread.internal:
            yield end.id


@law
def end_without_a_thread_has_another_dimension_to_go_by(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        sizes = [
            end.sizes.get(Feature.FLANGE_HEAD_OD),
            end.sizes.get(Feature.BOLT_SPACING_LONG),
            end.sizes.get(Feature.PLUG_OD),
            end.sizes.get(Feature.TUBE_BORE),
        ]
        if end.thread is None and not any(
            [*sizes, end.sizes.get(Feature.EYE_BORE), end.sizes.get(Feature.RING_ID), end.hose_dn]
        ):
            yield end.id


@law
def mount_is_what_the_words_and_figures_of_a_form_tell(tables: Catalogue) -> Iterator[str]:
    """Every form says how its thread is held; its words and what rows know of it agree."""
    of_form: dict[str, set[str]] = {}
    for end in tables.ends:
        screwed = end.thread is not None and end.gender in ("male", "female")
        shapes = {seat.shape for seat in end.seats}
        nut = any(each.part is Across.NUT for each in end.hexagons)
        hole = Shape.CHAMFER in shapes or (end.spotface_mm and end.gender == "female")
        words = re.findall(
            r"^(?:hand |tube |gland |swivel |flare |compression )?nut\b|^\w+", end.form
        )
        first = words[0].split()[-1] if words else ""
        told = {"nut": "swivel", "swivel": "swivel", "fixed": "fixed", "port": "port",
                "stud": "stud", "body": "fixed"}.get(first, end.mount)  # fmt: skip
        sound = (
            (end.mount == "none") is not screwed
            and (end.mount != "port" or end.gender == "female")
            and (end.mount != "stud" or end.gender == "male")
            and (end.mount == "swivel" or not nut)
            and (end.mount == "port" or not hole)
            and end.mount == told
        )
        if not sound:
            yield f"{end.id} {end.mount}"
        of_form.setdefault(f"{end.family}:{end.form_key}", set()).add(end.mount)
    yield from (form for form, mounts in of_form.items() if len(mounts) > 1)


@law
def every_source_cited_is_known(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        supports = [end.provenance, *(f.provenance for f in end.figures)]
        supports += [hexagon.provenance for hexagon in end.hexagons]
        cited = {key for p in supports for key in (p.source, *p.checked_against)}
        if not cited | {seen.source for seen in end.also_seen} <= set(tables.sources):
            yield end.id
        if (
            end.provenance.file != f"thread_tables/ends/{end.family}.yaml"
            or not end.provenance.line
        ):
            yield f"{end.id} place"


@law
def no_row_on_memory_is_high(tables: Catalogue) -> Iterator[str]:
    """What was recalled is medium or low, even where a source agrees (DEVELOPERS.md)."""
    for end in tables.ends:
        if end.provenance.basis is Support.FROM_MEMORY and end.confidence is Confidence.HIGH:
            yield end.id


@law
def under_a_third_of_the_rows_rest_on_memory_alone(tables: Catalogue) -> Iterator[str]:
    alone = [end.id for end in tables.ends if on_memory_alone(end)]
    if 3 * len(alone) >= len(tables.ends):
        yield f"{len(alone)} of {len(tables.ends)}"


def on_memory_alone(end: EndConnection) -> bool:
    """Tell whether no second source was seen for a row that was recalled."""
    said = end.provenance
    return said.basis is Support.FROM_MEMORY and not said.checked_against


@law
def computed_row_is_named_after_its_thread(tables: Catalogue) -> Iterator[str]:
    """Where the size is the name of the thread nothing is paired; seat and bore stay remembered."""
    for end in tables.ends:
        if end.provenance.basis is Support.COMPUTED:
            remembered = {figure.field for figure in end.figures}
            needs = {"hose_dn"} if end.hose_dn else set()
            needs |= {"seats"} if any(seat.half_angle_deg for seat in end.seats) else set()
            if not any(threads_named(end)) or needs - remembered:
                yield end.id


SEEN = ("dataset", "data-sheet", "handbook", "manual")
BASES = {  # what each kind of source can support; the tables of standards were never read
    "standard": (Support.FROM_MEMORY, Support.COMPUTED, Support.OPEN_DATASET, Support.PRINTED),
    "practice": (Support.COMMON_PRACTICE, Support.FROM_MEMORY),
    "memory": (Support.FROM_MEMORY,),
    **dict.fromkeys(SEEN, (Support.OPEN_DATASET, Support.PRINTED, Support.COMMON_PRACTICE)),
}

UNREAD = (Support.STANDARD_TEXT, Support.PRINTED, Support.COMPUTED)


@law
def basis_is_one_that_the_source_can_give(tables: Catalogue) -> Iterator[str]:
    """What rests on a standard whose table was not read needs a source that was."""
    rows = [(t.designation, t.provenance) for t in tables.threads.values()]
    rows += [(end.id, end.provenance) for end in tables.ends]
    rows += [(end.id, figure.provenance) for end in tables.ends for figure in end.figures]
    rows += [(end.id, hexagon.provenance) for end in tables.ends for hexagon in end.hexagons]
    for name, said in rows:
        end = tables.by_id.get(name)
        computed = said.basis is Support.COMPUTED and end and any(threads_named(end))
        read = "coupling-texts" in (said.source, *said.checked_against)
        if end and said.basis in UNREAD and not computed and not read:
            yield f"{name}: {said.basis}, but no text of an end standard was read"
        if said.basis not in BASES[tables.sources[said.source].kind]:
            yield f"{name}: {said.basis} of {said.source}"
        seen = {tables.sources[key].kind for key in (said.source, *said.checked_against)}
        if said.basis in (Support.OPEN_DATASET, Support.PRINTED) and not seen & set(SEEN):
            yield f"{name}: {said.basis}, but nothing seen is named"


@law
def dash_is_sixteenths_as_text(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if end.dash and not (end.dash == str(int(end.dash)) and int(end.dash) < 0):
            yield f"{end.id} {end.dash}"


@law
def washer_tube_and_flange_are_the_right_way_round(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        if (
            end.sizes.get(Feature.RING_ID)
            and end.sizes.get(Feature.RING_OD)
            and not end.sizes.get(Feature.RING_ID) < end.sizes.get(Feature.RING_OD)
        ):
            yield f"{end.id} ring"
        if (
            end.sizes.get(Feature.TUBE_BORE)
            and end.seat_mouth_mm
            and not end.sizes.get(Feature.TUBE_BORE) < end.seat_mouth_mm
        ):
            yield f"{end.id} mouth"
        if (
            end.sizes.get(Feature.TUBE_BORE)
            and end.sizes.get(Feature.TUBE_OD)
            and not 0 <= end.sizes.get(Feature.TUBE_BORE) - end.sizes.get(Feature.TUBE_OD) <= 0.6
        ):
            yield f"{end.id} bore"
        long, short, head = (
            end.sizes.get(Feature.BOLT_SPACING_LONG),
            end.sizes.get(Feature.BOLT_SPACING_SHORT),
            end.sizes.get(Feature.FLANGE_HEAD_OD),
        )
        if long and short and not (long >= short and (not head or hypot(long, short) > head)):
            yield f"{end.id} bolts"


@law
def nut_goes_over_its_thread(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        thread = tables.thread_of(end)
        for hexagon in end.hexagons:
            nut = thread and hexagon.part is Across.NUT
            if thread and nut and not thread.major_mm < hexagon.mm < 2.4 * thread.major_mm:
                yield end.id


@law
def rating_is_positive_with_its_basis_or_unknown_with_a_reason(tables: Catalogue) -> Iterator[str]:
    for end in tables.ends:
        bar = end.rating.bar
        if not (end.rating.note if bar is None else 0 < bar <= 10000 and end.rating.basis):
            yield end.id


@law
def mates_meet_seat_on_seat(tables: Catalogue) -> Iterator[str]:
    """A cone meets a cone of its angle and the other shape, or a ball; a flat meets a flat."""
    for end in tables.ends:
        for mate in tables.mates_of(end):
            if mate.family == end.family and not _seats_meet(end, mate):
                yield f"{end.id} on {mate.id}"  # a washer between may take any shoulder


def _seats_meet(end: EndConnection, mate: EndConnection) -> bool:
    return any(_meet(one, other) for one in end.seats for other in mate.seats)


def _meet(one: Seat, other: Seat) -> bool:
    shapes = {one.shape, other.shape}
    if shapes & {Shape.NONE, Shape.CHAMFER, Shape.PLUG}:
        return True
    if Shape.BALL in shapes:
        return Shape.CONCAVE in shapes
    if Shape.FLAT in shapes:
        return one.shape is other.shape
    angles = [seat.half_angle_deg or 0 for seat in (one, other)]
    return one.shape is not other.shape and abs(angles[0] - angles[1]) <= 3  # 42 on 45 is made


@law
def mates_name_each_other(tables: Catalogue) -> Iterator[str]:
    """What is meant for an end is meant back."""
    pairs = {(end.id, mate.id) for end in tables.ends for mate in tables.mates_of(end)}
    yield from (f"{one} names {other}" for one, other in pairs if (other, one) not in pairs)


@law
def every_id_is_unique(tables: Catalogue) -> Iterator[str]:
    times = Counter(end.id for end in tables.ends)
    yield from (end_id for end_id, n in times.items() if n > 1)


@law
def series_ascend(tables: Catalogue) -> Iterator[str]:
    """Within a form, sizes of one series and system never fall in thread diameter or dash."""
    last: dict[tuple[str, ...], tuple[float, int]] = {}
    for end in tables.ends:
        thread = tables.thread_of(end)
        if thread and end.dash:
            letters = "".join(filter(str.isalpha, end.size))
            key = (end.family, end.form_key, letters, thread.system)
            now = (thread.major_mm, -int(end.dash))
            before = last.get(key, (0.0, 0))
            if now[0] < before[0] or now[1] < before[1]:
                yield end.id
            last[key] = now
