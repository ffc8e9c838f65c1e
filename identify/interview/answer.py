"""An answer beside those that stand already."""

from identify.errors import ReadingError
from identify.interview.session import Observed, SessionState, apply
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.reading.consistency import check_spacings, check_trial

_SPACINGS = (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)


def check_answer(state: SessionState, reading: Reading) -> None:
    """Refuse a bolt spacing that makes the short way the longer one, and a trial that cannot be.

    Raises:
        ReadingError: It does; says which of the two to change first.
    """
    check_trial((reading,), state.gender)
    if reading.feature not in _SPACINGS:
        return
    try:
        check_spacings(apply(state, Observed(reading)).readings)
    except ReadingError:
        other = _SPACINGS[1 - _SPACINGS.index(reading.feature)]
        given = state.answer(other)
        way, side = ("long", "more") if other is _SPACINGS[0] else ("short", "less")
        raise ReadingError(
            f"You gave {given.entered if given else 'another'} the {way} way, and this is "
            f"{side}. Measure again; or with a change the {way} one first, then this one."
        ) from None
