"""How figures are said, the same on every face."""


def percent(probability: float) -> str:
    """Return a probability as whole per cent; never 0 % or 100 %."""
    if probability > 0.99:
        return ">99 %"
    if probability < 0.01:
        return "<1 %"
    return f"{probability * 100:.0f} %"
