"""A folder of many jobs, and how long it takes to open, list and find: `python many.py FOLDER N`.

The jobs are spread over five years, as a shop would have them, with the verdicts of real readings.
"""

import json
import random
import resource
import subprocess
import sys
import time
from pathlib import Path

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from identify.interview.session import Observed
from identify.jobs.fact_records import line_of
from identify.jobs.facts import FIRST, Concluded, Field, Finished, Named, Noted, Place
from identify.jobs.journal import FORMAT
from identify.jobs.reference import reference_of
from identify.jobs.saving import job_path
from identify.model.verdict import VerdictKind
from identify.reading.parse import parse_reading
from tests.shipped import knowledge

FIRST_YEAR, YEARS = 2021, 5
CUSTOMERS = ("Hill Farm", "Quarry North", "Müller", "Harbour", "Forest Works", "Bakery")


def lay(folder: Path, count: int, seed: int = 1) -> None:
    """Lay `count` finished jobs of two ends each into a folder."""
    draw = random.Random(seed)
    ends = knowledge().catalogue.ends
    catalogue = knowledge().catalogue
    for number in range(count):
        month = number * YEARS * 12 // count
        begun = (
            f"{FIRST_YEAR + month // 12}-{month % 12 + 1:02}-{draw.randint(1, 28):02}"
            f"T{draw.randint(7, 18):02}:{draw.randint(0, 59):02}:{draw.randint(0, 59):02}Z"
        )
        reference = reference_of(number * 7919)
        lines = [{"format": FORMAT, "begun": begun, "reference": reference}]
        lines.append(
            line_of(FIRST, Noted(Field.CUSTOMER, f"{draw.choice(CUSTOMERS)} {number % 997}"))
        )
        for side in "AB":
            place = Place(1, side)
            for typed in ("gender=male", "thread_od=20.9 mm", "pitch=14 tpi", "taper=parallel"):
                lines.append(line_of(place, Observed(parse_reading(typed))))
            named = []
            for end in draw.sample(ends, 3):
                thread = catalogue.thread_of(end)
                named.append(Named(end.id, end.named, thread.designation if thread else "", 0.3))
            verdict = Concluded(
                VerdictKind.IDENTIFIED,
                "Identified.",
                tuple(named),
                "0" * 12,
                "0" * 12,
                "0.3.0",
                begun,
            )
            lines += [line_of(place, verdict), line_of(place, Finished())]
        path = job_path(folder, begun, reference)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("".join(f"{json.dumps(line)}\n" for line in lines), encoding="utf-8")


def timed(state: Path, *words: str, runs: int = 9) -> tuple[float, float]:
    """Return how long a command takes, process and all: the middle of some runs.

    Returns:
        Time that passes, and time of the processor [s]; other people's work makes only the first
        longer.
    """
    taken, used = [], []
    for _ in range(runs):
        begun, before = time.perf_counter(), _used()
        done = subprocess.run(
            [sys.executable, "-m", "identify", *words],
            capture_output=True, text=True, input="", cwd=Path(__file__).parents[2],
            env={"XDG_STATE_HOME": str(state), "PATH": "", "HOME": str(state)},
        )  # fmt: skip
        taken.append(time.perf_counter() - begun)
        used.append(_used() - before)
        assert done.returncode in (0, 2), done.stderr
    return sorted(taken)[runs // 2], sorted(used)[runs // 2]


def _used() -> float:
    """Return the processor time of all commands so far [s]."""
    found = resource.getrusage(resource.RUSAGE_CHILDREN)
    return found.ru_utime + found.ru_stime


def main() -> None:
    """Lay the jobs and print the figures."""
    state, count = Path(sys.argv[1]), int(sys.argv[2])
    folder = state / "whichend" / "interviews"
    if not folder.exists():
        lay(folder, count)
    begun = time.perf_counter()
    timed(state, "jobs", "list", runs=1)
    print(f"index of {count} jobs made anew: {time.perf_counter() - begun:.1f} s")
    reference = reference_of(7919 * (count // 2))
    timed(state, "jobs", "show", reference, runs=1)
    one = state.with_name(f"{state.name}-one")
    if not one.exists():
        lay(one / "whichend" / "interviews", 1)
    for words in (
        ("jobs", "list"),
        ("jobs", "show", reference),
        ("jobs", "find", reference),
        ("jobs", "find", "hill", "farm", "12"),
        ("jobs", "find", "2023-05", "G1/2"),
        ("jobs", "find", "M22x1.5", "--json"),
        ("jobs", "find", "nothing", "of", "this"),
        ("--version",),
    ):
        taken, used = (seconds * 1000 for seconds in timed(state, *words))
        print(f"{taken:6.0f} ms, processor {used:4.0f} ms  whichend {' '.join(words)}", flush=True)
    start = [[timed(each, "ask", "--plain", runs=1)[1] for each in (state, one)] for _ in range(15)]
    full, few = (sorted(column)[len(start) // 2] for column in zip(*start, strict=True))
    print(
        f"start beside {count} jobs {full * 1000:.0f} ms of the processor, beside one "
        f"{few * 1000:.0f} ms: ratio {full / few:.3f}"
    )


if __name__ == "__main__":
    main()
