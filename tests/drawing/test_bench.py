"""Laws of the bench view: what the eye sees, no more and no less."""

import math
from collections import defaultdict
from functools import cache
from itertools import pairwise

import pytest

from identify.drawing.bench import Look
from identify.drawing.ends import asked_view, bench_view, named_section, sort_of
from identify.drawing.outline import Fill, Kind
from identify.drawing.render import render
from identify.drawing.seat_words import main_seat
from identify.drawing.swivels import is_standpipe
from identify.model.connection import EndConnection, Shape
from identify.model.feature import FEATURES, Feature
from tests.drawing.parts import CATALOGUE, bench_of, part

UNSEEN = (Feature.TUBE_OD,)  # the tube is not there, but where it is a piece of the end itself


@cache
def lines_of(end: EndConnection) -> tuple[frozenset[object], ...]:
    """Return all that is drawn of an end, to a hundredth of a millimetre."""
    sheet = bench_view(end, CATALOGUE.thread_of(end))

    def rounded(points):
        return tuple((round(x, 2) + 0.0, round(y, 2) + 0.0) for x, y in points)

    return (
        frozenset((line.kind, rounded(line.points)) for line in sheet.lines),
        frozenset((region.fill, rounded(region.points)) for region in sheet.regions),
        frozenset(
            (rounded((run.start, run.end)), run.pitch_mm, run.flank_angle_deg, run.left_hand)
            for run in sheet.threads
        ),
    )


def shape_of(end: EndConnection) -> tuple[object, ...]:
    """Return what sort of thing is seen, without its sizes."""
    seat = main_seat(end)
    return (
        end.seen_as,
        end.mount == "port",
        end.mount == "stud",
        end.mount == "swivel",
        seat.shape,
        seat.o_ring,
        end.sealing == "coupling" and end.form,
        end.sealing if end.thread is None else "",
        is_standpipe(end),
        "hollow bolt" in end.form,
        bool(end.shares.get(Feature.PORT_RIDGE)),
        end.gender == "flange" and Feature.FLANGE_HEAD_OD in end.sizes,
    )


def sizes_of(end: EndConnection) -> dict[str, object]:
    """Return every figure of the tables that a view may be drawn from."""
    thread = CATALOGUE.thread_of(end) if end.gender in ("male", "female") else None
    return {
        "thread": thread
        and (
            thread.small_end_mm or thread.major_mm,
            round(thread.height_mm, 6),
            thread.pitch_mm,
            thread.taper,
            thread.flank_angle_deg,
            thread.useful_length_mm,
        ),
        "left hand": end.left_hand >= 0.5,
        "angle": main_seat(end).half_angle_deg,
        "hexagons": tuple(sorted(hexagon.mm for hexagon in end.hexagons)),
        "ring": end.o_ring_size,
        "bolts": (end.bolt_metric, end.bolt_inch),
        "hose": end.hose_dn if end.thread is None else None,
        "mouth": (end.seat_mouth_mm, end.spotface_mm, end.side_mm),
        **{str(feature): size for feature, size in end.sizes.items()},
    }


def seen_of(end: EndConnection) -> tuple[object, ...]:
    """Return what an eye can tell of an end: its shapes, and the sizes of what lies open to it.

    Not the angle of a seat inside a nut, a bore or a port: that wants a gauge. Not the tube that is
    fitted later. Not a hexagon, which the tables give for some rows only. Not a ring whose size no
    table gives.
    """
    sizes = sizes_of(end)
    open_cone = end.gender == "male" and main_seat(end).shape is Shape.CONVEX
    shown = {key: size for key, size in sizes.items() if key not in ("hexagons", "ring", "hose")}
    if not open_cone:
        shown.pop("angle")
    if not is_standpipe(end) and not (end.gender == "male" and end.mount == "swivel"):
        for feature in UNSEEN:
            shown.pop(str(feature), None)
    return (*shape_of(end), tuple(sorted(shown.items(), key=lambda item: item[0])))


def test_rows_that_differ_to_the_eye_differ_in_the_bench_view() -> None:
    alike = defaultdict(list)
    for end in CATALOGUE.ends:
        alike[lines_of(end)].append(end)
    for ends in alike.values():
        for one, other in pairwise(ends):
            assert seen_of(one) == seen_of(other), (one.id, other.id)


