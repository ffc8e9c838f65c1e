"""Every check of a sheet: silent on a good one, and said where one entry makes it wrong."""

import pytest

from identify.model.source import Support
from identify.model.verdict import Hazard
from identify.pages.sheet_checks import check_blocks
from identify.pages.sheet_making import making_blocks
from identify.pages.sheet_order import order_blocks_of
from identify.pages.text import text_of
from identify.reasoning.joint import Outcome
from identify.reasoning.mating import mate
from identify.sheets.belonging import findings
from identify.sheets.conclusion import Conclusion, conclusion, not_checked
from identify.sheets.filling import fill
from identify.sheets.finding import Grade
from identify.sheets.working import work_out
from tests.sheets.known import KNOWN, found_with, worked_with


def test_a_good_sheet_has_no_findings() -> None:
    assert found_with() == {}


FORBIDS, OPEN, MIND = Grade

# key, what it means for the hose, what is changed
WRONG = [
    ("joint-A", FORBIDS, {"a__port": "flare37:-10:male"}),  # seat
    ("joint-A", FORBIDS, {"a__port": "orfs:-12:male"}),  # size
    ("joint-A", FORBIDS, {"a__port": "orfs:-10:female"}),  # gender
    ("joint-B", FORBIDS, {"b__port": "bspp60:G5/8:male"}),  # thread
    ("series-A", FORBIDS, {"a__end": "cone24_L:15L:female-o-ring-nose", "a__port": "cone24_S:16S:male"}),  # noqa: E501
    ("series-B", FORBIDS, {"b__end": "flange61:1-in:flange", "b__port": "flange62:1-in:flange"}),
    ("series", MIND, {
        "a__end": "cone24_L:15L:female-o-ring-nose", "a__port": "cone24_L:15L:male",
        "b__end": "cone24_S:16S:female-o-ring-nose", "b__port": "cone24_S:16S:male",
    }),
    ("mixed", MIND, {"a__end": "flare37:-10:female", "a__port": "flare37:-10:male"}),
    ("hand-A", FORBIDS, {"a__hand": "right", "a__port_hand": "left"}),
    ("left-A", FORBIDS, {"a__hand": "left"}),
    ("fixed", FORBIDS, {"a__end": "orfs:-10:male", "a__port": "orfs:-10:female", "a__held": "fixed",
                     "b__end": "orfs:-10:male", "b__port": "orfs:-10:female", "b__held": "fixed"}),
    ("fixed", FORBIDS, {"a__end": "orfs:-10:male", "a__port": "orfs:-10:female", "a__held": "fixed",
                        "b__held": "fixed"}),
    ("below-end-A", MIND, {"a__rating": "240 bar"}),
    ("below-the-port-of-B", MIND, {"b__port_rating": "240 bar"}),
    ("pressure", FORBIDS, {"use__peaks": "251 bar"}),
    ("pressure", FORBIDS, {"b__port_rating": "200 bar"}),
    ("peaks", FORBIDS, {"use__peaks": "100 bar"}),
    ("bore-A", MIND, {"hose__new": "2SN:12"}),
    ("insert-A", FORBIDS, {"a__bore": "17 mm"}),
    ("old-bore", MIND, {"hose__bore": "12.7 mm"}),
    ("outside", FORBIDS, {"hose__bore": "16 mm", "hose__outside": "15 mm"}),
    ("weaker", MIND, {"hose__line": "MAKER/EN 856/4SP/DN 16/350 BAR/2Q20"}),
    ("medium", FORBIDS, {"use__medium": "phosphate ester"}),
    ("medium", FORBIDS, {"use__medium": "ester"}),
    ("medium-unknown", OPEN, {"use__medium": "fuel"}),
    ("medium-unknown", FORBIDS, {"use__medium": "air or gas"}),
    ("temperature", FORBIDS, {"use__temperature": "-10..101 C"}),
    ("temperature", FORBIDS, {"use__temperature": "-41..80 C"}),
    ("temperature", FORBIDS, {"use__temperature": "5..71 C", "use__medium": "water glycol"}),
    ("temperature", FORBIDS, {"use__temperature": "-1..60 C", "use__medium": "water"}),
    ("suction", OPEN, {"use__line": "suction"}),
    ("withdrawn", FORBIDS, {"hose__new": "R9:19"}),
    ("way", FORBIDS, {"use__route": "881 mm"}),  # 914.4 - 4 - (737.6 - 708.1)
    ("way", FORBIDS, {"use__route": "860 mm", "use__travel": "60 mm"}),
    ("bend", FORBIDS, {"use__bend_radius": "199 mm"}),
    ("room", FORBIDS, {"use__bend_radius": "300 mm", "use__bend_angle": "140 deg"}),
    ("budget", MIND, {"length__error": "6 mm"}),
    ("budget", FORBIDS, {"length__error": "12 mm"}),
    ("angle", OPEN, {"a__position": "", "angle__angle": ""}),
    ("two-angles", FORBIDS, {"angle__angle": "270 deg"}),
    ("two-angles", FORBIDS, {"angle__convention": "mirrored"}),
    ("no-angle", FORBIDS, {"a__shape": "straight"}),
    ("point-A", OPEN, {"a__end": "flare37:-10:female", "a__shape": "straight",
                       "a__port": "flare37:-10:male"}),
    ("refused-1", FORBIDS, {"length__overall": "100 mm"}),
    ("no-hose", OPEN, {"hose__new": "", "hose__line": "", "hose__bore": "16 mm"}),
    ("claimed-A", OPEN, {"a__known": "claimed"}),
    ("claimed-port-B", OPEN, {"b__port_known": "claimed"}),
    ("rating", OPEN, {"a__rating": ""}),
    ("rating", OPEN, {"b__port_rating_from": ""}),
    ("rating", OPEN, {"hose__new": "2SC:16", "hose__rating": ""}),
    ("old-hose", OPEN, {"hose__line": ""}),
    ("old-hose", OPEN, {"hose__line": "", "hose__bore": "16 mm", "hose__outside": "23.5 mm"}),
    ("other-hose", FORBIDS, {"hose__line": "MAKER FUEL SAE J30R9 5/8"}),
    ("other-hose", FORBIDS, {"hose__line": "MAKER BRAKE HOSE SAE J1401 1/8", "hose__new": ""}),
    ("tolerance-memory", OPEN, {"length__tolerance": "SAE J517"}),
    ("medium-unknown", OPEN, {"use__medium": "other"}),
    ("temperature-memory", OPEN, {"hose__new": "R3:16"}),
    ("bend-memory", OPEN, {"hose__new": "2ST:16", "hose__rating": "", "hose__data": "",
                           "use__bend_radius": "900 mm"}),
    ("guarded-A", FORBIDS, {"a__end": "brake_tube:M10x1:male"}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "grade", "changed"), WRONG, ids=lambda value: str(value)[:60])
