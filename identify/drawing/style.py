"""Ways to draw an end, how a drawing becomes characters, and the least room it needs.

What a command line names stands here, apart from what draws, which is slow to import.
"""

from identify.frozen import StrEnum

FEWEST_COLUMNS, FEWEST_ROWS = 36, 12


class Style(StrEnum):
    """How dots become characters."""

    BRAILLE = "braille"
    BLOCKS = "blocks"
    ASCII = "ascii"


STYLES = tuple(Style)


class View(StrEnum):
    """How an end can be drawn."""

    BENCH = "bench"  # from the side and into its end, nothing cut
    SIDE = "side"
    END = "end"
    SECTION = "section"  # cut, its places named
    MEASURED = "measured"  # cut, with what the tables know in figures
