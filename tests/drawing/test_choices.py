"""The signs of answers: each answer that the eye gives has one, unlike those beside it."""

from itertools import combinations

import pytest

from identify.drawing.choices import FRAME, choice_sheet
from identify.drawing.outline import Kind
from identify.drawing.render import render_sign
from identify.drawing.style import Style
from identify.model.feature import Feature
from identify.model.rule import Tool
from tests.shipped import knowledge

BY_EYE = (
    Feature.GENDER, Feature.MOUNT, Feature.TAPER, Feature.HAND, Feature.SEAT_SHAPE,
    Feature.SEAT_ANGLE, Feature.O_RING, Feature.PORT_RIDGE,
)  # fmt: skip
ASKED = [
    pytest.param(feature, gender, id=f"{feature}-{gender}")
    for feature in BY_EYE
    for gender in (None, "male", "female")
]


def choices(feature, gender):
    """Return the words listed when a question is put to the eye."""
    text = knowledge().book.question(feature).put(Tool.NONE, gender)
    return [choice.word for choice in text.choices]


@pytest.mark.parametrize(("feature", "gender"), ASKED)
def test_each_answer_has_a_sign_within_the_frame(feature, gender):
    words = choices(feature, gender)
    assert words
    left, bottom, right, top = FRAME
    for word in words:
        low, down, high, up = choice_sheet(feature, word, gender).bounds()
        assert left <= low < high <= right, word
        assert bottom <= down < up <= top, word


@pytest.mark.parametrize("style", [Style.BRAILLE, Style.BLOCKS])  # those of the full screen
@pytest.mark.parametrize(("feature", "gender"), ASKED)
def test_no_two_answers_look_alike_even_when_small(feature, gender, style):
    drawn = [
        render_sign(choice_sheet(feature, word, gender), FRAME, 8, 4, style)
        for word in choices(feature, gender)
    ]
    for one, other in combinations(drawn, 2):
        assert one != other
    assert all({len(row) for row in each} == {8} and len(each) == 4 for each in drawn)


def test_what_has_no_sign_says_so():
    assert choice_sheet(Feature.MATERIAL, "steel", None) is None
    assert choice_sheet(Feature.TAPER, "wobbly", "male") is None


def test_a_wider_seat_has_a_wider_sign():
    def slope(word):
        lines = choice_sheet(Feature.SEAT_ANGLE, word, None).lines
        sides = [line.points for line in lines if line.kind is Kind.OUTLINE]
        return max(abs(y1 - y0) / (x1 - x0) for (x0, y0), (x1, y1) in sides if x1 > x0)

    slim, middling, wide = (slope(word) for word in choices(Feature.SEAT_ANGLE, None))
    assert slim < middling < wide
