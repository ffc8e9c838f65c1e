"""A batch as a table: comma-separated values in, the same with the answers out."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from identify.commands.batch import batch_engine
from identify.commands.desk import Answer, Sample, answered, weighed
from identify.errors import ReadingError, WhichendError
from identify.pages.batch_table import answer_line, header_line
from identify.pages.json_lines import Lines
from identify.reading.batch_table import CLAIM, ID, Header, Row, cell_of, read_rows, sample_of
from identify.reading.claims import claim_of
from identify.reasoning.claim import hold
from identify.reasoning.engine import Engine, Situation
from identify.reasoning.lockstep import together

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps
    from identify.reasoning.posterior import Posterior


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
        rows = list(samples)
        read = weighed(self.engine, [self._read(row) for _, row in rows])
        write = self._writing_json if self.as_json else self._writing
        works = (
            write(number, row, sample, state)
            for (number, row), (sample, state) in zip(rows, read, strict=True)
        )
        return together(works, self.engine.chooser.gains)

    def _read(self, row: Row) -> Sample:
        name = {"id": cell_of(self.header, row, ID)}
        try:
            readings = sample_of(self.header, row, self.engine.catalogue.threads)
        except WhichendError as error:
            return Sample(row.line, name, (), "", f"line {row.line}: {error}")
        return Sample(row.line, name, readings, cell_of(self.header, row, CLAIM), "")

    def _writing_json(
        self, _: int, __: Row, sample: Sample, state: Posterior | None
    ) -> Steps[Answer]:
        found, beside = yield from answered(
            self.engine, sample, state, self.limit, brief=self.brief
        )
        return f"{self._lines.line(sample.name, found, beside)}\n", found is None

    def _writing(
        self, number: int, row: Row, sample: Sample, state: Posterior | None
    ) -> Steps[Answer]:
        head, fault = header_line(self.header) if number == 1 else "", sample.fault
        if state is not None:
            try:
                verdict = yield from self.engine.concluding(
                    sample.readings, state, Situation(), self.limit
                )
                said = sample.claim
                claim = hold(self.engine, claim_of(said), verdict) if said else None
                return head + answer_line(self.header, row, verdict, claim), False
            except WhichendError as error:
                fault = f"line {row.line}: {error}"
        return head + answer_line(self.header, row, None, error=fault), True


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
