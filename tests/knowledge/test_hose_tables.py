"""Tables of hoses: every rule of the reader has a bad file; what must hold of every shipped row.

EN ISO 1307 gives the bore limits of DN 12 as 12.3 to 13.5 mm; that 2SN of DN 12 works at 275 bar
stands in an open table of EN 853 figures.
"""

from pathlib import Path

import pytest

from identify.knowledge.fields import Faults
from identify.knowledge.hose_habits import read_habits
from identify.knowledge.hose_loading import build_hoses, read_hose_folders
from identify.knowledge.table_files import data_dir
from identify.model.hose import SUPPORTED, Hose
from identify.model.source import Support
from tests.laws.hoses import HOSE_LAWS, rows

BAD = Path(__file__).parent.parent / "bad_hoses"
CASES = sorted(BAD.glob("*.yaml"))
TABLES = build_hoses()
BY_ID = {hose.id: hose for hose in TABLES.hoses}


def faults_of(text: str, folder: Path) -> str:
    (folder / "hoses").mkdir()
    (folder / "hoses/bad.yaml").write_text(text, encoding="utf-8")
    faults = Faults()
    read_hose_folders([data_dir("thread_tables"), folder], faults)
    return "".join(f"{fault}\n" for fault in faults.found).replace(str(folder), "DIR")


@pytest.mark.parametrize("case", CASES, ids=lambda path: path.stem)
def test_bad_table_is_refused_with_its_message(case: Path, tmp_path: Path) -> None:
    said = faults_of(case.read_text(encoding="utf-8"), tmp_path)
    assert said == case.with_suffix(".txt").read_text(encoding="utf-8")


def test_the_row_beneath_the_bad_ones_is_good(tmp_path: Path) -> None:
    assert faults_of((BAD / "base/bad.yaml").read_text(encoding="utf-8"), tmp_path) == ""


def test_a_row_of_ones_own_must_not_take_a_shipped_name(tmp_path: Path) -> None:
    text = (BAD / "base/bad.yaml").read_text(encoding="utf-8").replace("9XX", "2SN")
    said = faults_of(text, tmp_path)
    assert "hose 2SN:10 stands twice (first at thread_tables/hoses/wire_braid.yaml:" in said


def test_known_figures() -> None:
    hose = BY_ID["2SN:12"]
    assert (hose.bore.low_mm, hose.bore.high_mm) == (12.3, 13.5)
    assert (hose.supported_bar, hose.dash, hose.nominal_mm) == (275, "-8", 12.5)
    assert BY_ID["1SN:12"].supported_bar == 160
    assert BY_ID["2SC:12"].supported_bar is None
    assert BY_ID["2SC:12"].rating_basis is Support.FROM_MEMORY


def test_1sn_and_2sc_share_bore_and_outside_and_not_the_pressure() -> None:
    for dn in (12, 19):
        one, two = BY_ID[f"1SN:{dn}"], BY_ID[f"2SC:{dn}"]
        assert one.bore == two.bore
        assert one.outside == two.outside
        assert one.rating_bar < two.rating_bar


@pytest.mark.parametrize("hose", TABLES.hoses, ids=lambda hose: hose.id)
def test_every_row(hose: Hose) -> None:
    assert hose.provenance.source
    assert hose.provenance.line > 0
    assert hose.provenance.file.startswith("thread_tables/hoses/")
    assert hose.bore_provenance.source
    if hose.rating_bar is not None:
        assert hose.rating_basis in Support
    if hose.supported_bar is not None:
        assert hose.rating_basis in SUPPORTED
        assert hose.rating_basis is not Support.FROM_MEMORY
    if hose.bend_radius_mm is not None:
        assert hose.bend_basis is not None
    if hose.outside_seen and hose.outside and not hose.outside_most_only:
        assert hose.outside_seen.low_mm > hose.bore.high_mm


@pytest.mark.parametrize("name", HOSE_LAWS)
def test_law_of_hoses_holds(name: str) -> None:
    assert list(HOSE_LAWS[name](TABLES)) == []


@pytest.mark.parametrize(
    ("name", "least"), [("gathered", 1300), ("types", 28), ("recollected", 80)]
)
def test_references_are_carried(name: str, least: int) -> None:
    assert len(rows(name)) >= least


HABITS = data_dir("rules").joinpath("hoses.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("  right: 0.95", "  right: 95", "reading: right is 95, outside 1e-06..1"),
        ("  type: 0.95", "  typ: 0.95", "shown: type is missing"),
        ('"0.6 mm"', "0.6", "cover_wear is 0.6, a number without a unit"),
        ('words: ["J30", "FUEL"], ', "", "words is missing or empty"),
        ("most_types: 6", "most_types: 0", "most_types is 0, outside 1..50"),
        ("hose_habits/1", "hose_habits/2", 'schema must be "hose_habits/1"'),
    ],
)
def test_a_fault_of_the_habits_is_noted_with_its_line(old: str, new: str, said: str) -> None:
    faults = Faults()
    assert old in HABITS
    read_habits(HABITS.replace(old, new, 1), faults)
    assert any(said in fault and fault.startswith("rules/hoses.yaml:") for fault in faults.found)
