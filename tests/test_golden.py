"""Worked identifications: what people type, and the answer that a source outside the program gives.

Each case in `golden/` states its readings, what must come out, and where that answer comes from.
An expectation says only what the source decides. Its mark says how the answer is known: from a
printed table or a reprint of it, from open data or data sheets, from practice, or from memory.
"""

from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from identify.errors import ReadingError
from identify.knowledge.yaml_reader import read_yaml
from identify.model.connection import EndConnection
from identify.model.verdict import Effect, Ranked, Verdict
from identify.reading.consistency import gathered, with_gender
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from tests.shipped import knowledge

FILES = sorted((Path(__file__).parent / "golden").glob("*.yaml"))
MARKS = ("standard-table", "open-dataset", "common-practice", "from-memory")
VERDICTS = ("identified", "shortlist", "abstain")
EXPECTATIONS = {
    "verdict", "family", "size", "gender", "form", "also_standing", "ruled_out", "suspect",
    "warns", "refuse", "asks", "error",
}  # fmt: skip
DEEP = 60  # candidates looked at: all that can stand


@dataclass(frozen=True)
class Case:
    """One worked identification."""

    name: str
    readings: dict[str, Any]
    expect: dict[str, Any]
    citation: str
    mark: str


def cases() -> list[Case]:
    """Return every case of every file, in file order."""
    found = []
    for path in FILES:
        table = read_yaml(path.read_text(encoding="utf-8"), path.name)
        assert table["schema"] == "golden_cases/1", path.name
        for entry in table["cases"]:
            assert set(entry) == {"id", "readings", "expect", "citation", "mark"}, entry
            found.append(Case(*(entry[key] for key in ("id", *Case.__match_args__[1:]))))
    return found


CASES = cases()
ANSWERED = [case for case in CASES if "error" not in case.expect]
REFUSED = [case for case in CASES if "error" in case.expect]


def conclude(case: Case, engine: Engine) -> Verdict:
    """Rank what was typed, as the command does."""
    typed = gathered(reading_from(name, value) for name, value in case.readings.items())
    return engine.conclude(with_gender(typed), limit=DEEP)


def members(ranked: Ranked) -> tuple[EndConnection, ...]:
    """Return the ends that one line of the ranking stands for."""
    return (ranked.end, *ranked.others)


def matches(end: EndConnection, name: str) -> bool:
    """Tell whether "family" or "family:size" names an end."""
    return name in (end.family, f"{end.family}:{end.size}")


def chance(verdict: Verdict, name: str) -> float:
    """Return the probability of the most probable line of the ranking that holds such an end."""
    return max(
        (
            ranked.probability
            for ranked in verdict.ranking
            if any(matches(end, name) for end in members(ranked))
        ),
        default=0.0,
    )


def is_expected(end: EndConnection, expect: dict[str, Any]) -> bool:
    """Tell whether an end is the one a case names."""
    return (
        (end.family, end.size) == (expect["family"], expect["size"])
        and expect.get("gender") in (None, end.gender)
        and expect.get("form") in (None, end.form_key)
    )


@pytest.mark.parametrize("case", REFUSED, ids=lambda case: case.name)
def test_what_cannot_be_ranked_is_refused_with_the_remedy(case: Case, engine: Engine) -> None:
    with pytest.raises(ReadingError, match=case.expect["error"]):
        conclude(case, engine)


@pytest.mark.parametrize("case", ANSWERED, ids=lambda case: case.name)
def test_a_worked_identification_comes_out(case: Case, engine: Engine) -> None:
    expect = case.expect
    verdict = conclude(case, engine)
    assert str(verdict.kind) == expect["verdict"], verdict.sentence
    if "family" in expect:
        lead = verdict.ranking[0]
        assert any(is_expected(end, expect) for end in members(lead)), lead.end.id
    standing = engine.book.limits.standing
    chances = {name: chance(verdict, name) for name in expect.get("also_standing", ())}
    assert {name: p for name, p in chances.items() if p < standing} == {}
    chances = {name: chance(verdict, name) for name in expect.get("ruled_out", ())}
    assert {name: p for name, p in chances.items() if p >= standing} == {}


@pytest.mark.parametrize("case", ANSWERED, ids=lambda case: case.name)
def test_what_is_said_beside_a_worked_identification(case: Case, engine: Engine) -> None:
    expect = case.expect
    verdict = conclude(case, engine)
    suspects = [str(suspect.reading.feature) for suspect in verdict.suspects]
    if "suspect" in expect or expect["verdict"] == "identified":
        assert suspects == ([expect["suspect"]] if "suspect" in expect else [])
    fired = {warning.rule for warning in verdict.warnings}
    assert set(expect.get("warns", ())) <= fired
    refused = any(warning.effect is Effect.REFUSE for warning in verdict.warnings)
    assert refused is expect.get("refuse", False)
    if "asks" in expect:
        assert verdict.question is not None
        assert str(verdict.question.feature) in expect["asks"]


def test_cases_are_well_formed() -> None:
    names = Counter(case.name for case in CASES)
    assert [name for name, count in names.items() if count > 1] == []
    ends = knowledge().catalogue.ends
    for case in CASES:
        expect = case.expect
        assert set(expect) <= EXPECTATIONS, case.name
        assert len(case.citation) > 20, case.name
        assert case.mark in MARKS, case.name
        assert ("error" in expect) is not (expect.get("verdict") in VERDICTS), case.name
        assert ("family" in expect) is ("size" in expect), case.name
        assert "family" in expect or expect.get("verdict") != "identified", case.name
        if "family" in expect:
            assert any(is_expected(end, expect) for end in ends), case.name
        for name in (*expect.get("also_standing", ()), *expect.get("ruled_out", ())):
            assert any(matches(end, name) for end in ends), f"{case.name}: {name}"


def test_there_are_enough_cases_of_every_kind() -> None:
    kinds = Counter(case.expect.get("verdict", "error") for case in CASES)
    assert sum(kinds.values()) >= 70
    assert kinds["identified"] >= 30
    assert kinds["shortlist"] >= 20
    assert kinds["abstain"] >= 5
    assert sum("suspect" in case.expect for case in CASES) >= 3


def test_every_family_has_a_case() -> None:
    ends = knowledge().catalogue.ends
    covered = set()
    for case in CASES:
        if "family" in case.expect:
            covered.add(case.expect["family"])
        for name in case.expect.get("also_standing", ()):
            covered |= {end.family for end in ends if matches(end, name)}
    assert set(knowledge().catalogue.families) - covered == set()