def test_rows_of_which_the_tables_say_the_same_look_the_same() -> None:
    told = defaultdict(list)
    for end in CATALOGUE.ends:
        told[(*shape_of(end), repr(sorted(sizes_of(end).items())))].append(end)
    shared = [ends for ends in told.values() if len(ends) > 1]
    assert shared
    for ends in shared:
        for one, other in pairwise(ends):
            assert lines_of(one) == lines_of(other), (one.id, other.id)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("port_metric_flat:M22x1.5:male", "metric60:M22x1.5:male"),  # stud, cone male
        ("npt:1/2-NPT:male", "port_g_flat:G1/2:male"),  # taper, stud
        ("testpoint:M16x1.5:male", "metric60:M16x1.5:male"),
        ("staple:DN-13:male", "qc7241a:12.5:male"),
        ("staple:DN-13:female", "qc7241a:12.5:female"),
        ("flange61:1-in:flange", "flange_jis_square:25:flange-hexagon-bolt"),
        ("banjo_metric:M22x1.5:male-bolt", "port_metric_flat:M22x1.5:male"),
        ("inverted45:-5:male", "aerospace_inch:-5:male-flareless"),
    ],
)
def test_what_is_often_taken_for_something_else_looks_different(one: str, other: str) -> None:
    assert shape_of(part(one)[0]) != shape_of(part(other)[0])
    rows = [render(bench_of(name), 75, 22) for name in (one, other)]
    strange = sum(a != b for a, b in zip("".join(rows[0]), "".join(rows[1]), strict=False))
    assert strange > 40


def test_the_end_view_of_a_face_seal_has_its_groove_and_its_ring_as_rings() -> None:
    # ISO 8434-3 -8: ring 12.42 x 1.78 mm, AS568 size 014.
    (ring,) = bench_of("orfs:-8:male", Look.END).regions
    radii = [math.hypot(x, y) for x, y in ring.points]
    assert ring.fill is Fill.SEAL
    assert max(radii) - min(radii) == pytest.approx(1.78, abs=0.02)
    assert 2 * min(radii) == pytest.approx(12.42, rel=0.06)  # it lies in the middle of its groove


def test_the_end_view_of_a_flange_has_its_holes_where_the_table_says() -> None:
    end, _ = part("flange61:3/4-in:flange")
    holes = [
        (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
        for line in bench_of(end.id, Look.END).lines
        if line.kind is Kind.OUTLINE and len(points := line.points[:-1]) == 20
    ]
    assert sorted({(round(abs(x), 3), round(abs(y), 3)) for x, y in holes}) == [
        (
            round(end.sizes[Feature.BOLT_SPACING_LONG] / 2, 3),
            round(end.sizes[Feature.BOLT_SPACING_SHORT] / 2, 3),
        )
    ]
    assert len(holes) == 4


def test_no_bench_view_shows_a_figure_unless_asked_and_then_not_that_of_the_tables() -> None:
    for end in CATALOGUE.ends[::31]:
        thread = CATALOGUE.thread_of(end)
        assert not bench_view(end, thread).labelled
        for ask in FEATURES:
            sheet = bench_view(end, thread, ask=ask)
            assert all(" here" in item.label and item.asked for item in sheet.labelled)


def test_every_form_can_be_looked_at_in_every_way_on_the_smallest_canvas() -> None:
    for end in {(end.family, end.form_key): end for end in CATALOGUE.ends}.values():
        thread = CATALOGUE.thread_of(end)
        for look in Look:
            assert len(render(bench_view(end, thread, look), 36, 12)) == 12
        assert len(render(named_section(end, thread), 36, 12)) == 12


def test_the_named_section_says_half_and_included_angle_of_every_cone() -> None:
    for end in CATALOGUE.ends:
        half = main_seat(end).half_angle_deg
        if half is None or end.gender == "flange" or sort_of(end) == "washer":
            continue
        labels = " ".join(item.label for item in named_section(end, part(end.id)[1]).labelled)
        if main_seat(end).shape not in (Shape.NONE, Shape.BALL):
            assert f"half {half:g}°" in labels
            assert f"included {2 * half:g}°" in labels


@pytest.mark.parametrize("ask", [Feature.THREAD_OD, Feature.PITCH, Feature.HEX, Feature.TAPER])
def test_what_is_measured_outside_is_asked_for_without_showing_a_seat_inside(ask: Feature) -> None:
    for name in ("bspp60:G1/2:male", "cone24_L:12L:male", "metric60:M18x1.5:male"):
        sheet = asked_view(*part(name), ask)
        assert not sheet.regions  # nothing is cut
        assert [item.asked for item in sheet.labelled] == [True]
        assert "seat" not in sheet.described.split("Proportions")[0]


def test_what_is_measured_inside_is_shown_cut() -> None:
    for ask in (Feature.SEAT_ANGLE, Feature.TUBE_BORE):
        sheet = asked_view(*part("cone24_L:12L:male"), ask)
        assert any(region.fill is Fill.CUT for region in sheet.regions)
    assert asked_view(*part("bspp60:G1/2:female"), Feature.THREAD_ID).dimensions
