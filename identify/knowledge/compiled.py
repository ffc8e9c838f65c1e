"""Tables and rules compiled once into the user's cache, so that one command need not read YAML.

A cache file is a head and a payload, packed as `packing.py` says; it is read only if nobody else
could have written it and its checksum is right.

It is used only if its head names the present state of every table, rule and code file it was made
from; else it is made anew. An installed wheel brings one along, which is used if it was made from
files of the same content. No state of the cache, and no folder that cannot be written, stops a
command.
"""

from __future__ import annotations

import os
import stat
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from zlib import crc32

import identify
from identify.errors import TableError
from identify.files import read_regular
from identify.frozen import TYPE_CHECKING
from identify.knowledge.codec import Codec
from identify.knowledge.table_files import data_path
from identify.packing import pack, unpack

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any, TypeVar

    T = TypeVar("T")

Files = list[tuple[str, str, os.stat_result]]
"""Name within the installation or the user's folder, where it lies, its state."""

_MAGIC = b"whichend-cache/2\n"
MOST_BYTES = 500_000_000  # some hundred thousand rows
_CODE = (
    "",
    "model",
    "reading",
    "knowledge",
    "threads",
    "reasoning",
)  # an edit there may change what is built
_DATA = (
    "threads",
    "ends",
    "hoses",
    "rules",
    "",
)  # below a folder of tables; "" is the folder itself


def load_section(name: str, kind: Any, build: Callable[[], T], extra: Path | None = None) -> T:
    """Return what `build` makes of tables and rules, from the cache where that is current.

    Args:
        name: Which cache file; one for each thing that is built.
        kind: Root class of the result; `object` for plain values (tuples, texts, numbers).
        build: Makes the result anew; it may read the shipped tables and rules and `extra` only.
        extra: A user's folder of tables and rules.

    Raises:
        TableError: Whatever `build` raises.
    """
    files = list(_files(extra))
    signature = _signature(files)
    codec = Codec(kind)
    path = _own_path(name, extra)
    for place in (path, None if extra else shipped_path(name)):
        if not place or not (found := _read(place)):
            continue
        (signed, content), payload = found
        if signed != signature and content != _content(files):
            continue
        try:
            result: T = codec.decode(unpack(payload))
        except Exception:  # damaged in a way the checksum does not show: make it anew
            continue
        if path and signed != signature:  # same content in files just installed, or touched
            _write(path, packed((signature, content), payload))
        return result
    content = _content(files)
    result = build()
    if path:
        _write(path, packed((signature, content), pack(codec.encode(result))))
    return result


def compiled(kind: Any, value: object) -> bytes:
    """Return a cache file of the shipped tables and rules, to be put into a wheel."""
    return packed(("", _content(list(_files(None)))), pack(Codec(kind).encode(value)))


def packed(head: tuple[str, str], payload: bytes | memoryview) -> bytes:
    """Return the bytes of a cache file.

    Args:
        head: State and digest of the files that it was made from.
        payload: What the codec made, as marshal writes it.
    """
    whole = pack(head)
    both = b"".join([len(whole).to_bytes(4, "big"), whole, payload])
    return _MAGIC + crc32(both).to_bytes(4, "big") + both


def unpacked(data: bytes) -> tuple[tuple[str, str], memoryview] | None:
    """Return head and payload of the bytes of a cache file, None if they are not whole."""
    at = len(_MAGIC)
    both = memoryview(data)[at + 4 :]  # megabytes, not to be copied
    if data[:at] != _MAGIC or crc32(both).to_bytes(4, "big") != data[at : at + 4]:
        return None
    end = 4 + int.from_bytes(both[:4], "big")
    try:
        head = unpack(both[4:end])
    except (EOFError, ValueError, TypeError):
        return None
    return (head, both[end:]) if isinstance(head, tuple) and len(head) == 2 else None


def cache_dir() -> str:
    """Return the user's cache folder by the custom of the system, empty where no home is known.

    The library for this takes longer to import than the whole catalogue takes to load.
    """
    home = os.path.expanduser("~")  # noqa: PTH111 - Path.home() raises where there is none
    if sys.platform == "win32":
        base = os.environ.get("LOCALAPPDATA") or rf"{home}\AppData\Local"
    elif sys.platform == "darwin":
        base = f"{home}/Library/Caches"
    else:
        base = os.environ.get("XDG_CACHE_HOME", "")
        base = base if base.startswith("/") else f"{home}/.cache"
    return f"{base}/whichend" if os.path.isabs(base) else ""  # noqa: PTH117 - see `entry`


