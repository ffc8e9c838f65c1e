"""Guesses of real jobs: what a trainee thought before the verdict, counted as an answer is.

A guess of an end counts once, and only where the end was identified, nothing was answered since,
and the hose did not come back.
"""

from collections.abc import Iterable
from contextlib import suppress
from datetime import datetime

from identify.errors import RecordError
from identify.frozen import replace
from identify.jobs.course import YOU
from identify.jobs.facts import Fate
from identify.jobs.job import End, Job
from identify.jobs.shelf import Shelf
from identify.model.verdict import Hazard, VerdictKind
from identify.practice.exercise import Kind, Pair
from identify.practice.judging import Mark, nearest
from identify.practice.record import Done, History, Put
from identify.practice.room import Room

MOST_JOBS = 1000  # the latest in which somebody said what he thinks


def with_real(room: Room, shelf: Shelf, history: History, *, alone: bool) -> History:
    """Return a history with the guesses of the trainee in the jobs of a machine.

    Args:
        room: Judges.
        shelf: The jobs.
        history: Of the trainee.
        alone: Nobody else practises on this machine: guesses of jobs that say not who measured are
            the trainee's too.

    A job that cannot be read any more is left out.
    """
    jobs = []
    for listed in shelf.index.found(YOU, MOST_JOBS):
        with suppress(RecordError):
            jobs.append(shelf.kept(listed).job)
    return replace(history, real=real_guesses(room, jobs, history.name, alone=alone))


def real_guesses(room: Room, jobs: Iterable[Job], name: str, *, alone: bool) -> tuple[Done, ...]:
    """Return the guesses in jobs that are a trainee's, each of an end once, first to last."""
    found = {}
    for job in jobs:
        who = job.measured_by.casefold()
        if not job.discarded and (who == name.casefold() or (alone and not who)):
            for place, end in job.ends:
                if done := _guess(room, end, f"{job.reference} {place}"):
                    found[done.put.seed] = done
    return tuple(sorted(found.values(), key=lambda done: done.when))


def _guess(room: Room, end: End, where: str) -> Done | None:
    """Return the guess of an end, None where there is none, or it is not known what the end is."""
    verdict, rows = end.verdict, room.catalogue.row_of
    claim = next((each for each in end.claims if each.by == YOU), None)
    if claim is None or verdict is None or end.changed or not verdict.ends:
        return None
    if verdict.kind is not VerdictKind.IDENTIFIED:
        return None
    if end.outcome and end.outcome.fate is Fate.CAME_BACK:
        return None
    truth, said = rows.get(verdict.ends[0].id), [rows[each] for each in claim.ends if each in rows]
    if truth is None or not said:
        return None
    mark, taken = _judged(room, truth, said)
    pair = _pair(room, truth, taken)
    ids = room.catalogue.ids[truth], room.catalogue.ids[truth if taken is None else taken]
    when = datetime.fromisoformat(claim.at)
    return Done(Put(pair.key, where, 0), claim.words, mark, *ids, 0.0, 0, 0.0, when)


def _judged(room: Room, truth: int, said: list[int]) -> tuple[Mark, int | None]:
    """Return how a guess stands, and the row it takes the end for; none where that is the end."""
    ends, same = room.catalogue.ends, room.engine.one_answer.same
    own = [row for row in said if ends[row].gender == ends[truth].gender]
    other = [row for row in own if row != truth and not same(min(row, truth), max(row, truth))]
    if len(other) < len(own):
        sizes = {(ends[row].family, ends[row].size) for row in other} - {
            (ends[truth].family, ends[truth].size)
        }
        return (Mark.GUESSED if sizes else Mark.RIGHT), None
    like = nearest(room, ends[truth], other)
    taken = room.catalogue.row_of[like.id] if like else said[0]
    grave = room.hazards.of(ends[truth], ends[taken]) is Hazard.HIGH or ends[truth].refuse
    return (Mark.DANGEROUS if grave else Mark.WRONG), taken


def _pair(room: Room, truth: int, taken: int | None) -> Pair:
    """Return the pair that a guess is about: the gravest that holds both, else one of its own."""
    for pair in room.pairs:
        if pair.kind is Kind.PART and any(
            truth in rows and (taken is None or taken in rows) for rows in pair.examples
        ):
            return pair
    families = [room.catalogue.ends[row].family for row in (truth, taken) if row is not None]
    return family_pair(room, *sorted(dict.fromkeys(families)))


def family_pair(room: Room, one: str, other: str = "") -> Pair:
    """Return two families, or one, that no exercise is about and that were confused in a job."""
    names = [room.catalogue.families[each].name if each else "" for each in (one, other)]
    return Pair(Kind.PART, one, other, " or ".join(filter(None, names)), (names[0], names[1]), ())
