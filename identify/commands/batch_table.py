"""A batch as a table: comma-separated values in, the same with the answers out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from identify.commands.batch import batch_engine
from identify.commands.desk import Answer, answering
from identify.errors import ReadingError, WhichendError
from identify.model.reading import Reading
from identify.pages.batch_table import answer_line, header_line
from identify.pages.json_lines import Found, Lines
from identify.reading.batch_table import CLAIM, ID, Header, Row, cell_of, read_rows, sample_of
from identify.reading.claims import claim_of
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import together

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps


class TableDesk:
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
        self._lines = Lines()

    def written(self, samples: Iterable[tuple[int, Row]]) -> list[Answer]:
        """Return the answers to some rows; that to the first of all has the header above it."""
        write = self._writing_json if self.as_json else self._writing
        return together(write(number, row) for number, row in samples)

    def _writing_json(self, _: int, row: Row) -> Steps[Answer]:
        found: Found = None
        try:
            claim = cell_of(self.header, row, CLAIM)
            found, beside = yield from answering(
                self.engine, self._readings(row), self.limit, brief=self.brief, claim=claim
            )
        except WhichendError as error:
            beside = {"error": f"line {row.line}: {error}"}
        head = {"id": cell_of(self.header, row, ID)}
        return f"{self._lines.line(head, found, beside)}\n", found is None

    def _writing(self, number: int, row: Row) -> Steps[Answer]:
        head = header_line(self.header) if number == 1 else ""
        try:
            readings = self._readings(row)
            verdict = yield from self.engine.concluding(readings, Situation(), self.limit)
            said = cell_of(self.header, row, CLAIM)
            claim = hold(self.engine, claim_of(said), verdict) if said else None
        except WhichendError as error:
            fault = f"line {row.line}: {error}"
            return head + answer_line(self.header, row, None, error=fault), True
        return head + answer_line(self.header, row, verdict, claim), False

    def _readings(self, row: Row) -> tuple[Reading, ...]:
        return sample_of(self.header, row, self.engine.catalogue.threads)


def opened_table(lines: Iterable[bytes], name: str) -> tuple[Header, Iterator[tuple[int, Row]]]:
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


def table_desk(args: argparse.Namespace, header: Header) -> TableDesk:
    """Return the desk that the options ask for."""
    engine = batch_engine(args)
    return TableDesk(engine, header, args.limit, as_json=args.json, brief=args.brief)
