"""Ratios of ours against the standard library's fractions."""

import operator
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.ratio import Ratio

WHOLE = st.integers(-(10**12), 10**12)
PAIRS = st.tuples(WHOLE, WHOLE.filter(bool))
BOTH = st.tuples(PAIRS, PAIRS)
WAYS = [
    operator.add, operator.sub, operator.mul, operator.truediv,
    operator.lt, operator.le, operator.gt, operator.ge, operator.eq, operator.ne,
]  # fmt: skip


def same(ours: object, theirs: object) -> bool:
    if isinstance(ours, Ratio) and isinstance(theirs, Fraction):
        return (ours.numerator, ours.denominator) == (theirs.numerator, theirs.denominator)
    return ours is theirs


@pytest.mark.parametrize("way", WAYS)
@given(BOTH)
def test_two_reckon_as_fractions(way: operator.attrgetter, pairs: tuple) -> None:  # type: ignore[type-arg]
    one, other = pairs
    if way is operator.truediv and not other[0]:
        with pytest.raises(ZeroDivisionError):
            Ratio(*one) / Ratio(*other)
        return
    assert same(way(Ratio(*one), Ratio(*other)), way(Fraction(*one), Fraction(*other)))
    assert same(way(Ratio(*one), other[1]), way(Fraction(*one), other[1]))
    if way not in (operator.add, operator.sub, operator.mul, operator.truediv):
        assert way(Ratio(*one), 0.5) is way(Fraction(*one), 0.5)
    if one[0]:
        assert same(way(other[1], Ratio(*one)), way(other[1], Fraction(*one)))


@given(PAIRS)
def test_one_is_the_number_it_says(pair: tuple[int, int]) -> None:
    ours, theirs = Ratio(*pair), Fraction(*pair)
    assert float(ours) == float(theirs)
    assert bool(ours) is bool(theirs)
    assert same(abs(ours), abs(theirs))
    assert same(-ours, -theirs)
    assert hash(ours) == hash(Ratio(pair[0] * 3, pair[1] * 3))
    assert ours == theirs
    assert ours.denominator > 1 or hash(ours) == hash(ours.numerator)


def test_nothing_is_over_nought_and_nothing_changes() -> None:
    with pytest.raises(ZeroDivisionError):
        Ratio(1, 0)
    with pytest.raises(AttributeError):
        Ratio(1, 2).numerator = 3
    assert Ratio(1, 2) != "1/2"