def test_what_is_wrong_is_said(key: str, grade: Grade, changed: dict[str, str]) -> None:
    found = found_with(**changed)
    assert key in found
    assert found[key].grade is grade
    assert found[key].what.endswith(".")
    assert found[key].remedy.strip()


# each just on the right side of the bound that the one above is on the wrong side of
RIGHT = [
    ("pressure", {"use__peaks": "250 bar"}),
    ("temperature", {"use__temperature": "-40..100 C"}),
    ("temperature", {"use__temperature": "5..70 C", "use__medium": "water glycol"}),
    ("temperature", {"use__temperature": "0..60 C", "use__medium": "water"}),
    ("way", {"use__route": "880 mm"}),
    ("fixed", {"a__held": "fixed"}),
    ("fixed", {"a__end": "banjo_g:G3/8:none-eye", "a__held": "fixed", "b__held": "fixed"}),
    ("bend", {"use__bend_radius": "200 mm"}),
    ("two-angles", {"angle__angle": "360 deg", "a__position": "3 o'clock"}),
    ("hand-A", {"a__hand": "right", "a__port_hand": "right"}),
    ("weaker", {"hose__line": "MAKER/EN 853/2SN/DN 16/2Q20"}),
]


@pytest.mark.parametrize(("key", "changed"), RIGHT, ids=lambda value: str(value)[:60])
def test_what_is_right_is_not_said(key: str, changed: dict[str, str]) -> None:
    assert key not in found_with(**changed)


def test_what_the_tables_name_as_mates_never_forbids_a_hose() -> None:
    """A pair that seals only if made the right way is said, and does not forbid."""
    for end in KNOWN.catalogue.ends:
        for port in KNOWN.catalogue.mates_of(end):
            if end.refuse or port.refuse:
                continue
            made = mate(KNOWN.catalogue, end, port)
            sheet = fill({"a.end": end.id, "a.port": port.id}, KNOWN).sheet
            found = {each.key: each for each in findings(work_out(sheet, KNOWN), KNOWN)}
            if made.outcome is Outcome.SEALS and made.hazard is Hazard.LOW:
                assert "joint-A" not in found, (end.id, port.id)
            else:
                assert found["joint-A"].grade is MIND, (end.id, port.id)


