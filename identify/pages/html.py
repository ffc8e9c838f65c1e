"""Blocks as one HTML file to print.

Nothing is fetched, nothing runs, and what somebody typed is only text.
"""

from collections.abc import Iterable, Iterator
from html import escape

from identify.frozen import NamedTuple
from identify.pages.blocks import Block, Rows, Table, Tone
from identify.transliterate import inert

_STYLE = """
@page { size: %s; margin: 12mm }
body { font: 9.5pt/1.3 sans-serif; color: #000; max-width: 186mm; margin: 0 auto }
h1 { font-size: 15pt; margin: 0 0 2mm }
h2 { font-size: 12pt; margin: 4mm 0 1mm; border-bottom: .3mm solid #000; break-after: avoid }
p { margin: .5mm 0 }
.entry { display: grid; grid-template-columns: 22mm 1fr; margin-bottom: .8mm; break-inside: avoid }
.short { grid-template-columns: 9mm 1fr }
.mark { font-weight: bold; margin-top: .5mm }
.warn { font-weight: bold }
.quiet { color: #444 }
table { border-collapse: collapse; width: 100%%; margin: 1.5mm 0 }
td, th { border: .2mm solid #888; padding: .5mm 1.5mm; text-align: left; vertical-align: top }
figure { margin: 2mm 0; text-align: center; break-inside: avoid }
pre { font: 9pt/1.1 monospace }
"""
_SHORT = 4  # signs of a mark that needs no wide margin
PAPERS = {"a4": "A4", "letter": "letter"}


class Picture(NamedTuple):
    """A drawing as SVG that refers to nothing outside itself."""

    svg: str


def html_page(title: str, blocks: Iterable[Block | Table | Rows | Picture], paper: str) -> str:
    """Return a page as a self-contained HTML document.

    Args:
        title: What the window says.
        blocks: The page; its first heading becomes that of the document.
        paper: A key of `PAPERS`.
    """
    body = "\n".join(_parts(blocks))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; '
        "style-src 'unsafe-inline'\">\n"
        f"<title>{_text(title)}</title>\n<style>{_STYLE % PAPERS[paper]}</style>\n</head>\n<body>\n"
        f"{body}\n</body>\n</html>\n"
    )


def _parts(blocks: Iterable[Block | Table | Rows | Picture]) -> Iterator[str]:
    level = 1
    for block in blocks:
        if isinstance(block, Picture):
            yield f"<figure>{block.svg}</figure>"
        elif isinstance(block, Rows):
            yield f"<pre>{_text(chr(10).join(block.rows))}</pre>"
        elif isinstance(block, Table):
            yield _table(block)
        elif block.tone is Tone.HEAD:
            yield f"<h{level}>{_text(block.text)}</h{level}>"
            level = 2
        elif block.text:
            yield _paragraph(block)


def _paragraph(block: Block) -> str:
    tone = f' class="{block.tone}"' if block.tone is not Tone.PLAIN else ""
    text = f"<p{tone}>{_text(block.text)}</p>"
    under = "".join(f"<p>{_text(each)}</p>" for each in block.under)
    if not block.mark:
        return text + under
    mark = f'<div class="mark">{_text(block.mark.strip())}</div>'
    kind = "entry short" if len(block.mark) <= _SHORT else "entry"
    return f'<div class="{kind}">{mark}<div>{text}{under}</div></div>'


def _table(table: Table) -> str:
    head = "".join(f"<th>{_text(name)}</th>" for name in table.header)
    rows = (
        "<tr>" + "".join(f"<td>{_text(cell)}</td>" for cell in row) + "</tr>" for row in table.rows
    )
    return f"<table><tr>{head}</tr>{''.join(rows)}</table>"


def _text(text: str) -> str:
    """Return text that a browser shows as it is; a blank to fill in gets its room."""
    return escape(inert(text)).replace("____", "_" * 12)
