"""The figures of an end [mm] in the order in which every face shows them."""

from collections.abc import Iterator
from typing import NamedTuple

from identify.model.connection import UNASKED, EndConnection
from identify.model.feature import FEATURES


class Shown(NamedTuple):
    """One figure: named in full and for a column, with its size [mm]."""

    words: str
    label: str
    mm: float


def figures_of(end: EndConnection) -> Iterator[Shown]:
    """Yield every figure the tables know of an end."""
    for feature, mm in end.sizes.items():
        info = FEATURES[feature]
        yield Shown(info.words, info.label, mm)
    for field, words in UNASKED.items():
        known: float | None = getattr(end, f"{field}_mm")
        if known is not None:
            yield Shown(words, words, known)
