"""The index of all jobs: what a search reads, so that it need not open every file.

A SQLite file of rows worked out from the job files and from nothing else. It may be deleted at any
time and is made again; it is written by whoever reads it, never by whoever writes a job. What has
changed is found by the times of the folders: to open a job for writing lays a lock beside it and
takes it away again, which a folder remembers. A folder with a lock in it, or changed within the
last moments before it was looked at, is looked at again.
"""

import sqlite3
import time
from collections.abc import Callable, Iterable
from contextlib import suppress
from pathlib import Path
from zlib import crc32

from identify.jobs.journal import read_job
from identify.jobs.learning import fitted_in
from identify.jobs.listing import Listed, listed_from, listed_of, searched, words_of
from identify.jobs.locks import in_use
from identify.jobs.months import folders_in, jobs_in
from identify.jobs.rows import instead, opened

MANY = 3000  # files that are read in more time than a person waits without a word
SETTLED_NS = 2_000_000_000  # a folder whose time is nearer than this may change unseen


class Index:
    """The rows, brought up to date when it is made.

    Where the file of the index cannot be written, rows are held in memory for this once.

    Args:
        folder: Of all jobs.
        file: Where the index is kept.
        now_ns: The clock [ns].
        told: Is called before many files are read, with how many, so that a person can be told.
    """

    def __init__(
        self,
        folder: Path,
        file: Path,
        now_ns: int | None = None,
        told: Callable[[int], object] = lambda _: None,
    ) -> None:
        self.folder, self._file, self._told = folder, file, told
        self._now_ns = time.time_ns() if now_ns is None else now_ns
        try:
            self._rows = opened(file)
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

    def fitted(self) -> list[tuple[str, str]]:
        """Return every end that was identified, made and fitted: its id, and on which day."""
        rows = self._rows.execute("SELECT fitted FROM job WHERE fitted <> ''").fetchall()
        return [(line[11:], line[:10]) for (lines,) in rows for line in lines.split("\n")]

    def nameless(self) -> list[str]:
        """Return the files, below the folder, in which no job was found: empty ones and strange."""
        rows = self._rows.execute("SELECT folder, file FROM job WHERE listed = ''").fetchall()
        return [f"{folder}/{file}".lstrip("/") for folder, file in rows]

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
        self._rows = instead(self._file, error)
        self._renew()

    # ---- bringing it up to date

    def _renew(self) -> None:
        known = dict(self._rows.execute("SELECT name, changed FROM folder").fetchall())
        there = folders_in(self.folder, known.items())
        changed = {name: state for name, state in there.items() if known.get(name) != state}
        gone = known.keys() - there.keys()
        if not changed and not gone:
            return
        files = {name: list(jobs_in(self.folder / name)) for name in changed}
        if sum(map(len, files.values())) >= MANY:
            unread = sum(len(files[name]) - len(self._known(name)) for name in changed)
            if unread >= MANY:
                self._told(unread)
        for name in gone:
            with self._rows:
                self._rows.execute("BEGIN IMMEDIATE")
                self._forget(name, self._known(name).keys())
                self._rows.execute("DELETE FROM folder WHERE name = ?", (name,))
        # Each folder by itself, so that what was read stays; the one that holds them last, since
        # no months are looked for while it is as it was.
        for name, state in sorted(changed.items(), reverse=True):
            with self._rows:
                self._rows.execute("BEGIN IMMEDIATE")
                settled = self._scan(name, files[name]) and self._now_ns - state > SETTLED_NS
                self._rows.execute(
                    "INSERT OR REPLACE INTO folder VALUES (?, ?)", (name, state if settled else 0)
                )

    def _known(self, name: str) -> dict[str, tuple[int, int, int]]:
        rows = self._rows.execute(
            "SELECT file, id, size, changed FROM job WHERE folder = ?", (name,)
        )
        return {file: (key, size, changed) for file, key, size, changed in rows}

    def _scan(self, name: str, files: Iterable[tuple[Path, int, int, bool]]) -> bool:
        """Read what changed in a folder; tell whether nobody has a file of it open."""
        known, quiet = self._known(name), True
        seen = set()
        for path, size, changed, locked in files:
            seen.add(path.name)
            quiet = quiet and not (locked and in_use(path))
            if path.name in known:
                if known[path.name][1:] == (size, changed):
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
            "INSERT INTO job VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (
                key, name, path.name, size, changed,
                listed.reference if listed else "",
                listed is not None and listed.unfinished,
                listed.as_text() if listed else "",
                "\n".join(f"{day} {name}" for name, day in fitted_in(kept.job)) if kept else "",
            ),
        )  # fmt: skip
        if kept and listed:
            words = (key, words_of(kept))
            self._rows.execute("INSERT INTO word (rowid, words) VALUES (?, ?)", words)
