"""Every check of a sheet: silent on a good one, and said where one entry makes it wrong."""

import pytest

from identify.model.verdict import Hazard
from identify.reasoning.joint import Outcome
from identify.reasoning.mating import mate
from identify.sheets.belonging import findings
from identify.sheets.filling import fill
from identify.sheets.working import work_out
from tests.sheets.known import KNOWN, found_with


def test_a_good_sheet_has_no_findings() -> None:
    assert found_with() == {}


# key, whether it forbids the hose, what is changed
WRONG = [
    ("joint-A", True, {"a__port": "flare37:-10:male"}),  # seat
    ("joint-A", True, {"a__port": "orfs:-12:male"}),  # size
    ("joint-A", True, {"a__port": "orfs:-10:female"}),  # gender
    ("joint-B", True, {"b__port": "bspp60:G5/8:male"}),  # thread
    ("series-A", True, {"a__end": "cone24_L:15L:female-o-ring-nose", "a__port": "cone24_S:16S:male"}),  # noqa: E501
    ("series-B", True, {"b__end": "flange61:1-in:flange", "b__port": "flange62:1-in:flange"}),
    ("series", False, {
        "a__end": "cone24_L:15L:female-o-ring-nose", "a__port": "cone24_L:15L:male",
        "b__end": "cone24_S:16S:female-o-ring-nose", "b__port": "cone24_S:16S:male",
    }),
    ("mixed", False, {"a__end": "flare37:-10:female", "a__port": "flare37:-10:male"}),
    ("hand-A", True, {"a__hand": "right", "a__port_hand": "left"}),
    ("left-A", True, {"a__hand": "left"}),
    ("fixed", True, {"a__end": "orfs:-10:male", "a__port": "orfs:-10:female", "a__held": "fixed",
                     "b__end": "orfs:-10:male", "b__port": "orfs:-10:female", "b__held": "fixed"}),
    ("below-end-A", False, {"a__rating": "240 bar"}),
    ("below-the-port-of-B", False, {"b__port_rating": "240 bar"}),
    ("pressure", True, {"use__peaks": "251 bar"}),
    ("pressure", True, {"b__port_rating": "200 bar"}),
    ("peaks", True, {"use__peaks": "100 bar"}),
    ("bore-A", False, {"hose__new": "2SN:12"}),
    ("insert-A", True, {"a__bore": "17 mm"}),
    ("old-bore", False, {"hose__bore": "12.7 mm"}),
    ("outside", True, {"hose__bore": "16 mm", "hose__outside": "15 mm"}),
    ("weaker", False, {"hose__line": "MAKER/EN 856/4SP/DN 16/350 BAR/2Q20"}),
    ("medium", True, {"use__medium": "phosphate ester"}),
    ("medium", True, {"use__medium": "ester"}),
    ("medium-unknown", False, {"use__medium": "fuel"}),
    ("medium-unknown", True, {"use__medium": "air or gas"}),
    ("temperature", True, {"use__temperature": "-10..101 C"}),
    ("temperature", True, {"use__temperature": "-41..80 C"}),
    ("temperature", True, {"use__temperature": "5..71 C", "use__medium": "water glycol"}),
    ("temperature", True, {"use__temperature": "-1..60 C", "use__medium": "water"}),
    ("suction", False, {"use__line": "suction"}),
    ("withdrawn", True, {"hose__new": "R9:19"}),
    ("way", True, {"use__route": "880 mm"}),
    ("way", True, {"use__route": "860 mm", "use__travel": "60 mm"}),
    ("bend", True, {"use__bend_radius": "199 mm"}),
    ("room", True, {"use__bend_radius": "300 mm", "use__bend_angle": "140 deg"}),
    ("budget", False, {"length__error": "8 mm"}),
    ("budget", True, {"length__error": "12 mm"}),
    ("angle", True, {"a__position": "", "angle__angle": ""}),
    ("two-angles", True, {"angle__angle": "270 deg"}),
    ("two-angles", True, {"angle__convention": "mirrored"}),
    ("no-angle", True, {"a__shape": "straight"}),
    ("point-A", True, {"a__end": "flare37:-10:female", "a__shape": "straight",
                       "a__port": "flare37:-10:male"}),
    ("refused-1", True, {"length__overall": "100 mm"}),
    ("no-hose", True, {"hose__new": "", "hose__bore": "16 mm"}),
    ("guarded-A", True, {"a__end": "brake_tube:M10x1:male"}),
]  # fmt: skip


@pytest.mark.parametrize(("key", "grave", "changed"), WRONG, ids=lambda value: str(value)[:60])
def test_what_is_wrong_is_said(key: str, grave: bool, changed: dict[str, str]) -> None:
    found = found_with(**changed)
    assert key in found
    assert found[key].grave is grave
    assert found[key].what.endswith(".")
    assert found[key].remedy.strip()


# each just on the right side of the bound that the one above is on the wrong side of
RIGHT = [
    ("pressure", {"use__peaks": "250 bar"}),
    ("temperature", {"use__temperature": "-40..100 C"}),
    ("temperature", {"use__temperature": "5..70 C", "use__medium": "water glycol"}),
    ("way", {"use__route": "870 mm"}),
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
                assert not found["joint-A"].grave, (end.id, port.id)
