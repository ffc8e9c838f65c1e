"""Exact ratios of whole numbers: what a typed "20.9" or "13/16" is before it is rounded once.

The standard library's fractions bring decimals and a tower of numbers along, which take longer to
import than a ranking takes; `tests/test_ratio.py` holds the two against each other.
"""

from __future__ import annotations

from math import gcd


class Ratio:
    """A whole number over another above 0, in lowest terms; frozen, reckons with `int`.

    Raises:
        ZeroDivisionError: It is over 0.
    """

    __slots__ = ("denominator", "numerator")
    numerator: int
    denominator: int

    def __init__(self, numerator: int, denominator: int = 1) -> None:
        if not denominator:
            raise ZeroDivisionError(f"{numerator} over 0")
        common = gcd(numerator, denominator) * (-1 if denominator < 0 else 1)
        object.__setattr__(self, "numerator", numerator // common)
        object.__setattr__(self, "denominator", denominator // common)

    def __setattr__(self, name: str, value: object) -> None:
        raise AttributeError("a ratio does not change")

    def __repr__(self) -> str:
        return f"Ratio({self.numerator}, {self.denominator})"

    def __add__(self, other: Ratio | int) -> Ratio:
        over = other.denominator
        top = self.numerator * over + other.numerator * self.denominator
        return Ratio(top, self.denominator * over)

    __radd__ = __add__

    def __neg__(self) -> Ratio:
        return Ratio(-self.numerator, self.denominator)

    def __abs__(self) -> Ratio:
        return Ratio(abs(self.numerator), self.denominator)

    def __sub__(self, other: Ratio | int) -> Ratio:
        return self + -other

    def __rsub__(self, other: int) -> Ratio:
        return -self + other

    def __mul__(self, other: Ratio | int) -> Ratio:
        return Ratio(self.numerator * other.numerator, self.denominator * other.denominator)

    __rmul__ = __mul__

    def __truediv__(self, other: Ratio | int) -> Ratio:
        return Ratio(self.numerator * other.denominator, self.denominator * other.numerator)

    def __rtruediv__(self, other: int) -> Ratio:
        return Ratio(other * self.denominator, self.numerator)

    def __float__(self) -> float:
        return self.numerator / self.denominator

    def __bool__(self) -> bool:
        return bool(self.numerator)

    def __eq__(self, other: object) -> bool:
        over = getattr(other, "denominator", None)  # of a whole number or a fraction
        return self.denominator == over and self.numerator == getattr(other, "numerator", None)

    def __hash__(self) -> int:
        whole = self.denominator == 1
        return hash(self.numerator) if whole else hash((self.numerator, self.denominator))

    def __lt__(self, other: Ratio | float) -> bool:
        top, over = other.as_integer_ratio()
        return self.numerator * over < top * self.denominator

    def __le__(self, other: Ratio | float) -> bool:
        top, over = other.as_integer_ratio()
        return self.numerator * over <= top * self.denominator

    def __gt__(self, other: Ratio | float) -> bool:
        return not self <= other

    def __ge__(self, other: Ratio | float) -> bool:
        return not self < other

    def as_integer_ratio(self) -> tuple[int, int]:
        """Return the two numbers, as every number of Python does."""
        return self.numerator, self.denominator
