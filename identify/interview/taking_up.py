"""A saved interview under the tables of today."""

from dataclasses import replace

from identify.errors import ReadingError
from identify.interview.journal import Saved
from identify.interview.session import Event, Observed, conclude, replay
from identify.model.reading import Trial
from identify.reasoning.engine import Engine


def weighable(engine: Engine, saved: Saved) -> Saved:
    """Return a saved interview without trials on parts that these tables do not name.

    They count as lines that could not be read, so that nothing is written behind them.
    """
    kept = tuple(event for event in saved.events if not _trial(event))
    if len(kept) == len(saved.events):
        return saved
    try:
        conclude(engine, replay(saved.events))
    except ReadingError:
        return replace(saved, events=kept, unread=saved.unread + len(saved.events) - len(kept))
    return saved


def _trial(event: Event) -> bool:
    return isinstance(event, Observed) and isinstance(event.reading.value, Trial)
