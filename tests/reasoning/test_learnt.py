"""Learning from the shop: bounded, never hides or names anything, always said, off by default."""

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.interview.session import Observed
from identify.jobs.concluding import concluded
from identify.jobs.facts import FIRST, Concluded, Fate, Field, Named, Noted, Settled
from identify.jobs.job import Entry
from identify.jobs.journal import Journal
from identify.jobs.reference import reference_of
from identify.jobs.saving import job_path
from identify.jobs.shelf import Shelf
from identify.model.learnt import Fitted
from identify.model.verdict import VerdictKind
from identify.pages.as_json import verdict_json
from identify.pages.verdict import verdict_text
from identify.reading.consistency import with_gender
from identify.reading.parse import parse_reading, parse_readings
from identify.reasoning.learnt import MOST, SHOWN, SHOWN_FROM, LearntEngine, factor
from tests.shipped import knowledge, shipped_engine
from tests.strategies import measured

IDS = sorted(knowledge().catalogue.by_id)
AT = "2026-10-03T08:30:00Z"
CAUTION = (VerdictKind.IDENTIFIED, VerdictKind.SHORTLIST, VerdictKind.ABSTAIN)
OPEN = with_gender(parse_readings(["gender=male", "thread_od=20.9 mm", "pitch=14 tpi"]))
shops = st.dictionaries(
    st.sampled_from(IDS), st.builds(Fitted, st.integers(1, 10**6), st.just("2026-10-03"))
)


@st.composite
def learnt_from(draw):
    """Readings, and a shop that fitted most of all what the readings leave in doubt."""
    readings = draw(measured())
    groups = shipped_engine().groups(shipped_engine().posterior(readings), SHOWN)
    near = [IDS_BY_ROW[head] for head, _, _ in groups]
    few = st.dictionaries(st.sampled_from(near), st.builds(Fitted, st.integers(1, 10**6), DAY))
    return readings, {**draw(shops), **draw(few)}


IDS_BY_ROW = [end.id for end in knowledge().catalogue.ends]
DAY = st.just("2026-10-03")


@given(learnt_from())
@settings(max_examples=25, deadline=None)
def test_whatever_was_fitted_odds_move_little_and_nothing_is_hidden_or_named_by_it(case):
    readings, shop = case
    plain_engine, engine = shipped_engine(), LearntEngine(shipped_engine(), shop)
    plain, found = plain_engine.conclude(readings), engine.conclude(readings)
    before, after = plain_engine.posterior(readings), engine.posterior(readings)
    ratios = [y / x for x, y in zip(before.rows, after.rows, strict=True) if x > 1e-12]
    ratios.append(after.none_of_these / before.none_of_these)
    assert max(ratios) / min(ratios) <= MOST * (1 + 1e-9)
    listed = {end.id for each in found.ranking if each.probability >= SHOWN_FROM
              for end in (each.end, *each.others)}  # fmt: skip
    shown = [each.end.id for each in plain.ranking if each.probability >= SHOWN_FROM]
    assert set(shown) <= listed
    assert CAUTION.index(found.kind) >= CAUTION.index(plain.kind)
    warned = {each.rule for each in found.warnings}
    assert {each.rule for each in plain.warnings} <= warned
    named = {each.end.id for each in (*found.dangers, *found.beside)} | {
        end.id for each in found.ranking[:1] for end in (each.end, *each.others)
    }
    assert {each.end.id for each in plain.dangers} <= named
    assert "Learnt in this shop: " in found.sentence
    assert found.learnt is not None
    assert found.learnt.plain == plain
    assert concluded(found, engine.catalogue, None, AT) == concluded(
        plain, engine.catalogue, None, AT
    )


def test_the_growth_of_odds_is_bounded_and_grows_with_the_number():
    assert factor(0) == 1
    assert [factor(n) for n in (1, 20, 10**9)] == sorted(factor(n) for n in (1, 20, 10**9))
    assert factor(10**9) <= MOST


def test_text_and_json_say_what_moved_by_how_much_and_when():
    shop = {"r_taper:R1/2:male": Fitted(30, "2026-10-03")}
    engine = LearntEngine(shipped_engine(), shop)
    verdict = engine.conclude(OPEN)
    told = " ".join(verdict_text(engine, verdict, whole=False).split())
    assert "R1/2, male was fitted 30 times, last on 2026-10-03, which moved it from 16 % to" in told
    (moved,) = verdict_json(verdict)["learnt"]["moved"]
    assert moved["before"] < moved["after"] < MOST * moved["before"]
    assert (moved["id"], moved["fitted"], moved["last"]) == (*shop, 30, "2026-10-03")
    assert engine.measured_by("novice").conclude(OPEN).learnt
    assert "nothing that moves" in LearntEngine(shipped_engine(), {}).conclude(OPEN).sentence


def lay(folder: Path, number: int, *steps: Entry, kind=VerdictKind.IDENTIFIED) -> None:
    named = (Named("r_taper:R1/2:male", "R1/2", "R 1/2", 0.99),)
    verdict = Concluded(kind, "Identified.", named, "0", "0", "0", AT)
    male = Observed(parse_reading("gender=male"))
    begun, reference = AT.replace("30:00", f"30:{number:02}"), reference_of(number)
    entries = ((FIRST, Noted(Field.CUSTOMER, "Hill")), (FIRST, male), (FIRST, verdict), *steps)
    Journal.begin(job_path(folder, begun, reference), begun, entries, reference).close()


def test_only_what_was_identified_made_and_fitted_counts(tmp_path: Path):
    fitted, back = Settled(Fate.FITTED, "", AT), Settled(Fate.CAME_BACK, "leaked", AT)
    lay(tmp_path, 1, (FIRST, fitted))
    lay(tmp_path, 2, (FIRST, fitted))
    lay(tmp_path, 3)
    lay(tmp_path, 4, (FIRST, back))
    lay(tmp_path, 5, (FIRST, fitted), (FIRST, back))
    lay(tmp_path, 6, (FIRST, fitted), kind=VerdictKind.SHORTLIST)
    lay(tmp_path, 7, (FIRST, fitted), (FIRST, Observed(parse_reading("thread_od=9 mm"))))
    shelf = Shelf(tmp_path)
    assert shelf.fitted() == {"r_taper:R1/2:male": Fitted(2, "2026-10-03")}
    shelf.close()


@pytest.mark.parametrize("learn", [False, True])
def test_off_it_changes_no_byte_and_on_it_reads_the_jobs(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], learn: bool
):
    from identify.entry import main

    words = ["rank", "gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "--json"]
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    main(words)
    nothing_kept = capsys.readouterr().out
    for number in range(9):
        lay(tmp_path / "whichend" / "interviews", number, (FIRST, Settled(Fate.FITTED, "", AT)))
    main([*words, *(["--learn"] if learn else [])])
    told = capsys.readouterr().out
    assert (told == nothing_kept) == (not learn)
    assert ("learnt" in json.loads(told)) == learn
