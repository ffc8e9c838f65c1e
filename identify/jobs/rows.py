"""The SQLite file that the index stands in: laid out, opened, and what stands in for it.

It may be deleted at any time. One that is damaged or of another version is taken away and laid out
anew; where it cannot be written, its rows are held in memory for this once.
"""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

VERSION = 2  # of the rows; another is made anew
WAIT_S = 10.0  # for another window that brings the index up to date
_TABLES = """
    CREATE TABLE folder (name TEXT PRIMARY KEY, changed INTEGER);
    CREATE TABLE job (
        id INTEGER PRIMARY KEY, folder TEXT, file TEXT, size INTEGER, changed INTEGER,
        reference TEXT, unfinished INTEGER, listed TEXT, fitted TEXT
    );
    CREATE UNIQUE INDEX job_file ON job (folder, file);
    CREATE INDEX job_reference ON job (reference);
    CREATE INDEX job_unfinished ON job (id) WHERE unfinished;
    CREATE INDEX job_fitted ON job (id) WHERE fitted <> '';
"""


_IN_THE_WAY = (
    sqlite3.SQLITE_BUSY,
    sqlite3.SQLITE_LOCKED,
    sqlite3.SQLITE_READONLY,
    sqlite3.SQLITE_FULL,
    sqlite3.SQLITE_IOERR,
    sqlite3.SQLITE_CANTOPEN,
)
"""Faults of the disk or of another window, not of what is in the file."""
_FULL_TEXT = "CREATE VIRTUAL TABLE word USING fts5 (words, tokenize='ascii', prefix='1 2 3')"


def opened(file: Path) -> sqlite3.Connection:
    """Open the file of the index; one that is not there yet, or of another version, is made."""
    file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    rows = sqlite3.connect(file, timeout=WAIT_S, isolation_level=None)
    try:
        if rows.execute("PRAGMA user_version").fetchone() != (VERSION,):
            if rows.execute("SELECT 1 FROM sqlite_master").fetchone():
                raise sqlite3.DatabaseError("of another version")
            _lay_out(rows)
    except sqlite3.DatabaseError:
        rows.close()
        raise
    return rows


def _lay_out(rows: sqlite3.Connection) -> None:
    with rows:
        rows.execute("BEGIN IMMEDIATE")
        if rows.execute("PRAGMA user_version").fetchone() == (VERSION,):
            return  # another window was faster
        for table in _TABLES.split(";"):
            rows.execute(table)
        try:
            rows.execute(_FULL_TEXT)
        except sqlite3.OperationalError:  # this system's library was made without it
            rows.execute("CREATE TABLE word (words TEXT)")
        rows.execute(f"PRAGMA user_version = {VERSION}")


def instead(file: Path, error: Exception) -> sqlite3.Connection:
    """Return rows in place of those that cannot be read or written.

    An index that is only locked, or on a full or read-only disk, is copied into memory; a damaged
    one is taken away and begun anew.
    """
    memory = sqlite3.connect(":memory:", isolation_level=None)
    if getattr(error, "sqlite_errorcode", sqlite3.SQLITE_CORRUPT) & 0xFF in _IN_THE_WAY:
        with (
            suppress(sqlite3.DatabaseError),
            closing(sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True, timeout=0)) as before,
        ):
            before.execute("SELECT 1 FROM folder")  # fails where a copy would wait for ever
            before.backup(memory)
            return memory
    elif not isinstance(error, OSError):
        with suppress(OSError, sqlite3.DatabaseError):
            file.unlink(missing_ok=True)
            return opened(file)
    _lay_out(memory)
    return memory