def shipped_path(name: str) -> str:
    """Return where an installed wheel has what was compiled when it was built."""
    return f"{identify.__path__[0]}/_data/{name}.cache"


def _own_path(name: str, extra: Path | None) -> str:
    folder = cache_dir()
    roots = os.fsencode(f"{data_path('thread_tables')}|{extra.resolve() if extra else ''}")
    return f"{folder}/{name}-{crc32(roots):08x}.cache" if folder else ""


def _files(extra: Path | None) -> Iterator[tuple[str, str, os.stat_result]]:
    """Yield name, path and state of every file a result is made from, in a fixed order."""
    package = identify.__path__[0]
    if not os.path.isdir(package):  # noqa: PTH112 - imported from a zip, which stands for all in it
        from pathlib import Path

        archive = next(parent for parent in Path(package).parents if parent.is_file())
        yield "zip", str(archive), archive.stat()
    for folder in _CODE:
        yield from _listed(folder, f"{package}/{folder}", ".py")
    for name in ("thread_tables", "rules"):
        for folder in _DATA:
            yield from _listed(f"{name}/{folder}", f"{data_path(name)}/{folder}", ".yaml")
    if extra:
        if not extra.is_dir():
            raise TableError(f"{extra}: there is no such folder of tables.")
        for folder in _DATA:
            yield from _listed(f"own/{folder}", f"{extra.resolve()}/{folder}", ".yaml")


def _listed(name: str, folder: str, ending: str) -> Iterator[tuple[str, str, os.stat_result]]:
    try:
        found = [
            entry
            for entry in os.scandir(folder)
            if entry.name.endswith(ending) and not entry.name.startswith(".")
        ]
    except OSError:
        return
    for entry in sorted(found, key=lambda entry: entry.name):
        yield f"{name}/{entry.name}", entry.path, _state(entry)


def _state(entry: os.DirEntry[str]) -> os.stat_result:
    """Return the state of what an entry leads to, of a link itself that leads nowhere."""
    try:
        return entry.stat()
    except OSError:
        return entry.stat(follow_symlinks=False)


def _signature(files: Files) -> str:
    return " ".join([f"{path}:{s.st_size}:{s.st_mtime_ns}:{s.st_ctime_ns}" for _, path, s in files])


def _content(files: Files) -> str:
    import hashlib  # slow to import, and needed only when a file was touched

    digest = hashlib.sha256()
    for name, path, state in files:
        try:
            data, _ = read_regular(path)
        except OSError:  # what is no file has no content; whoever reads the tables says so
            data = str(state.st_mode).encode()
        digest.update(os.fsencode(f"{name}:{len(data)}:") + data)
    return digest.hexdigest()


def _read(path: str) -> tuple[tuple[str, str], memoryview] | None:
    """Return head and payload of a cache file, None if it is not whole or may be another's."""
    try:
        data, state = read_regular(path, MOST_BYTES)
    except (OSError, ValueError):
        return None
    return unpacked(data) if _ours(state) else None


def _ours(state: os.stat_result) -> bool:
    """Tell whether nobody else can have written a file: a checksum is no proof against intent.

    Whoever owns the program may also have brought along what it compiled.
    """
    if not hasattr(os, "geteuid"):
        return True  # Windows keeps the folder of a user from others
    if state.st_mode & (stat.S_IWGRP | stat.S_IWOTH):
        return False
    return state.st_uid == os.geteuid() or state.st_uid == os.stat(identify.__path__[0]).st_uid  # noqa: PTH116


def _write(path: str, data: bytes) -> None:
    """Replace the cache file in one step; do without a cache where that cannot be done."""
    import threading  # only where there is something to write

    fresh = f"{path}.{os.getpid()}-{threading.get_ident()}"
    try:
        os.makedirs(os.path.dirname(path), exist_ok=True, mode=0o700)  # noqa: PTH103, PTH120
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        with open(os.open(fresh, flags, 0o600), "wb") as file:  # noqa: PTH123 - a number
            file.write(data)
        os.replace(fresh, path)  # noqa: PTH105
    except OSError:
        with suppress(OSError):
            os.unlink(fresh)  # noqa: PTH108
