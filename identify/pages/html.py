"""Blocks as HTML, and a document that needs nothing outside itself; no text of it is markup."""

from collections.abc import Iterable, Sequence
from html import escape

from identify.jobs.exchange import cell_of
from identify.pages.blocks import BLANK, Block, Picture, Rows, Table, Tone
from identify.transliterate import inert

SIGN = 4  # characters of a mark that is a sign, with its blanks; a longer one is a name
_STYLE = """
* { box-sizing: border-box; }
body { margin: 0; color: #000; background: #fff; font: 10pt/1.35 sans-serif;
  overflow-wrap: anywhere; }
h1 { font-size: 1.5em; margin: 0 0 .3em; } h2 { font-size: 1.1em; margin: .9em 0 .2em; }
h1, h2 { break-after: avoid; } p { margin: 0 0 .15em; orphans: 2; widows: 2; }
p.mark, p.sign { display: grid; grid-template-columns: auto 1fr; column-gap: .5em;
  break-inside: avoid; } p.sign { grid-template-columns: 2em 1fr; column-gap: 0; }
.mark > b, .sign > b { font-weight: normal; white-space: pre; } .quiet { color: #444; }
.warn { font-weight: bold; } small { display: block; font-size: 1em; font-weight: normal; }
table { border-collapse: collapse; margin: .2em 0 .5em; } tr { break-inside: avoid; }
th, td { border: .2mm solid #888; padding: .1em .5em; text-align: left; vertical-align: top; }
pre { font: .9em/1.25 monospace; margin: 0 0 .3em; overflow-x: auto; }
figure { margin: .3em 0; break-inside: avoid; } figure svg { max-width: 100%; height: auto; }
"""


def document(title: str, body: str, style: str = "", lang: str = "en") -> str:
    """Return a whole document; it runs nothing and fetches nothing.

    Args:
        title: What it is, as text.
        body: HTML made by `division`.
        style: What it looks like beside what all documents share.
        lang: The language of the text.
    """
    policy = "default-src 'none'; style-src 'unsafe-inline'"
    return inert(
        f'<!DOCTYPE html>\n<html lang="{lang}">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>{_STYLE}{style}</style>\n</head>\n"
        f"<body>\n{body}</body>\n</html>\n"
    )


def division(name: str, *parts: Sequence[Block | Table | Rows | Picture] | str) -> str:
    """Return blocks, and divisions made before, as one part of a page that a style names."""
    inside = "".join(each if isinstance(each, str) else html_of(each) for each in parts)
    return f'<div class="{name}">\n{inside}</div>\n'


def html_of(blocks: Iterable[Block | Table | Rows | Picture]) -> str:
    """Return a page as HTML, every text of it escaped."""
    return "".join(_element(block) for block in blocks if block != BLANK)


def figure(svg_text: str) -> str:
    """Return an SVG image as a part of a page; the only text that is taken as markup."""
    return f"<figure>{svg_text}</figure>\n"


def _scale(bounds: tuple[float, float, float, float]) -> float:
    """Return the largest usual scale at which a drawing leaves room for its labels on a page."""
    across = bounds[2] - bounds[0]
    usual = ((2.0, 75.0), (1.0, 110.0), (0.5, 130.0))  # enlarged, labels need more room beside it
    return next((scale for scale, room in usual if across * scale <= room), 0.2)


def _element(block: Block | Table | Rows | Picture) -> str:
    if isinstance(block, Picture):
        from identify.drawing.svg import svg  # half a start to import, and few pages are drawn

        return figure(svg(block.sheet, _scale(block.sheet.bounds())))
    if isinstance(block, Rows):
        return f"<pre>{escape(chr(10).join(block.rows))}</pre>\n"
    if isinstance(block, Table):
        head = "".join(f'<th scope="col">{_cell(name)}</th>' for name in block.header)
        rows = (f"<tr>{''.join(f'<td>{_cell(c)}</td>' for c in row)}</tr>\n" for row in block.rows)
        return (
            f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{''.join(rows)}</tbody></table>\n"
        )
    return _paragraph(block)


def _cell(text: str) -> str:
    return escape(cell_of(text)).replace("\n", " ")


def _paragraph(block: Block) -> str:
    under = "".join(f"<small>{escape(text)}</small>" for text in block.under)
    text = escape(block.text) + under
    if block.tone in (Tone.TITLE, Tone.HEAD) and not block.mark:
        name = "h1" if block.tone is Tone.TITLE else "h2"
        return f"<{name}>{text}</{name}>\n"
    tone = "" if block.tone is Tone.PLAIN else f"{block.tone} "
    if not block.mark:
        return f'<p class="{tone}text">{text}</p>\n'
    mark = "sign" if block.mark.strip() and len(block.mark) <= SIGN else "mark"
    return f'<p class="{tone}{mark}"><b>{escape(block.mark.rstrip())}</b><span>{text}</span></p>\n'
