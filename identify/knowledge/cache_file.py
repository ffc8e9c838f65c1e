"""One file of compiled tables: a head that is read at once, parts that are read when looked at.

    magic, checksum and length of the head | head | parts

A ranking looks at a few hundred parts of some ten thousand, so it reads a twentieth of the file;
with fifty times the rows it reads hardly more. The head has the checksum of every part, so what is
damaged is never unpacked: such a part is asked of whoever can make all of them anew.
"""

from __future__ import annotations

import os
import stat
from zlib import crc32

import identify
from identify.files import open_regular
from identify.frozen import TYPE_CHECKING, NamedTuple
from identify.packing import pack, unpack

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence
    from typing import Any

_MAGIC = b"whichend-cache/3\n"
_MOST_BYTES = 2_000_000_000  # some hundred thousand rows
_SUM = 4  # bytes of a checksum, and of the length of the head
_BEGIN = 8  # bytes of a place in the file
_PLACE = _BEGIN + _SUM
_HEAD_AT = len(_MAGIC) + 2 * _SUM


class Head(NamedTuple):
    """What a file was made from, and what the parts hang from.

    `signature` is the state of the files that it was made from, `content` their digest; `places`
    tell where each part begins, in bytes behind the head, and its checksum; the last where all end.
    """

    signature: str
    content: str
    top: Any
    places: bytes


class Parts:
    """The parts of a cache file, each read when it is asked for.

    `anew` makes all of them again, where one turns out to be damaged.
    """

    def __init__(self, file: int | bytes, begin: int, places: bytes) -> None:
        self._file, self._begin, self._places = file, begin, places
        self._whole: Sequence[bytes] = ()
        self.anew: Callable[[], Sequence[bytes]]

    def __len__(self) -> int:
        return len(self._places) // _PLACE - 1

    def __getitem__(self, at: int) -> bytes:
        if self._whole:
            return self._whole[at]
        here, places = at * _PLACE, self._places
        begin = _number(places[here : here + _BEGIN], "little")
        end = _number(places[here + _PLACE : here + _PLACE + _BEGIN], "little")
        part = _read(self._file, self._begin + begin, end - begin)
        if crc32(part) != _number(places[here + _BEGIN : here + _PLACE], "little"):
            self._whole = self.anew()
            return self._whole[at]
        return part

    def __del__(self, close: Callable[[int], None] = os.close) -> None:
        if isinstance(self._file, int):
            close(self._file)  # bound early: at the very end of a process no module holds its names

    def written(self) -> bytes:
        """Return all parts as they stand in the file."""
        return _read(self._file, self._begin, _end(self._places))


def packed(signature: str, content: str, top: object, parts: Iterable[bytes]) -> bytes:
    """Return the bytes of a cache file."""
    at, places, pieces = 0, bytearray(), list(parts)
    for part in pieces:
        places += at.to_bytes(_BEGIN, "little") + _sum(part)
        at += len(part)
    places += at.to_bytes(_BEGIN, "little") + _sum(b"")
    return headed(Head(signature, content, top, bytes(places)), b"".join(pieces))


def headed(head: Head, written: bytes) -> bytes:
    """Return the bytes of a cache file whose parts are written already."""
    told = pack(head)
    return b"".join([_MAGIC, _sum(told), len(told).to_bytes(_SUM, "little"), told, written])


def opened(path: str) -> tuple[Head, Parts] | None:
    """Return head and parts of a cache file, None if it is not whole or may be another's."""
    try:
        number, state = open_regular(path, _MOST_BYTES)
    except (OSError, ValueError):
        return None
    file: int | bytes = number
    if not hasattr(os, "pread"):  # Windows, where nobody replaces a file that is open
        with open(number, "rb") as stream:  # noqa: PTH123 - a number
            file = stream.read()
    head = _head(file, state.st_size) if _ours(state) else None
    if head is None:
        _close(file)
        return None
    return head[0], Parts(file, head[1], head[0].places)


def _head(file: int | bytes, size: int) -> tuple[Head, int] | None:
    """Return the head of a file and where its parts begin, None if either is cut or damaged."""
    first = _read(file, 0, _HEAD_AT)
    length = int.from_bytes(first[-_SUM:], "little")
    if first[: len(_MAGIC)] != _MAGIC or _HEAD_AT + length > size:
        return None
    told = _read(file, _HEAD_AT, length)
    if _sum(told) != first[len(_MAGIC) : -_SUM]:
        return None
    try:
        head = Head(*unpack(told))
        begin, end = _HEAD_AT + length, _end(head.places)
    except (EOFError, ValueError, TypeError):
        return None
    return (head, begin) if begin + end == size else None


def _read(file: int | bytes, at: int, length: int) -> bytes:
    """Return some bytes of a file, fewer where it could not be read or is cut."""
    if isinstance(file, bytes):
        return file[at : at + length]
    try:
        return os.pread(file, length, at)  # right even where processes share the file
    except OSError:
        return b""


def _close(file: int | bytes) -> None:
    if isinstance(file, int):
        os.close(file)


def _end(places: bytes) -> int:
    """Return where the last part ends, in bytes behind the head."""
    return _number(places[-_PLACE:-_SUM], "little")


_number = int.from_bytes


def _sum(data: bytes) -> bytes:
    return crc32(data).to_bytes(_SUM, "little")


def _ours(state: os.stat_result) -> bool:
    """Tell whether nobody else can have written a file: a checksum is no proof against intent.

    Whoever owns the program may also have brought along what it compiled.
    """
    if not hasattr(os, "geteuid"):
        return True  # Windows keeps the folder of a user from others
    if state.st_mode & (stat.S_IWGRP | stat.S_IWOTH):
        return False
    return state.st_uid == os.geteuid() or state.st_uid == os.stat(identify.__path__[0]).st_uid  # noqa: PTH116
