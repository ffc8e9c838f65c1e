"""The pages of the commands as text, for the shipped tables."""

from identify.commands.compare import drawn
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.rule import Moment
from identify.pages.end import end_blocks
from identify.pages.pair import pair_blocks, pair_of
from identify.pages.text import text_of
from identify.reasoning.mating import mates_of
from tests.shipped import knowledge


def end_text(catalogue: Catalogue, end: EndConnection) -> str:
    """Return what `whichend show` prints."""
    cautions = knowledge().book.cautions_at(Moment.VERDICT, Moment.RATING)
    return text_of(end_blocks(catalogue, end, mates_of(catalogue, end, knowledge().book), cautions))


def pair_text(one: EndConnection, other: EndConnection, style: str = "none") -> str:
    """Return what `whichend compare` prints."""
    catalogue, book = knowledge().catalogue, knowledge().book
    pair = pair_of(catalogue, book, one, other)
    return text_of(pair_blocks(catalogue, pair, drawn(catalogue, pair, style)))
