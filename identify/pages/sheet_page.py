"""The sheet of a hose that is to be made as a document to print and to write on."""

from identify.pages.blocks import Picture
from identify.pages.html import division, document, html_of
from identify.pages.sheet import sheet_blocks
from identify.pages.sheet_making import BLANK_FIELD
from identify.pages.sheet_order import order_blocks_of
from identify.sheets.finding import Finding
from identify.sheets.known import SheetKnowledge
from identify.sheets.working import Worked

PAPERS = {"a4": "A4", "letter": "letter"}
"""What a page can be printed on, and how a style calls it."""
_ROOM_TO_WRITE = 3 * BLANK_FIELD
_STYLE = """
@page { size: %s; margin: 12mm; }
body { font-size: 9.5pt; line-height: 1.3; max-width: 186mm; margin: 0 auto; }
h2 { border-bottom: .3mm solid #000; } p { margin: 0 0 .8mm; } table { width: 100%%; }
p.mark { grid-template-columns: 22mm 1fr; } p.sign { grid-template-columns: 9mm 1fr; }
.mark > b { font-weight: bold; } figure { text-align: center; }
.order { border-top: .3mm dashed #000; margin-top: 4mm; }
@media screen { body { padding: 6mm; } }
"""


def sheet_page(
    worked: Worked, found: tuple[Finding, ...], known: SheetKnowledge, paper: str
) -> str:
    """Return the sheet, and below it what to say on the telephone.

    Args:
        worked: What follows from the sheet.
        found: What does not belong together.
        known: Tables and rules.
        paper: A key of `PAPERS`.
    """
    page = html_of(sheet_blocks(worked, found, known, Picture))
    page += division("order", order_blocks_of(worked, found))
    return document(
        f"Hose to be made: {worked.sheet.job.reference}",
        page.replace(BLANK_FIELD, _ROOM_TO_WRITE),
        _STYLE % PAPERS[paper],
    )
