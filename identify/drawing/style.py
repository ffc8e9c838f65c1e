"""How a drawing becomes characters, and the least room it needs."""

from identify.frozen import StrEnum

FEWEST_COLUMNS, FEWEST_ROWS = 36, 12


class Style(StrEnum):
    """How dots become characters."""

    BRAILLE = "braille"
    BLOCKS = "blocks"
    ASCII = "ascii"
