"""What a trainee thought in a real job counts once, and with the real verdict only."""

import io
from datetime import UTC, datetime
from itertools import product

import pytest
from hypothesis import given, settings, strategies

from identify.entry import main
from identify.interview.habits import Habits
from identify.interview.session import Claimed, Unclaimed
from identify.jobs.course import YOU
from identify.jobs.facts import Concluded, Fate, Named, Place, Settled
from identify.jobs.job import Job, job_of
from identify.jobs.saving import Autosave
from identify.model.verdict import VerdictKind
from identify.plain.console import Console
from identify.plain.dialogue import Dialogue
from identify.practice.judging import Mark
from identify.practice.progress import progress_of
from identify.practice.real import real_guesses
from identify.practice.record import History
from identify.practice.schedule import cards_of
from identify.reading.names import understand
from tests.plain.talk import engine
from tests.practice.proof import room

AT = "2026-03-01T08:00:00Z"
TRUTH = "flare37:-8:male"


def said(words: str, by: str = YOU) -> Claimed:
    ends = tuple(end.id for end in understand(room().catalogue, words).ends)
    return Claimed(words, by, AT, ends)


def verdict(kind: VerdictKind, end: str = TRUTH) -> Concluded:
    return Concluded(kind, "", (Named(end, "", "", 0.99),), "", "", "", AT)


def job(*steps: object, reference: str = "AAAA-AAAA", who: str = "") -> Job:
    made = job_of(reference, AT, [(Place(), step) for step in steps])
    return Job(
        **{**{name: getattr(made, name) for name in made.__match_args__}, "measured_by": who}
    )


IDENTIFIED = verdict(VerdictKind.IDENTIFIED)


@pytest.mark.parametrize(
    ("words", "mark", "taken"),
    [
        ("JIC 8", Mark.RIGHT, TRUTH),
        ("flare45 -8", Mark.DANGEROUS, "flare45:-8:male"),
        ("JIC 10", Mark.WRONG, "flare37:-10:male"),
        ("male", Mark.GUESSED, TRUTH),
    ],
)
def test_a_guess_is_held_against_the_verdict(words: str, mark: Mark, taken: str) -> None:
    (done,) = real_guesses(room(), [job(said(words), IDENTIFIED)], "Anna", alone=True)
    assert (done.mark, done.truth, done.taken) == (mark, TRUTH, taken)
    assert done.when == datetime(2026, 3, 1, 8, tzinfo=UTC)


@given(
    strategies.lists(
        strategies.tuples(
            strategies.sampled_from([*VerdictKind]), strategies.booleans(), strategies.booleans(),
            strategies.booleans(), strategies.sampled_from(["", "Anna", "anna", "Ben"]),
            strategies.booleans(),
        ),
        max_size=6,
    ),
    strategies.booleans(),
)  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_each_guess_counts_once_and_only_of_an_end_that_was_identified(rows, alone: bool) -> None:
    jobs, expected = [], 0
    for number, (kind, own, back, returned, who, withdrawn) in enumerate(rows):
        steps = [said("JIC 8", YOU if own else "the driver"), verdict(kind)]
        steps += [Unclaimed("JIC 8")] if withdrawn else []
        steps += [Settled(Fate.CAME_BACK if back else Fate.FITTED, "", AT)] if returned else []
        jobs.append(job(*steps, reference=f"AAAA-{number:04}", who=who))
        mine = who.casefold() == "anna" or (alone and not who)
        stands = own and not withdrawn and not (returned and back)
        expected += mine and stands and kind is VerdictKind.IDENTIFIED
    found = real_guesses(room(), [*jobs, *jobs], "Anna", alone=alone)
    assert len(found) == expected
    history = History("Anna", real=found)
    assert sum(each.tries for each in progress_of(room(), history)) == expected
    assert len(cards_of(history)) == (expected > 0)


def test_every_pair_of_truth_and_guess_finds_a_place_in_the_table() -> None:
    ends = [*room().catalogue.ids][::60]
    for truth, words in product(ends, ends):
        claim = Claimed(words, YOU, AT, (words,))
        made = job(claim, verdict(VerdictKind.IDENTIFIED, truth))
        history = History("Anna", real=real_guesses(room(), [made], "Anna", alone=True))
        (each,) = progress_of(room(), history)
        assert each.tries == 1
        assert each.right or truth != words
        assert each.pair is not None


def test_what_was_thought_in_an_interview_stands_in_the_progress(
    tmp_path, monkeypatch: pytest.MonkeyPatch, capsys
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    folder = tmp_path / "whichend" / "interviews"
    lines = ("1", "1", "o", "m 18.9 16t:g out 37h:g", "SAE 45° -8", "q")
    console = Console(io.StringIO("".join(f"{line}\n" for line in lines)), io.StringIO(), {})
    Dialogue(engine(), console, Autosave(folder), habits=Habits(guess=True)).hold()
    for _ in range(2):
        assert main(["practice", "--progress"]) == 0
        told = " ".join(capsys.readouterr().out.split())
        assert "1 answer (1 of them in real jobs), 0% right" in told
        assert "37 deg flare or 45 deg flare: 0 of 1, 1 could injure" in told