def test_nothing_sounds_like_a_release() -> None:
    """While anything is open or missing the page says not to make the hose, and says what."""
    for changed in (
        {"a__known": "claimed"}, {"b__port_known": "claimed"}, {"a__rating": ""},
        {"a__known": ""}, {"a__port": ""}, {"use__medium": ""}, {"use__temperature": ""},
        {"use__peaks": ""}, {"hose__line": ""}, {"hose__new": "2SC:16", "hose__rating": ""},
    ):  # fmt: skip
        worked = worked_with(**changed)
        found = findings(worked, KNOWN)
        assert conclusion(worked, found) is not Conclusion.NOTHING_FOUND, changed
        said = text_of(check_blocks(worked, found))
        assert "Do not make this hose before" in said, changed
        assert "Do not order yet" in text_of(order_blocks_of(worked, found)), changed
        assert "Do not begin" in text_of(making_blocks(worked, found, KNOWN)), changed
    worked = worked_with()
    assert conclusion(worked, ()) is Conclusion.NOTHING_FOUND
    assert "the one who signs releases the hose" in " ".join(
        text_of(check_blocks(worked, ())).split()
    )
    assert "Unchecked" in text_of(check_blocks(worked, ()))


def test_figures_from_memory_are_named_beside_the_conclusion() -> None:
    said = text_of(check_blocks(worked_with(), ()))
    assert "By memory" not in said  # of this face seal the tables have what was seen
    end = next(
        each for each in KNOWN.catalogue.ends
        if each.provenance.basis is Support.FROM_MEMORY and not each.refuse
    )  # fmt: skip
    worked = worked_with(a__end=end.id, a__port=end.id)
    said = " ".join(text_of(check_blocks(worked, ())).split())
    assert "the figures of end A and the port of A from memory" in said


# key, words that its reason or remedy has, words that it has not, what is changed
SAID = [
    ("rating", "without its source counts as none", "", {"b__port_rating_from": ""}),
    ("rating", "no proof pressure", "without its source", {"a__rating": ""}),
    ("temperature", "with water glycol", "",
     {"use__temperature": "5..71 C", "use__medium": "water glycol"}),
    ("temperature", "-40 to 100 C;", " with ", {"use__temperature": "-10..101 C"}),
    ("budget", "Aim at 918.4 mm", "Measure more finely", {"length__error": "4 mm"}),
    ("budget", "Measure more finely. Aim at 918.4 mm", "", {"length__error": "7 mm"}),
    ("old-hose", "and no source states its figure", "",
     {"hose__line": "", "hose__bore": "16 mm", "hose__outside": "23.5 mm"}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "words", "others", "changed"), SAID, ids=lambda v: str(v)[:40])
def test_the_reason_is_that_of_this_hose(
    key: str, words: str, others: str, changed: dict[str, str]
) -> None:
    found = found_with(**changed)[key]
    said = f"{found.what} {found.why} {found.remedy}"
    assert words in said
    assert not others or others not in said


def test_what_could_not_be_checked_is_named() -> None:
    def unchecked(**changed: str) -> str:
        return "; ".join(not_checked(worked_with(**changed)))

    assert "bore of an end" not in unchecked()
    assert "bore of an end" in unchecked(b__bore="")
    assert "the cut length" in unchecked(a__cut_off="")
    assert "stays in its tolerance" in unchecked(length__error="")
    assert "long enough" in unchecked()
    assert "long enough" not in unchecked(use__route="800 mm")
    assert "its bends" not in unchecked(use__bend_radius="300 mm")
    flow = {"use__flow": "60 l/min", "use__density": "870 kg/m3"}
    assert "velocity" not in unchecked(**flow)
    assert "the pressure drop" in unchecked(**flow)
    assert "a cold start" in unchecked(**flow, use__viscosity="46 cSt")
    assert "the pressure drop" not in unchecked(**flow, use__viscosity="46 cSt")


def test_who_says_how_sharply_a_hose_bends_is_named() -> None:
    assert found_with(use__bend_radius="199 mm")["bend"].source == "invented data sheet H-1"
    of_tables = found_with(use__bend_radius="199 mm", hose__bend="")["bend"]
    assert (of_tables.source, "to 200 mm at least" in of_tables.what) == ("tables", True)
