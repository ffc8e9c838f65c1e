"""Dimensions and angles read back from the pictures."""

import math
import re
from itertools import pairwise

import pytest

from identify.drawing.ends import half_section
from identify.drawing.fit import BARS_MM
from identify.drawing.outline import Fill, Kind, Region, ThreadRun
from identify.drawing.raster import hatch_lines
from identify.drawing.render import render, text_layout
from identify.drawing.seat_detail import seat_detail
from identify.drawing.thread_profile import crest_points, thread_lines
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from tests.drawing.parts import CATALOGUE, part, sheet_of

BITS = {0x01: (0, 0), 0x02: (0, 1), 0x04: (0, 2), 0x40: (0, 3)}
BITS |= {0x08: (1, 0), 0x10: (1, 1), 0x20: (1, 2), 0x80: (1, 3)}


def dots(lines: tuple[str, ...]) -> set[tuple[int, int]]:
    """Read the dots back from braille, as (column of dots, row of dots)."""
    return {
        (2 * column + dx, 4 * row + dy)
        for row, line in enumerate(lines)
        for column, mark in enumerate(line)
        if 0x2800 <= ord(mark) <= 0x28FF
        for bit, (dx, dy) in BITS.items()
        if (ord(mark) - 0x2800) & bit
    }


def slope_deg(points: list[tuple[float, float]]) -> float:
    """Return the angle of the least-squares line through points against the x axis."""
    n = len(points)
    mean_x, mean_y = sum(x for x, _ in points) / n, sum(y for _, y in points) / n
    up = sum((x - mean_x) * (y - mean_y) for x, y in points)
    along = sum((x - mean_x) ** 2 for x, _ in points)
    return math.degrees(math.atan(up / along))


@pytest.mark.parametrize(
    ("name", "other", "half_deg"),
    [
        # SAE J514 / ISO 8434-2: 37 deg; SAE J512: 45 deg; JIS B 8363: 30 deg, all from the axis.
        ("flare37:-8:male", "orb_un:-8:male", 37),
        ("flare45:-8:male", "orb_un:-8:male", 45),
        ("jis30_g:G1/2:male", "orb_un:-8:male", 30),
    ],
)
def test_the_cone_in_braille_has_the_half_angle_of_the_standard(name, other, half_deg) -> None:
    sheet = seat_detail(*part(name), *part(other))
    columns, rows = 75, 36
    fit = text_layout(sheet, columns, rows).fit
    found = dots(render(sheet, columns, rows))
    apex_x, apex_y = fit.column(0) * 2, fit.row(0) * 4
    # The upper edge of the solid cone: highest dot in each column of dots, clear of apex and rim.
    top = {}
    for x, y in found:
        top[x] = min(y, top.get(x, 10_000))
    # The seat line ends where the dots stop rising.
    rising = [(x, apex_y - y) for x, y in sorted(top.items()) if x > apex_x + 12]
    peak = max(height for _, height in rising)
    line = [(x, height) for x, height in rising if height < peak - 2]
    assert len(line) > 20
    assert slope_deg(line) == pytest.approx(half_deg, abs=3)


def test_the_cone_of_the_half_section_reads_37_degrees_from_the_dots() -> None:
    sheet = sheet_of("flare37:-8:male")
    fit = text_layout(sheet, 120, 40).fit
    found = dots(render(sheet, 120, 40))
    nose = next(line for line in sheet.lines if line.kind is Kind.OUTLINE)
    (x1, _), (x2, _) = nose.points[:2]
    first, last = fit.column(x1) * 2, fit.column(x2) * 2
    # Lower half, where no hatching hides the edge: lowest dot in each column of dots.
    low: dict[int, int] = {}
    for x, y in found:
        if first < x < last - 1:
            low[x] = max(y, low.get(x, 0))
    assert len(low) >= 8
    assert slope_deg([(float(x), float(y)) for x, y in low.items()]) == pytest.approx(37, abs=3)


@pytest.mark.parametrize("name", ["flare37:-8:male", "npt:1/2-NPT:male", "cone24_L:12L:male"])
def test_thread_od_on_the_picture_is_that_of_the_table(name: str) -> None:
    _, thread = part(name)
    sheet = sheet_of(name, Feature.THREAD_OD)
    (dimension,) = sheet.dimensions
    measured = dimension.end[1] - dimension.start[1]
    assert thread is not None
    assert measured == pytest.approx(thread.small_end_mm or thread.major_mm)
    layout = text_layout(sheet, 75, 36)
    lines = render(sheet, 75, 36)
    (line,) = layout.lines
    column = [row[line.at] if line.at < len(row) else " " for row in lines]
    bottom = column.index("┴")
    extended = [row for row, text in enumerate(lines) if text[line.at + 1 : line.at + 2] == "─"]
    top = extended[0]
    assert (bottom - top) * layout.fit.mm_per_row == pytest.approx(
        measured, abs=layout.fit.mm_per_row
    )


@pytest.mark.parametrize("name", ["flare37:-8:male", "flange62:1-in:flange", "orfs:-16:female"])
@pytest.mark.parametrize("size", [(36, 12), (45, 20), (75, 36), (120, 40)])
def test_the_scale_bar_is_exact(name: str, size: tuple[int, int]) -> None:
    sheet = sheet_of(name)
    fit = text_layout(sheet, *size).fit
    bar, length, dot = re.match(  # type: ignore[union-attr]
        r"(├─+┤) ([\d.]+) mm, 1 dot = ([\d.]+) mm", render(sheet, *size)[-1]
    ).groups()
    assert float(length) in BARS_MM
    assert (len(bar) - 1) * fit.mm_per_column == pytest.approx(float(length))
    assert float(dot) == pytest.approx(fit.mm_per_column / 2, rel=0.06)


