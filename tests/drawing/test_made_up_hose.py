"""Both ends on one hose: every sort of end in every shape, and the clock face of two bent ends."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.drawing.ends import Sort, sort_of
from identify.drawing.made_up_hose import DrawnEnd, clock_face, made_up_hose
from identify.drawing.outline import Kind
from identify.drawing.render import render
from identify.drawing.svg import svg
from identify.model.sheet import EndShape
from tests.shipped import end_of, knowledge

FIRST = {sort_of(end): end.id for end in reversed(knowledge().catalogue.ends)}


def drawn(name: str, shape: EndShape | None, *, up: bool = False) -> DrawnEnd:
    end = end_of(name)
    return DrawnEnd(end, knowledge().catalogue.thread_of(end), shape, up)


@pytest.mark.parametrize("sort", Sort)
@pytest.mark.parametrize("shape", [None, *EndShape])
def test_every_end_can_be_drawn_on_a_hose(sort: Sort, shape: EndShape | None) -> None:
    sheet = made_up_hose(
        drawn(FIRST[sort], shape), drawn("orfs:-8:female", EndShape.BENT_90, up=True), 22.0,
        "overall 900 mm", "cut 800 mm",
    )  # fmt: skip
    assert all(math.isfinite(each) for each in sheet.bounds())
    assert end_of(FIRST[sort]).named in sheet.described
    assert len(render(sheet, 80, 20)) == 20
    assert "cut 800 mm" in svg(sheet, 0.5)


def test_an_unknown_end_is_a_box() -> None:
    nothing = DrawnEnd(None, None, None)
    sheet = made_up_hose(nothing, nothing, 22.0, "overall ____", "cut ____")
    assert "not named" in sheet.described


def test_a_bent_end_points_down_or_up_and_a_straight_one_neither() -> None:
    straight = drawn("orfs:-8:female", EndShape.STRAIGHT)
    for up in (False, True):
        bent = drawn("orfs:-8:female", EndShape.BENT_90, up=up)
        _, low, _, high = made_up_hose(straight, bent, 22.0, "overall", "cut").bounds()
        assert (high > -low) is up
    _, low, _, high = made_up_hose(straight, straight, 22.0, "overall", "cut").bounds()
    assert high == pytest.approx(-low, abs=1e-6)


def test_equal_ends_make_a_mirror_image() -> None:
    end = drawn("orfs:-8:female", EndShape.BENT_45)
    sheet = made_up_hose(end, end, 22.0, "overall", "cut")
    left, _, right, _ = sheet.bounds()
    points = {(round(x, 6), round(y, 6)) for line in sheet.lines for x, y in line.points}
    assert {(round(left + right - x, 6), y) for x, y in points} == points


@settings(deadline=None, max_examples=40)
@given(st.integers(0, 359))
def test_the_far_hand_stands_at_the_angle(turn: int) -> None:
    """A at 6 o'clock; counter-clockwise from there 90 degrees is 3 o'clock: to the right."""
    sheet = clock_face(float(turn), ("words",))
    (near,) = [line.points[1] for line in sheet.lines if line.kind is Kind.OUTLINE]
    (far,) = [line.points[1] for line in sheet.lines if line.kind is Kind.HIDDEN]
    assert near[1] < 0
    assert near[0] == pytest.approx(0)
    across, up = far[0] / math.hypot(*far), far[1] / math.hypot(*far)
    assert (across, up) == pytest.approx(
        (math.sin(math.radians(turn)), -math.cos(math.radians(turn))), abs=1e-9
    )


@pytest.mark.parametrize("turn", [0, 30, 90, 180, 225, 270, 345])
def test_a_clock_face_is_no_drawing_to_scale(turn: float) -> None:
    face = clock_face(turn, ("Count counter-clockwise.",))
    for drawn_face in ("\n".join(render(face, 60, 20)), svg(face)):
        assert "scale" not in drawn_face
        assert "mm, 1 dot" not in drawn_face
        assert f"B, far: {turn:g} deg on from A" in drawn_face
        assert "A, near: 6 o'clock" in drawn_face.replace("&#x27;", "'")


@pytest.mark.parametrize("shape", [EndShape.STRAIGHT, EndShape.BENT_90])
def test_the_length_is_drawn_to_the_seat_or_to_the_end_of_the_nut(shape: EndShape) -> None:
    other = drawn("orfs:-8:female", EndShape.STRAIGHT)
    thread = knowledge().catalogue.thread_of(end_of("flare37:-8:female"))
    to_seat, to_nut = (
        made_up_hose(
            DrawnEnd(end_of("flare37:-8:female"), thread, shape, to_nut=nut), other, 22.0, "", ""
        ).notes[0].at
        for nut in (False, True)
    )  # fmt: skip
    inside = math.dist(to_seat, to_nut)
    assert 2 < inside < 15
    along = 0 if shape is EndShape.STRAIGHT else 1
    assert abs(to_seat[along] - to_nut[along]) == pytest.approx(inside)
