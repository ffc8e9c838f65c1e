"""The model of readings for somebody of whom it was told how they measure."""

from identify.frozen import replace
from identify.model.observation import Instrument, ObservationModel
from identify.model.observer import Observer
from identify.model.rulebook import RuleBook

MOST_GROSS = 0.3  # no instrument is believed to be misread more often than this
MOST_WRONG = 0.6  # nor an eye to give a rare answer more often


def told(book: RuleBook, name: str) -> RuleBook:
    """Return the rules for readings of one kind of person, by name (`observer.CARES`)."""
    return replace(book, observation=with_care(book.observation, book.people.observers[name]))


def with_care(model: ObservationModel, observer: Observer) -> ObservationModel:
    """Return the model of readings that one kind of person takes.

    Not told, the model stands for everybody at once; `observer` says how this kind of person
    differs from that: spread and plain mistakes of instruments, wrong answers of the eye, leaves
    beside the one that fits, miscounts, half said for included.

    Args:
        model: As the rules have it for everybody.
        observer: Who measures, from the same rules.
    """
    return replace(
        model,
        instruments={
            kind: {how: _instrument(tool, observer) for how, tool in tools.items()}
            for kind, tools in model.instruments.items()
        },
        reports={
            feature: {truth: _reported(row, observer, model) for truth, row in rows.items()}
            for feature, rows in model.reports.items()
        },
        neighbour_leaf=observer.neighbour_leaf,
        miscount=observer.miscount,
        basis_slip=observer.mix_up,
    )


def _instrument(tool: Instrument, observer: Observer) -> Instrument:
    return Instrument(
        tool.sigma * observer.errors,
        tool.share * observer.errors,
        min(MOST_GROSS, tool.gross * observer.gross),
    )


def _reported(
    row: dict[str, float], observer: Observer, model: ObservationModel
) -> dict[str, float]:
    """Return how often each answer is given: rare ones are mistakes, made more or less often."""
    wrong = sum(share for share in row.values() if share <= model.rare_report)
    if not 0 < wrong < 1:
        return row
    factor = min(observer.eye, MOST_WRONG / wrong)
    scale = (1 - wrong * factor) / (1 - wrong)
    return {
        word: share * (factor if share <= model.rare_report else scale)
        for word, share in row.items()
    }
