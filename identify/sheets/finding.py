"""What is said of parts that do not belong together."""

from identify.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that does not belong together: what, why, remedy, and who says so.

    `grave` tells that the hose must not be made so.
    """

    key: str
    what: str
    why: str
    remedy: str
    grave: bool
    source: str


def capital(words: str) -> str:
    """Return words with a capital at their beginning."""
    return words[:1].upper() + words[1:]
