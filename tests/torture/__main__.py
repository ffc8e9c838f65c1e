"""The long trials of the edges: `python -m tests.torture WHAT [--count N] [--seed S]`.

WHAT is one of readings, mutants, journals, tables, kills, screen, or all. Each prints what was
tried and every fault with what repeats it; the exit status is 1 if there was any. The suite runs
a short form of each.
"""

import argparse
import contextlib
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from tests.torture import fuzz, journals, kills, mutants, screen, tables

Found = tuple[str, list[str]]
"""What was tried, in words; and every fault."""


def readings(count: int, seed: int) -> Found:
    """Random readings."""
    accepted, faults = fuzz.run(count, seed)
    return f"{count} readings, {accepted} accepted", faults


def mutant(count: int, seed: int) -> Found:
    """Good readings with one slip in every way, and `count` with two."""
    tried, accepted, wrong = mutants.run(count, seed)
    return f"{tried} mutants, {accepted} accepted", wrong


def journal(count: int, seed: int) -> Found:
    """Spoilt journals; `count` and seed are of no account."""
    names = [*journals.SPOILT, *journals.NO_FILES]
    return f"{len(names)} journals", _each(names, journals.harmed)


def table(count: int, seed: int) -> Found:
    """Spoilt folders of tables; `count` and seed are of no account."""
    return f"{len(tables.SPOILT)} folders of tables", _each(tables.SPOILT, tables.harmed)


def kill(count: int, seed: int) -> Found:
    """`count` kills, each resumed."""
    with tempfile.TemporaryDirectory() as scratch:
        report = kills.killed(Path(scratch), count, seed)
    return f"{report.kills} kills, {report.acknowledged} answers called saved", report.lost


def contest(count: int, seed: int) -> Found:
    """`count` rounds of two writers in one folder."""
    with tempfile.TemporaryDirectory() as scratch:
        report = kills.contested(Path(scratch), count, seed)
    return f"{report.kills} writers killed, {report.acknowledged} answers called saved", report.lost


def full_disk(count: int, seed: int) -> Found:
    """`count` folders, each filled three times over."""
    with tempfile.TemporaryDirectory() as scratch:
        report = kills.full(Path(scratch), count, seed)
    return f"{report.kills} full disks, {report.acknowledged} answers called saved", report.lost


def on_screen(count: int, seed: int) -> Found:
    """Noise and windows, `count` of each, and every signal."""
    faults = []
    tried = screen.cases(count, seed)
    for trial, number in tried:
        with tempfile.TemporaryDirectory() as scratch:
            if fault := trial(Path(scratch), number):
                faults.append(fault)
            faults += [f"{fault or number}: crash.log" for _ in Path(scratch).rglob("crash.log")]
    return f"{len(tried)} runs on a terminal", faults


def _each(names: object, harmed: Callable[[Path, str], str | None]) -> list[str]:
    faults = []
    for name in names:  # type: ignore[attr-defined]
        with tempfile.TemporaryDirectory() as scratch, contextlib.chdir(scratch):
            if fault := harmed(Path(scratch), name):
                faults.append(fault)
    return faults


TRIALS: dict[str, tuple[Callable[[int, int], Found], int]] = {
    "readings": (readings, 1_000_000),
    "mutants": (mutant, 400_000),
    "journals": (journal, 0),
    "tables": (table, 0),
    "kills": (kill, 500),
    "two-writers": (contest, 50),
    "full-disk": (full_disk, 30),
    "screen": (on_screen, 20),
}


def main() -> int:
    """Run what is asked for; return 1 if there was any fault."""
    parser = argparse.ArgumentParser(prog="python -m tests.torture", description=__doc__)
    parser.add_argument("what", choices=(*TRIALS, "all"))
    parser.add_argument("--count", type=int, help="how many; each trial has its own usual number")
    parser.add_argument("--seed", type=int, default=int(time.time()))
    args = parser.parse_args()
    bad = 0
    for name in TRIALS if args.what == "all" else (args.what,):
        trial, usual = TRIALS[name]
        begun = time.monotonic()
        print(f"{name}: seed {args.seed} …", flush=True)
        tried, faults = trial(usual if args.count is None else args.count, args.seed)
        for fault in faults:
            print(f"  {fault}")
        seconds = time.monotonic() - begun
        print(f"{name}: {tried}, {len(faults)} faults, {seconds:.0f} s", flush=True)
        bad += len(faults)
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
