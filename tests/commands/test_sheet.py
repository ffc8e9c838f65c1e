"""`whichend sheet`: files and their faults, the dialogue of lines, every form of output."""

import io
import json
from pathlib import Path

import pytest

from identify.entry import main
from identify.plain.console import Console
from identify.plain.sheet import ask_sheet
from identify.sheets.desk import Desk
from identify.sheets.kept import read_texts
from tests.sheets.known import KNOWN, Unkept

GOLDENS = Path(__file__).parent.parent / "sheets" / "goldens"
BASE_OF_A_TABLE = Path(__file__).parent.parent / "bad_hoses" / "base"
GOOD, BAD = GOLDENS / "two-elbows.yaml", GOLDENS / "must-not-be-made.yaml"


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    status = main(["sheet", *words])
    out, err = capsys.readouterr()
    return status, out, err


def test_the_status_says_whether_a_check_forbids_the_hose(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert said(capsys, str(GOOD))[0] == 0
    assert said(capsys, str(BAD))[0] == 3


def test_json_holds_entries_findings_and_results(capsys: pytest.CaptureFixture[str]) -> None:
    found = json.loads(said(capsys, str(GOOD), "--json")[1])
    assert found["entered"]["a.end"] == "orfs:-10:female"
    assert (found["missing"], found["findings"]) == ([], [])
    assert found["worked_out"]["length"]["cut_mm"] == 809.6
    assert found["worked_out"]["rating"] == {"bar": 250.0, "at_most_bar": 250.0, "look_up": None}
    bad = json.loads(said(capsys, str(BAD), "--json")[1])
    assert {"joint-A", "series-B", "medium"} <= {each["key"] for each in bad["findings"]}
    assert bad["worked_out"]["rating"]["bar"] is None


def test_a_kept_object_is_read_again_and_says_what_changed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    kept = json.loads(said(capsys, str(GOOD), "--json")[1])
    file = tmp_path / "kept.json"
    file.write_text(json.dumps(kept), encoding="utf-8")
    assert "Nothing differs" in said(capsys, str(file))[1]
    kept["worked_out"]["rating"]["bar"] = 225.0
    file.write_text(json.dumps(kept), encoding="utf-8")
    page = " ".join(said(capsys, str(file))[1].split())
    assert "Rating of the whole [bar]: 225 / 250" in page
    assert "Tables or rules are others" not in page


def test_a_sheet_of_older_tables_says_so_and_what_comes_out_otherwise(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A hose of a user's own table, which carries less after the table was changed."""
    table = (BASE_OF_A_TABLE / "bad.yaml").read_text(encoding="utf-8")
    mine = tmp_path / "mine" / "hoses" / "bad.yaml"
    mine.parent.mkdir(parents=True)
    mine.write_text(table, encoding="utf-8")
    sheet, kept = tmp_path / "new.yaml", tmp_path / "kept.json"
    sheet.write_text('schema: hose_sheet/1\nhose: {new: "9XX:10"}\n', encoding="utf-8")
    tables = ("--tables", str(mine.parent.parent))
    first = json.loads(said(capsys, str(sheet), "--json", *tables)[1])
    assert set(first["made_with"]) == {"ends", "hoses", "rules", "program"}
    kept.write_text(json.dumps(first), encoding="utf-8")
    assert "Tables or rules are others" not in said(capsys, str(kept), *tables)[1]
    mine.write_text(table.replace("bar: 330", "bar: 300"), encoding="utf-8")
    page = " ".join(said(capsys, str(kept), *tables)[1].split())
    assert "Tables or rules are others. What comes out otherwise stands below." in page
    assert "The hose [bar]: 330 / 300" in page
    made = json.loads(said(capsys, str(kept), "--json", *tables)[1])["made_with"]
    assert (made["hoses"] == first["made_with"]["hoses"]) is False
    assert made["ends"] == first["made_with"]["ends"]


@pytest.mark.parametrize(
    "text", ['{"entered": 5}', '{"entered": {"a": [1]}, "worked_out": 7, "findings": "x"}']
)
def test_an_object_of_another_form_is_an_empty_sheet(
    text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "odd.json"
    file.write_text(text, encoding="utf-8")
    status, page, _ = said(capsys, str(file))
    assert status == 3
    assert "The new hose is not named." in " ".join(page.split())


def test_two_sheets_are_compared(capsys: pytest.CaptureFixture[str]) -> None:
    page = said(capsys, str(GOOD), "--compare", str(BAD))[1]
    assert "Overall length: 36 in / 600 mm" in page
    assert "Cut length [mm]" in page


def test_the_page_is_self_contained(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for paper, size in (("a4", "A4"), ("letter", "letter")):
        file = tmp_path / f"{paper}.html"
        assert said(capsys, str(GOOD), "--html", str(file), "--paper", paper)[0] == 0
        page = file.read_text(encoding="utf-8")
        assert f"size: {size};" in page
        assert page.count("<svg") == 2
        assert "To order by telephone" in page
        assert '<p class="mark"><b>Cut</b>' in page  # a short name is a name, no sign
        for fetched in ("<script", "<link", "src=", "href=", "url(", "@import"):
            assert fetched not in page
    status, _, error = said(capsys, str(GOOD), "--html", str(file))
    assert status == 2
    assert "is there already" in error


def test_the_order_warns_before_a_hose_that_must_not_be_made(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert "Do not order yet" not in said(capsys, str(GOOD), "--order")[1]
    assert "Do not order yet" in said(capsys, str(BAD), "--order")[1]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ("schema: hose_sheet/1\na:\n  shape: 60\n", [":3: a.shape:"]),
        ("schema: hose_sheet/1\na:\n  colour: red\nuse:\n  flow: 5\n",
         [":3: a.colour:", ":5: use.flow:"]),
        ("schema: other\n", [':1: schema must be "hose_sheet/1"']),
        ("a:\n  shape: straight\n", [':1: schema must be "hose_sheet/1"']),
        ("schema: hose_sheet/1\na: straight\n", [":2: a is 'straight'; write its entries"]),
        ("schema: hose_sheet/1\na:\n  end: {x: 1}\n", [":3: a.end is {'x': 1}; write one text"]),
        ("schema: hose_sheet/1\na:\n  end: [[1]]\n", [":3: a.end is [[1]]; write one text"]),
        ("schema: hose_sheet/1\na:\n  held: true\n", [":3: a.held is True; write one text"]),
        ("schema: hose_sheet/1\na:\n  end: x\n  end: y\n", ["stands twice, first on line 3"]),
        ("- a\n", [":1: a table file is a mapping"]),
        ("a: &a [1, 1, 1, 1, 1, 1, 1, 1, 1, 1]\nb: &b [*a, *a, *a, *a, *a, *a, *a, *a, *a, *a]\n"
         "c: &c [*b, *b, *b, *b, *b, *b, *b, *b, *b, *b]\nd: &d [*c, *c, *c, *c, *c, *c, *c, *c]\n"
         "e: &e [*d, *d, *d, *d, *d, *d, *d, *d, *d, *d]\nf: [*e, *e, *e, *e, *e, *e, *e, *e]\n",
         ["aliases stand for more than"]),
        ("schema: hose_sheet/1\na:\n  data: \"\\e[2J\"\n  rating: \"\\e[2J\"\n",
         [":4: a.rating:"]),
    ],
)  # fmt: skip
def test_a_fault_names_file_line_and_remedy(
    text: str, places: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = tmp_path / "bad.yaml"
    file.write_text(text, encoding="utf-8")
    status, out, error = said(capsys, str(file))
    assert (status, out) == (2, "")
    assert "\x1b" not in error
    for place in places:
        assert place in error


def test_a_file_that_is_none_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    binary = tmp_path / "binary"
    binary.write_bytes(b"\xff\xfe\x00")
    for file, why in (
        (tmp_path, "it is a folder"),
        (tmp_path / "no", "No such file"),
        (binary, "UTF-8"),
    ):
        status, _, error = said(capsys, str(file))
        assert status == 2
        assert why in error


# ---- asked line by line


def asked(*answers: str, **before: str) -> tuple[dict[str, str], str]:
    spoken = io.StringIO()
    desk = Desk(KNOWN, {path.replace("__", "."): text for path, text in before.items()}, Unkept())
    heard = io.StringIO("".join(f"{each}\n" for each in answers))
    ask_sheet(desk, Console(heard, spoken, {}))
    return dict(desk.draft.texts), spoken.getvalue()


def test_what_is_known_is_not_asked_again() -> None:
    _, before = asked("q")
    _, after = asked("q", job__reference="bench 3")
    assert "Reference of the job?" in before
    assert "Reference of the job?" not in after


def test_answers_blanks_slips_examples_and_back() -> None:
    entered, spoken = asked("bench 3", "", "?", "none", "2", "b", "3", "q")
    assert entered == {"job.reference": "bench 3", "job.quantity": "3"}
    assert "Such as: 2" in spoken
    assert '"none" is no number of pieces' in spoken


def test_only_what_matters_is_asked() -> None:
    _, straight = asked(*[""] * 80, a__end="orfs:-8:female", a__shape="straight", b__shape="90")
    _, bent = asked(*[""] * 80, a__shape="45", b__shape="90")
    assert "on a clock face" not in straight
    assert "on a clock face" in bent
    assert "Angle of the two bent ends" in bent
    assert "To which point" not in straight
    _, inch = asked(*[""] * 80, a__end="flare37:-8:female", a__shape="straight")
    assert "To which point of end A" in inch
    _, flow = asked(*[""] * 80, use__flow="60 l/min")
    assert "Viscosity at a cold start?" in flow
    assert "Viscosity" not in straight


def test_an_answer_is_chosen_by_its_number_and_brings_its_findings() -> None:
    before = {"a__end": "flare37:-8:female", "job__machine": "press"}
    entered, spoken = asked("x", "2", "AM", "CH", "2", "2", "q", **before)
    assert entered["a.known"] == "claimed"
    assert entered["a.shape"] == "45"
    assert "??  End A was only claimed, never measured" in spoken


def test_the_dialogue_keeps_every_answer_and_ends_in_a_sheet(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.setattr("sys.stdin", io.StringIO("bench 3\nq\n"))
    file = tmp_path / "new.yaml"
    status, page, error = said(capsys, "--keep", str(file))
    assert status == 3
    assert "Hose to be made: bench 3" in page
    assert said(capsys, str(file))[1].splitlines()[0] == "Hose to be made: bench 3"
    (kept,) = (tmp_path / "whichend" / "sheets").iterdir()
    assert f"Kept: {kept}" in error
    monkeypatch.setattr("sys.stdin", io.StringIO("press\n"))  # and goes on in the same file
    said(capsys, str(kept), "--ask")
    assert "Machine    press" in said(capsys, str(kept))[1]
    assert list(kept.parent.iterdir()) == [kept]


def test_ctrl_c_in_the_dialogue_loses_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    class Broken(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:
            if line := super().readline(size):
                return line
            raise KeyboardInterrupt

    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.setattr("sys.stdin", Broken("bench 3\n"))
    status, page, _ = said(capsys)
    assert status == 130
    (kept,) = (tmp_path / "whichend" / "sheets").iterdir()
    assert f"Kept: {kept}" in page
    assert read_texts(kept).texts == {"job.reference": "bench 3"}


def test_a_sheet_begins_with_two_ends_and_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    words = ("--a", "orfs -10 female", "--b", "orfs:-10:female", "--line", "MAKER/EN 853/2SN/DN 16")
    found = json.loads(said(capsys, *words, "--json")[1])
    assert found["worked_out"]["hose"]["id"] == "2SN:16"
    assert "a.port" in found["missing"]
    assert said(capsys, "--a", "nothing at all")[0] == 2
