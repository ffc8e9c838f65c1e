"""What an instrument shows: leaves drift as their pitches do, strips are of one length."""

import pytest

from identify.drawing.instruments import TEN, Lane, angle_on_display, comb_over, rule_under
from identify.drawing.render import render
from tests.shipped import knowledge

THREAD = knowledge().catalogue.threads["G 3/8"]


def test_only_the_leaf_of_the_pitch_fits_all_along() -> None:
    own = comb_over(THREAD, Lane("19 tpi", THREAD.pitch_mm))
    assert own.described == "Leaf 19 tpi: it fits all along."


@pytest.mark.parametrize(
    ("tpi", "words"), [(18, "0.6 of a pitch beyond"), (20, "0.5 of a pitch short of")]
)
def test_a_wrong_leaf_drifts_by_ten_times_the_difference(tpi: float, words: str) -> None:
    pitch = 25.4 / tpi
    sheet = comb_over(THREAD, Lane(f"{tpi} tpi", pitch))
    assert words in sheet.described
    leaf = max(sheet.lines, key=lambda line: len(line.points) * (line.points[0][0] < 0))
    teeth = sorted({round(x, 6) for x, y in leaf.points if y == min(y for _, y in leaf.points)})
    middles = [(a + b) / 2 for a, b in zip(teeth[::2], teeth[1::2], strict=True)]
    assert middles[0] == pytest.approx(0.0, abs=1e-5)
    assert middles[TEN] == pytest.approx(TEN * pitch, abs=1e-4)


def test_strips_and_rule_are_of_one_length() -> None:
    sheets = [comb_over(THREAD, Lane("x", 25.4 / tpi)) for tpi in (18, 19, 20)]
    sheets.append(rule_under(THREAD))
    assert len({(sheet.bounds()[0], sheet.bounds()[2]) for sheet in sheets}) == 1
    assert "ten pitches take 13.4 mm" in sheets[-1].described


def test_an_angle_is_drawn_with_the_number_of_the_display() -> None:
    drawn = "\n".join(render(angle_on_display(30.0, 60, across=True), 60, 14, "ascii"))
    assert "60" in drawn
    half = angle_on_display(30.0, 30, across=False)
    assert "from the axis to one side" in half.described
