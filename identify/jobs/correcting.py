"""What a correction adds to a job; pure but for the state of the tables."""

from collections.abc import Iterable
from pathlib import Path

from identify.errors import ReadingError, quoted
from identify.interview.session import Observed, apply, replay
from identify.jobs.concluding import reckoned
from identify.jobs.facts import (
    LONGEST_TEXT,
    OF_HOSE,
    Corrected,
    Fate,
    Field,
    Place,
    Settled,
    Step,
    noted,
)
from identify.jobs.job import Job
from identify.reading.consistency import check_spacings
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine

OUTCOME = "outcome"


def corrections(
    job: Job,
    place: Place,
    pairs: Iterable[tuple[str, str]],
    engine: Engine,
    tables: Path | None,
    *,
    at: str,
    why: str = "",
    by: str = "",
) -> tuple[Step, ...]:
    """Return the steps that corrections add to a job.

    Args:
        job: As it stands.
        place: The end that readings, shape and outcome are about.
        pairs: Name and value as typed: a field of a job, "outcome", or the name of a reading.
        engine: Reads names of threads, and reckons again where a reading changed.
        tables: The user's own folder of tables, that `engine` has too.
        at: When, in UTC.
        why: What was wrong; of an outcome, why it came back.
        by: Who says so.

    Raises:
        ReadingError: A name or value is none, or the readings cannot be weighed together.
    """
    if max(len(why), len(by)) > LONGEST_TEXT:
        raise ReadingError(f"A reason or name has at most {LONGEST_TEXT} characters.")
    steps: list[Step] = []
    state = replay(job.end(place).events)
    answers = state.answers
    for name, value in pairs:
        plain = name.strip().lower().replace("-", "_").replace(" ", "_")
        if plain == OUTCOME:
            steps.append(Settled(_fate(value), why, at))
        elif plain in list(Field):
            fact = noted(plain, value)
            before = _standing(job, place, fact.field)
            if before and fact.field is not Field.NOTE:
                steps.append(Corrected(fact.field, before, fact.value, why, by, at))
            steps.append(fact)
        else:
            reading = reading_from(plain, value, threads=engine.catalogue.threads)
            said = "; ".join(each.entered for each in state.given(reading.feature))
            if said:
                steps.append(
                    Corrected(reading.feature, said[:LONGEST_TEXT], reading.entered, why, by, at)
                )
            steps.append(Observed(reading))
            state = apply(state, Observed(reading))
    if state.answers != answers:
        check_spacings(state.readings)
        steps.append(reckoned(state, engine, tables, at))
    return tuple(steps)


def _fate(text: str) -> Fate:
    plain = " ".join(text.lower().replace("_", " ").split())
    if plain not in list(Fate):
        raise ReadingError(f"{quoted(text)} is no outcome; write {' or '.join(Fate)}.", OUTCOME)
    return Fate(plain)


def _standing(job: Job, place: Place, field: Field) -> str:
    """Return what a field says now."""
    if field is Field.NOTE:
        return ""
    if field is Field.SHAPE:
        return job.end(place).shape
    inside = place.hose <= len(job.hoses)
    holder = job.hoses[place.hose - 1] if field in OF_HOSE and inside else job
    return str(getattr(holder, field, ""))
