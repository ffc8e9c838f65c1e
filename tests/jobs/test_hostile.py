"""A hostile job file through every verb: inert on the terminal, in pages and in cells."""

import csv
import io
import json
from pathlib import Path

import pytest

from identify.entry import main
from identify.interview.session import Claimed, Observed
from identify.jobs.fact_records import line_of
from identify.jobs.facts import FIRST, Concluded, Corrected, Fate, Field, Named, Noted, Settled
from identify.jobs.journal import FORMAT
from identify.jobs.reference import reference_of
from identify.model.verdict import VerdictKind
from identify.reading.parse import parse_reading
from tests.pages.test_handed import Page
from tests.test_inert import EVIL, strange

AT = "2026-11-26T08:30:00Z"
NASTY = f"=1+1{EVIL}<script>alert(1)</script>../../etc/passwd"
REFERENCE = reference_of(5)
VERBS = [
    ["list"], ["list", "--json"], ["find", "etc"], ["find", NASTY], ["show", REFERENCE],
    ["show", REFERENCE, "--json"], ["recheck", REFERENCE], ["export"], ["export", "--form", "csv"],
    ["export", "--without-names"], ["correct", REFERENCE, f"customer={NASTY}"],
    ["correct", REFERENCE, f"{NASTY}=5"], ["delete-customer", NASTY], ["show", NASTY],
    ["import", NASTY], ["export", "--output", f"no/{NASTY}"],
    *([kind, REFERENCE, "--as", form] for kind in ("slip", "label", "report")
      for form in ("text", "html")),
    ["report", REFERENCE, "--as", "markdown"], ["slip", REFERENCE, "--as", "json"],
]  # fmt: skip


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of jobs of a user with one hostile job, and a damaged line in it."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    month = tmp_path / "whichend" / "interviews" / "2026-11"
    month.mkdir(parents=True)
    plain = "".join(c for c in NASTY if c.isprintable())
    named = (Named(NASTY, NASTY, NASTY, 0.6), Named("../../../etc/passwd", NASTY, "", 0.3))
    steps = [
        *(Noted(field, NASTY) for field in (Field.CUSTOMER, Field.MACHINE, Field.BAG, Field.NOTE,
                                            Field.PRINTED, Field.MEASURED_BY)),
        Observed(parse_reading("gender=male")),
        Observed(parse_reading(f"marking={plain[:40]}")),
        Claimed(NASTY, NASTY, AT, (NASTY,), NASTY),
        Concluded(VerdictKind.SHORTLIST, NASTY, named, NASTY, NASTY, NASTY, AT),
        Settled(Fate.CAME_BACK, NASTY, AT),
        Corrected(NASTY, NASTY, NASTY, NASTY, NASTY, AT),
    ]  # fmt: skip
    lines = [{"format": FORMAT, "begun": AT, "reference": REFERENCE}]
    lines += [line_of(FIRST, step) for step in steps]
    text = "".join(f"{json.dumps(each)}\n" for each in lines)
    deep = "[" * 50_000 + "\n" + f'{{"event": {"9" * 6000}}}\n'
    path = month / f"job-{REFERENCE.replace('-', '')}.jsonl"
    path.write_text(text + deep, encoding="utf-8")
    return month.parent


@pytest.mark.parametrize("words", VERBS, ids=lambda words: " ".join(words).split("\x1b")[0])
def test_nothing_of_a_hostile_job_passes_through(
    words: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    status = main(["jobs", *(word.replace("\x00", "") for word in words)])
    streams = capsys.readouterr()
    assert strange(streams.out + streams.err) == []
    assert status in (0, 2, 3)  # 3: reckoned again, it is another answer
    assert bool(streams.err) == (status == 2)
    assert "Traceback" not in streams.err
    if "html" in words:
        assert not Page(streams.out).seen & {"script", "img", "a", "link", "iframe", "form"}
    if "csv" in words:
        cells = [cell for row in csv.reader(io.StringIO(streams.out)) for cell in row]
        assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t"))]


def test_nothing_is_written_outside_the_folder_of_jobs(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A reference of a path, in a file that is taken in, is refused."""
    step = {"event": "finished"}
    bad = {"format": FORMAT, "begun": AT, "reference": "../../../x", "steps": [step]}
    (tmp_path / "in.jsonl").write_text(f"{json.dumps(bad)}\n", "utf-8")
    before = sorted(tmp_path.rglob("*"))
    assert main(["jobs", "import", str(tmp_path / "in.jsonl")]) == 1
    assert "is no reference" in capsys.readouterr().err
    assert [each for each in sorted(tmp_path.rglob("*")) if "index" not in str(each)] == before


def test_a_file_of_a_later_version_is_a_fault_that_doctor_names(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    later = folder / "2026-11" / "job-222222.jsonl"
    later.write_text(
        f'{{"format": "whichend-job/9", "begun": "{AT}"}}\n{{"event": "x"}}\n', "utf-8"
    )
    (folder / "2026-11" / "job-333333.jsonl").write_bytes(b"\0" * 99 + b"\n")
    (folder / "2026-11" / "job-444444.jsonl").write_bytes(b"")
    assert main(["jobs", "list"]) == 0
    assert REFERENCE in capsys.readouterr().out
    assert main(["doctor"]) == 1
    told = " ".join(capsys.readouterr().out.split())
    assert "2 files of jobs cannot be read; they are damaged, or of a later version: " in told
    assert str(later) in told.replace(" ", "")
