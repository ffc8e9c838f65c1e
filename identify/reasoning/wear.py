"""Whether a thread must be worn to give a reading: by its limits when new, and how parts wear."""

from identify.light import Sequence
from identify.model.feature import Feature
from identify.model.observation import ObservationModel
from identify.model.reading import Length, Reading
from identify.reasoning.density import between, worn
from identify.reasoning.subject import Subject
from identify.reasoning.traits import Interval, Trait
from identify.reasoning.weight import instrument, sigma_of

CERTAINLY_WORN = 0.95  # from this chance on a sound reading is said to be of a worn thread
_CRESTS = (Feature.THREAD_OD, Feature.THREAD_ID)


def wears(feature: Feature, trait: Trait, subject: Subject) -> Interval | None:
    """Return the limits, when new, of a thread that a small diameter shows to be worn.

    On a taper thread the diameter changes along it, so a small one is no sign of wear.

    Args:
        feature: What is read.
        trait: What this candidate shows of it, when new.
        subject: The candidate.
    """
    if feature not in _CRESTS or not isinstance(trait, Interval):
        return None
    return None if subject.thread is None or subject.thread.taper else trait


def is_worn(readings: Sequence[Reading], limits: Interval, model: ObservationModel) -> bool:
    """Tell whether every reading of a parallel thread says that it is worn, if it is this end.

    Args:
        readings: Of one feature.
        limits: As `wears` returns them.
        model: Errors and wear.
    """
    return all(_chance(each, limits, model) >= CERTAINLY_WORN for each in readings)


def _chance(reading: Reading, limits: Interval, model: ObservationModel) -> float:
    """Return the chance [0..1] that the part is worn, if the reading is no mistake."""
    if not isinstance(reading.value, Length):
        return 0.0
    slack = model.tolerances[reading.feature]
    sigma = sigma_of(reading.value, instrument(reading, model))
    mm, (low, high) = reading.value.mm, limits
    if slack.shrinks:
        mm, low, high = -mm, -high, -low
    old = slack.worn * worn(mm, low, high, sigma, slack.wear_mm)
    new = (1 - slack.worn) * between(mm, low, high, sigma)
    return old / (old + new) if old > 0 else 0.0
