"""`whichend practice`: who practises, progress in lines and as a page, the export."""

import csv
import io
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pytest

from identify.commands.practice import FIRST_NAME
from identify.entry import main
from identify.frozen import replace
from identify.practice.judging import Mark
from identify.practice.record import Logbook
from tests.practice.test_record import PUT, done


@pytest.fixture
def state(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    return tmp_path / "whichend" / "practice"


def wrote(state: Path, name: str, *marks: Mark) -> None:
    book = Logbook(state, name)
    for mark in marks:
        book.add(PUT)
        book.add(replace(done(mark), truth="port_g_flat:G1/4:male"))
    book.close()


def typed(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{line}\n" for line in lines)))


def test_the_export_counts_every_trainee_and_can_leave_out_names(state: Path, capsys) -> None:
    wrote(state, "Anna", Mark.RIGHT, Mark.WRONG)
    wrote(state, "=HYPERLINK(1)", Mark.DANGEROUS)
    assert main(["practice", "--export", "-"]) == 0
    rows = list(csv.reader(io.StringIO(capsys.readouterr().out)))
    assert {row[0] for row in rows[1:]} == {"Anna", "'=HYPERLINK(1)"}
    assert [row[3:8] for row in rows if row[0] == "Anna"] == [["2", "1", "1", "0", "0"]]
    assert all(len(row) == len(rows[0]) for row in rows)
    assert main(["practice", "--export", "-", "--no-names"]) == 0
    text = capsys.readouterr().out
    assert "Anna" not in text
    assert "trainee 2" in text


def test_progress_is_printed_and_written_as_a_page_that_stands_alone(
    state: Path, tmp_path: Path, capsys
) -> None:
    wrote(state, "Anna <b>", Mark.RIGHT, Mark.WRONG)
    assert main(["practice", "--progress"]) == 0
    assert "1 of 2" in capsys.readouterr().out
    path = tmp_path / "page.html"
    assert main(["practice", "--page", str(path)]) == 0
    page = path.read_text("utf-8")
    HTMLParser().feed(page)
    assert "Anna &lt;b&gt;" in page
    image = ElementTree.fromstring(page[page.index("<svg") : page.index("</svg>") + 6])
    texts = ["".join(each.itertext()) for each in image.iter() if each.tag.endswith("text")]
    assert texts[:3] == ["right", "wrong", "guessed or left open"]
    assert "G (BSPP) or NPT: 1 of 2" in texts
    assert texts[-2:] == ["1", "1"]
    assert "://" not in page  # it fetches nothing
    assert main(["practice", "--page", str(path)]) == 2  # nothing is written over


def test_who_practises_is_asked_only_where_there_are_several(
    state: Path, capsys, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(monkeypatch)
    assert main(["practice", "--plain", "--only", "pipe"]) == 0
    assert f"Practice of {FIRST_NAME}." in capsys.readouterr().out
    wrote(state, "Bo")
    typed(monkeypatch, "", "1")
    assert main(["practice", "--plain", "--only", "pipe"]) == 0
    assert "Practice of Bo." in capsys.readouterr().out
    typed(monkeypatch)
    assert main(["practice", "--plain"]) == 0
    assert "Practice of" not in capsys.readouterr().out


def test_an_open_exercise_is_put_again(state: Path, capsys, monkeypatch) -> None:
    shown = []
    for _ in range(2):
        typed(monkeypatch)
        assert main(["practice", "--plain", "--only", "size", "--drawing", "none"]) == 0
        shown.append(capsys.readouterr().out)
    assert shown[0] == shown[1]
    assert "It is a" in shown[0]


def test_a_name_of_nothing_is_refused(state: Path, capsys) -> None:
    assert main(["practice", "--name", " "]) == 2
    assert "needs a name" in capsys.readouterr().err
