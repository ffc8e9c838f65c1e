# ruff: noqa: E501 - a table of cases reads best with one a line
"""Folders of tables that somebody has spoilt: each gets its sentence, none stops the program."""

import contextlib
import io
import os
import shutil
import time
from collections.abc import Callable
from pathlib import Path

from identify.entry import main

SOURCES = 'schema: source_table/1\nsources:\n  own: {title: "Own figures", kind: memory}\n'
THREADS = 'schema: thread_table/1\nsystem: M\nprovenance: {source: own, basis: computed}\nsizes:\n  - {designation: "M99x2", major: "99 mm", pitch: "2 mm"}\n'
EXPERT = "schema: rule_table/1\nrules: {}\n"
BOMB = "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(
    f"{b}: &{b} [*{a}, *{a}, *{a}, *{a}, *{a}, *{a}, *{a}, *{a}, *{a}]\n"
    for a, b in zip("abcdefgh", "bcdefghi", strict=True)
)
Lay = Callable[[Path], None]


def text(place: str, content: str | bytes) -> Lay:
    """Return what lays a file into a folder."""

    def lay(folder: Path) -> None:
        path = folder / place
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())

    return lay


def link(place: str, to: str) -> Lay:
    """Return what lays a link into a folder."""

    def lay(folder: Path) -> None:
        (folder / place).parent.mkdir(parents=True, exist_ok=True)
        (folder / place).symlink_to(to)

    return lay


def pipe(place: str) -> Lay:
    """Return what lays a pipe into a folder, which never ends."""

    def lay(folder: Path) -> None:
        (folder / place).parent.mkdir(parents=True, exist_ok=True)
        os.mkfifo(folder / place)

    return lay


def inside(place: str) -> Lay:
    """Return what lays a folder where a file is wanted."""
    return lambda folder: (folder / place).mkdir(parents=True)


PLACES = (
    "sources.yaml",
    "threads/x.yaml",
    "ends/x.yaml",
    "rules/expert.yaml",
    "rules/lookalikes.yaml",
    "rules/sources.yaml",
)
_EVERYWHERE: dict[str, Callable[[str], Lay]] = {
    "not UTF-8": lambda place: text(place, b"schema: \xff\xfe\n"),
    "empty": lambda place: text(place, ""),
    "a list": lambda place: text(place, "[1, 2]\n"),
    "no YAML": lambda place: text(place, "a: [b\n"),
    "a bomb of aliases": lambda place: text(place, BOMB),
    "a pipe": pipe,
    "a folder": inside,
    "a link to itself": lambda place: link(place, Path(place).name),
    "a link to nowhere": lambda place: link(place, "nowhere"),
    "escapes": lambda place: text(place, 'schema: "\\e[2J"\n"\\e]0;x\\a": 1\n'),
}
_ONCE: dict[str, Lay] = {
    "an editor's lock": link("ends/.#x.yaml", "somebody@somewhere.1:2"),
    "a device": link("threads/x.yaml", "/dev/zero"),
    "a flood": text("threads/x.yaml", b"#" * 5_000_001),
    "a long number": text("threads/x.yaml", THREADS.replace('"99 mm"', "9" * 6000)),
    "a long decimal": text("threads/x.yaml", THREADS.replace('"99 mm"', "0." + "9" * 6000)),
    "a bomb in its place": text("threads/x.yaml", BOMB + "schema: *i\nsystem: *i\nsizes: *i\n"),
    "an alias of itself": text("threads/x.yaml", "schema: &a [*a]\n"),
    "an unknown alias": text("threads/x.yaml", "schema: *nothing\n"),
    "nested deep": text("threads/x.yaml", "schema: " + "[" * 50_000),
    "nested deep in rows": text("threads/x.yaml", "\n".join(" " * i + "- " for i in range(900)) + "x\n"),
    "a tag that makes objects": text("threads/x.yaml", "schema: !!python/object/apply:os.system [exit]\n"),
    "a key that is a list": text("threads/x.yaml", "? [a, b]\n: 1\n"),
    "a key twice": text("threads/x.yaml", "schema: thread_table/1\nschema: thread_table/1\n"),
    "two documents": text("threads/x.yaml", THREADS + "---\n" + THREADS),
    "zeros": text("threads/x.yaml", b"\0" * 100),
    "UTF-16": text("threads/x.yaml", THREADS.encode("utf-16")),
    "tabs": text("threads/x.yaml", "sizes:\n\t- x\n"),
    "a name with escapes": text("threads/\x1b[31mx.yaml", "a: [b\n"),
    "a name that is no text": lambda folder: _nameless(folder),
    "only what is not read": lambda folder: [text(name, "x")(folder) for name in ("mine.yml", "end/x.yaml", "rules/priors.yaml")] and None,
    "nothing at all": lambda folder: None,
    "threads is a file": text("threads", "x"),
    "ends is a pipe": pipe("ends"),
    "rules is a link to itself": link("rules", "rules"),
    "a title of many lines": text("sources.yaml", SOURCES.replace("Own figures", "a\\nb\\r\\x1b[2J")),
}  # fmt: skip
SPOILT: dict[str, Lay] = {
    f"{what}: {place}": make(place) for what, make in _EVERYWHERE.items() for place in PLACES
} | _ONCE
QUIET = ("escapes", "nothing", "an editor's lock", "a title of many lines")
"""What may end without a fault, or with one: no law says which."""


def _nameless(folder: Path) -> None:
    (folder / "threads").mkdir()
    with open(os.fsencode(folder) + b"/threads/\xff\x9b.yaml", "wb") as file:  # noqa: PTH123
        file.write(b"a: [b\n")


def harmed(folder: Path, name: str, seconds: float = 20.0) -> str | None:
    """Check a spoilt folder of tables; return what went wrong, None if nothing did."""
    own = folder / "own"
    own.mkdir(parents=True)
    SPOILT[name](own)
    out, err = io.StringIO(), io.StringIO()
    begun = time.monotonic()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            status = main(["tables", "check", str(own)])
        except Exception as error:
            return f"{name}: {type(error).__name__}: {error}"
    said = out.getvalue() + err.getvalue()
    shutil.rmtree(own)
    if time.monotonic() - begun > seconds:
        return f"{name}: took {time.monotonic() - begun:.0f} s"
    if status not in (0, 2):
        return f"{name}: ended with {status}"
    if len(said) > 6000:
        return f"{name}: said {len(said)} characters"
    if strange := [c for c in said if not c.isprintable() and c != "\n"]:
        return f"{name}: printed {strange[:3]!r}"
    if status == 0 and not name.startswith(QUIET):
        return f"{name}: found no fault"
    return None
