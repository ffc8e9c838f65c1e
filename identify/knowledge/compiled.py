"""Tables and rules compiled once into the user's cache, so that one command need not read YAML.

A cache file is one line of header and one line of payload, both JSON. It is used only if its
header names the present state of every table, rule and code file it was made from and its payload
is whole; else it is made anew. No state of the cache, and no folder that cannot be written, stops
a command.
"""

import json
import os
import stat
import sys
import zlib
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, TypeVar

import identify
from identify.errors import TableError
from identify.files import read_regular
from identify.knowledge.codec import Codec
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue

T = TypeVar("T")
Files = list[tuple[str, os.stat_result]]

_FORMAT = "whichend-cache/1"
_CODE = (
    "",
    "model",
    "reading",
    "knowledge",
    "threads",
    "reasoning",
)  # an edit there may change what is built
_DATA = ("threads", "ends", "rules", "")  # below a folder of tables; "" is the folder itself


def load_catalogue(extra: Path | None = None) -> Catalogue:
    """Return the catalogue of the shipped tables and of a user's folder.

    Raises:
        TableError: With every fault of the tables, if they must be read anew and have any.
    """

    def build() -> Catalogue:
        from identify.knowledge.build import build_catalogue  # yaml only where it is needed

        return build_catalogue([data_dir("thread_tables"), *([extra] if extra else [])])

    return load_section("catalogue", Catalogue, build, extra)


def load_section(
    name: str, kind: type[T] | None, build: Callable[[], T], extra: Path | None = None
) -> T:
    """Return what `build` makes of tables and rules, from the cache where that is current.

    Args:
        name: Which cache file; one for each thing that is built.
        kind: Root dataclass of the result; None for plain JSON values (lists, texts, numbers).
        build: Makes the result anew; it may read the shipped tables and rules and `extra` only.
        extra: A user's folder of tables and rules.

    Raises:
        TableError: Whatever `build` raises.
    """
    files = list(_files(extra))
    signature = _signature(files)
    codec = Codec(kind or Any)
    shape = zlib.crc32(codec.shape.encode())
    cache = cache_dir()
    path = cache / f"{name}-{zlib.crc32(os.fsencode(_roots(extra))):08x}.json" if cache else None
    header, payload = _read(path) if path else ({}, b"")
    if (header.get("format"), header.get("shape")) == (_FORMAT, shape):
        current = header.get("signature") == signature
        if current or header.get("content") == _content(files):
            try:
                result: T = codec.decode(json.loads(payload))
            except Exception:  # damaged in a way the checksum does not show: make it anew
                current = False
            else:
                if path and not current:  # same content, touched files
                    _write(path, {**header, "signature": signature}, payload)
                return result
    content = _content(files)
    result = build()
    payload = json.dumps(codec.encode(result), separators=(",", ":")).encode()
    new = {"format": _FORMAT, "shape": shape, "signature": signature, "content": content}
    if path:
        _write(path, new, payload)
    return result


def cache_dir() -> Path | None:
    """Return the user's cache folder by the custom of the system, None where no home is known.

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
    folder = Path(base, "whichend")
    return folder if folder.is_absolute() else None


def _roots(extra: Path | None) -> str:
    return f"{data_dir('thread_tables')}|{extra.resolve() if extra else ''}"


def _files(extra: Path | None) -> Iterator[tuple[str, os.stat_result]]:
    """Yield path and state of every file a result is made from, in a fixed order."""
    package = Path(identify.__path__[0])
    if not package.is_dir():  # imported from a zip, which then stands for all that is in it
        archive = next(parent for parent in package.parents if parent.is_file())
        yield str(archive), archive.stat()
    for folder in _CODE:
        yield from _listed(f"{package}/{folder}", ".py")
    for name in ("thread_tables", "rules"):
        for folder in _DATA:
            yield from _listed(f"{data_dir(name)}/{folder}", ".yaml")
    if extra:
        if not extra.is_dir():
            raise TableError(f"{extra}: there is no such folder of tables.")
        for folder in _DATA:
            yield from _listed(f"{extra.resolve()}/{folder}", ".yaml")


def _listed(folder: str, ending: str) -> Iterator[tuple[str, os.stat_result]]:
    try:
        found = [
            entry
            for entry in os.scandir(folder)
            if entry.name.endswith(ending) and not entry.name.startswith(".")
        ]
    except OSError:
        return
    for entry in sorted(found, key=lambda entry: entry.name):
        yield entry.path, _state(entry)


def _state(entry: "os.DirEntry[str]") -> os.stat_result:
    """Return the state of what an entry leads to, of a link itself that leads nowhere."""
    try:
        return entry.stat()
    except OSError:
        return entry.stat(follow_symlinks=False)


def _signature(files: Files) -> str:
    return " ".join(
        f"{path}:{state.st_size}:{state.st_mtime_ns}:{state.st_ctime_ns}" for path, state in files
    )


def _content(files: Files) -> str:
    import hashlib  # slow to import, and needed only when a file was touched

    digest = hashlib.sha256()
    for path, state in files:
        try:
            data, _ = read_regular(path)
        except OSError:  # what is no file has no content; whoever reads the tables says so
            data = str(state.st_mode).encode()
        digest.update(os.fsencode(f"{path}:{len(data)}:") + data)
    return digest.hexdigest()


def _read(path: Path) -> tuple[dict[str, Any], bytes]:
    """Return header and payload of a cache file, an empty header if it is not whole."""
    try:
        data, state = read_regular(path)
        if not _ours(state):
            return {}, b""
        first, _, payload = data.partition(b"\n")
        header = json.loads(first)
    except (OSError, ValueError, RecursionError):
        return {}, b""
    if not isinstance(header, dict) or header.get("crc") != zlib.crc32(payload):
        return {}, b""
    return header, payload


def _ours(state: os.stat_result) -> bool:
    """Tell whether nobody else can have written a file: a checksum is no proof against intent."""
    if not hasattr(os, "geteuid"):
        return True  # Windows keeps the folder of a user from others
    return state.st_uid == os.geteuid() and not state.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _write(path: Path, header: dict[str, Any], payload: bytes) -> None:
    """Replace the cache file in one step; do without a cache where that cannot be done."""
    import threading  # only where there is something to write

    fresh = path.with_name(f"{path.name}.{os.getpid()}-{threading.get_ident()}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        first = json.dumps({**header, "crc": zlib.crc32(payload)}).encode()
        flags = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
        with open(os.open(fresh, flags, 0o600), "wb") as file:  # noqa: PTH123 - a number
            file.write(first + b"\n" + payload)
        fresh.replace(path)
    except OSError:
        with suppress(OSError):
            fresh.unlink()
