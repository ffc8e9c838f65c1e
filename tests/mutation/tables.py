"""Change one figure of the tables at a time and list the changes that no check notices.

    python -m tests.mutation.tables [--file NAME] [--sample N --seed S] [--without recollected]

A check is what reading the tables applies (`read_threads`, `read_ends`, `read_hoses`,
`check_catalogue`) or a law of `tests/laws`. Only the changed file is read again. Prose (notes,
names, advice) is not changed.
"""

import argparse
import random
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from identify.errors import ReadingError, TableError
from identify.knowledge.build import check_catalogue, read_folders
from identify.knowledge.end_tables import read_ends
from identify.knowledge.fields import Faults
from identify.knowledge.hose_loading import load_hoses
from identify.knowledge.hose_tables import read_hoses
from identify.knowledge.source_tables import check_citations
from identify.knowledge.thread_tables import read_threads
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family
from identify.model.hose import Hose, HoseTables
from identify.model.thread import Thread
from tests.laws.every import complaints
from tests.laws.hoses import HOSE_LAWS
from tests.laws.registry import LAWS
from tests.mutation.figures import Mutant, mutants

ROOT = Path(__file__).resolve().parents[2]
UNNOTICED = "unnoticed"
SECOND_WRITING = "figures_are_those_written_a_second_time"


@dataclass
class Tables:
    """The shipped tables file by file, so that one of them can be another."""

    threads: dict[str, list[Thread]] = field(default_factory=dict)
    ends: dict[str, tuple[Family, list[EndConnection]]] = field(default_factory=dict)
    hoses: dict[str, list[Hose]] = field(default_factory=dict)
    texts: dict[str, str] = field(default_factory=dict)
    whole: Catalogue | None = None

    @classmethod
    def read(cls) -> "Tables":
        """Read every file once."""
        tables, faults = cls(), Faults()
        tables.whole = read_folders([ROOT / "thread_tables"], faults)
        assert not faults.found, faults.found
        for path in sorted(
            path
            for place in ("threads", "ends", "hoses")
            for path in (ROOT / "thread_tables" / place).glob("*.yaml")
        ):
            name = path.relative_to(ROOT).as_posix()
            tables.texts[name] = path.read_text(encoding="utf-8")
            tables.reread(name, tables.texts[name], faults)
        assert not faults.found, faults.found
        return tables

    def reread(self, name: str, text: str, faults: Faults) -> None:
        """Take the text of one file in place of the one that was there."""
        if "/threads/" in name:
            self.threads[name] = read_threads(text, name, faults)
        elif "/hoses/" in name:
            self.hoses[name] = read_hoses(text, name, faults)
        else:
            assert self.whole
            self.ends[name] = read_ends(text, name, faults, self.whole.threads)

    def with_hoses(self, name: str, text: str, faults: Faults) -> HoseTables:
        """Return all hoses with one file changed."""
        hoses = {**self.hoses, name: read_hoses(text, name, faults)}
        every = [hose for rows in hoses.values() for hose in rows]
        if len({hose.id for hose in every}) < len(every):
            faults.add(name, 1, "a hose stands twice")
        return HoseTables(tuple(every), load_hoses().habits)

    def with_text(self, name: str, text: str, faults: Faults) -> Catalogue | None:
        """Return the catalogue with one file changed, None where that file is broken."""
        changed = Tables(dict(self.threads), dict(self.ends), self.hoses, self.texts, self.whole)
        try:
            changed.reread(name, text, faults)
        except TableError as error:
            faults.found += error.faults
        if faults.found:
            return None
        assert self.whole
        threads: dict[str, Thread] = {}
        for rows in changed.threads.values():
            for thread in rows:
                if threads.setdefault(thread.designation, thread) is not thread:
                    faults.add(name, 1, f"{thread.designation} stands twice")
        rows_of = [row for _, rows in changed.ends.values() for row in rows]
        for row in rows_of:
            used = {row.thread, *(seat.thread for seat in row.seats)} - {None, ""}
            if not used <= set(threads):
                faults.add(name, 1, f"{row.id} has a thread of no table")
        if len({row.id for row in rows_of}) < len(rows_of):
            faults.add(name, 1, "an end stands twice")
        families = {family.key: family for family, _ in changed.ends.values()}
        return Catalogue(threads, tuple(rows_of), families, self.whole.sources)


