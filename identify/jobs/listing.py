"""What of a job is listed and by what words it is found; pure."""

import json
import unicodedata
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from identify.frozen import dataclass
from identify.jobs.facts import Concluded
from identify.jobs.job import End
from identify.jobs.journal import Kept
from identify.model.verdict import VerdictKind, percent
from identify.transliterate import inert

_PLAIN = {code: c.lower() if (c := chr(code)).isalnum() else " " for code in range(128)}
SHOWN_ENDS = 3  # of one verdict that a search finds


@dataclass(frozen=True, slots=True)
class Listed:
    """A job as a list shows it.

    `job` is its file below the folder of all jobs, `ends` the ids that lead the verdict on each of
    its ends (none of an end on which there is no verdict, or only that none fits), `titles` those
    ends in words; `begun` is local time, `at` the same in UTC.
    """

    job: str
    reference: str
    customer: str
    machine: str
    ends: tuple[str, ...]
    titles: tuple[str, ...]
    begun: str
    at: str
    unfinished: bool
    discarded: bool

    def as_text(self) -> str:
        """Return the row as the index keeps it."""
        return json.dumps({name: getattr(self, name) for name in self.__match_args__})


def listed_from(text: str) -> Listed:
    """Return a row that the index kept.

    Raises:
        ValueError, TypeError, KeyError: It is damaged.
    """
    row: dict[str, Any] = json.loads(text)
    return Listed(**{**row, "ends": tuple(row["ends"]), "titles": tuple(row["titles"])})


def listed_of(kept: Kept, name: str) -> Listed:
    """Return the row of a job, every text of it inert.

    Args:
        kept: The job as it stands in its file.
        name: The file below the folder of all jobs.
    """
    job = kept.job
    verdicts = [end.verdict for _, end in job.ends if end.verdict and end.verdict.ends]
    named = [each for each in verdicts if each.kind is not VerdictKind.ABSTAIN]
    return Listed(
        name,
        job.reference,
        inert(job.customer),
        inert(job.machine),
        tuple(inert(each.ends[0].id) for each in named),
        tuple(inert(_title(each)) for each in named),
        kept.begun,
        job.begun,
        not job.discarded and any(end.answered and not end.finished for _, end in job.ends),
        job.discarded,
    )


def _title(verdict: Concluded) -> str:
    """Return the leading end in words, with its chance where it was not identified."""
    first = verdict.ends[0]
    if verdict.kind is VerdictKind.IDENTIFIED:
        return first.title
    return f"{first.title} ({percent(first.probability)})"


def words_of(kept: Kept) -> str:
    """Return all by which a job is found, as `searched` writes it."""
    job = kept.job
    compact = job.reference.replace("-", "")
    said = [job.reference, compact, kept.begun, job.customer, job.machine, job.bag, *job.notes]
    said += [job.measured_by, job.checked_by, *(hose.printed for hose in job.hoses)]
    for _, end in job.ends:
        said += _end_words(end)
    return " ".join(filter(None, map(searched, said)))


def _end_words(end: End) -> Iterator[str]:
    if end.verdict:
        for named in end.verdict.ends[:SHOWN_ENDS]:
            yield from (named.id, named.title, named.thread)
    for claim in end.claims:
        yield from (claim.words, claim.by)
    if end.outcome:
        yield from (end.outcome.fate, end.outcome.why)


@lru_cache(maxsize=4096)
def searched(text: str) -> str:
    """Return text as words are compared: small letters and digits, without accents, else blanks."""
    if text.isascii():
        return " ".join(text[:4000].translate(_PLAIN).split())
    plain = unicodedata.normalize("NFKD", text[:4000]).casefold()
    kept = (c if c.isalnum() else "" if unicodedata.combining(c) else " " for c in plain)
    return " ".join("".join(kept).split())
