"""Densities of a reading: a part between limits, perhaps worn, read with a normal error."""

import math

_SQRT2 = math.sqrt(2)
_SQRT_2PI = math.sqrt(2 * math.pi)
REACH = 8.0  # standard deviations beyond which a normal density is taken as 0


def normal_pdf(z: float) -> float:
    """Return the standard normal density at `z`."""
    return math.exp(-0.5 * z * z) / _SQRT_2PI


def normal_cdf(z: float) -> float:
    """Return the standard normal distribution function at `z`."""
    return 0.5 * (1.0 + math.erf(z / _SQRT2))


def normal_cdf_integral(z: float) -> float:
    """Return the integral of the normal distribution function from minus infinity to `z`."""
    return z * normal_cdf(z) + normal_pdf(z)


def between(value: float, low: float, high: float, sigma: float) -> float:
    """Weigh a reading of a part that lies anywhere between two limits.

    Args:
        value: The reading [mm].
        low: Lower limit [mm].
        high: Upper limit [mm], not below `low`.
        sigma: Standard deviation of the reading [mm], above 0.

    Returns:
        Density [1/mm].

    Source:
        Uniform on the limits convolved with a normal error (textbook result).
    """
    if value < low - REACH * sigma or value > high + REACH * sigma:
        return 0.0
    width = high - low
    if width < 1e-6 * sigma:
        return normal_pdf((value - low) / sigma) / sigma
    return (normal_cdf((value - low) / sigma) - normal_cdf((value - high) / sigma)) / width


def worn(value: float, low: float, high: float, sigma: float, wear: float) -> float:
    """Weigh a reading of a part whose dimension has grown by anything from 0 to `wear`.

    The new part lies uniformly between the limits, the wear uniformly between 0 and `wear`: their
    sum is a trapezoid, which the normal error rounds. For wear that shrinks a dimension pass the
    mirrored values.

    Args:
        value: The reading [mm].
        low: Lower limit of the new part [mm].
        high: Upper limit of the new part [mm].
        sigma: Standard deviation of the reading [mm], above 0.
        wear: Most that wear adds [mm], above 0.

    Returns:
        Density [1/mm].

    Source:
        Convolution of two uniforms and a normal (textbook result, closed form).
    """
    if value < low - REACH * sigma or value > high + wear + REACH * sigma:
        return 0.0
    width = high - low
    if width < 1e-3 * sigma:
        return between(value, low, low + wear, sigma)
    step = normal_cdf_integral
    area = (
        step((value - low) / sigma)
        - step((value - high) / sigma)
        - step((value - low - wear) / sigma)
        + step((value - high - wear) / sigma)
    )
    return max(0.0, area * sigma / (width * wear))


def log_normal(value: float, middle: float, spread: float) -> float:
    """Weigh a length whose logarithm is normal about that of `middle` [mm], density [1/mm]."""
    return normal_pdf(math.log(value / middle) / spread) / (value * spread)


def anywhere(value: float, low: float, high: float) -> float:
    """Weigh a reading of which nothing is known but a span: uniform in its logarithm [1/mm]."""
    return 1.0 / (max(value, low) * math.log(high / low))
