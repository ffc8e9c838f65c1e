"""Readings in short: what each token was taken for, and what a line may hold."""

from __future__ import annotations

from collections.abc import Iterable

from identify.frozen import TYPE_CHECKING
from identify.model.feature import FEATURES, Kind
from identify.model.rulebook import RuleBook
from identify.pages.blocks import BLANK, Block, Tone, dashed
from identify.pages.words import IN_SHORT, said
from identify.reading.quick import FORMS, Taken

if TYPE_CHECKING:
    from typing import Any


def taken_blocks(taken: Iterable[Taken], book: RuleBook) -> list[Block]:
    """Return each token with the reading it was taken for."""
    return [
        Block(f"{FEATURES[each.reading.feature].title}: {words}", mark=f"{each.token} = ")
        for each in taken
        if (words := said(each.reading, book.question(each.reading.feature)))
    ]


def taken_json(taken: Iterable[Taken]) -> list[dict[str, Any]]:
    """Return the same as plain values."""
    return [
        {"token": each.token, "reading": str(each.reading.feature), "entered": each.reading.entered}
        for each in taken
    ]


def forms_blocks() -> list[Block]:
    """Return what a line in short may hold, with the letters of every size."""
    sizes = [f"{info.short} {info.label}" for info in FEATURES.values() if info.kind is Kind.LENGTH]
    others = [
        f"{info.short} {info.label}" for info in FEATURES.values() if info.kind is not Kind.LENGTH
    ]
    return [
        Block(f"Readings in short, on one line: {IN_SHORT}", Tone.HEAD),
        *(dashed(f"{form}: {words}") for form, words in FORMS),
        BLANK,
        Block(f"Letters of sizes: {', '.join(sizes)}."),
        Block(f"Letters of all else: {', '.join(others)}."),
        Block("A word may be cut to three letters where only one answer begins with them."),
    ]
