"""Answers as a table: the columns of the samples, then a short answer to each."""

import csv
import io
from collections.abc import Iterable

from identify.model.claim import Claim
from identify.model.feature import FEATURES
from identify.model.verdict import Verdict, VerdictKind, percent
from identify.pages.claim import headline_of
from identify.pages.words import end_words
from identify.reading.batch_table import Header, Row, inert_cell
from identify.transliterate import inert

COLUMNS = (
    "verdict",
    "summary",
    "best",
    "probability",
    "none_of_these",
    "next",
    "claim_stands",
    "error",
)
"""The columns that are added, replacing any of these names that the samples had."""
_NAMED = 3  # answers that a summary names


def header_line(header: Header) -> str:
    """Return the header of the answers."""
    return _line([header.names[place] for place in _kept(header)] + list(COLUMNS), header)


def answer_line(
    header: Header, row: Row, verdict: Verdict | None, claim: Claim | None = None, error: str = ""
) -> str:
    """Return a sample with the answer to it.

    Args:
        header: Of the samples.
        row: The sample; all of it is carried through.
        verdict: What follows from it, None where it could not be read.
        claim: What somebody says it is, held against it.
        error: Why it could not.
    """
    answer = _answer(verdict) if verdict else {}
    stands = headline_of(claim) if claim else ""
    answer |= {"claim_stands": stands, "error": error}
    added = [answer.get(name, "") for name in COLUMNS]
    return _line([row.cells[place] for place in _kept(header)] + added, header)


def summary(verdict: Verdict) -> str:
    """Return a verdict in a line: what it is, or what it may be."""
    likely = [each for each in verdict.ranking[:_NAMED] if each.probability >= 0.01]
    named = [f"{end_words(each.end)} {percent(each.probability)}" for each in likely]
    if verdict.kind is VerdictKind.IDENTIFIED:
        return named[0]
    none = f"none of these {percent(verdict.none_of_these)}"
    if verdict.kind is VerdictKind.ABSTAIN:
        return "; ".join([none, *named])
    return " or ".join(named) or none


def _answer(verdict: Verdict) -> dict[str, str]:
    lead, question = verdict.ranking[:1], verdict.question
    return {
        "verdict": str(verdict.kind),
        "summary": summary(verdict),
        "best": lead[0].end.id if lead else "",
        "probability": f"{min(lead[0].probability, 0.999999):.6f}" if lead else "",
        "none_of_these": f"{min(verdict.none_of_these, 0.999999):.6f}",
        "next": FEATURES[question.feature].title if question else "",
    }


def _kept(header: Header) -> list[int]:
    return [place for place, name in enumerate(header.names) if name not in COLUMNS]


def _line(cells: Iterable[str], header: Header) -> str:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=header.delimiter, lineterminator="\n")
    writer.writerow([inert_cell(inert(cell)) for cell in cells])
    return out.getvalue()
