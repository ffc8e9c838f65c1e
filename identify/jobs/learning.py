"""What a shop has fitted, by its jobs: all that learning knows; pure."""

from collections.abc import Iterable, Iterator

from identify.jobs.facts import Fate
from identify.jobs.job import Job
from identify.model.learnt import Fitted
from identify.model.verdict import VerdictKind


def fitted_in(job: Job) -> Iterator[tuple[str, str]]:
    """Yield each end of a job that was identified, made and fitted: its id, and on which day.

    One that came back counts for nothing, nor does one whose readings were changed since, nor a
    discarded job.
    """
    for _, end in job.ends:
        outcome, verdict = end.outcome, end.verdict
        fitted = outcome is not None and outcome.fate is Fate.FITTED
        if not fitted or verdict is None or end.changed or job.discarded:
            continue
        if verdict.kind is VerdictKind.IDENTIFIED and verdict.ends and outcome:
            yield verdict.ends[0].id, outcome.at[:10]


def counted(fitted: Iterable[tuple[str, str]]) -> dict[str, Fitted]:
    """Return how often each end was fitted, and when last."""
    out: dict[str, Fitted] = {}
    for name, day in fitted:
        before = out.get(name, Fitted(0, ""))
        out[name] = Fitted(before.count + 1, max(before.last, day))
    return out
