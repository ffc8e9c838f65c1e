"""Texts by path -> a sheet, with every text that could not be read and why."""

from collections.abc import Iterable, Mapping
from typing import Any

from identify.errors import ReadingError, WhichendError, near_misses, quoted
from identify.frozen import dataclass
from identify.model.sheet import (
    HoseSheet,
    SheetAngle,
    SheetEnd,
    SheetHose,
    SheetJob,
    SheetLength,
    SheetMaking,
    SheetUse,
)
from identify.sheets.entries import BY_PATH, ENTRIES, Entry
from identify.sheets.known import SheetKnowledge

PARTS = {
    "job": SheetJob, "a": SheetEnd, "b": SheetEnd, "hose": SheetHose, "length": SheetLength,
    "angle": SheetAngle, "use": SheetUse, "making": SheetMaking,
}  # fmt: skip
"""The parts of a sheet, by the first word of a path."""


@dataclass(frozen=True, slots=True)
class Filled:
    """A sheet of all that could be read, and by path why the rest could not."""

    sheet: HoseSheet
    faults: tuple[tuple[str, str], ...]


def read_entry(path: str, text: str, known: SheetKnowledge) -> Any:
    """Return the value of one entry.

    Raises:
        WhichendError: There is no such entry, or its text cannot be read.
    """
    if path not in BY_PATH:
        near = near_misses(path, BY_PATH)
        hint = f"; did you mean {near[0]}?" if near else "."
        raise ReadingError(f"{quoted(path)} is no entry of a sheet{hint}")
    return BY_PATH[path].read(text, known)


def fill(texts: Mapping[str, str], known: SheetKnowledge) -> Filled:
    """Return the sheet that texts make; empty ones count as not entered."""
    values: dict[str, Any] = {}
    faults: list[tuple[str, str]] = []
    entered = tuple((path, text) for path, text in texts.items() if text.strip())
    for path, text in entered:
        try:
            values[path] = read_entry(path, text, known)
        except WhichendError as error:
            faults.append((path, str(error)))
    parts: dict[str, Any] = {}
    for name, noun in PARTS.items():
        own = {
            path.partition(".")[2]: v for path, v in values.items() if path.split(".")[0] == name
        }
        parts[name] = noun(**own)
    return Filled(HoseSheet(**parts, entered=entered), tuple(faults))


def whose(path: str) -> str:
    """Return the entry that "how known" is about: the end, or its port."""
    return path.replace("port_known", "port").replace("known", "end")


def still_missing(sheet: HoseSheet) -> Iterable[Entry]:
    """Yield what no sheet is whole without and nobody entered, in the order it is asked."""
    entered = {path for path, _ in sheet.entered}
    for entry in ENTRIES:
        if entry.path == "hose.new" and {"hose.line", "hose.bore"} & entered:
            continue  # made of what the old one is
        if entry.path.endswith("known") and whose(entry.path) not in entered:
            continue  # of what is not named
        if entry.needed and entry.path not in entered:
            yield entry
