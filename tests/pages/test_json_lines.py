"""Lines of a batch put together from pieces: byte for byte what the library writes of the whole."""

from typing import Any

import pytest

from identify.frozen import replace
from identify.model.learnt import Learnt
from identify.model.observer import CARES
from identify.model.verdict import Verdict, VerdictKind
from identify.pages import json_lines
from identify.pages.as_json import brief_json, chance, verdict_json, weight_of
from identify.pages.json_lines import Lines, encoder
from identify.reasoning.lockstep import alone
from tests.benchmark.speed import simulated
from tests.shipped import knowledge, shipped_engine

orjson = pytest.importorskip("orjson")
HEADS: tuple[dict[str, Any], ...] = (
    {"id": None}, {"id": "é \u2028 \" \\ \0"}, {"id": 10**30}, {"id": "\ud800"},
    {"id": {"a": [1.5]}},
)  # fmt: skip
TAILS: tuple[dict[str, Any], ...] = ({}, {"claim": {"said": "ü", "p": 1e-05, "none": None}})


@pytest.fixture(scope="module")
def verdicts() -> list[Verdict]:
    """Return verdicts of every kind and with every part, each field in use at least once."""
    engine = shipped_engine()
    sheets = [sheet[: 1 + n % 12] for n, sheet in enumerate(simulated(knowledge(), 150, seed=3))]
    found = [engine.conclude(sheet) for sheet in sheets]
    found += [engine.conclude((*sheet, sheet[-1])) for sheet in sheets[::5]]
    found.append(engine.conclude(()))
    found += [engine.measured_by(care).conclude(sheets[11]) for care in CARES]
    assert {each.kind for each in found} == set(VerdictKind)
    for name in Verdict.__match_args__:
        if name != "learnt":
            assert any(getattr(each, name) for each in found), name
    return found


def whole(head: dict[str, Any], verdict: Verdict, tail: dict[str, Any]) -> str:
    """Return what the library writes of all at once."""
    return encoder()({**head, **verdict_json(verdict), **tail})


def test_a_line_is_what_is_written_of_the_whole(verdicts: list[Verdict]) -> None:
    """Twice each: of new pieces and of those that were kept."""
    lines = Lines()
    for verdict in verdicts * 2:
        assert lines.line({"id": 7}, verdict, {}) == whole({"id": 7}, verdict, {})


@pytest.mark.parametrize("head", HEADS)
@pytest.mark.parametrize("tail", TAILS)
def test_whatever_stands_beside_a_verdict(
    verdicts: list[Verdict], head: dict[str, Any], tail: dict[str, Any]
) -> None:
    for verdict in verdicts[::40]:
        assert Lines().line(head, verdict, tail) == whole(head, verdict, tail)


def test_signs_of_other_scripts_and_what_needs_an_escape(verdicts: list[Verdict]) -> None:
    lines = Lines()
    for odd in ("ü µ 漢", '" \\ / \0 \x1f \u2028', "half of a sign \ud800"):
        for verdict in verdicts[:20]:
            strange = replace(
                verdict,
                sentence=odd,
                cautions=(odd, odd),
                ranking=tuple(
                    replace(
                        each,
                        evidence=tuple(replace(one, sentence=odd) for one in each.evidence),
                        end=replace(each.end, id=odd, form=odd),
                    )
                    for each in verdict.ranking
                ),
                warnings=tuple(replace(each, because=odd) for each in verdict.warnings),
            )
            assert lines.line({"id": odd}, strange, {}) == whole({"id": odd}, strange, {})


def test_what_a_shop_has_learnt_is_written_too(verdicts: list[Verdict]) -> None:
    verdict = replace(verdicts[3], learnt=Learnt((), verdicts[3]))
    assert '"learnt":{"moved":[]' in Lines().line({"id": 1}, verdict, {})
    assert Lines().line({"id": 1}, verdict, {}) == whole({"id": 1}, verdict, {})


def test_few_pieces_are_kept_of_many(
    verdicts: list[Verdict], monkeypatch: pytest.MonkeyPatch
) -> None:
    """And where one is let go, whatever comes to lie in its place is not taken for it."""
    monkeypatch.setattr(json_lines, "KEPT", 5)
    lines = Lines()
    for verdict in verdicts:
        ranking = tuple(
            replace(each, evidence=tuple(map(replace, each.evidence))) for each in verdict.ranking
        )
        copy = replace(verdict, ranking=ranking)
        assert lines.line({"id": 7}, copy, {}) == whole({"id": 7}, verdict, {})


def test_brief_answers_and_faults_are_written_whole() -> None:
    engine = shipped_engine()
    brief = alone(engine.briefly(engine.posterior(())), engine.chooser.gains)
    assert Lines().line({"id": 1}, brief, {}) == encoder()({"id": 1, **brief_json(brief)})
    assert Lines().line({"id": 1}, None, {"error": "line 1"}) == '{"id":1,"error":"line 1"}'


def test_a_probability_and_a_weight_are_rounded_and_written_as_the_library_does() -> None:
    probability, weight = json_lines.chances(encoder()), json_lines.weight_words
    for n in range(1_000_001):
        assert probability(n / 1e6) == orjson.dumps(chance(n / 1e6)).decode()
    for n in range(-800_000, 60_000, 7):
        assert weight(n / 1e3) == orjson.dumps(weight_of(n / 1e3)).decode()
    for value in (0.0, 1.0, 4e-7, 5e-7, 9.99995e-5, 0.00012345, 0.9999985, 0.99999949, 1e-300):
        assert probability(value) == orjson.dumps(chance(value)).decode()
    for value in (0.0, -0.0, -4e-4, 4e-4, 0.0005, -745.13, 2.0, 0.1 + 0.2, 1e-300):
        assert weight(value) == orjson.dumps(weight_of(value)).decode()
    assert (weight_of(-0.0), str(weight_of(-4e-4))) == (0.0, "0.0")
