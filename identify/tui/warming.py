"""What is got ready while somebody reads the first screens, a bit at a time.

Nothing here changes what is concluded: it imports what the interview screen needs, and looks at the
traits and answers that the first questions will look at.
"""

from collections.abc import Iterator
from importlib import import_module

from identify.interview.session import Observed, SessionState, apply, conclude
from identify.model.feature import Feature
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine

_LATER = (
    "identify.tui.screens.interview", "identify.reasoning.differences",
    "identify.reasoning.mating", "identify.reasoning.answers_again", "identify.tui.opening",
    "identify.jobs.journal",
)  # fmt: skip
_WITH_THE_FIRST_ANSWER = ("logging", "secrets", "filelock")
"""What locks the file of a job, in bits: it is as large as all else together."""
_GENDERS = ("male", "female")


def bits(engine: Engine) -> Iterator[str]:
    """Get ready bit by bit; yields the name of each bit when it is done."""
    for name in _LATER:
        import_module(name)
        yield name
    for feature in engine.chooser.questions:
        len(engine.space.spread(feature).traits)
    yield "what ends show"
    conclude(engine, SessionState())
    yield "nothing measured"
    for word in _GENDERS:
        answer = reading_from(Feature.GENDER, word)
        conclude(engine, apply(SessionState(), Observed(answer)))
        yield word
    for name in _WITH_THE_FIRST_ANSWER:
        import_module(name)
        yield name
