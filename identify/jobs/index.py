"""The index of all jobs: what a search reads, so that it need not open every file.

A SQLite file of rows worked out from the job files and from nothing else. It may be deleted at any
time and is made again; it is written by whoever reads it, never by whoever writes a job. What has
changed is found by the times of the folders: to open a job for writing lays a lock beside it and
takes it away again, which a folder remembers. A folder with a lock in it, or changed within the
last moments before it was looked at, is looked at again.
"""

import sqlite3
import time
from collections.abc import Iterable
from contextlib import closing, suppress
from pathlib import Path
from zlib import crc32

from identify.jobs.journal import read_job
from identify.jobs.listing import Listed, listed_from, listed_of, searched, words_of
from identify.jobs.locks import in_use
from identify.jobs.months import folders_in, jobs_in

VERSION = 1  # of the rows; another is made anew
SETTLED_NS = 2_000_000_000  # a folder whose time is nearer than this may change unseen
WAIT_S = 10.0  # for another window that brings the index up to date
_TABLES = """
    CREATE TABLE folder (name TEXT PRIMARY KEY, changed INTEGER);
    CREATE TABLE job (
        id INTEGER PRIMARY KEY, folder TEXT, file TEXT, size INTEGER, changed INTEGER,
        reference TEXT, unfinished INTEGER, listed TEXT
    );
    CREATE UNIQUE INDEX job_file ON job (folder, file);
    CREATE INDEX job_reference ON job (reference);
    CREATE INDEX job_unfinished ON job (id) WHERE unfinished;
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


class Index:
    """The rows, brought up to date when it is made.

    Where the file of the index cannot be written, rows are held in memory for this once.

    Args:
        folder: Of all jobs.
        file: Where the index is kept.
        now_ns: The clock [ns].
    """

    def __init__(self, folder: Path, file: Path, now_ns: int | None = None) -> None:
        self.folder, self._file = folder, file
        self._now_ns = time.time_ns() if now_ns is None else now_ns
        try:
            self._rows = _opened(file)
            self._renew()
        except (sqlite3.DatabaseError, OSError) as error:
            self._repair(error)

    def latest(self, most: int, *, discarded: bool = False) -> list[Listed]:
        """Return the jobs begun last, the latest first."""
        return self._listed("ORDER BY id DESC", (), most, discarded)

    def unfinished(self) -> list[Listed]:
        """Return the jobs with an interview that was broken off, the latest first."""
        return self._listed("WHERE unfinished ORDER BY id DESC", (), -1, False)

    def referred(self, reference: str) -> list[Listed]:
        """Return the jobs of a reference: one, or none; more where folders were mixed."""
        return self._listed("WHERE reference = ? ORDER BY id DESC", (reference,), -1, True)

    def found(self, words: str, most: int, *, discarded: bool = False) -> list[Listed]:
        """Return the jobs in which every word begins something that was said, the latest first."""
        wanted = [each for word in words.split() if (each := searched(word))]
        if not wanted:
            return []
        if self._full_text():
            query: tuple[str, ...] = (" ".join(f'"{each}"*' for each in wanted),)
            where = "word MATCH ?"
        else:
            query = tuple(f"% {each}%" for each in wanted)
            where = " AND ".join(["' ' || words LIKE ?"] * len(query))
        sql = f"JOIN word ON word.rowid = id WHERE {where} ORDER BY word.rowid DESC"
        return self._listed(sql, query, most, discarded)

    def every(self) -> list[Listed]:
        """Return all jobs, discarded ones too, the earliest first."""
        return self._listed("ORDER BY id", (), -1, True)

    def close(self) -> None:
        """Let go of the file."""
        self._rows.close()

    def _full_text(self) -> bool:
        """Tell whether words are kept in a table made for searching."""
        made = self._rows.execute("SELECT sql FROM sqlite_master WHERE name = 'word'").fetchone()
        return made is None or "fts5" in made[0]

    def _listed(
        self, where: str, values: tuple[str, ...], most: int, discarded: bool
    ) -> list[Listed]:
        try:
            return self._read(where, values, most, discarded)
        except (sqlite3.DatabaseError, ValueError, TypeError, KeyError) as error:  # damaged
            self._repair(error)
            return self._read(where, values, most, discarded)

    def _read(
        self, where: str, values: tuple[str, ...], most: int, discarded: bool
    ) -> list[Listed]:
        found: list[Listed] = []
        for (text,) in self._rows.execute(f"SELECT listed FROM job {where}", values):
            row = listed_from(text) if text else None
            if row and (discarded or not row.discarded):
                found.append(row)
            if len(found) == most:
                break
        return found

    def _repair(self, error: Exception) -> None:
        """Make the rows anew where they are damaged, in memory where they cannot be written."""
        with suppress(AttributeError):  # it could not even be opened
            self._rows.close()
        self._rows = _instead(self._file, error)
        self._renew()

    # ---- bringing it up to date

    def _renew(self) -> None:
        known = dict(self._rows.execute("SELECT name, changed FROM folder").fetchall())
        there = folders_in(self.folder, known.items())
        changed = {name: state for name, state in there.items() if known.get(name) != state}
        gone = known.keys() - there.keys()
        if not changed and not gone:
            return
        with self._rows:
            self._rows.execute("BEGIN IMMEDIATE")
            for name in gone:
                self._forget(name, self._known(name).keys())
                self._rows.execute("DELETE FROM folder WHERE name = ?", (name,))
            for name, state in changed.items():
                settled = self._scan(name) and self._now_ns - state > SETTLED_NS
                self._rows.execute(
                    "INSERT OR REPLACE INTO folder VALUES (?, ?)", (name, state if settled else 0)
                )

    def _known(self, name: str) -> dict[str, tuple[int, int, int]]:
        rows = self._rows.execute(
            "SELECT file, id, size, changed FROM job WHERE folder = ?", (name,)
        )
        return {file: (key, size, changed) for file, key, size, changed in rows}

    def _scan(self, name: str) -> bool:
        """Read what changed in a folder; tell whether nobody has a file of it open."""
        known, quiet = self._known(name), True
        seen = set()
        for path, size, changed, locked in jobs_in(self.folder / name):
            seen.add(path.name)
            quiet = quiet and not (locked and in_use(path))
            if path.name in known and known[path.name][1:] == (size, changed):
                continue
            self._forget(name, [path.name])
            self._add(name, path, size, changed)
        self._forget(name, known.keys() - seen)
        return quiet

    def _forget(self, name: str, files: Iterable[str]) -> None:
        for file in list(files):
            where = "SELECT id FROM job WHERE folder = ? AND file = ?"
            self._rows.execute(f"DELETE FROM word WHERE rowid = ({where})", (name, file))
            self._rows.execute("DELETE FROM job WHERE folder = ? AND file = ?", (name, file))

    def _add(self, name: str, path: Path, size: int, changed: int) -> None:
        kept = read_job(path)
        below = f"{name}/{path.name}".lstrip("/")
        listed = listed_of(kept, below) if kept and not kept.job.empty else None
        key = int(kept.when if kept else 0) * 1_000_000 + crc32(path.name.encode()) % 1_000_000
        while self._rows.execute("SELECT 1 FROM job WHERE id = ?", (key,)).fetchone():
            key += 1
        self._rows.execute(
            "INSERT INTO job VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
            (
                key, name, path.name, size, changed,
                listed.reference if listed else "",
                listed is not None and listed.unfinished,
                listed.as_text() if listed else "",
            ),
        )  # fmt: skip
        if kept and listed:
            words = (key, words_of(kept))
            self._rows.execute("INSERT INTO word (rowid, words) VALUES (?, ?)", words)


def _opened(file: Path) -> sqlite3.Connection:
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


def _instead(file: Path, error: Exception) -> sqlite3.Connection:
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
            return _opened(file)
    _lay_out(memory)
    return memory
