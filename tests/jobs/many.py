"""A folder of many jobs, and how long it takes to open, list and find: `python many.py FOLDER N`.

The jobs are spread over five years, as a shop would have them, with the verdicts of real readings.
"""

import json
import random
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


def timed(state: Path, *words: str, runs: int = 9) -> float:
    """Return how long a command takes [s], process and all: the middle of some runs."""
    taken = []
    for _ in range(runs):
        begun = time.perf_counter()
        done = subprocess.run(
            [sys.executable, "-m", "identify", *words],
            capture_output=True, text=True, input="", cwd=Path(__file__).parents[2],
            env={"XDG_STATE_HOME": str(state), "PATH": "", "HOME": str(state)},
        )  # fmt: skip
        taken.append(time.perf_counter() - begun)
        assert done.returncode in (0, 2), done.stderr
    return sorted(taken)[runs // 2]


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
    empty = state.with_name(f"{state.name}-empty")
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
        print(f"{timed(state, *words) * 1000:6.0f} ms  whichend {' '.join(words)}", flush=True)
    full, none = (timed(each, "ask", "--plain", runs=15) for each in (state, empty))
    print(
        f"start beside {count} jobs {full * 1000:.0f} ms, beside none {none * 1000:.0f} ms: "
        f"ratio {full / none:.3f}"
    )


if __name__ == "__main__":
    main()
