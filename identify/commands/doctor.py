"""`whichend doctor`: versions, paths, tables and terminal, and what is wrong with them."""

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator
from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as installed
from pathlib import Path

from identify.commands.options import add_tables_option
from identify.commands.settings import config_path, read_config
from identify.errors import WhichendError
from identify.jobs.folders import folder_path, interviews_folder
from identify.jobs.journal import read_job
from identify.jobs.shelf import Shelf, index_file
from identify.knowledge.compiled import cache_dir
from identify.knowledge.fingerprint import fingerprints
from identify.transliterate import speaks_utf8
from identify.version import version

LIBRARIES = (
    "textual",
    "rich",
    "PyYAML",
    "pint",
    "filelock",
    "platformdirs",
    "shtab",
    "segno",
    "fsrs",
)
Told = tuple[str, str]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of the command."""
    parser.description = (
        "Say which versions, files and tables are in use, what the terminal can do, and what is "
        "wrong with any of them."
    )
    parser.epilog = "Exit status: 0 no fault was found, 1 one or more."
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    add_tables_option(parser)


def run(args: argparse.Namespace) -> int:
    """Print it; return 1 if there is any fault."""
    told: dict[str, str] = {}
    faults: list[str] = []
    for look in (_versions, _paths, lambda: _tables(args.tables), _jobs, _terminal):
        faults += _looked(look, told)
    if args.json:
        print(json.dumps({"found": told, "faults": faults}, ensure_ascii=False))
    else:
        wide = max(map(len, told))
        for name, value in told.items():
            print(f"{name.ljust(wide)}  {value}")
        print()
        for fault in faults:
            print(f"FAULT: {fault}")
        print(
            "No fault was found." if not faults else "whichend tables check names faults of tables."
        )
    return 1 if faults else 0


def _looked(look: Callable[[], Iterator[Told]], told: dict[str, str]) -> list[str]:
    """Add what one look finds; what stops it is a fault."""
    try:
        for name, value in look():
            if name == "fault":
                return [value]
            told[name] = value
    except (WhichendError, OSError) as error:
        return str(error).splitlines()
    return []


def _versions() -> Iterator[Told]:
    import sqlite3

    yield "whichend", version()
    yield "Python", sys.version.split()[0]
    yield "SQLite", sqlite3.sqlite_version
    for name in LIBRARIES:
        try:
            yield name, installed(name)
        except PackageNotFoundError:
            yield "fault", f"{name} is not installed; install whichend again."


def _paths() -> Iterator[Told]:
    path = config_path()
    there = bool(path) and Path(path).exists()
    yield "configuration", f"{path or 'no home folder is known'}{'' if there else ' (none)'}"
    yield "cache", str(cache_dir() or "no home folder is known")
    folder = folder_path(interviews_folder())
    yield "jobs", str(folder or "no home folder is known")
    if folder:
        yield "index of jobs", str(index_file(folder))
    if there:
        keys = read_config(path)
        yield "configured", ", ".join(keys) or "nothing"
    if folder is None:
        yield "fault", "No home folder is known, so no job is kept; set HOME, or XDG_STATE_HOME."
    near = (
        next((each for each in (folder, *folder.parents) if each.exists()), None)
        if folder
        else None
    )
    if near and not near.is_dir():
        yield "fault", f"{near} is no folder, so no job is kept; move it away."
    elif near and not os.access(near, os.W_OK):
        yield "fault", f"{near} cannot be written, so no job is kept."


def _tables(own: Path | None) -> Iterator[Told]:
    from identify.commands.tables import check

    tables, rules = fingerprints(own)
    yield "tables", tables
    yield "rules", rules
    report, sound = check(own)
    yield "tables say", report.splitlines()[-1]
    if not sound:
        yield "fault", report


def _jobs() -> Iterator[Told]:
    folder = folder_path(interviews_folder())
    if folder is None or not folder.is_dir():
        return
    jobs = Shelf(folder)
    every = jobs.index.every()
    yield "jobs kept", str(len(every))
    aside = len(list(folder.rglob("*.kept")))
    if aside:
        yield "set aside", f"{aside} that could not be written on"
    nameless = [folder / each for each in jobs.index.nameless()]
    bad = [each for each in nameless if each.stat().st_size and read_job(each) is None]
    if bad:
        files = "1 file of jobs" if len(bad) == 1 else f"{len(bad)} files of jobs"
        yield (
            "fault",
            f"{files} cannot be read; they are damaged, or of a later version: "
            f"{', '.join(map(str, bad))}.",
        )


def _terminal() -> Iterator[Told]:
    screen = sys.stdin.isatty() and sys.stdout.isatty()
    utf8 = speaks_utf8(sys.stdout.encoding, os.environ)
    yield (
        "terminal",
        f"{os.environ.get('TERM', 'not named')}, {'yes' if screen else 'no'} person at it",
    )
    yield "output", f"{sys.stdout.encoding}, {'UTF-8' if utf8 else 'plain characters only'}"
    if screen:
        size = os.get_terminal_size()
        yield "window", f"{size.columns} by {size.lines}"
    colours = "off, NO_COLOR is set" if os.environ.get("NO_COLOR") else os.environ.get("COLORTERM")
    yield "colours", colours or "as TERM says"
    face = screen and utf8 and os.environ.get("TERM") != "dumb"
    yield "interview", "on the full screen" if face else "as a dialogue of lines"
