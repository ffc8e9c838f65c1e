"""`whichend show`: what it prints of ends whose standard is known, and what must not go on them.

G 1/2 is 20.955 mm with 14 threads an inch (ISO 228-1). That a 37 and a 45 degree flare share
3/4-16 UNF and must not be mixed, and that a Japanese 30 degree flare has the seat of the European
60 degree cone the other way round, is common practice.
"""

from pathlib import Path
from xml.etree import ElementTree

import pytest

from identify.drawing.ends import half_section
from identify.drawing.style import View
from identify.entry import main
from identify.model.verdict import Hazard
from identify.pages.end import SHOWN_NEVER
from identify.reasoning.joint import Outcome
from identify.reasoning.mating import mates_of
from tests.pages.told import end_text
from tests.reasoning.tables import end, shipped
from tests.shipped import knowledge

LABELS = ("Form", "Standard", "Seat", "Seal", "Rating", "Source", "Checked", "Confidence", "Row")


def flat(name: str) -> str:
    return " ".join(end_text(shipped(), end(name)).split())


@pytest.mark.parametrize("row", range(0, 700, 23))
def test_every_end_is_told_in_80_columns(row: int) -> None:
    text = end_text(shipped(), shipped().ends[row])
    assert max(map(len, text.splitlines())) <= 80
    for label in LABELS:
        assert f"\n{label}" in text
    assert text.count("NEVER ON") <= 1
    assert "None" not in text


def test_mates_stand_before_what_must_not_be_used() -> None:
    said = flat("flare37:-8:male")
    assert "Mates flare37:-8:female: 37 deg flare" in said
    never = said[said.index("NEVER ON") :]
    assert "flare45:-8:female: threads run but it does not seal. A 37 deg cone touches" in never
    assert "aerospace_inch:-8:female-boss: threads run but it does not seal" in never
    assert " orb_un:-8:female" not in never  # nothing touches: the oil runs out at once
    assert "flare37:-8:female" not in never
    assert '"whichend compare" tells of any pair Rating' in never
    assert "the tables do not say" not in flat("flange61:1-in:flange")


def test_the_same_cone_the_other_way_round_must_not_be_used() -> None:
    found = {
        one.b: one.hazard
        for one in mates_of(shipped(), end("bspp60:G1/2:male"), knowledge().book).dangers
    }
    assert found["jis30_g:G1/2:female"] is Hazard.MEDIUM  # rim on rim


def test_what_runs_fully_is_told_before_what_binds() -> None:
    never = flat("aerospace_inch:-3:male-flareless").split("NEVER ON")[1]
    assert never.index("threads run") < never.index("starts, then binds")
    assert never.count(". ") >= SHOWN_NEVER


def test_what_must_not_be_joined_is_never_said_not_to_start() -> None:
    """A pair that starts at its loosest fit is a danger because it starts."""
    found = mates_of(shipped(), end("orb_g:G1/4:female"), knowledge().book).dangers
    slack = [one for one in found if one.outcome is Outcome.NO_START]
    assert {one.words for one in slack} == {"starts only at the loosest fit"}
    assert all("At the loosest fit it goes" in one.reason for one in slack)


def test_a_guarded_end_is_refused_first() -> None:
    lines = end_text(shipped(), end("aerospace_inch:-8:male-flare")).splitlines()
    assert lines[3].startswith("REFUSED")


def test_an_unknown_rating_is_said_to_be_unknown(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["show", "staple:DN-13:male"]) == 0
    assert "\nRating     unknown" in capsys.readouterr().out


def test_an_unknown_name_gives_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["show", "flare37:-4:mael"]) == 2
    assert "Nearest: flare37:-4:male" in capsys.readouterr().err
    assert main(["show", "qqqq"]) == 2
    assert "Nearest" not in capsys.readouterr().err


DRAWN = ("flare37:-8:male", "bspp60:G1/2:female", "orfs:-8:male", "flange61:1-in:flange")


@pytest.mark.parametrize("name", DRAWN)
def test_a_picture_bears_the_dimensions_and_is_written_once(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "end.svg"
    assert main(["show", name, "--svg", str(path)]) == 0
    assert f"{path}: {end(name).title}" in capsys.readouterr().out
    drawn = path.read_text(encoding="utf-8")
    svg = "{http://www.w3.org/2000/svg}"
    texts = [each.text for each in ElementTree.fromstring(drawn).iter(f"{svg}text")]
    labelled = half_section(end(name), shipped().thread_of(end(name))).labelled
    assert labelled
    assert {item.label for item in labelled} <= set(texts)

    assert main(["show", name, "--svg", str(path)]) == 2
    said = capsys.readouterr()
    assert "is there already. Delete it first, or name another file with --svg." in said.err
    assert path.read_text(encoding="utf-8") == drawn

    assert main(["show", name, "--svg", "-"]) == 0
    assert capsys.readouterr().out == drawn


@pytest.mark.parametrize("view", View)
def test_an_end_can_be_drawn_in_every_view_and_is_told_under_it(view: str, capsys) -> None:
    assert main(["show", "flare37:-8:male", "--view", view, "--drawing", "ascii"]) == 0
    rows = capsys.readouterr().out.splitlines()
    assert any(" mm, 1 column = " in row for row in rows)
    assert "Proportions are not to scale" in " ".join(rows[-3:])
    assert any("half 37" in row for row in rows) is (view == "section")


def test_a_view_and_json_are_refused_together(capsys) -> None:
    assert main(["show", "flare37:-8:male", "--view", "bench", "--json"]) == 2
    assert "--view" in capsys.readouterr().err


def test_a_view_can_be_had_as_svg(tmp_path: Path) -> None:
    for view in ("bench", "section"):
        file = tmp_path / f"{view}.svg"
        assert main(["show", "orfs:-8:male", "--view", view, "--svg", str(file)]) == 0
        assert ElementTree.parse(file).getroot().tag.endswith("svg")
    texts = [(tmp_path / f"{view}.svg").read_text() for view in ("bench", "section")]
    assert ">groove<" not in texts[0]
    assert ">groove<" in texts[1]
