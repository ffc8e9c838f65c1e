"""The first entries of a sheet from what is known of a hose already: both ends, its line, facts."""

from collections.abc import Mapping

from identify.frozen import NamedTuple
from identify.jobs.facts import Concluded
from identify.jobs.job import End, Job
from identify.model.verdict import VerdictKind
from identify.sheets.answers import LONGEST_TEXT
from identify.sheets.entries import CLAIMED, MEASURED


class KnownEnd(NamedTuple):
    """An end as it was identified or claimed: its id or words that name it, and its shape.

    "" stands for what is not known. `known` is "measured" or "claimed". `doubt` says what the
    workshop must know of that, as words after the name of the end.
    """

    end: str = ""
    shape: str = ""
    known: str = ""
    doubt: str = ""


def end_of_job(end: End, verdict: Concluded | None) -> KnownEnd:
    """Return what a sheet may take over of an end of a job.

    That is the end a verdict identified; where nothing was measured, the one that all claims name.
    What was measured and not identified stays open, whatever was claimed.

    Args:
        end: Of the job.
        verdict: The one that holds for it.
    """
    if end.answered:
        if verdict is not None and verdict.kind is VerdictKind.IDENTIFIED and verdict.ends:
            return KnownEnd(verdict.ends[0].id, end.shape, MEASURED)
        return KnownEnd("", end.shape, doubt="was measured, but is not identified")
    claimed = sorted({each for claim in end.claims for each in claim.ends})
    if len(claimed) == 1:
        said = end.claims[-1].words
        return KnownEnd(
            claimed[0], end.shape, CLAIMED, f'is what was claimed ("{said}"), not measured'
        )
    doubt = "was claimed, but what was said names more than one end" if claimed else ""
    return KnownEnd("", end.shape, doubt=doubt)


def entries_of_job(job: Job, number: int, a: KnownEnd, b: KnownEnd) -> dict[str, str]:
    """Return entries by path for `filling.fill`.

    The note begins with what is doubtful of an end; of the notes of the job it has the last.

    Args:
        job: As it is kept.
        number: Of its hose, from 1.
        a: One end of it.
        b: The other.
    """
    hose = job.hoses[number - 1]
    doubts = [f"End {side} {each.doubt}." for side, each in zip("AB", (a, b), strict=True)
              if each.doubt]  # fmt: skip
    note = " ".join([*doubts, *job.notes[-1:]])
    facts = {
        "reference": job.reference, "machine": job.machine, "quantity": hose.quantity,
        "measured_by": job.measured_by, "checked_by": job.checked_by,
        "note": note if len(note) <= LONGEST_TEXT else f"{note[: LONGEST_TEXT - 3]}...",
    }  # fmt: skip
    return entries_of_hose(a, b, hose.printed, facts)


def entries_of_hose(
    a: KnownEnd, b: KnownEnd, printed: str, facts: Mapping[str, str]
) -> dict[str, str]:
    """Return entries by path for `filling.fill`.

    Args:
        a: One end.
        b: The other.
        printed: The line on the hose.
        facts: Of the job, by the field under which a sheet has them: reference, machine, quantity,
            measured_by, checked_by, note.
    """
    texts = {f"job.{field}": text for field, text in facts.items()}
    for side, known in (("a", a), ("b", b)):
        texts |= {f"{side}.{field}": text for field, text in
                  (("end", known.end), ("known", known.known), ("shape", known.shape))}  # fmt: skip
    return {path: text for path, text in {**texts, "hose.line": printed}.items() if text}
