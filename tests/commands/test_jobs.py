"""`whichend jobs`: every verb, on the jobs of an interview that was really held."""

import json
from pathlib import Path

import pytest

from identify.entry import main
from identify.jobs.journal import Journal, read_job
from identify.jobs.shelf import Shelf, unfinished
from tests.plain.talk import hold

LINES = ("1", "", "1", "1", "20.9 mm", "q")


@pytest.fixture
def reference(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    """Return the reference of a job with one end that was measured, in a state of its own."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    _, dialogue = hold(tmp_path / "whichend" / "interviews", *LINES)
    assert dialogue.state.answers
    return dialogue.autosave.reference


def said(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    capsys.readouterr()
    assert main(["jobs", *words]) == status
    captured = capsys.readouterr()
    return captured.out if status == 0 else captured.out + captured.err


def test_find_keeps_its_contract(reference: str, capsys: pytest.CaptureFixture[str]) -> None:
    said(capsys, "correct", reference, "customer=Hill Farm")
    (job,) = json.loads(said(capsys, "find", "farm", "hill", "--json"))
    assert list(job) == ["job", "reference", "customer", "ends", "at"]
    assert (job["reference"], job["customer"]) == (reference, "Hill Farm")
    assert all(isinstance(each, str) for each in job["ends"])
    assert len(job["ends"]) == 1
    assert job["at"].endswith("Z")
    assert json.loads(said(capsys, "find", "nobody", "--json")) == []
    assert said(capsys, "find", reference.lower()).count(reference) == 1
    assert "No job found." in said(capsys, "find", "nobody")


def test_show_tells_what_was_said(reference: str, capsys: pytest.CaptureFixture[str]) -> None:
    said(
        capsys, "correct", reference, "quantity=2", "shape=90", "printed=2SN DN 12", "bag=7",
        "note=urgent", "outcome=came back", "--why", "it leaked",
    )  # fmt: skip
    page = " ".join(said(capsys, "show", reference).split())
    for words in ("2 pieces", "bent 90 deg", "2SN DN 12", "Bag: 7", "Note: urgent", "it leaked",
                  "20.9 mm, by caliper", "tables ", "rules ", "Verdict"):  # fmt: skip
        assert words in page, words


def test_a_reading_is_corrected_and_reckoned_anew(
    reference: str, capsys: pytest.CaptureFixture[str]
) -> None:
    said(capsys, "correct", reference, "thread_od=13.1 mm", "--why", "misread", "--by", "Ann")
    page = " ".join(said(capsys, "show", reference).split())
    assert "Bore" not in page
    assert '"20.9 mm" became "13.1 mm" (misread), Ann.' in page
    assert "were given or taken back since" not in page
    record = json.loads(said(capsys, "show", reference, "--json"))
    kinds = [step["event"] for step in record["steps"]]
    assert kinds[-3:] == ["corrected", "observed", "concluded"]
    assert kinds.count("observed") == 3  # the first stays in the file


def test_nothing_is_kept_of_a_correction_that_cannot_be(
    reference: str, capsys: pytest.CaptureFixture[str]
) -> None:
    before = said(capsys, "show", reference, "--json")
    for words in (("bag=7", "colour=red"), ("thread_od=red",), ("bag",), ("outcome=lost",)):
        said(capsys, "correct", reference, *words, status=2)
    said(capsys, "correct", reference, "bag=7", "--end", "C", status=2)
    assert said(capsys, "show", reference, "--json") == before


def test_a_discarded_job_is_neither_listed_nor_offered(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    folder = tmp_path / "whichend" / "interviews"
    assert len(unfinished(folder)) == 1
    said(capsys, "discard", reference)
    assert unfinished(folder) == ()
    assert reference not in said(capsys, "list")
    assert reference in said(capsys, "list", "--discarded")


def test_a_finished_interview_is_opened_again(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    import io

    folder = tmp_path / "whichend" / "interviews"
    said(capsys, "discard", reference)
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(b"q\n")))
    page = said(capsys, "reopen", reference, "--plain")
    assert "It goes on here." in page
    assert f"Job {reference} is kept in {folder}" in page
    assert reference in said(capsys, "list")


def test_recheck_says_what_changed(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert "as before" in said(capsys, "recheck")
    kept = Shelf(tmp_path / "whichend" / "interviews").called(reference)
    text = kept.path.read_text("utf-8")
    assert '"kind":"shortlist"' in text
    kept.path.write_text(text.replace('"kind":"shortlist"', '"kind":"abstain"'), "utf-8")
    assert "was not decided" in said(capsys, "recheck", reference, "--keep", status=3)
    assert "as before" in said(capsys, "recheck", reference)
    assert said(capsys, "recheck", "--changed") == ""
    (told,) = said(capsys, "recheck", "--json").splitlines()
    assert json.loads(told)["differs"] is False


@pytest.mark.parametrize("what", ["slip", "label", "report"])
def test_a_job_is_handed_over_in_every_form(
    what: str, reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    assert "<" not in said(capsys, what, reference)
    assert said(capsys, what, f"JOB {reference}", "--as", "html").startswith("<!DOCTYPE html>")
    told = json.loads(said(capsys, what, reference, "--as", "json"))
    assert told["reference"] == reference
    before = set(tmp_path.iterdir())
    said(capsys, what, reference, "--to", f"{what}.md")
    assert {path.name for path in set(tmp_path.iterdir()) - before} == {f"{what}.md"}
    assert "is there already" in said(capsys, what, reference, "--to", f"{what}.md", status=2)


def test_a_label_is_as_wide_as_its_paper(
    reference: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "-" * 48 + "\n" in said(capsys, "label", reference, "--columns", "48")
    assert "32 or 48" in said(capsys, "label", reference, "--columns", "40", status=2)
    page = said(capsys, "label", reference, "--as", "html", "--label-size", "100x50")
    assert "size: 100mm 50mm" in page
    said(capsys, "label", reference, "--as", "html", "--label-size", "small", status=2)


def test_a_scanned_reference_finds_its_job_and_a_wrong_one_is_told(
    reference: str, capsys: pytest.CaptureFixture[str]
) -> None:
    bare = reference.replace("-", "")
    wrong = bare[:-1] + ("2" if bare[-1] != "2" else "3")
    for words in (("JOB", reference), (f"job {reference.lower()}",), (bare,), (reference,)):
        (job,) = json.loads(said(capsys, "find", *words, "--json"))
        assert job["reference"] == reference
    for word in (f"JOB {wrong}", f"{wrong[:3]}-{wrong[3:]}"):
        assert "a character is wrong" in said(capsys, "find", word)
    assert said(capsys, "find", "farmer") == "No job found.\n"


@pytest.mark.parametrize("form", ["jsonl", "csv"])
def test_export_and_import_are_equal(
    reference: str, form: str, capsys: pytest.CaptureFixture[str], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    said(capsys, "correct", reference, "customer=Müller; =1+1\n", 'note="quoted", and more')
    before = said(capsys, "show", reference, "--json")
    said(capsys, "export", "--form", form, "--output", "jobs.out")
    assert "is there already" in said(capsys, "export", "--output", "jobs.out", status=2)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "elsewhere"))
    assert "1 job taken in, 0 here already." in said(capsys, "import", "jobs.out")
    assert "0 jobs taken in, 1 here already." in said(capsys, "import", "jobs.out")
    assert said(capsys, "show", reference, "--json") == before


def test_bad_lines_are_named_and_the_rest_is_taken_in(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    line = said(capsys, "export")
    (tmp_path / "in").write_text(f'{{"x": 1}}\n{"[" * 9999}\n{line}', "utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "elsewhere"))
    told = said(capsys, "import", "in", status=1)
    assert "1 job taken in, 0 here already, 2 could not be taken in." in told
    assert "job 1: is no job" in told
    assert "job 2: is not JSON" in told


def test_a_customer_is_deleted_from_every_file(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    said(capsys, "correct", reference, "customer=Hill Farm", "machine=Digger of Hill Farm")
    said(capsys, "list")
    assert "Nothing was changed" in said(capsys, "delete-customer", "hill farm")
    assert "customer" in said(capsys, "show", reference, "--json")
    said(capsys, "delete-customer", "HILL FARM", "--yes")
    assert reference in said(capsys, "list")
    held = b"".join(path.read_bytes() for path in tmp_path.rglob("*") if path.is_file())
    assert b"Hill" not in held
    assert b"20.9 mm" in held
    said(capsys, "delete-customer", "hill farm", "--yes", status=2)


def test_a_job_that_is_open_elsewhere_is_left_alone(
    reference: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    kept = Shelf(tmp_path / "whichend" / "interviews").called(reference)
    said(capsys, "correct", reference, "customer=Hill Farm")
    again = read_job(kept.path)
    assert again is not None
    journal = Journal.go_on(again)
    for words in (("correct", reference, "bag=7"), ("discard", reference), ("reopen", reference),
                  ("delete-customer", "hill farm", "--yes")):  # fmt: skip
        assert "open in another window" in said(capsys, *words, status=2)
    journal.close()
    assert read_job(kept.path) == again


@pytest.mark.parametrize(
    "words", [("show", "K7M"), ("show", "222-23U"), ("lst",), ("list", "--limit", "0")]
)
def test_a_slip_is_one_sentence(
    words: tuple[str, ...], reference: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said(capsys, *words, status=2).count("\n") == 1


def test_verbs_are_told_and_each_has_help(capsys: pytest.CaptureFixture[str]) -> None:
    from identify.commands.jobs import VERBS

    with pytest.raises(SystemExit):
        main(["jobs", "--help"])
    page = capsys.readouterr().out
    for verb in VERBS:
        assert verb in page
        with pytest.raises(SystemExit):
            main(["jobs", verb, "--help"])
        assert f"whichend jobs {verb}" in capsys.readouterr().out
