"""The closed forms against the normal table and against numeric integration."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.reasoning.density import anywhere, between, normal_cdf, worn

FINE = st.floats(-5, 5)


def integrate(function, low, high, steps=4000):
    """Midpoint rule; fine enough for the smooth functions here."""
    step = (high - low) / steps
    return step * sum(function(low + (i + 0.5) * step) for i in range(steps))


def test_one_sigma_outside_a_wide_band_is_the_normal_table():
    # Normal table: Phi(-1) = 0.158655. A band far wider than sigma is a half-line at its edge.
    assert between(-1.0, 0.0, 1000.0, 1.0) * 1000 == pytest.approx(0.158655, abs=1e-6)


def test_normal_cdf_is_the_printed_table():
    # Values of the standard normal table at 0.5, 1.96 and -2.33.
    assert normal_cdf(0.5) == pytest.approx(0.69146, abs=5e-6)
    assert normal_cdf(1.96) == pytest.approx(0.97500, abs=5e-6)
    assert normal_cdf(-2.33) == pytest.approx(0.00990, abs=5e-6)


@given(low=FINE, width=st.floats(0, 3), sigma=st.floats(0.02, 1))
def test_between_is_a_density(low, width, sigma):
    total = integrate(
        lambda x: between(x, low, low + width, sigma), low - 9 * sigma, low + width + 9 * sigma
    )
    assert total == pytest.approx(1, abs=1e-3)


@given(low=FINE, width=st.floats(0.05, 1), sigma=st.floats(0.02, 0.5), wear=st.floats(0.05, 1))
def test_worn_is_the_average_of_between_over_the_wear(low, width, sigma, wear):
    value = low + 0.3 * width + 0.4 * wear
    average = integrate(lambda w: between(value, low + w, low + width + w, sigma), 0, wear) / wear
    assert worn(value, low, low + width, sigma, wear) == pytest.approx(average, rel=2e-3, abs=1e-6)


@given(width=st.floats(0, 1e-4), value=st.floats(-1, 1))
def test_a_band_of_no_width_is_a_normal_error(width, value):
    plain = math.exp(-0.5 * (value / 0.3) ** 2) / (0.3 * math.sqrt(2 * math.pi))
    assert between(value, 0, width, 0.3) == pytest.approx(plain, rel=1e-3)


def test_anywhere_totals_one_over_its_span():
    assert integrate(lambda x: anywhere(x, 3, 180), 3, 180, 40_000) == pytest.approx(1, abs=1e-4)