def noticed_by(tables: Tables, name: str, text: str) -> str:
    """Return which kind of check complains of a changed file: "loader", a law's name, or none."""
    faults = Faults()
    if "/hoses/" in name:
        return _noticed_of_hoses(tables, name, text, faults)
    catalogue = tables.with_text(name, text, faults)
    if catalogue and not faults.found:
        check_catalogue(catalogue, faults)
        check_citations(faults, catalogue.sources)
    if faults.found or catalogue is None:
        return "loader"
    for law, check in LAWS.items():
        try:
            if next(check(catalogue), None):
                return law
        except (ValueError, KeyError, IndexError, ReadingError):
            return law  # a law that cannot be worked out fails its test too
    return UNNOTICED


def _noticed_of_hoses(tables: Tables, name: str, text: str, faults: Faults) -> str:
    changed = tables.with_hoses(name, text, faults)
    assert tables.whole
    check_citations(faults, tables.whole.sources)
    if faults.found:
        return "loader"
    for law, check in HOSE_LAWS.items():
        try:
            if next(check(changed), None):
                return law
        except (ValueError, KeyError, IndexError, AttributeError):
            return law
    return UNNOTICED


def chosen(tables: Tables, only: str, sample: int, seed: int) -> Iterator[tuple[str, Mutant]]:
    """Yield mutants with their files: all, or a random sample of them."""
    every = [
        (name, mutant)
        for name, text in tables.texts.items()
        if only in name
        for mutant in mutants(text)
    ]
    if sample and sample < len(every):
        every = sorted(
            random.Random(seed).sample(every, sample), key=lambda pair: (pair[0], pair[1].line)
        )
    yield from every


def report(results: list[tuple[str, Mutant, str]], seconds: float) -> str:
    """Return the tables of catch rates and the list of survivors."""
    lines = [f"{len(results)} changes tried in {seconds:.0f} s"]
    for title, key in (("kind", lambda m: m.kind), ("field", lambda m: m.field)):
        tally: dict[str, Counter[bool]] = defaultdict(Counter)
        for _, mutant, by in results:
            tally[key(mutant)][by != UNNOTICED] += 1
        lines += ["", f"{title:24} tried  noticed"]
        for word, count in sorted(tally.items(), key=lambda item: -item[1].total()):
            lines.append(f"{word:24} {count.total():5}  {count[True] / count.total():7.1%}")
    rooms = Counter(by for *_, by in results)
    lines += ["", "first noticed by"]
    lines += [f"{by:60} {n:6}" for by, n in rooms.most_common()]
    caught = sum(by != UNNOTICED for *_, by in results)
    lines += ["", f"noticed: {caught} of {len(results)}, {caught / len(results):.2%}", ""]
    lines += [
        f'{name}:{m.line}: {m.field}: "{m.old}" -> "{m.new}" ({m.kind})'
        for name, m, by in results
        if by == UNNOTICED
    ]
    return "\n".join(lines)


def main() -> None:
    """Mutate, check, print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--file", default="", help="part of a file name, such as flare37")
    parser.add_argument("--sample", type=int, default=0, help="how many changes to try; 0 is all")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument(
        "--without-recollection", action="store_true", help="leave out the second writing"
    )
    options = parser.parse_args()
    if options.without_recollection:
        del LAWS[SECOND_WRITING]
    tables = Tables.read()
    assert tables.whole
    broken = list(complaints(tables.whole))
    broken += [(law, each) for law, check in HOSE_LAWS.items() for each in check(load_hoses())]
    assert not broken, broken  # else every change would look noticed
    began = time.monotonic()
    results = [
        (name, mutant, noticed_by(tables, name, mutant.text))
        for name, mutant in chosen(tables, options.file, options.sample, options.seed)
    ]
    print(report(results, time.monotonic() - began))


if __name__ == "__main__":
    main()
