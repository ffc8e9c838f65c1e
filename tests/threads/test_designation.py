"""A designation read back to its numbers."""

from fractions import Fraction

import pytest

from identify.threads.designation import Designation, parse
from identify.threads.profile import half_up, mixed_number


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("M12x1.5", Designation("M", "M", Fraction(12), pitch_mm=1.5)),
        ("M12x1.5 keg", Designation("M-TAPER", "M", Fraction(12), pitch_mm=1.5)),
        ("1 1/16-12 UN", Designation("UN", "UN", Fraction(17, 16), tpi=12)),
        ("7/16-20 UNF", Designation("UN", "UNF", Fraction(7, 16), tpi=20)),
        ("G 1 1/4", Designation("G", "G", Fraction(5, 4))),
        ("R 1/4", Designation("ISO7", "R", Fraction(1, 4))),
        ("Rc 1/4", Designation("ISO7", "Rc", Fraction(1, 4))),
        ("Rp 1/4", Designation("ISO7", "Rp", Fraction(1, 4))),
        ("1-11.5 NPT", Designation("NPT", "NPT", Fraction(1), tpi=11.5)),
        ("1-11.5 NPTF", Designation("NPTF", "NPTF", Fraction(1), tpi=11.5)),
        ("3/4-11.5 NH", Designation("NH", "NH", Fraction(3, 4), tpi=11.5)),
    ],
)
def test_parse(text: str, said: Designation):
    assert parse(text) == said


@pytest.mark.parametrize(
    "text",
    [
        "",
        "M12",
        "M 12x1.5",
        "12x1.5",
        "7/16-20",
        "7/16-20 XYZ",
        "G",
        "G 1/0",
        "1/2/3-20 UN",
        "R1/4",
    ],
)
def test_refuses_what_no_standard_writes(text: str):
    with pytest.raises(ValueError, match="not a"):
        parse(text)


@pytest.mark.parametrize("text", ["", "x", "1 2 3", "1/2 1", "1/0"])
def test_mixed_number_refuses(text: str):
    with pytest.raises(ValueError, match="is not a number"):
        mixed_number(text)


@pytest.mark.parametrize(
    ("value", "places", "rounded"),
    [(0.81349, 3, 0.813), (0.8135, 3, 0.814), (1.00005, 4, 1.0001), (0.99995, 4, 1.0)],
)
def test_half_up(value: float, places: int, rounded: float):
    assert half_up(value, places) == pytest.approx(rounded, abs=1e-12)
