"""A file that only grows, one JSON object a line, on the disk before the call returns."""

from __future__ import annotations

import os

from identify.errors import RecordError
from identify.files import read_regular, reason
from identify.frozen import TYPE_CHECKING
from identify.light import json, suppress

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any

LONGEST_LINE = 400_000  # bytes; an answer takes a few hundred, a claim may name every end


def open_lines(path: Path, more: int) -> int:
    """Open a file to append to, for its owner alone, and never through a link; return its number.

    Args:
        path: Where.
        more: Further flags of `os.open`, such as O_CREAT.
    """
    flags = os.O_RDWR | os.O_APPEND | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0)
    return os.open(path, flags | more, 0o600)


def append_records(file: int, path: Path, *records: dict[str, Any]) -> None:
    """Write records behind what stands in an open file, onto the disk.

    Raises:
        RecordError: It cannot be written; `path` is named.
    """
    lines = (json.dumps(each, ensure_ascii=False, separators=(",", ":")) for each in records)
    left = "".join(f"{line}\n" for line in lines).encode("utf-8", "surrogatepass")
    try:
        while left:
            left = left[os.write(file, left) :]
        os.fsync(file)
    except OSError as error:
        raise RecordError(f"{path} cannot be written ({reason(error)}).") from None


def record_in(line: bytes) -> dict[str, Any]:
    """Return the JSON object of a line, an empty one if it holds none."""
    try:
        record = json.loads(line) if len(line) <= LONGEST_LINE else None
    except (ValueError, RecursionError):
        return {}
    return record if isinstance(record, dict) else {}


def drop_torn_line(file: int, path: Path) -> None:
    """Cut off what no line feed ends, as a power cut leaves it."""
    data, _ = read_regular(path)
    if data and not data.endswith(b"\n"):
        os.ftruncate(file, data.rfind(b"\n") + 1)


def keep_name(folder: Path) -> None:
    """Bring a new name in a folder onto the disk, where the system can be asked to."""
    with suppress(OSError):
        number = os.open(folder, os.O_RDONLY)  # Windows opens no folder
        try:
            os.fsync(number)
        finally:
            os.close(number)
