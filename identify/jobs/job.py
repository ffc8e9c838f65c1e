"""A job with its hoses and their ends, and how one step changes it; pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from identify.frozen import TYPE_CHECKING, dataclass, replace
from identify.interview.session import (
    Claimed,
    Event,
    GivenUp,
    Observed,
    Unclaimed,
    claims_after,
)
from identify.jobs.facts import (
    FIRST,
    OF_END,
    OF_HOSE,
    Back,
    Concluded,
    Corrected,
    Discarded,
    Field,
    Finished,
    Noted,
    Place,
    Reopened,
    Settled,
    Step,
)

if TYPE_CHECKING:
    from typing import Any

Entry = tuple[Place, Step]
"""One line of a file: of which end, and what."""


@dataclass(frozen=True, slots=True)
class End:
    """One end of a hose.

    `events` are the answers and claims that stand, in the order given (`interview.session.replay`
    makes the state of them). `verdict` is the last that was given, `changed` tells that answers
    were given or taken back since. `finished` tells that the interview is not offered again.
    """

    events: tuple[Event, ...] = ()
    shape: str = ""
    verdict: Concluded | None = None
    changed: bool = False
    outcome: Settled | None = None
    corrections: tuple[Corrected, ...] = ()
    finished: bool = False

    @property
    def claims(self) -> tuple[Claimed, ...]:
        """What was said that it is, in the order said."""
        said: tuple[Claimed, ...] = ()
        for event in self.events:
            said = claims_after(said, event)
        return said

    @property
    def answered(self) -> bool:
        """Tell whether anything was measured or given up."""
        return any(isinstance(event, Observed | GivenUp) for event in self.events)


@dataclass(frozen=True, slots=True)
class Hose:
    """A hose: how many are wanted, what is printed on it, and both ends."""

    quantity: str = ""
    printed: str = ""
    a: End = End()
    b: End = End()


@dataclass(frozen=True, slots=True)
class Job:
    """A job: what a customer brought. Every text is as it was typed, "" where nobody said it."""

    reference: str
    begun: str
    customer: str = ""
    machine: str = ""
    bag: str = ""
    measured_by: str = ""
    checked_by: str = ""
    notes: tuple[str, ...] = ()
    hoses: tuple[Hose, ...] = (Hose(),)
    discarded: bool = False

    def end(self, place: Place = FIRST) -> End:
        """Return an end; an empty one where the job has no such hose."""
        if place.hose > len(self.hoses):
            return End()
        hose = self.hoses[place.hose - 1]
        return hose.a if place.side == "A" else hose.b

    @property
    def ends(self) -> Iterator[tuple[Place, End]]:
        """Every end of every hose, in order."""
        for number, hose in enumerate(self.hoses, 1):
            yield Place(number, "A"), hose.a
            yield Place(number, "B"), hose.b

    @property
    def empty(self) -> bool:
        """Tell whether there is nothing in it to be found again."""
        told = self.customer or self.machine or self.bag or self.notes
        return not told and not any(
            end.answered or end.claims or end.verdict for _, end in self.ends
        )


def changed(job: Job, place: Place, step: Step) -> Job:
    """Return a job after one more step.

    Args:
        job: Before.
        place: The end that the step is about; its hose alone matters to a fact of a hose, and
            nothing of it to a fact of the job.
        step: What happened.
    """
    if isinstance(step, Discarded):
        return replace(job, discarded=True)
    if isinstance(step, Noted) and step.field not in OF_HOSE | OF_END:
        return _told(job, step)
    if isinstance(step, Reopened):
        job = replace(job, discarded=False)
    count = max(len(job.hoses), place.hose)
    hoses = [*job.hoses, *(Hose() for _ in range(count - len(job.hoses)))]
    hose = hoses[place.hose - 1]
    if isinstance(step, Noted) and step.field in OF_HOSE:
        said: dict[str, Any] = {str(step.field): step.value}
        hose = replace(hose, **said)
    elif place.side == "A":
        hose = replace(hose, a=_end_after(hose.a, step))
    else:
        hose = replace(hose, b=_end_after(hose.b, step))
    hoses[place.hose - 1] = hose
    return replace(job, hoses=tuple(hoses))


def job_of(reference: str, begun: str, entries: Iterable[Entry]) -> Job:
    """Return the job that steps add up to."""
    job = Job(reference, begun)
    for place, step in entries:
        job = changed(job, place, step)
    return job


def _told(job: Job, step: Noted) -> Job:
    if step.field is Field.NOTE:
        return replace(job, notes=(*job.notes, step.value) if step.value else ())
    said: dict[str, Any] = {str(step.field): step.value}
    return replace(job, **said)


def _end_after(end: End, step: Step) -> End:
    match step:
        case Back():
            return replace(end, events=end.events[:-1], changed=_moved(end, *end.events[-1:]))
        case Noted():
            return replace(end, shape=step.value)
        case Concluded():
            return replace(end, verdict=step, changed=False)
        case Settled():
            return replace(end, outcome=step)
        case Corrected():
            return replace(end, corrections=(*end.corrections, step))
        case Finished():
            return replace(end, finished=True)
        case Reopened():
            return replace(end, finished=False)
        case Discarded():
            return end
    return replace(end, events=(*end.events, step), changed=_moved(end, step))


def _moved(end: End, *events: Event) -> bool:
    """Tell whether the verdict on an end is older than its answers once these come or go."""
    weighed = any(not isinstance(event, Claimed | Unclaimed) for event in events)
    return end.changed or (weighed and end.verdict is not None)
