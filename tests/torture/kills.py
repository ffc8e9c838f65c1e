"""Kill the writer of an interview at any moment, resume, kill again; spoil its file at times.

Two writers at once, and a disk that runs full, are tried in the same way. After each the index is
deleted at times and made anew: it must say what it said.
"""

import random
import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.index import Index
from identify.jobs.journal import read_job
from identify.jobs.shelf import index_file, unfinished

WRITER = Path(__file__).with_name("writer.py")
ROOT = Path(__file__).parents[2]
SPOILS = (
    b'{"event":"obs',
    b"\0" * 100,
    b'{"event":"weighed"}\n',
    b"[" * 9000 + b"\n",
    b"\xff\xfe\n",
)


@dataclass
class Report:
    """Kills made, answers acknowledged, and sentences about those that are gone."""

    kills: int = 0
    acknowledged: int = 0
    lost: list[str] = field(default_factory=list)


def killed(folder: Path, kills: int, seed: int) -> Report:
    """Kill the writer `kills` times in one folder; every answer it called saved must stay."""
    draw, report = random.Random(seed), Report()
    known: list[str] = []
    for _ in range(kills):
        (said,) = _written(folder, draw.uniform(0.0, 0.12))
        report.kills += 1
        report.acknowledged += len(said)
        known = known[: int(said[0].split()[0])] if said else known
        known += [line.partition(" ")[2] for line in said]
        found = unfinished(folder)
        kept = _entered(found[0].events) if found else []
        if kept[: len(known)] != known:
            report.lost.append(f"after kill {report.kills}: {len(known)} saved, {len(kept)} found")
        known = kept  # an answer may be on the disk that was not acknowledged any more
        if found and draw.random() < 0.3:
            with found[0].path.open("ab") as file:
                file.write(draw.choice(SPOILS))
        if draw.random() < 0.1:
            report.lost += _made_anew(folder)
    return report


def contested(folder: Path, rounds: int, seed: int) -> Report:
    """Let two write at once and kill both; what either called saved must be in one file whole."""
    draw, report = random.Random(seed), Report()
    for _ in range(rounds):
        for said in _written(folder, draw.uniform(0.0, 0.3), writers=2):
            report.kills += 1
            report.acknowledged += len(said)
            report.lost += _missing(folder, said)
    return report


def full(folder: Path, rounds: int, seed: int) -> Report:
    """Let files grow up to a size drawn at random; what was called saved before must stay."""
    draw, report = random.Random(seed), Report()
    for number in range(rounds):
        place = folder / str(number)
        for _ in range(3):
            (said,) = _written(place, 9.0, most=draw.randint(400, 4000))
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
    index_file(folder).unlink()
    after = Index(folder, index_file(folder)).every()
    return [] if before == after else [f"an index made anew has {len(after)}, not {len(before)}"]


def _written(
    folder: Path, seconds: float, writers: int = 1, most: int | None = None
) -> list[list[str]]:
    """Run writers, kill them some time after their first answer; return what each acknowledged."""
    more = [] if most is None else [str(most)]
    running = [
        subprocess.Popen(
            [sys.executable, str(WRITER), str(folder), *more],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True, cwd=ROOT,
            env={"PYTHONPATH": str(ROOT), "PATH": ""},
        )
        for _ in range(writers)
    ]  # fmt: skip
    first = [process.stdout.readline() for process in running if process.stdout]
    if most is None:
        time.sleep(seconds)
    else:
        running[0].wait(seconds)
    said = []
    for process, line in zip(running, first, strict=True):
        process.send_signal(signal.SIGKILL)
        assert process.stdout
        text = line + process.stdout.read()
        said.append([each for each in text.splitlines() if each])
        process.stdout.close()
        process.wait()
    return said
