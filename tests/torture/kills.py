"""Kill the writer of an interview at any moment, resume, kill again; spoil its file at times.

Two writers at once, and a disk that runs full, are tried in the same way. After each the index is
deleted at times and made anew: it must say what it said.
"""

import random
import time
from dataclasses import dataclass, field
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.index import Index
from identify.jobs.journal import read_job
from identify.jobs.shelf import index_file, unfinished
from tests.torture.writer import started

SPOILS = (
    b'{"event":"obs',
    b"\0" * 100,
    b'{"event":"weighed"}\n',
    b"[" * 9000 + b"\n",
    b"\xff\xfe\n",
)
A_FOLDER = 25  # kills, after which a new one is begun: a file that grows for ever is slow to read
A_PAIR = 5  # rounds of two writers, likewise
MOST_ANSWERS = 8  # told before a kill
START_S, WRITE_S = 0.02, 0.002  # in which a writer takes up its file, and writes an answer


@dataclass
class Report:
    """Kills made, answers acknowledged, and sentences about those that are gone."""

    kills: int = 0
    acknowledged: int = 0
    lost: list[str] = field(default_factory=list)


def killed(folder: Path, kills: int, seed: int) -> Report:
    """Kill the writer `kills` times; every answer it called saved must stay."""
    draw, report = random.Random(seed), Report()
    place, known = folder, list[str]()
    for number in range(kills):
        if number % A_FOLDER == 0:
            place, known = folder / str(number), []
            place.mkdir()
        said = _killed_once(place, number, draw)
        report.kills += 1
        report.acknowledged += len(said)
        known = known[: int(said[0].split()[0])] if said else known
        known += [line.partition(" ")[2] for line in said]
        found = unfinished(place)
        kept = _entered(found[0].events) if found else []
        if kept[: len(known)] != known:
            report.lost.append(f"after kill {report.kills}: {len(known)} saved, {len(kept)} found")
        known = kept  # an answer may be on the disk that was not acknowledged any more
        if found and draw.random() < 0.3:
            with found[0].path.open("ab") as file:
                file.write(draw.choice(SPOILS))
        if draw.random() < 0.1:
            report.lost += _made_anew(place)
    return report


def _killed_once(folder: Path, second: int, draw: random.Random) -> list[str]:
    """Kill a writer: while it takes its file up, or some answers later; return what it told."""
    writer = started(folder, second)
    if draw.random() < 0.2:
        said, seconds = [], START_S
    else:
        said, seconds = writer.heard(draw.randint(1, MOST_ANSWERS)), WRITE_S
    time.sleep(draw.uniform(0.0, seconds))
    return said + writer.killed()


def contested(folder: Path, rounds: int, seed: int) -> Report:
    """Let two write at once and kill both; what either called saved must be in one file whole."""
    draw, report = random.Random(seed), Report()
    for number in range(rounds):
        if number % A_PAIR == 0:
            place = folder / str(number)
            place.mkdir()
        pair = [started(place, number) for _ in range(2)]
        first = [each.heard(draw.randint(1, MOST_ANSWERS)) for each in pair]
        time.sleep(draw.uniform(0.0, WRITE_S))
        for writer, heard in zip(pair, first, strict=True):
            said = heard + writer.killed()
            report.kills += 1
            report.acknowledged += len(said)
            report.lost += _missing(place, said)
    return report


def full(folder: Path, rounds: int, seed: int) -> Report:
    """Let files grow up to a size drawn at random; what was called saved before must stay."""
    draw, report = random.Random(seed), Report()
    for number in range(rounds):
        place = folder / str(number)
        place.mkdir()
        for _ in range(3):
            writer = started(place, number, most=draw.randint(400, 4000))
            said = writer.heard(10**9) + writer.killed()
            report.kills += 1
            report.acknowledged += len(said)
            report.lost += _missing(place, said)
    return report


def _missing(folder: Path, said: list[str]) -> list[str]:
    """Return a sentence where no file holds what one writer called saved, in order."""
    wanted = [line.partition(" ")[2] for line in said]
    for path in folder.rglob("*.jsonl"):
        kept = read_job(path)
        entered = _entered(kept.job.end().events) if kept else []
        if any(entered[at : at + len(wanted)] == wanted for at in range(len(entered) + 1)):
            return []
    return [f"{len(wanted)} answers from {wanted[0]} on are in no file"] if wanted else []


def _entered(events: tuple[object, ...]) -> list[str]:
    return [event.reading.entered for event in events if isinstance(event, Observed)]


def _made_anew(folder: Path) -> list[str]:
    """Delete the index; return a sentence where it then says something else."""
    before = Index(folder, index_file(folder)).every()
    index_file(folder).unlink(missing_ok=True)
    after = Index(folder, index_file(folder)).every()
    return [] if before == after else [f"an index made anew has {len(after)}, not {len(before)}"]
