"""Kill the writer of an interview at any moment, resume, kill again; spoil its file at times."""

import random
import signal
import subprocess
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.shelf import unfinished

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
        said = _one(folder, draw.uniform(0.0, 0.12))
        report.kills += 1
        report.acknowledged += len(said)
        known = known[: int(said[0].split()[0])] if said else known
        known += [line.partition(" ")[2] for line in said]
        found = unfinished(folder)
        kept = (
            [e.reading.entered for e in found[0].events if isinstance(e, Observed)] if found else []
        )
        if kept[: len(known)] != known:
            report.lost.append(f"after kill {report.kills}: {len(known)} saved, {len(kept)} found")
        known = kept  # an answer may be on the disk that was not acknowledged any more
        if found and draw.random() < 0.3:
            with found[0].path.open("ab") as file:
                file.write(draw.choice(SPOILS))
    return report


def _one(folder: Path, seconds: float) -> list[str]:
    """Run the writer, kill it some time after its first answer; return what it acknowledged."""
    with subprocess.Popen(
        [sys.executable, str(WRITER), str(folder)],
        stdout=subprocess.PIPE, text=True, cwd=ROOT, env={"PYTHONPATH": str(ROOT), "PATH": ""},
    ) as process:  # fmt: skip
        assert process.stdout
        first = process.stdout.readline()
        time.sleep(seconds)
        process.send_signal(signal.SIGKILL)
        rest = process.stdout.read()
    return [line for line in (first + rest).splitlines(keepends=False) if line]
