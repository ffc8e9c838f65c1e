"""How fast whichend is, as ratios within one run on one machine."""

import json
import random
from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import replace

from identify.errors import ReadingError
from identify.knowledge.loading import Knowledge
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.reading import Reading
from identify.model.thread import Band, Limits, Thread
from identify.reading.consistency import check_spacings, implied_gender
from identify.reasoning.engine import Engine
from identify.reasoning.layout import lay_out
from identify.simulation.lots import Lot
from identify.simulation.measuring import fill_sheet
from identify.simulation.people import Person
from tests.benchmark import growth, peers, redraws, starts
from tests.benchmark.bench import counted
from tests.benchmark.starts import Figure, ms
from tests.benchmark.stopwatch import COMMAND, Lap, each, python

ROWS = 10_000
Sheet = tuple[Reading, ...]


HEADER = ("", "measured", "", "aim")
JOBS_RUNS = 2
INTERVIEWS = 5  # held on the full screen


def figures(large: Sequence[int]) -> int:
    """Return how many figures `measure` yields."""
    return starts.FIGURES + redraws.FIGURES + 6 + peers.FIGURES + growth.FIGURES * (1 + len(large))


def measure(
    knowledge: Knowledge, runs: int, samples: int, seed: int, large: Sequence[int] = ()
) -> Iterator[Figure]:
    """Yield the figures, one after another.

    Args:
        knowledge: Tables and rules.
        runs: How often each program is started.
        samples: Length of the batch.
        seed: Of the simulated parts and people.
        large: Numbers of rows with which a start is measured too.
    """
    sheets = simulated(knowledge, samples, seed)
    yield from starts.starts(runs)
    yield from redraws.redraws(knowledge, INTERVIEWS, seed)
    yield _one(knowledge, sheets, "rank and next question", "under 16 ms")
    enlarged_ = replace(knowledge, catalogue=enlarged(knowledge.catalogue, ROWS))
    yield _one(enlarged_, sheets, "the same", "")
    yield from _batch(sheets)
    yield from peers.peers(knowledge, seed)
    for rows in (growth.EDITED, *large):
        yield from growth.growth(rows, knowledge.catalogue, sheets)


def _one(knowledge: Knowledge, sheets: list[Sheet], what: str, aim: str) -> Figure:
    layout = lay_out(knowledge.catalogue, knowledge.book)
    engine = Engine(knowledge.catalogue, knowledge.book, knowledge.hazards, layout=layout)
    engine.conclude(sheets[0])
    median = each(engine.conclude, sheets[1:101])
    return what, ms(median), f"{len(knowledge.catalogue.ends)} rows", aim


def _batch(sheets: list[Sheet]) -> Iterator[Figure]:
    lines = [
        json.dumps({"readings": {str(each.feature): each.entered for each in sheet}}) + "\n"
        for sheet in sheets
    ]
    half, whole = (_run(part) for part in (lines[: len(lines) // 2], lines))
    yield _rate("rank --batch, full answers", half, whole, len(lines), "2,000 or more")
    yield (
        "its peak memory", f"{whole.memory:.0f} MB", f"{half.memory:.0f} MB for half of it", "flat"
    )  # fmt: skip
    short, brief = (_run(part, "--brief") for part in (lines[: len(lines) // 2], lines))
    yield _rate("rank --batch --brief", short, brief, len(lines), "5,000 or more")
    by_two, by_one = [], [whole]
    for _ in range(JOBS_RUNS):  # by turns: where others are busy, the quickest of each tells most
        by_two.append(_run(lines, "--jobs", "2"))
        by_one.append(_run(lines))
    two, one = (min(laps, key=lambda lap: lap.wall) for laps in (by_two, by_one))
    more = two.processor / one.processor
    yield (
        "rank --batch --jobs 2", f"{two.wall:.1f} s",
        f"{one.wall:.1f} s by one, {more:.2f} times its processor time in all", "half the time",
    )  # fmt: skip


def _run(lines: Sequence[str], *words: str) -> Lap:
    return python(*COMMAND, "rank", "--batch", "-", *words, stdin="".join(lines).encode())


def _rate(what: str, half: Lap, whole: Lap, lines: int, aim: str) -> Figure:
    """Return samples a second of processor time once it runs: the second half of a batch."""
    taken = (whole.processor - half.processor) / (lines - lines // 2)
    return what, f"{1 / taken:.0f} samples/s", f"{lines} samples", aim


def simulated(knowledge: Knowledge, number: int, seed: int) -> list[Sheet]:
    """Return filled sheets of simulated people on simulated parts, the gender always told."""
    rng = random.Random(seed)
    lot = Lot(knowledge.catalogue, knowledge.book)
    people = [Person(each, knowledge.book) for each in knowledge.book.people.observers.values()]
    sheets: list[Sheet] = []
    while len(sheets) < number:
        sheet = counted(fill_sheet(rng, lot.draw(rng), rng.choice(people)))
        with suppress(ReadingError):  # spacings the wrong way round are refused
            check_spacings(sheet)
            sheets += [sheet] if implied_gender(sheet) else []
    return sheets


def enlarged(catalogue: Catalogue, rows: int) -> Catalogue:
    """Return a catalogue of at least `rows` rows: the tables, again and again a little larger."""
    copies = -(-rows // len(catalogue.ends))
    threads, ends = dict(catalogue.threads), list(catalogue.ends)
    for copy in range(1, copies):
        scale = 1 + copy / 97
        threads |= {
            f"{name} #{copy}": _scaled_thread(thread, f"{name} #{copy}", scale)
            for name, thread in catalogue.threads.items()
        }
        ends += [_scaled_end(end, copy, scale) for end in catalogue.ends]
    return Catalogue(threads, tuple(ends[:rows]), catalogue.families, catalogue.sources)


def _scaled_thread(thread: Thread, name: str, scale: float) -> Thread:
    return replace(
        thread,
        designation=name,
        major_mm=thread.major_mm * scale,
        pitch_diameter_mm=thread.pitch_diameter_mm * scale,
        minor_mm=thread.minor_mm * scale,
        external=_scaled_limits(thread.external, scale),
        internal=_scaled_limits(thread.internal, scale),
    )


def _scaled_limits(limits: Limits | None, scale: float) -> Limits | None:
    if limits is None:
        return None
    crest, pitch = (
        Band(band.low_mm * scale, band.high_mm * scale) for band in (limits.crest, limits.pitch)
    )
    return Limits(crest, pitch)


def _scaled_end(end: EndConnection, copy: int, scale: float) -> EndConnection:
    return replace(
        end,
        id=f"{end.id}#{copy}",
        size=f"{end.size} #{copy}",
        thread=f"{end.thread} #{copy}" if end.thread else None,
        seats=tuple(
            replace(seat, thread=f"{seat.thread} #{copy}" if seat.thread else "")
            for seat in end.seats
        ),
        mates=(),
        sizes={feature: size * scale for feature, size in end.sizes.items()},
    )
