"""What is said of parts that do not belong together, or of which nobody knows whether they do."""

from collections.abc import Sequence

from identify.frozen import StrEnum, dataclass


class Grade(StrEnum):
    """What a finding means for the hose."""

    FORBIDS = "forbids"  # it must not be made so
    OPEN = "open"  # unmeasured, unknown or from memory: it must not be made before that is settled
    MIND = "mind"  # it may be made, whoever makes it must know


@dataclass(frozen=True, slots=True)
class Finding:
    """Something that does not belong together, or is open: what, why, remedy, and who says so."""

    key: str
    what: str
    why: str
    remedy: str
    grade: Grade
    source: str


def capital(words: str) -> str:
    """Return words with a capital at their beginning."""
    return words[:1].upper() + words[1:]


def in_a_row(names: Sequence[str]) -> str:
    """Return names as a list in words: "a, b and c"."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
