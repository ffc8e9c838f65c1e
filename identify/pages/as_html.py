"""Blocks as a page of HTML that stands alone: to be printed, kept, or sent."""

from collections.abc import Iterable
from html import escape

from identify.pages.blocks import Block, Picture, Rows, Table, Tone

_STYLE = (
    "body{font:11pt/1.4 sans-serif;max-width:46em;margin:2em auto;padding:0 1em;color:#111}"
    "h1{font-size:1.4em}h2{font-size:1.1em;margin-bottom:.2em}p{margin:.3em 0}"
    "pre{font:10pt/1.25 monospace;margin:.6em 0}.quiet{color:#555}.warn{font-weight:bold}"
    "td,th{text-align:left;padding:.1em .8em .1em 0;vertical-align:top}"
)
_TWICE = 2.0  # pictures are drawn at so many times their size


def html_of(title: str, blocks: Iterable[Block | Table | Rows | Picture]) -> str:
    """Return a page with a title; it refers to nothing outside itself."""
    body = "\n".join(map(_element, blocks))
    return (
        f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}'
        f"</title><style>{_STYLE}</style></head>\n<body><h1>{escape(title)}</h1>\n{body}\n"
        "</body></html>\n"
    )


def _element(block: Block | Table | Rows | Picture) -> str:
    if isinstance(block, Rows):
        rows = "\n".join(block.rows)
        return f"<pre>{escape(rows)}</pre>"
    if isinstance(block, Picture):
        from identify.drawing.svg import svg

        return svg(block.sheet, _TWICE)
    if isinstance(block, Table):
        head = "".join(f"<th>{escape(cell)}</th>" for cell in block.header)
        rows = "".join(f"<tr>{''.join(f'<td>{escape(c)}</td>' for c in row)}</tr>"
                       for row in block.rows)  # fmt: skip
        return f"<table><tr>{head}</tr>{rows}</table>"
    text = escape(f"{block.mark.strip()} {block.text}".strip())
    if block.tone in (Tone.HEAD, Tone.TITLE):
        return f"<h2>{text}</h2>"
    more = "".join(f"<br>{escape(line)}" for line in block.under)
    kind = f' class="{block.tone}"' if block.tone is not Tone.PLAIN else ""
    return f"<p{kind}>{text}{more}</p>" if text else ""
