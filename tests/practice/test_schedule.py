"""When a pair comes again follows from answers, hints and time; the graver pair comes first."""

from datetime import timedelta

from identify.frozen import replace
from identify.model.verdict import Hazard
from identify.practice.exercise import Kind
from identify.practice.judging import Mark
from identify.practice.progress import progress_of
from identify.practice.record import Done, History, Put
from identify.practice.schedule import (
    AGAIN,
    EASY,
    GOOD,
    HARD,
    cards_of,
    grade,
    level_of,
    next_pair,
    usual_seconds,
)
from tests.practice.proof import room
from tests.practice.test_record import NOW, PUT, done


def test_the_grade_comes_from_answer_hints_and_time() -> None:
    assert grade(done(Mark.WRONG), 30.0) == AGAIN
    assert grade(done(Mark.DANGEROUS), 30.0) == AGAIN
    assert grade(done(Mark.EARLY), 30.0) == AGAIN
    assert grade(done(Mark.GUESSED), 30.0) == HARD
    assert grade(done(hints=1), 30.0) == HARD
    assert grade(done(seconds=100.0), 30.0) == HARD
    assert grade(done(seconds=20.0), 30.0) == GOOD
    assert grade(done(seconds=5.0), 30.0) == EASY
    easy = done(seconds=5.0, put=Put(PUT.pair, PUT.seed, 0))
    assert grade(easy, 30.0) == GOOD  # the first level is easy for all


def test_slow_is_what_is_slow_for_the_trainee() -> None:
    assert usual_seconds(Kind.PIPE, [100.0] * 4) == 30.0
    usual = usual_seconds(Kind.PIPE, [1.0] * 50 + [100.0] * 20)
    assert usual == 100.0
    assert grade(done(seconds=100.0), usual) == GOOD
    assert grade(done(seconds=40.0), usual) == EASY


def test_the_level_follows_the_trainee() -> None:
    def level(*marks: Mark) -> int:
        return level_of(History("Anna", tuple(map(done, marks))), Kind.PIPE)

    right = (Mark.RIGHT,) * 3
    assert [level(), level(*right[:2]), level(*right), level(*right * 9)] == [0, 0, 1, 3]
    assert level(*right, *right, Mark.WRONG) == 1
    assert level(*right, Mark.GUESSED) == 1
    assert level_of(History("Anna", (done(),) * 9), Kind.CONE) == 0


def test_a_wrong_answer_brings_a_pair_back_before_a_right_one() -> None:
    other = Put("pipe/ISO7/NPT", "x", 0)
    wrong = [done(Mark.WRONG), done(put=other)]
    cards = cards_of(History("Anna", tuple(wrong)))
    assert cards[PUT.pair].due < cards[other.pair].due


def test_right_answers_spread_further_and_further() -> None:
    history, when, gaps = History("Anna"), NOW, []
    for _ in range(5):
        history = replace(history, done=(*history.done, replace(done(), when=when)))
        due = cards_of(history)[PUT.pair].due
        gaps.append(due - when)
        when = due
    assert gaps == sorted(gaps)
    assert gaps[-1] > timedelta(days=5)


def test_of_two_pairs_that_are_due_the_graver_comes_first() -> None:
    pairs = [pair for pair in room().pairs if pair.kind is Kind.PART]
    grave = next(pair for pair in pairs if pair.hazard is Hazard.HIGH)
    light = next(pair for pair in pairs if pair.hazard is Hazard.LOW)
    last = Put("cone/x/y", "x", 0)
    events = tuple(done(Mark.WRONG, Put(pair.key, "x", 0)) for pair in (light, grave))
    history = History("Anna", (*events, done(put=last)))
    assert next_pair(pairs, history, NOW + timedelta(days=2)) == grave


def test_all_short_kinds_come_before_a_whole_part_and_none_twice_running() -> None:
    history, kinds, last = History("Anna"), [], ""
    for number in range(14):
        when = NOW + timedelta(seconds=number)
        pair = next_pair(room().pairs, history, when)
        assert pair.key != last
        last = pair.key
        kinds.append(pair.kind)
        event = replace(done(put=Put(pair.key, "x", 0)), when=when)
        history = replace(history, done=(*history.done, event))
    assert set(kinds[:5]) == set(Kind) - {Kind.PART}
    assert Kind.PART not in kinds[:9]
    assert Kind.PART in kinds


def test_progress_counts_each_side_of_a_pair() -> None:
    pair = room().by_key["pipe/G/NPT"]
    ids = room().catalogue.ids
    g_row, npt_row = pair.examples[0]

    def lay(row: int, mark: Mark) -> Done:
        return replace(done(mark), truth=ids[row])

    events = (lay(g_row, Mark.RIGHT), lay(npt_row, Mark.DANGEROUS), lay(npt_row, Mark.GUESSED))
    (found,) = progress_of(room(), History("Anna", events))
    assert found.cells == ((1, 0, 0), (0, 1, 1))
    assert (found.tries, found.right, found.dangerous) == (3, 1, 1)


def test_a_long_record_is_soon_read() -> None:
    """What comes next is worked out from all answers; years of them must not be felt."""
    from time import process_time

    history = History("Anna", tuple(replace(done(), when=NOW + timedelta(hours=n))
                                    for n in range(3000)))  # fmt: skip
    begun = process_time()
    cards_of(history)
    assert process_time() - begun < 2.0
