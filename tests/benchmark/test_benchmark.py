"""Small seeded runs of the benchmarks: laws with slack, and the counts they stand on."""

import io
import math
import sys

import pytest

from identify.reading.parse import parse_readings
from tests.benchmark import accuracy, sessions
from tests.benchmark.__main__ import main
from tests.benchmark.bench import Bench, Terms
from tests.benchmark.chart import chart_ranking
from tests.benchmark.score import Calibration, Hits, share
from tests.shipped import end_of, knowledge, shipped_engine


def test_calibration_error_is_the_mean_distance_of_promise_and_truth():
    counted = Calibration()
    for hit in (True, True, True, False):
        counted.add(0.75, hit)  # exactly as promised
    assert counted.error == 0
    for hit in (True, False):
        counted.add(0.95, hit)  # 0.95 promised, 0.5 came true
    assert math.isclose(counted.error, 2 * 0.45 / 6)
    assert counted.lines() == [("0.7 to 0.8", 4, 0.75, 0.75), ("0.9 to 1.0", 2, 0.95, 0.5)]
    assert Calibration().error == 0


def test_luck_alone_shrinks_with_the_root_of_the_number():
    few, many = Calibration(), Calibration()
    for number in range(400):
        many.add(0.8, number % 5 > 0)
        if number < 100:
            few.add(0.8, number % 5 > 0)
    assert math.isclose(few.luck, 2 * many.luck)
    assert math.isclose(many.luck, math.sqrt(2 / math.pi * 0.16 / 400))


def test_places_are_counted_as_first_and_among_three():
    hits = Hits()
    for place in (0, 0, 2, 3, None):
        hits.add(place)
    assert (hits.first, hits.third) == (2, 3)
    assert share(1, 3) == "33.3"
    assert share(0, 0) == "-"


def test_a_chart_goes_by_nominal_size_and_then_by_seat():
    clean = parse_readings(["gender=male", "thread_od=20.9 mm", "pitch=14 tpi"])
    catalogue = knowledge().catalogue
    assert catalogue.ends[chart_ranking(clean, catalogue)[0]].thread == "G 1/2"
    angle = parse_readings(
        ["gender=male", "thread_od=19 mm", "pitch=16 tpi", "seat_shape=convex",
         "seat_angle=37 deg half", "o_ring=none"]
    )  # fmt: skip
    first = catalogue.ends[chart_ranking(angle, catalogue)[0]]
    assert (first.thread, first.seats[0].half_angle_deg) == (end_of("flare37:-8:male").thread, 37)


@pytest.fixture(scope="module")
def score():
    terms = Terms(parts=70, seed=8, observers=("ordinary",))
    (found,) = accuracy.run(knowledge(), terms)
    return found


def test_a_sheet_is_judged_nearly_as_well_as_can_be_and_better_than_by_a_chart(score):
    assert score.parts + score.strangers == 70
    assert score.ours.first >= 0.94 * score.ceiling.first, score
    assert score.ours.first <= score.ceiling.first + 5, score
    assert score.ours.first > 1.1 * score.chart.first, score
    assert score.ours.third >= 0.9 * score.parts, score


def test_what_is_named_is_right_and_what_was_taken_out_is_not_named(score):
    assert score.named.number >= 10, score
    assert score.named.right >= score.named.number - 2, score
    assert score.named.dangerous <= 1, score
    assert score.held >= 0.88 * score.parts, score
    assert score.strangers_named <= 1, score


def test_promises_are_kept_within_what_luck_allows(score):
    assert sum(score.promise.number.values()) >= 60
    assert score.promise.error <= 0.02 + 2 * score.promise.luck, score.promise


def test_the_same_seed_gives_the_same_counts(score):
    terms = Terms(parts=4, seed=9, observers=("hurried",), errors=2.0, region="japan")
    assert accuracy.run(knowledge(), terms) == accuracy.run(knowledge(), terms)


def test_families_are_counted_apart():
    terms = Terms(parts=15, seed=2, observers=("careful",))
    found = accuracy.run(knowledge(), terms, families=True)
    assert sum(each.parts + each.strangers for each in found) == 15
    families = knowledge().catalogue.families
    assert all(each.name in families or each.name == "strangers" for each in found)
    assert len(found) > 6


def test_the_product_asks_far_fewer_questions_than_a_form_for_as_many_hits():
    terms = Terms(parts=40, seed=12, observers=("ordinary",))
    asked, form = sessions.run(knowledge(), terms, ahead=0)
    assert asked.sessions == form.sessions == 40
    assert asked.listed == form.listed  # the same parts
    assert asked.questions <= 0.75 * form.questions, (asked, form)  # second readings counted
    assert asked.named.number >= form.named.number - 2, (asked, form)  # of 40, by luck
    assert asked.minutes < form.minutes
    assert asked.first >= form.first - 3, (asked, form)
    assert asked.named.right >= asked.named.number - 1, asked


def test_looking_two_steps_ahead_saves_little():
    terms = Terms(parts=3, seed=3, observers=("careful",))
    *_, usual, ahead = sessions.run(knowledge(), terms, ahead=3)
    assert usual.sessions == ahead.sessions == 3
    assert usual.minutes <= 1.25 * ahead.minutes, (usual, ahead)


def test_a_verdict_without_a_family_does_not_know_it():
    terms = Terms(parts=1, seed=1, observers=("careful",))
    bench = Bench(knowledge(), terms)
    engine = accuracy.Judge(bench, bench.engine).without("orfs")
    assert not any(end.family == "orfs" for end in engine.catalogue.ends)
    assert len(engine.catalogue.ends) < len(shipped_engine().catalogue.ends)


@pytest.mark.parametrize("what", ["accuracy", "interview"])
def test_the_command_prints_one_table(what, capsys):
    assert main([what, "--parts", "3", "--observer", "careful"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert "first" in lines[0]
    assert lines[1].startswith("careful")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--parts", "0"], "argument --parts: give 1 or more"),
        (["--errors", "-1"], "argument --errors: give a number above 0, at most 5"),
    ],
)
def test_a_wrong_option_says_what_it_takes(words, said, capsys):
    with pytest.raises(SystemExit) as stop:
        main(["accuracy", *words])
    assert stop.value.code == 2
    assert said in capsys.readouterr().err


def test_an_unknown_observer_is_told_who_there_is(capsys):
    assert main(["accuracy", "--observer", "nobody"]) == 2
    assert '"nobody" is no observer; they are careful, ordinary' in capsys.readouterr().err


@pytest.mark.parametrize("terminal", [True, False])
def test_a_bar_is_shown_on_a_terminal_and_nowhere_else(terminal, monkeypatch, capsys):
    shown = io.StringIO()
    monkeypatch.setattr(shown, "isatty", lambda: terminal, raising=False)
    monkeypatch.setattr(sys, "stderr", shown)
    assert main(["interview", "--parts", "2", "--observer", "careful"]) == 0
    assert ("careful, fixed form" in shown.getvalue()) is terminal
    assert terminal or not shown.getvalue()
    assert capsys.readouterr().out.count("careful") == 2


def test_all_observers_are_also_counted_together():
    terms = Terms(parts=3, seed=4, observers=("careful", "novice"))
    one, other, both = accuracy.run(knowledge(), terms)
    assert both.name == "all"
    assert both.parts == one.parts + other.parts
    assert both.ours.first == one.ours.first + other.ours.first
    found = {(each.observer, each.way): each for each in sessions.run(knowledge(), terms, ahead=0)}
    together = found["all", "as asked"]
    assert together.sessions == 6
    assert together.questions == sum(found[name, "as asked"].questions for name in terms.observers)
