"""`whichend sheet --job`: what a hose of a job gives to its sheet, and where that is kept."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from identify.entry import main
from identify.interview.session import Claimed, Observed, conclude, replay
from identify.jobs.concluding import concluded
from identify.jobs.facts import Field, Noted, Place
from identify.jobs.handover import handover_folder
from identify.jobs.job import Entry
from identify.jobs.reference import reference_of
from identify.jobs.shelf import Shelf, written
from identify.reading.parse import parse_reading
from identify.sheets.of_job import JobSheet
from tests.plain.talk import engine

AT = "2026-11-26T08:30:00Z"
REFERENCE = reference_of(7654321)
JIC = ("gender=female", "mount=swivel", "thread_id=17.4 mm", "pitch=16 tpi",
       "seat_shape=concave", "seat_angle=37 deg half", "o_ring=none", "taper=parallel")  # fmt: skip
HALF = ("gender=male", "thread_od=20.9 mm", "pitch=14 tpi")
ORFS = Claimed("orfs -10 female", "the driver", AT, ("orfs:-10:female",))
A, B = Place(1, "A"), Place(1, "B")
FACTS: tuple[Entry, ...] = (
    (A, Noted(Field.MACHINE, "Loader 3")), (A, Noted(Field.QUANTITY, "2")),
    (A, Noted(Field.PRINTED, "MAKER/EN 853/2SN/DN 16")), (A, Noted(Field.NOTE, "urgent")),
    (A, Noted(Field.SHAPE, "90")), (A, Noted(Field.CUSTOMER, "Hill Farm")),
)  # fmt: skip

Said = Callable[..., dict[str, Any]]


def measured(place: Place, *typed: str) -> tuple[Entry, ...]:
    """Return the answers of an end, and the verdict on them."""
    events = [Observed(parse_reading(each)) for each in typed]
    verdict = concluded(conclude(engine(), replay(events)), engine().catalogue, None, AT)
    return (*((place, event) for event in events), (place, verdict))


@pytest.fixture
def shelf(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shelf:
    """Return an empty shelf, in a state of its own."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    return Shelf(tmp_path / "whichend" / "interviews")


@pytest.fixture
def said(capsys: pytest.CaptureFixture[str]) -> Said:
    """Return what the command prints as JSON, for a job with these entries."""

    def run(*words: str) -> dict[str, Any]:
        capsys.readouterr()
        assert main(["sheet", "--job", REFERENCE, *words, "--json"]) in (0, 3)
        found: dict[str, Any] = json.loads(capsys.readouterr().out)
        return found

    return run


def test_a_job_gives_ends_shape_line_and_facts(shelf: Shelf, said: Said) -> None:
    shelf.take_in(REFERENCE, AT, (*FACTS, *measured(A, *JIC), *measured(B, *JIC)))
    found = said()
    assert found["entered"] == {
        "job.reference": REFERENCE, "job.machine": "Loader 3", "job.quantity": "2",
        "job.note": "urgent", "a.end": "flare37:-8:female", "a.shape": "90",
        "a.known": "measured", "b.end": "flare37:-8:female", "b.known": "measured",
        "hose.line": "MAKER/EN 853/2SN/DN 16",
    }  # fmt: skip
    assert found["worked_out"]["hose"]["id"] == "2SN:16"


