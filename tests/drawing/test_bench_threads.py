"""Threads of the bench view: teeth at their pitch, helix, taper, wear."""

import math

import pytest

from identify.drawing.bench import Look
from identify.drawing.ends import bench_view
from identify.drawing.outline import Kind
from identify.drawing.render import render
from identify.drawing.thread_profile import thread_lines, tooth_count
from tests.drawing.parts import CATALOGUE, bench_of, part


def test_the_side_view_shows_every_tooth_at_its_pitch_and_a_helix_turned_half_a_pitch() -> None:
    sheet = bench_of("flare37:-8:male", Look.SIDE)
    upper, lower = sheet.threads
    thread = part("flare37:-8:male")[1]
    assert thread is not None
    assert upper.pitch_mm == thread.pitch_mm
    assert (lower.start[0] - upper.start[0]) / thread.pitch_mm == pytest.approx(0.5)
    assert lower.start[1] == pytest.approx(-upper.start[1])


def test_a_right_hand_crest_runs_right_as_it_goes_down_and_a_left_hand_one_left() -> None:
    for name, sign in (("flare37:-8:male", 1), ("gas_weld:G1/4-RH/LH:male-g", -1)):
        upper = bench_of(name, Look.SIDE).threads[0]
        lines, _ = thread_lines(upper, teeth=True)
        (x1, y1), (x2, y2) = lines[1].points
        assert y1 > y2 == 0.0
        assert (x2 - x1) * sign > 0


def test_a_taper_is_seen_on_both_sides_against_lines_level_with_its_first_crest() -> None:
    sheet = bench_of("npt:1/2-NPT:male", Look.SIDE)
    upper = sheet.threads[0]
    growth = 2 * (upper.end[1] - upper.start[1]) / (upper.end[0] - upper.start[0])
    assert growth == pytest.approx(1 / 16)
    level = [line for line in sheet.lines if line.kind is Kind.HIDDEN]
    assert {round(line.points[0][1], 6) for line in level} == {
        round(upper.start[1], 6), round(-upper.start[1], 6)
    }  # fmt: skip


def test_wear_lowers_the_crests_and_broadens_them_and_leaves_the_flanks() -> None:
    new = bench_of("flare37:-8:male", Look.SIDE).threads[0]
    worn = bench_of("flare37:-8:male", Look.SIDE, worn_mm=0.2).threads[0]
    tops, flats, slopes = [], [], []
    for run in (new, worn):
        profile = thread_lines(run, teeth=True)[0][0].points[5:9]  # of the second tooth
        tops.append(profile[1][1])
        flats.append(profile[2][0] - profile[1][0])
        slopes.append(math.atan2(profile[1][1] - profile[0][1], profile[1][0] - profile[0][0]))
    assert tops[0] - tops[1] == pytest.approx(0.2)
    assert flats[1] - flats[0] == pytest.approx(2 * 0.2 * math.tan(math.radians(30)), abs=1e-6)
    assert slopes[0] == pytest.approx(slopes[1])


def test_wear_is_seen_on_male_threads_at_80_columns_and_on_none_that_is_new() -> None:
    males = {end.threads[0]: end for end in CATALOGUE.ends if end.gender == "male" and end.threads}
    unlike, some = [], [*males.values()][::3]
    for end in some:
        thread = CATALOGUE.thread_of(end)
        new, worn = (bench_view(end, thread, Look.SIDE, worn_mm=worn) for worn in (0.0, 0.02))
        unlike.append(render(new, 78, 12, "braille") != render(worn, 78, 12, "braille"))
        assert "worn" in worn.described
        assert "worn" not in new.described
    assert sum(unlike) > 0.9 * len(some)  # on the largest a tooth is less than a dot


def test_a_thread_too_fine_for_teeth_still_shows_its_crests_and_the_finest_only_its_size() -> None:
    run = bench_of("flare37:-8:male", Look.SIDE).threads[0]
    crests, _ = thread_lines(run, teeth=False, crests=True)
    assert sum(line.kind is Kind.HATCH for line in crests) == tooth_count(run)
    bare, _ = thread_lines(run, teeth=False)
    assert [line.kind for line in bare].count(Kind.HIDDEN) == 1
