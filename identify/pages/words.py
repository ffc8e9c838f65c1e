"""Names of things in plain words, the same on every screen."""

from identify.model.connection import EndConnection, Rating
from identify.model.feature import FEATURES
from identify.model.rule import Access, Tool
from identify.model.verdict import Evidence, Hazard, Suspect

TOOLS = {
    Tool.CALIPER: "caliper",
    Tool.RULE: "steel rule",
    Tool.METRIC_GAUGE: "metric pitch gauge",
    Tool.INCH_GAUGE: "inch pitch gauge",
    Tool.SEAT_GAUGE: "seat gauges",
    Tool.PROTRACTOR: "protractor",
    Tool.COMBS: "printed comb page",
    Tool.KNOWN_ENDS: "parts of known thread",
    Tool.NONE: "eye and hand",
}
ACCESS = {
    Access.END_OFF: ("Undone, in my hand", "everything can be measured"),
    Access.END_ON_MACHINE: ("Still screwed together", "only the outside can be seen"),
    Access.HOSE_ONLY: ("Only the hose", "the end itself cannot be reached or is gone"),
}
HAZARDS = {
    Hazard.HIGH: ("!!!", "can injure"),
    Hazard.MEDIUM: ("!!", "may hold a test and weep later"),
    Hazard.LOW: ("!", "leaks or does not fit at once"),
}

NEITHER_NATS = 0.1  # evidence nearer to 0 than this speaks neither for nor against
_PLAIN_NATS, _STRONG_NATS = 0.7, 2.3  # natural logs: 2 times and 10 times likelier than chance


def strength_words(weight_nats: float) -> str:
    """Return how strongly a reading speaks for or against an end."""
    side = "for" if weight_nats > 0 else "against"
    size = abs(weight_nats)
    if size < NEITHER_NATS:
        return "says nothing either way"
    if size < _PLAIN_NATS:
        return f"speaks weakly {side} it"
    return f"speaks {side} it" if size < _STRONG_NATS else f"speaks strongly {side} it"


def reason_words(evidence: Evidence) -> str:
    """Return what one reading says of one end: the reading, the comparison, how strongly."""
    title = FEATURES[evidence.feature].title
    return f"{title}: {evidence.sentence}; {strength_words(evidence.weight_nats)}"


def suspect_words(suspect: Suspect) -> str:
    """Return why a reading is suspect, and what to do."""
    return f"{suspect.sentence} Take it again."


def retake_words(suspect: Suspect) -> str:
    """Return the same with the key first, for a pane that may cut off the end."""
    return f"r: retake it. {suspect.sentence}"


def end_words(end: EndConnection) -> str:
    """Return an end in one line: family, size, gender."""
    gender = {"none": "", "flange": ""}.get(end.gender, f", {end.gender}")
    return f"{end.title}{gender}"


def end_short(end: EndConnection) -> str:
    """Return an end for a narrow pane, where the last words may be cut: the size stands first."""
    gender = "" if end.gender in ("none", "flange") else f" {end.gender}"
    return f"{end.size}{gender}, {end.family_name}"


def likely_words(probability: float) -> str:
    """Return how likely something is, in words."""
    for least, words in ((0.95, "nearly sure"), (0.7, "likely"), (0.3, "possible")):
        if probability >= least:
            return words
    return "unlikely" if probability >= 0.05 else "very unlikely"


def bar(share: float, width: int) -> str:
    """Return a bar that fills `share` of `width` columns, to an eighth of a column."""
    eighths = max(1, round(share * width * 8)) if share > 0 else 0
    whole, rest = divmod(min(eighths, width * 8), 8)
    return ("█" * whole + ("", "▏", "▎", "▍", "▌", "▋", "▊", "▉")[rest]).ljust(width)


def rating_words(rating: Rating) -> str:
    """Return the working pressure the tables support, or that it is unknown."""
    note = f"; {rating.note}" if rating.note else ""
    if rating.bar is None:
        return f"Working pressure: unknown{note}."
    basis = f" ({rating.basis})" if rating.basis else ""
    return f"Working pressure: {rating.bar:g} bar at most{basis}{note}."
