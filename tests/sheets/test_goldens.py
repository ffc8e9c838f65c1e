"""Whole sheets of invented scenarios: the page, the order for the telephone, the findings.

Renew with `python -m tests.sheets.test_goldens`, and read every difference.
"""

from pathlib import Path

import pytest

from identify.drawing.render import render
from identify.knowledge.sheet_file import read_sheet_file
from identify.pages.blocks import Rows
from identify.pages.sheet import sheet_blocks
from identify.pages.sheet_order import order_blocks_of
from identify.pages.text import WIDTH, text_of
from identify.sheets.belonging import findings
from identify.sheets.filling import fill
from identify.sheets.working import work_out
from tests.sheets.known import KNOWN

pytest.importorskip("fluids")  # the pressure drop stands on one of them
GOLDENS = Path(__file__).parent / "goldens"
CASES = sorted(GOLDENS.glob("*.yaml"))


def page_of(case: Path) -> str:
    texts, _ = read_sheet_file(case.read_text(encoding="utf-8"), case.name)
    filled = fill(texts, KNOWN)
    assert not filled.faults
    worked = work_out(filled.sheet, KNOWN)
    found = findings(worked, KNOWN)
    page = sheet_blocks(worked, found, KNOWN, lambda sheet: Rows(render(sheet, WIDTH, 20)))
    return text_of(page) + "\n" + text_of(order_blocks_of(worked, found))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_sheet_is_as_it_was_read(case: Path) -> None:
    assert page_of(case) == case.with_suffix(".txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_every_row_fits_a_terminal_of_80(case: Path) -> None:
    assert [row for row in page_of(case).splitlines() if len(row) > WIDTH] == []


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.stem)
def test_a_golden_says_that_it_is_invented(case: Path) -> None:
    assert case.read_text(encoding="utf-8").startswith("# Invented scenario:")
    assert "invented scenario" in page_of(case).splitlines()[0]


if __name__ == "__main__":
    for each in CASES:
        each.with_suffix(".txt").write_text(page_of(each), encoding="utf-8")