def test_cell_ratio_keeps_a_circle_round() -> None:
    sheet = sheet_of("flange61:1-in:flange")
    for ratio in (1.8, 2.0, 2.2):
        fit = text_layout(sheet, 60, 30, ratio).fit
        assert fit.mm_per_row / fit.mm_per_column == pytest.approx(ratio)


def test_teeth_need_six_dots_a_pitch() -> None:
    run = ThreadRun((0, 10), (15, 10), 1.5, 0.8, male=True, cut=Fill.CUT)
    sheet = sheet_of("flare37:-8:male")
    fine, coarse = dots(render(sheet, 120, 40)), text_layout(sheet, 45, 20).fit
    assert coarse.mm_per_column / 2 * 6 > 1.5875  # 16 tpi
    assert text_layout(sheet, 120, 40).fit.mm_per_column / 2 * 6 <= 1.5875
    teeth, simple = thread_lines(run, teeth=True), thread_lines(run, teeth=False)
    assert len(teeth[0][0].points) > 40
    assert [line.kind for line in simple[0]] == [Kind.THREAD, Kind.HIDDEN]
    assert fine


def test_teeth_have_the_pitch_and_the_flank_angle() -> None:
    # ISO 68-1: 60 deg between the flanks, crest flat P/8 on a male of basic profile.
    run = ThreadRun((0, 10), (15, 10), 1.5, 0.5413 * 1.5, male=True)
    (profile, *_), _ = thread_lines(run, teeth=True)
    crests = [x for x, y in profile.points if y == pytest.approx(10)]
    assert crests[1] - crests[0] == pytest.approx(1.5 / 8, abs=0.001)
    assert crests[2] - crests[0] == pytest.approx(1.5)
    (x1, y1), (x2, y2) = profile.points[1:3]
    assert 2 * math.degrees(math.atan2(x2 - x1, y2 - y1)) == pytest.approx(60)
    assert [b[0] - a[0] for a, b in pairwise(crest_points(run))] == pytest.approx([1.5] * 9)


def test_hatching_stays_inside_and_slopes_as_its_part_asks() -> None:
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    for fill, sign in ((Fill.CUT, 1), (Fill.CUT_OTHER, -1)):
        segments = hatch_lines(Region(fill, square), 2.0)
        assert 6 <= len(segments) <= 8  # diagonal 14.1 mm over 2 mm
        for (x1, y1), (x2, y2) in segments:
            assert (y2 - y1) * sign == pytest.approx(x2 - x1)
            assert all(-1e-9 <= value <= 10 + 1e-9 for value in (x1, y1, x2, y2))


def test_flange_spacings_on_the_picture_are_those_of_the_table() -> None:
    end, _ = part("flange61:3/4-in:flange")
    for ask, axis, wanted in (
        (Feature.BOLT_SPACING_LONG, 0, end.sizes.get(Feature.BOLT_SPACING_LONG)),
        (Feature.BOLT_SPACING_SHORT, 1, end.sizes.get(Feature.BOLT_SPACING_SHORT)),
        (Feature.FLANGE_HEAD_OD, 1, end.sizes.get(Feature.FLANGE_HEAD_OD)),
        (Feature.FLANGE_HEAD_THICKNESS, 0, end.sizes.get(Feature.FLANGE_HEAD_THICKNESS)),
    ):
        (dimension,) = sheet_of("flange61:3/4-in:flange", ask).dimensions
        assert abs(dimension.end[axis] - dimension.start[axis]) == pytest.approx(wanted)


def test_o_ring_of_a_face_seal_has_its_section() -> None:
    # ISO 8434-3 -8: ring 12.42 x 1.78 mm, AS568 size 014.
    sheet = sheet_of("orfs:-8:male")
    seals = [region for region in sheet.regions if region.fill is Fill.SEAL]
    (ring,) = [region for region in seals if min(y for _, y in region.points) > 0]
    across = [y for _, y in ring.points]
    assert max(across) - min(across) == pytest.approx(1.78, abs=0.01)


def test_every_end_of_the_tables_is_drawn_inside_its_own_bounds() -> None:
    for end in CATALOGUE.ends:
        left, bottom, right, top = sheet_of(end.id).bounds()
        assert right - left > 1
        assert top - bottom > 1
        assert max(right - left, top - bottom) < 600


BOSS_MALES = [
    end for end in CATALOGUE.ends
    if end.gender == "male" and any(seat.o_ring == "boss" for seat in end.seats[:1])
]  # fmt: skip


@pytest.mark.parametrize("end", BOSS_MALES, ids=lambda end: end.id)
def test_the_ring_of_a_boss_stud_lies_behind_its_thread_at_the_shoulder(end: EndConnection) -> None:
    """The place of the ring is what tells a boss stud from a face seal."""
    sheet = half_section(end, CATALOGUE.thread_of(end), Feature.O_RING)
    (run,) = sheet.threads[:1]
    (look,) = [note for note in sheet.notes if note.label.startswith("O-ring")]
    assert look.at[0] > max(run.start[0], run.end[0])
    assert any(region.fill is Fill.SEAL for region in sheet.regions)
