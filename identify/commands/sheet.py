"""A batch as a table: comma-separated values in, the same with the answers out."""

import argparse
import sys
from collections.abc import Iterable, Iterator
from typing import Any

from identify.commands.batch import Answer, batch_engine, encoder
from identify.errors import ReadingError, WhichendError
from identify.model.verdict import Brief, Verdict
from identify.pages.as_json import brief_json, verdict_json
from identify.pages.sheet import answer_line, header_line
from identify.reading.sheet import Header, Row, read_rows, sample_id, sample_of
from identify.reasoning.engine import Engine


class SheetDesk:
    """Where the rows of a table are answered, as rows with columns added or as JSON Lines.

    Args:
        engine: Reasons.
        header: Of the table.
        limit: Candidates of a JSON answer.
        as_json: Answer with JSON Lines.
        brief: Of those: write the verdict, its candidates and the suspect readings only.
    """

    def __init__(
        self, engine: Engine, header: Header, limit: int, *, as_json: bool, brief: bool = False
    ) -> None:
        self.engine, self.header, self.limit = engine, header, limit
        self.as_json, self.brief = as_json, brief
        self._encode = encoder()

    def written(self, number: int, row: Row) -> Answer:
        """Return the answer to a row; that to the first has the header above it."""
        verdict: Verdict | Brief | None = None
        fault = ""
        conclude = self.engine.brief if self.brief and self.as_json else self.engine.conclude
        try:
            sample = sample_of(self.header, row, self.engine.catalogue.threads)
            verdict = conclude(sample, limit=self.limit)
        except WhichendError as error:
            fault = f"line {row.line}: {error}"
        if self.as_json:
            answer = {"id": sample_id(self.header, row), **_json(verdict, fault)}
            return f"{self._encode(answer)}\n", bool(fault)
        head = header_line(self.header) if number == 1 else ""
        told = verdict if isinstance(verdict, Verdict) else None
        return head + answer_line(self.header, row, told, fault), bool(fault)


def _json(verdict: Verdict | Brief | None, fault: str) -> dict[str, Any]:
    if verdict is None:
        return {"error": fault}
    return verdict_json(verdict) if isinstance(verdict, Verdict) else brief_json(verdict)


def sheet_of(lines: Iterable[bytes], name: str) -> tuple[Header, Iterator[tuple[int, Row]]]:
    """Return the header of a table and its rows with their numbers; say what looks odd of it.

    Raises:
        ReadingError: It is no table of samples.
    """
    try:
        header, rows = read_rows(lines)
    except ReadingError as error:
        raise ReadingError(f"{name}: {error.problem}") from None
    for note in header.notes:
        print(f"whichend: {note}", file=sys.stderr)
    return header, enumerate(rows, 1)


def sheet_desk(args: argparse.Namespace, header: Header) -> SheetDesk:
    """Return the desk that the options ask for."""
    engine = batch_engine(args)
    return SheetDesk(engine, header, args.limit, as_json=args.json, brief=args.brief)
