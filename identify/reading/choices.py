"""Answers in words: the choices of a feature, the outcome of a trial fit."""

from identify.errors import ReadingError, near_miss, quoted
from identify.light import re
from identify.model.feature import FEATURES, Feature, answers_named
from identify.model.reading import Choice, Outcome, Trial
from identify.reading.numbers import clean, exact_number, parse_number

MOST_TURNS = 40  # the project's bound on a slip of the keyboard

_WHERE = (
    "on the face, the nose, loose behind the thread, sunk in the shoulder or in the flange: write "
    "face, nose, boss, captive or flange"
)
_CONE = "that sticks out (write convex) or one that goes in (write concave)"
_QUESTIONS = {
    (Feature.O_RING, "yes"): f"does not say where the ring or its groove sits: {_WHERE}",
    (Feature.O_RING, "y"): f"does not say where the ring or its groove sits: {_WHERE}",
    (Feature.SEAT_SHAPE, "cone"): f"may be a cone {_CONE}",
    (Feature.SEAT_SHAPE, "conical"): f"may be a cone {_CONE}",
    (Feature.GENDER, "ring"): "may be a ring eye (write eye) or a sealing ring (write washer)",
}
_OUTCOMES = {
    Outcome.NO_START: ("does not start", "will not start", "no start"),
    Outcome.BINDS: ("binds", "tight", "jams"),
    Outcome.FULL: ("runs fully by hand", "runs fully", "fully by hand"),
    Outcome.LOOSE: ("loose",),
}
_OUTCOME_OF = {words: outcome for outcome, several in _OUTCOMES.items() for words in several}
_TRIAL_FORMS = (
    "write the known end, a colon and what happened: "
    '"G 1/4 female: 3 turns then tight", "…: runs fully by hand", "…: does not start" or "…: loose"'
)


def parse_choice(feature: Feature, text: str) -> Choice:
    """Read one of the answers a feature allows, or a plain synonym of one.

    Raises:
        ReadingError: It is none of them, or it leaves open which.
    """
    word = clean(text).lower().replace(" ", "-").replace("_", "-")
    if feature is Feature.FLANK_ANGLE:
        word = re.sub(r"-?(?:°|deg|degrees)$", "", word)
    choices = FEATURES[feature].choices
    if answer := answers_named(feature).get(word):
        return Choice(answer)
    if question := _QUESTIONS.get((feature, word)):
        raise ReadingError(f"{quoted(text)} {question}.")
    raise ReadingError(
        f"{quoted(text)} is none of {', '.join(choices)}{near_miss(word, choices) or '.'}"
    )


def parse_trial(text: str) -> Trial:
    """Read a trial fit: "G 1/4 female: 3 turns then tight", "…: runs fully by hand".

    Returns:
        The known end as typed, what happened, and the turns made where it bound.

    Raises:
        ReadingError: No known end, no outcome, or an impossible number of turns.
    """
    known, colon, rest = text.strip().rpartition(":")
    words = clean(rest).lower() if rest.strip() else ""
    bound = re.fullmatch(
        r"([0-9., /]+?) turns? (?:then|and) (?:it )?(?:binds|tight|jams)", words
    ) or re.fullmatch(r"(?:binds|tight|jams) after ([0-9., /]+?) turns?", words)
    if not colon or not known.strip() or not (bound or words in _OUTCOME_OF):
        raise ReadingError(f"{quoted(text)} is not a trial fit; {_TRIAL_FORMS}.")
    known = " ".join(known.split())
    if not bound:
        return Trial(known, _OUTCOME_OF[words])
    if not exact_number(bound[1]):
        raise ReadingError(f'{quoted(text)} has no turns; write "{known}: does not start".')
    turns = float(parse_number(bound[1]))
    if turns > MOST_TURNS:
        raise ReadingError(
            f"{quoted(text)} tells of more than {MOST_TURNS} turns, which is taken as a slip; "
            "count the turns again."
        )
    return Trial(known, Outcome.BINDS, turns)
