"""What must hold of every sheet: arithmetic, units, either end first, nothing proposed."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.assembly import flow as flow_module
from identify.errors import AssemblyError, WhichendError
from identify.knowledge.sheet_file import read_sheet_file, sheet_file
from identify.model.hose import LOOK_UP
from identify.pages.sheet import sheet_blocks
from identify.pages.sheet_making import making_blocks
from identify.pages.sheet_order import spoken
from identify.pages.sheet_page import sheet_page
from identify.pages.text import text_of
from identify.sheets.belonging import findings
from identify.sheets.entries import BY_PATH, ENTRIES
from identify.sheets.filling import PARTS, fill, read_entry, still_missing
from identify.sheets.results import changes, results, sheet_object
from identify.sheets.starting import KnownEnd, entries_of_hose
from identify.sheets.working import Worked, work_out
from tests.sheets.known import GOOD, KNOWN, found_with, worked_with

QUIET = settings(deadline=None, max_examples=40)
MM = st.integers(1, 400).map(lambda tenths: tenths / 4)


def value_of(worked: Worked, path: str) -> object:
    return {each.path: each.value for each in results(worked)}[path]


def page_of(worked: Worked) -> str:
    page = sheet_blocks(worked, findings(worked, KNOWN), KNOWN, lambda sheet: sheet)
    return text_of([block for block in page if hasattr(block, "tone") or hasattr(block, "header")])


# ---- entries


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.path)
def test_every_example_can_be_read(entry) -> None:
    assert read_entry(entry.path, entry.example, KNOWN) is not None
    assert entry.ask.endswith("?")


@pytest.mark.parametrize("written", ["{}:{}", "{} DN {}", "{}, dn{}", "{} {}"])
def test_every_hose_of_the_tables_can_be_entered(written: str) -> None:
    for hose in KNOWN.hoses.tables.hoses:
        for text in (written.format(hose.kind.key, hose.dn), hose.name.lower()):
            assert read_entry("hose.new", text, KNOWN) is hose


def test_every_end_of_the_tables_can_be_entered() -> None:
    for end in KNOWN.catalogue.ends:
        assert read_entry("a.end", end.id, KNOWN).id == end.id


def test_entries_and_fields_are_the_same() -> None:
    fields = {f"{part}.{name}" for part, noun in PARTS.items() for name in noun.__match_args__}
    assert fields == set(BY_PATH)
    assert len(ENTRIES) == len(BY_PATH)


def test_the_good_sheet_lacks_nothing() -> None:
    assert list(still_missing(worked_with().sheet)) == []


def test_an_empty_sheet_lacks_all_that_is_needed() -> None:
    missing = {entry.path for entry in still_missing(fill({}, KNOWN).sheet)}
    of_ends = {"a.known", "a.port_known", "b.known", "b.port_known"}  # of an end that is named
    assert missing == {entry.path for entry in ENTRIES if entry.needed} - of_ends


@QUIET
@given(st.permutations(sorted(GOOD)))
def test_the_order_of_entries_is_irrelevant(paths: list[str]) -> None:
    turned = work_out(fill({path: GOOD[path] for path in paths}, KNOWN).sheet, KNOWN)
    assert list(results(turned)) == list(results(worked_with()))


@QUIET
@given(st.dictionaries(st.sampled_from(sorted(BY_PATH)), st.text(min_size=1, max_size=60)))
def test_a_kept_sheet_is_read_back_as_it_was(texts: dict[str, str]) -> None:
    again, lines = read_sheet_file(sheet_file(texts), "kept.yaml")
    assert again == texts
    assert set(lines) == set(texts)


# ---- arithmetic


@QUIET
@given(st.integers(700, 3000), MM, MM)
def test_cut_length_and_both_cut_offs_are_the_overall_length(long: int, a: float, b: float) -> None:
    worked = worked_with(length__overall=f"{long} mm", a__cut_off=f"{a} mm", b__cut_off=f"{b} mm")
    assert worked.length.cut_mm is not None
    assert worked.length.cut_mm + a + b == pytest.approx(long)
    assert worked.length.free_mm == pytest.approx(long - a - b - 72)


def test_cut_length_of_a_published_example() -> None:
    """24 in, two straight swivels of 1.86 in: 20.28 in (TM 1-1500-204-23-2, table 4-22)."""
    worked = worked_with(length__overall="24 in", a__cut_off="1.86 in", b__cut_off="1.86 in")
    assert worked.length.cut_mm == pytest.approx(20.28 * 25.4, abs=0.01)


def test_the_middle_of_a_tolerance_is_cut_for() -> None:
    """DIN 20066, DN 16, 1000 mm: +12 -4, so the middle is 4 mm above the nominal."""
    worked = worked_with(length__overall="1000 mm", length__tolerance="DIN 20066")
    assert worked.length.aim_mm == 1004
    assert worked.length.aimed_cut_mm == pytest.approx(worked.length.cut_mm + 4)


@QUIET
@given(st.integers(600, 2400))
def test_units_change_nothing(tenths: int) -> None:
    inches = worked_with(length__overall=f"{tenths / 10:g} in", use__peaks="3400 psi")
    metric = worked_with(length__overall=f"{tenths * 2.54:.6g} mm", use__peaks="234.422 bar")
    for one, other in zip(results(inches), results(metric), strict=True):
        if isinstance(one.value, float):
            assert one.value == pytest.approx(other.value, rel=1e-4), one.path


@pytest.mark.parametrize("a", [12, 3, 6, 9, 4, 7])
@pytest.mark.parametrize("b", [12, 3, 6, 10])
def test_the_angle_is_the_same_from_either_end(a: int, b: int) -> None:
    """Seen from the other end left and right change, and near and far with them."""
    there = worked_with(a__position=f"{a} o'clock", b__position=f"{b} o'clock", angle__angle="")
    back = worked_with(
        a__position=f"{12 - b or 12} o'clock" if b != 12 else "12 o'clock",
        b__position=f"{12 - a or 12} o'clock" if a != 12 else "12 o'clock",
        angle__angle="",
    )
    assert there.angle
    assert back.angle
    assert there.angle.angle == pytest.approx(back.angle.angle)


def test_an_angle_of_mil_dtl_83796_5() -> None:
    """Near elbow at 6 o'clock, counter-clockwise to a far one at 3 o'clock: 90 degrees."""
    worked = worked_with(a__position="6 o'clock", b__position="3 o'clock", angle__angle="")
    assert worked.angle
    assert worked.angle.angle == 90
    mirrored = worked_with(angle__angle="270 deg", angle__convention="mirrored").angle
    assert mirrored
    assert mirrored.angle == 90


@QUIET
@given(st.lists(st.one_of(st.none(), st.integers(10, 600)), min_size=5, max_size=5))
def test_the_whole_never_carries_more_than_a_known_part(bars: list[int | None]) -> None:
    paths = ("hose.rating", "a.rating", "a.port_rating", "b.rating", "b.port_rating")
    said = {
        path.replace(".", "__"): "" if bar is None else f"{bar} bar"
        for path, bar in zip(paths, bars, strict=True)
    }
    worked = worked_with(**said)
    for part in worked.parts:
        if part.supported_bar is not None:
            assert worked.rating.at_most_bar is not None
            assert worked.rating.at_most_bar <= part.supported_bar
    if any(part.supported_bar is None for part in worked.parts):
        assert worked.rating.bar is None
        assert worked.proof is None
        assert LOOK_UP in page_of(worked)


def test_a_pressure_without_its_source_is_none() -> None:
    assert worked_with(a__rating_from="").parts[1].supported_bar != 350
    assert worked_with(hose__data="").parts[0].source != "invented data sheet H-1"


def test_proof_is_by_the_rating_of_the_whole() -> None:
    """ISO 6605:2017, 5.2.1: twice the rating of the assembly, 30 to 60 s; here its port decides."""
    worked = worked_with(b__port_rating="210 bar", use__pressure="180 bar", use__peaks="200 bar")
    assert worked.proof
    assert (worked.proof.proof_bar, worked.proof.low_s, worked.proof.high_s) == (420, 30, 60)


def test_flow_of_a_worked_case() -> None:
    """v = 21.22 Q / d2 with Q in l/min and d in mm; both drops near the turn to turbulence."""
    pytest.importorskip("fluids")
    worked = worked_with(
        hose__new="2SN:12", hose__rating="", hose__bend="", use__bend_radius="",
        use__flow="60 l/min", use__viscosity="46 cSt", use__cold_viscosity="500 cSt",
        use__density="870 kg/m3", use__line="pressure",
    )  # fmt: skip
    assert worked.flow
    assert worked.flow.warm
    assert worked.flow.cold
    assert worked.flow.narrowest == "end A"
    assert worked.flow.velocity_m_s == pytest.approx(21.22 * 60 / 12**2, rel=1e-3)
    assert len(worked.flow.warm.bars) == 2
    assert worked.flow.cold.laminar


def test_without_the_library_the_rest_of_the_sheet_stands(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def missing() -> None:
        raise AssemblyError("The pressure drop needs the library.")

    monkeypatch.setattr(flow_module, "_library", missing)
    worked = worked_with(use__flow="60 l/min", use__viscosity="46 cSt", use__density="870 kg/m3")
    assert worked.flow
    assert worked.flow.warm is None
    assert "needs the library" in page_of(worked)
    assert findings(worked, KNOWN) == ()


# ---- nothing is proposed


def test_no_diameter_is_proposed() -> None:
    """Without a target there is no figure beside the step but the words of its rule."""
    worked = worked_with(making__dies="20 mm; 22 mm")
    assert worked.setting is None
    step = next(b for b in making_blocks(worked, (), KNOWN) if b.text.startswith("Squeeze."))
    assert not re.search(r"\d", " ".join(step.under))
    assert any("Target ____ mm" in text for text in step.under)


@QUIET
@given(st.integers(150, 500), st.lists(st.integers(120, 500), min_size=1, max_size=6))
def test_the_die_is_never_above_the_target(target: int, dies: list[int]) -> None:
    worked = worked_with(
        making__target=f"{target / 10} mm", making__data="invented data sheet E-3",
        making__dies="; ".join(f"{die / 10} mm" for die in dies), making__division="0.1 mm",
    )  # fmt: skip
    if min(dies) > target:
        assert worked.setting is None
        assert "refused-1" in found_with(
            making__target=f"{target / 10} mm", making__data="invented data sheet E-3",
            making__dies="; ".join(f"{die / 10} mm" for die in dies),
        )  # fmt: skip
        return
    assert worked.setting is not None
    assert worked.setting.die_mm == max(die for die in dies if die <= target) / 10
    assert worked.setting.die_mm + worked.setting.over_mm == pytest.approx(target / 10)
    assert worked.setting.divisions * 0.1 == pytest.approx(worked.setting.over_mm)


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        ("24.5 mm; 24.6 mm; 24.7 mm", "within its limits"),
        ("24.9 mm; 25.0 mm; 24.9 mm", "too large"),
        ("24.2 mm; 24.3 mm; 24.2 mm", "too small: scrap"),
        ("24.2 mm; 24.6 mm; 25.0 mm", "single diameters are not"),
    ],
)
def test_squeezed_diameters_are_judged(measured: str, said: str) -> None:
    page = page_of(worked_with(
        making__target="24.6 mm", making__plus="0.2 mm", making__minus="0.2 mm",
        making__data="invented data sheet E-3", making__squeezed_b=measured,
    ))  # fmt: skip
    assert said in " ".join(page.split())


def test_without_limits_nothing_is_judged() -> None:
    worked = worked_with(
        making__target="24.6 mm", making__data="invented data sheet E-3",
        making__squeezed_a="24.6 mm; 24.6 mm; 24.6 mm",
    )  # fmt: skip
    assert worked.judged == (None, None)


# ---- what somebody typed is only text

HOSTILE = (
    "<script>alert(1)</script>", "\"><img src=x onerror=alert(1)>", "\x1b[2J\x1b]0;owned\x07",
    "\u202eright to left", "</style><b>", "{{7*7}}", "&lt;", "_____", "a\x00b",
)  # fmt: skip


@pytest.mark.parametrize("text", HOSTILE, ids=ascii)
def test_hostile_words_are_inert(text: str) -> None:
    worked = worked_with(
        job__reference=text, job__machine=text, a__data=text, a__rating_from=text,
        use__routing=text, job__note=text, length__how=text,
    )  # fmt: skip
    found = findings(worked, KNOWN)
    html = sheet_page(worked, found, KNOWN, "a4")
    tags = set(re.findall(r"<\s*/?\s*([a-zA-Z!]+)", html))
    assert tags <= {
        "!DOCTYPE", "html", "head", "meta", "title", "style", "body", "h", "div", "p", "b", "span",
        "small", "table", "thead", "tbody", "tr", "th", "td",
        "figure", "svg", "desc", "g", "path", "rect", "circle", "text",
    }  # fmt: skip
    assert "\x1b" not in html
    assert "\x00" not in html
    assert "\u202e" not in html
    assert html.count("onerror") == html.count("onerror=alert(1)&gt;")


@QUIET
@given(st.dictionaries(st.sampled_from(sorted(BY_PATH)), st.text(max_size=40), max_size=8))
def test_any_text_is_read_or_refused_in_one_sentence(texts: dict[str, str]) -> None:
    filled = fill(GOOD | texts, KNOWN)
    assert {path for path, _ in filled.faults} <= set(texts)
    assert all(why.endswith((".", "?")) for _, why in filled.faults)
    worked = work_out(filled.sheet, KNOWN)
    assert page_of(worked)


@pytest.mark.parametrize(
    ("path", "text", "said"),
    [
        ("a.shape", "60", "write straight, 45, 90, banjo or block"),
        ("a.position", "13 o'clock", "is no position"),
        ("a.cut_off", "38.2", "has no unit"),
        ("a.cut_off", "38..39 mm", "is a span"),
        ("job.quantity", "0", "is no number of pieces"),
        ("job.quantity", "99999", "is no number of pieces"),
        ("use.temperature", "-10..80", "has no unit"),
        ("use.temperature", "80..-10 C", "no range of temperatures"),
        ("angle.angle", "361 deg", "is no angle here"),
        ("hose.new", "2SN:13", "Known: 2SN:5, 2SN:6"),
        ("hose.new", "9XX:12", "is no hose of the tables"),
        ("length.tolerance", "EN 853", "write din 20066 or sae j517"),
        ("making.clean", "13/16/18", "rises"),
        ("making.dies", "20; 22", "has no unit"),
        ("use.medium", "milk", "write mineral oil"),
        ("a.end", "nothing", "names no end"),
        ("a.colour", "red", "is no entry of a sheet"),
    ],
)
def test_a_slip_gets_one_sentence(path: str, text: str, said: str) -> None:
    with pytest.raises(WhichendError, match=re.escape(said)):
        read_entry(path, text, KNOWN)


# ---- the same sheet twice


def test_two_sheets_are_told_apart_by_entry_and_result() -> None:
    one, other = worked_with(), worked_with(length__overall="40 in")
    before = sheet_object(one, findings(one, KNOWN), KNOWN.made_with)
    after = sheet_object(other, findings(other, KNOWN), KNOWN.made_with)
    said = {each.title: (each.before, each.after) for each in changes(before, after, one)}
    assert said["Overall length"] == ("36 in", "40 in")
    assert said["Cut length [mm]"] == ("809.6", "911.2")
    assert changes(before, before, one) == ()


def test_a_sheet_of_older_tables_says_what_changed() -> None:
    worked = worked_with(hose__rating="")
    now = sheet_object(worked, findings(worked, KNOWN), KNOWN.made_with)
    old = {**now, "worked_out": {**now["worked_out"], "parts": {"hose_bar": 225.0}}}
    said = {each.title: (each.before, each.after) for each in changes(old, now, worked)}
    assert said["The hose [bar]"] == ("225", "250")


def test_a_sheet_begins_with_what_a_job_knows() -> None:
    texts = entries_of_hose(
        KnownEnd("orfs:-10:female", "90"), KnownEnd("", ""), "MAKER/EN 853/2SN/DN 16",
        {"quantity": "2", "machine": "", "measured_by": "R. T."},
    )  # fmt: skip
    assert texts == {
        "job.quantity": "2", "job.measured_by": "R. T.", "a.end": "orfs:-10:female",
        "a.shape": "90", "hose.line": "MAKER/EN 853/2SN/DN 16",
    }  # fmt: skip
    worked = work_out(fill(texts, KNOWN).sheet, KNOWN)
    assert worked.hose is not None
    assert worked.hose.id == "2SN:16"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("37 deg flare, -8", "37 degree flare, dash 8"),
        ("thread 3/4-16 UNF", "thread three quarters, 16 threads to the inch, UNF"),
        ("thread 1 1/16-12 UN", "thread 1 and one sixteenth, 12 threads to the inch, UN"),
        ("M22x1.5", "M22 by 1 point 5"),
        ("G1/2", "G one half"),
        ("12.5 mm", "12 point 5 millimetres"),
        ("+/-5 degrees", "plus or minus 5 degrees"),
    ],
)
def test_an_order_is_fit_to_be_read_aloud(written: str, said: str) -> None:
    assert spoken(written) == said
