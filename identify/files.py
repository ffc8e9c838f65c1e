"""Read and make files where others may have laid something else: a pipe, a link, a flood."""

from __future__ import annotations

import errno
import os
import stat

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path


MOST_BYTES = 20_000_000  # far above any table, journal or cache that this program makes


def read_regular(path: str | Path, most: int = MOST_BYTES) -> tuple[bytes, os.stat_result]:
    """Return content and state of a regular file; a link to one is followed.

    Raises:
        OSError: As `open_regular`.
    """
    number, state = open_regular(path, most)
    with open(number, "rb") as file:  # noqa: PTH123 - a number, which pathlib does not take
        data = file.read(min(most, state.st_size) + 1)  # it sets aside what it is asked for
    if len(data) > most:
        raise _too_large(path, most)
    return data, state


def open_regular(path: str | Path, most: int = MOST_BYTES) -> tuple[int, os.stat_result]:
    """Return an open regular file, by its number, and its state; a link to one is followed.

    A pipe or a device would be waited on for ever, so it is not opened to the end.

    Raises:
        OSError: It cannot be read, is no regular file or is larger than `most` bytes; `strerror`
            says so in words.
    """
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    number = os.open(path, flags)
    state = os.fstat(number)
    fault = None
    if not stat.S_ISREG(state.st_mode):
        kind = "a folder" if stat.S_ISDIR(state.st_mode) else "no regular file"
        fault = OSError(errno.EINVAL, f"it is {kind}", str(path))
    elif state.st_size > most:
        fault = _too_large(path, most)
    if fault:
        os.close(number)
        raise fault
    return number, state


def _too_large(path: str | Path, most: int) -> OSError:
    return OSError(errno.EFBIG, f"it is larger than {most / 1e6:g} MB", str(path))


def write_new(path: Path, parts: Iterable[str]) -> None:
    """Write a file that was not there; nothing is replaced, and no link is followed.

    Args:
        path: Where.
        parts: The text, piece by piece.

    Raises:
        FileExistsError: Something of that name is there, even a link that leads nowhere.
        OSError: It cannot be written; what was begun is taken away.
    """
    file = path.open("x", encoding="utf-8")
    try:
        with file:
            file.writelines(parts)
    except OSError:
        path.unlink(missing_ok=True)  # only when it is closed: Windows deletes no open file
        raise


def reason(error: OSError) -> str:
    """Return why a file cannot be used, in words."""
    return error.strerror or str(error)
