"""Tables and rules compiled once into the user's cache, so that one command need not read YAML.

It is used only if its head names the present state of every table, rule and code file it was made
from; else it is made anew. An installed wheel brings one along, which is used if it was made from
files of the same content. No state of the cache, and no folder that cannot be written, stops a
command.
"""

from __future__ import annotations

import os
import sys
from zlib import crc32

import identify
from identify.errors import TableError
from identify.files import read_regular
from identify.frozen import TYPE_CHECKING
from identify.knowledge.cache_file import headed, opened, packed
from identify.knowledge.codec import Codec
from identify.knowledge.table_files import data_path
from identify.light import Callable, Iterator, Sequence, suppress

if TYPE_CHECKING:
    from pathlib import Path
    from typing import Any, TypeVar

    T = TypeVar("T")

Files = list[tuple[str, str, os.stat_result]]
"""Name within the installation or the user's folder, where it lies, its state."""

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

    def made() -> tuple[T, Sequence[bytes]]:
        content = _content(files)
        result = build()
        parts, top = codec.encode(result)
        if path:
            _write(path, packed(signature, content, top, parts))
        return result, parts

    def anew(before: int) -> Callable[[], Sequence[bytes]]:
        def parts() -> Sequence[bytes]:
            found = made()[1] if _signature(list(_files(extra))) == signature else ()
            if len(found) != before:
                raise TableError(
                    "the tables were changed while they were in use; start whichend again."
                )
            return found

        return parts

    for place in (path, None if extra else shipped_path(name)):
        if not place or not (found := opened(place)):
            continue
        head, parts = found
        if head.signature != signature and head.content != _content(files):
            continue
        parts.anew = anew(len(parts))
        try:
            result: T = codec.decode((parts, head.top))
        except Exception:  # damaged in a way the checksum does not show: make it anew
            continue
        if path and head.signature != signature:  # same content in files just installed, or touched
            _write(path, headed(head._replace(signature=signature), parts.written()))
        return result
    return made()[0]


def compiled(kind: Any, value: object) -> bytes:
    """Return a cache file of the shipped tables and rules, to be put into a wheel."""
    parts, top = Codec(kind).encode(value)
    return packed("", _content(list(_files(None))), top, parts)


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
