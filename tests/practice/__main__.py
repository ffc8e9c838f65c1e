"""`python -m tests.practice [--count N] [--seed S] [--kind KIND …]`: against engine and ceiling."""

import argparse

from identify.practice.exercise import Kind
from tests.practice.proof import run


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.practice")
    parser.add_argument("--count", type=int, default=5000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kind", nargs="+", choices=[*Kind], default=[*Kind])
    args = parser.parse_args()
    counts = run(args.count, args.seed, wanted=[Kind(each) for each in args.kind])
    for kind, made in counts.made.items():
        print(f"{kind:<6} {made:>5} made, {counts.left_open[kind]:>4} meant to be open")
    print(*counts.faults, sep="\n")
    print(f"{sum(counts.made.values())} exercises, {len(counts.faults)} faults")
    return 1 if counts.faults else 0


raise SystemExit(main())