def test_a_claim_counts_where_nothing_was_measured_and_is_called_one(
    shelf: Shelf, said: Said, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf.take_in(REFERENCE, AT, (*FACTS, *measured(A, *JIC), (B, ORFS)))
    entered = said()["entered"]
    assert (entered["b.end"], entered["b.known"]) == ("orfs:-10:female", "claimed")
    assert entered["job.note"] == (
        'End B is what was claimed ("orfs -10 female"), not measured. urgent'
    )
    capsys.readouterr()
    assert main(["sheet", "--job", REFERENCE, "--order"]) == 3
    order = capsys.readouterr().out
    assert "Read this first: End B is what was claimed" in order
    assert "??  End B was only claimed, never measured" in order


def test_what_was_measured_and_not_identified_stays_open(shelf: Shelf, said: Said) -> None:
    shelf.take_in(REFERENCE, AT, (*measured(A, *HALF), (A, ORFS)))
    found = said()
    assert "a.end" in found["missing"]
    assert found["entered"]["job.note"] == "End A was measured, but is not identified."


def test_claims_that_name_several_ends_give_none(shelf: Shelf, said: Said) -> None:
    several = Claimed("JIC 8", "", AT, ("flare37:-8:male", "flare37:-8:female"))
    shelf.take_in(REFERENCE, AT, ((B, several),))
    found = said()
    assert "b.end" in found["missing"]
    assert "names more than one end" in found["entered"]["job.note"]


def test_answers_after_the_verdict_count(shelf: Shelf, said: Said) -> None:
    early = measured(A, *JIC[:3])
    late = tuple((A, Observed(parse_reading(each))) for each in JIC[3:])
    shelf.take_in(REFERENCE, AT, early)
    assert "a.end" not in said()["entered"]
    with written(shelf.called(REFERENCE)) as journal:
        for place, event in late:
            journal.add(event, place=place)
    assert said()["entered"]["a.end"] == "flare37:-8:female"


def test_the_sheet_is_kept_with_the_job_and_begun_with_again(
    shelf: Shelf, said: Said, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shelf.take_in(REFERENCE, AT, (*FACTS, *measured(A, *JIC)))
    file = tmp_path / "more.yaml"
    file.write_text("schema: hose_sheet/1\na:\n  end: orfs:-10:female\n  cut_off: 38.2 mm\n",
                    encoding="utf-8")  # fmt: skip
    assert said(str(file))["entered"]["a.end"] == "flare37:-8:female"
    (kept,) = handover_folder(shelf.folder).iterdir()
    assert kept.name == f"{REFERENCE}-sheet.json"
    assert said()["entered"]["a.cut_off"] == "38.2 mm"
    capsys.readouterr()
    main(["sheet", "--job", REFERENCE])
    told = capsys.readouterr()
    assert "Nothing differs" in told.out
    assert f"Kept: {kept}" in told.err


def test_what_the_job_takes_back_leaves_the_kept_sheet(shelf: Shelf, said: Said) -> None:
    shelf.take_in(REFERENCE, AT, (*FACTS, *measured(A, *JIC)))
    assert said("--b", "orfs:-10:female")["entered"]["a.end"] == "flare37:-8:female"
    with written(shelf.called(REFERENCE)) as journal:
        for each in ("thread_id=30 mm", "pitch=11 tpi", "seat_shape=convex"):
            journal.add(Observed(parse_reading(each)), place=A)
        journal.add(Noted(Field.MACHINE, ""))
    entered = said()["entered"]
    assert "a.end" not in entered
    assert "job.machine" not in entered
    assert entered["b.end"] == "orfs:-10:female"


def test_what_somebody_enters_in_place_of_the_job_stands_until_the_job_says_another(
    shelf: Shelf,
) -> None:
    """And the end that was typed is not "measured" because that of the job was."""
    gave = {"a.end": "flare37:-8:female", "a.known": "measured", "job.machine": "Loader 3"}
    kept = {"of_job": gave}
    typed = {"a.end": "orfs:-8:female", "job.machine": "Loader 4"}
    job = JobSheet(gave, shelf.folder, "x-sheet.json")
    assert job.still_entered(kept, typed) == typed
    changed = JobSheet({**gave, "a.end": "flare37:-10:female"}, shelf.folder, "x-sheet.json")
    assert changed.still_entered(kept, typed) == {
        "a.end": "flare37:-10:female", "a.known": "measured", "job.machine": "Loader 4",
    }  # fmt: skip


def test_of_several_hoses_one_is_said(
    shelf: Shelf, said: Said, capsys: pytest.CaptureFixture[str]
) -> None:
    other = Place(2, "B")
    shelf.take_in(REFERENCE, AT, (*FACTS, (other, ORFS), (other, Noted(Field.QUANTITY, "5"))))
    for words in ((), ("--hose", "3"), ("--hose", "-1")):
        assert main(["sheet", "--job", REFERENCE, *words]) == 2
        assert f"Job {REFERENCE} has 2 hoses; say --hose 1 to --hose 2." in capsys.readouterr().err
    assert said("--hose", "2")["entered"]["job.quantity"] == "5"
    assert said("--hose", "1")["entered"]["job.quantity"] == "2"
    names = {path.name for path in handover_folder(shelf.folder).iterdir()}
    assert names == {f"{REFERENCE}-sheet.json", f"{REFERENCE}-sheet-2.json"}
    shelf.forget_customer([shelf.called(REFERENCE)])
    assert not list(handover_folder(shelf.folder).iterdir())


def test_slips_are_refused_with_the_remedy(
    shelf: Shelf, capsys: pytest.CaptureFixture[str]
) -> None:
    gone = Claimed("long ago", "", AT, ("no:such:end",))
    shelf.take_in(REFERENCE, AT, ((A, gone),))
    for words, why in (
        (("--hose", "1"), "name the job with --job"),
        (("--job", "K7M-3P5"), "is no reference"),
        (("--job", reference_of(1)), "No job"),
        (("--job", REFERENCE), f"job {REFERENCE}: a.end:"),
    ):
        assert main(["sheet", *words]) == 2
        assert why in capsys.readouterr().err


def test_a_note_of_any_length_is_no_fault(shelf: Shelf, said: Said) -> None:
    shelf.take_in(REFERENCE, AT, ((A, ORFS), (A, Noted(Field.NOTE, "x" * 400))))
    note = said()["entered"]["job.note"]
    assert note.startswith("End A is what was claimed")
    assert note.endswith("x...")
