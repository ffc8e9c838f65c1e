"""Blocks as Markdown (CommonMark with tables); no text of it is markup."""

from collections.abc import Iterable

from identify.jobs.exchange import cell_of
from identify.light import re
from identify.pages.blocks import Block, Picture, Rows, Table, Tone
from identify.transliterate import inert

_MARKUP = re.compile(r"[\\`*_\[\]<>|~&$]")
_AT_START = re.compile(r"^(\s*)([#+=:-]|\d+[.)])")
_LINKS = {"://": ":&#47;/", "www.": "www&#46;", "@": "&#64;"}


def markdown_of(blocks: Iterable[Block | Table | Rows | Picture]) -> str:
    """Return a page as Markdown that ends with a line feed."""
    parts: list[str] = []
    for block in blocks:
        if isinstance(block, Picture):
            parts.append(_text(block.sheet.described))
        elif isinstance(block, Rows):
            parts.append("\n".join(f"    {row}" for row in block.rows))
        elif isinstance(block, Table):
            rows = (block.header, ("---",) * len(block.header), *block.rows)
            cells = [
                [cell if cell == "---" else _text(cell_of(cell)) for cell in row] for row in rows
            ]
            parts.append("\n".join(f"| {' | '.join(row)} |" for row in cells))
        elif block.text or block.mark:
            parts.append(_paragraph(block))
    return inert("\n\n".join(parts) + "\n")


def _paragraph(block: Block) -> str:
    heads = {Tone.TITLE: "# ", Tone.HEAD: "## "}
    if block.tone in heads and not block.mark:
        return heads[block.tone] + _text(block.text)
    dash = block.mark == "- "
    text, mark = _text(block.text), "" if dash else _text(block.mark.strip())
    if block.tone is Tone.WARN:
        text = f"**{f'{mark} {text}'.strip()}**"
    elif mark:
        text = f"**{mark}** {text}".strip()
    under = "".join(f"  \n{_text(each)}" for each in block.under)
    return ("- " if dash else "") + text + under


def _text(text: str) -> str:
    """Return text that a reader of Markdown shows as it stands."""
    plain = _MARKUP.sub(r"\\\g<0>", " ".join(text.split()))
    for link, broken in _LINKS.items():
        plain = re.sub(re.escape(link), broken, plain, flags=re.IGNORECASE)
    return _AT_START.sub(r"\1\\\2", plain) if not plain[:1].isdigit() else _numbered(plain)


def _numbered(text: str) -> str:
    """Return text that begins with a number, which is no list."""
    return re.sub(r"^(\d+)([.)])(\s|$)", r"\1\\\2\3", text)
