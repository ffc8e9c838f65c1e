"""What a page is made of, on every face: paragraphs with a tone, tables, rows that stand as set."""

from identify.frozen import NamedTuple, StrEnum


class Tone(StrEnum):
    """How a line is set. A theme gives it a look; the words must say the same without it."""

    PLAIN = "plain"
    TITLE = "title"  # the line at the top of a screen
    HEAD = "head"
    QUIET = "quiet"
    WARN = "warn"


class Line(NamedTuple):
    """One row of a pane."""

    text: str
    tone: Tone = Tone.PLAIN


class Block(NamedTuple):
    """A paragraph that is not parted at the end of a page.

    `pick` names what its number chooses; it is empty for text that only tells. `mark` stands
    before a text that is not picked, as a number does: a sign, a label, a dash. `under` holds
    further lines that belong to it, each a paragraph of its own.
    """

    text: str
    tone: Tone = Tone.PLAIN
    pick: str = ""
    under: tuple[str, ...] = ()
    mark: str = ""


class Table(NamedTuple):
    """Columns under a header, for text of 80 columns; a name there may have several lines."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


class Rows(NamedTuple):
    """Rows that stand as they are: a drawing."""

    rows: tuple[str, ...]


class Picture(NamedTuple):
    """A drawing as SVG, and in words for text; without words it is for paper only."""

    svg: str
    words: str = ""


BLANK = Block("")


def labelled(label: str, text: str, tone: Tone = Tone.PLAIN) -> Block:
    """Return text with a label in the margin."""
    return Block(text, tone, mark=label.ljust(11))


def dashed(text: str) -> Block:
    """Return one entry of a list."""
    return Block(text, mark="- ")
