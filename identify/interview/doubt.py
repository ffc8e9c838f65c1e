"""A count that may be a miscount, asked about before it is taken."""

from identify.model.catalogue import Catalogue
from identify.model.reading import Pitch, Reading
from identify.model.verdict import Verdict

LEAST_STANDING = 0.01  # an end of less probability is no reason to doubt a count
MOST_KNOWN = 0.5  # of the probability, what the leading ends must hold
MOST_GAPS = 30
OFF_MM = 0.3  # of a length over several gaps; about twice the error of a caliper on crests


def doubt_of(reading: Reading, verdict: Verdict, catalogue: Catalogue) -> str:
    """Return what to ask of a pitch that fits an end that stands only if counted otherwise.

    Args:
        reading: What was typed.
        verdict: Before it was.
        catalogue: For the threads of the ends.

    Returns:
        The question, empty where there is nothing to doubt.
    """
    value = reading.value
    if not isinstance(value, Pitch) or not value.pitches or not verdict.readings:
        return ""
    leading = [each for each in verdict.ranking if each.probability >= LEAST_STANDING]
    if sum(each.probability for each in leading) < MOST_KNOWN:
        return ""
    standing = {
        thread.pitch_mm
        for each in leading
        for end in (each.end, *each.twins, *(form.end for form in each.forms))
        if (thread := catalogue.thread_of(end)) is not None
    }
    over = value.mm * value.pitches
    if not standing or any(abs(over - value.pitches * mm) <= OFF_MM for mm in standing):
        return ""
    fits = [
        (abs(over - gaps * mm), gaps, mm)
        for mm in standing
        for gaps in range(2, MOST_GAPS + 1)
        if abs(over - gaps * mm) <= OFF_MM
    ]
    if not fits:
        return ""
    near = min(fits, key=lambda fit: (abs(fit[1] - value.pitches), fit[0]))
    return (
        f"Over {value.pitches:g} gaps that would be a pitch of {value.mm:.3g} mm, which no leading "
        f"end has. Did you count {near[1]}? That would be {over / near[1]:.3g} mm."
    )
