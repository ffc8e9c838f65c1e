"""`whichend compare`: what it prints for pairs whose answer is known."""

import pytest

from identify.commands.compare import STYLES
from identify.entry import main
from tests.pages.told import pair_text
from tests.reasoning.tables import end

PAIRS = [
    ("flare37:-8:male", "flare45:-8:male"),
    ("cone24_L:15L:male", "cone24_S:14S:male"),
    ("flange61:1-in:flange", "flange62:1-in:flange"),
    ("jis30_g:G1/2:male", "bspp60:G1/2:female"),
    ("r_taper:R1/2:male", "npt:1/2-NPT:male"),
    ("qc7241a:12.5:male", "qc16028:16:male"),
    ("bonded_washer:M22x1.5:none-washer", "banjo_metric:M18x1.5:none-eye"),
]


@pytest.mark.parametrize(("one", "other"), PAIRS)
@pytest.mark.parametrize("style", STYLES)
def test_every_line_fits_80_columns(one: str, other: str, style: str) -> None:
    text = pair_text(end(one), end(other), style)
    assert max(map(len, text.splitlines())) <= 80
    assert "CAUTION" in text


def flat(one: str, other: str) -> str:
    return " ".join(pair_text(end(one), end(other)).split())


def test_same_gender_shows_both_mistakes() -> None:
    text = flat("flare37:-8:male", "flare45:-8:male")
    assert "B fitted where A was, on flare37:-8:female: threads run but it does not seal" in text
    assert "A fitted where B was, on flare45:-8:female: threads run but it does not seal" in text
    assert "angle of the seat: 37 deg half against 45 deg half, 8 deg apart (seat gauge)" in text


def test_twins_are_said_to_be_inseparable() -> None:
    text = flat("fr24_mm:tube-15:male", "cone24_L:15L:male")
    assert "No measurement of the end tells them apart." in text


def test_flanges_are_tried_both_ways() -> None:
    text = flat("flange61:1-in:flange", "flange62:1-in:flange")
    assert "Head of A on pad of B: bolts do not line up. Hazard high." in text
    assert "Head of B on pad of A: bolts do not line up. Hazard high." in text


def test_a_cone_in_a_funnel_of_another_angle_is_drawn_and_other_pairs_are_not() -> None:
    drawn = pair_text(end("flare37:-8:male"), end("flare45:-8:female"), "ascii")
    assert "solid 37d half, convex" in drawn
    assert "dashed 45d half, concave" in drawn
    for other in ("flare37:-8:female", "orb_un:-8:female"):
        assert "solid" not in pair_text(end("flare37:-8:male"), end(other), "ascii")


def test_command_prints_and_names_an_unknown_end(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "flare37:-4:male", "flare37:-4:female", "--drawing", "none"]) == 0
    out = capsys.readouterr().out
    assert "mates and seals. Hazard low." in " ".join(out.split())
    assert main(["compare", "flare37:-4:male", "no such end"]) == 2
    assert "no such end" in capsys.readouterr().err
