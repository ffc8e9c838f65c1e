"""Change one operator or number of the code at a time and list the changes that no test notices.

    python -m tests.mutation.code [--module PART] [--sample N --seed S]

Each changed module is laid into a copy of the checkout, where the tests of its room run until the
first of them fails. A sample of N changes is drawn from every module; 0 is all.
"""

import argparse
import ast
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
NEEDED = ("identify", "rules", "tests", "thread_tables", "pyproject.toml")
REASONING = ("tests/reasoning", "tests/test_golden.py")
THREADS = ("tests/threads", "tests/laws")
ASSEMBLY = ("tests/assembly",)
SHEETS = ("tests/sheets/test_belonging.py", "tests/sheets/test_laws.py")
MODULES = {
    **{
        f"identify/assembly/{name}.py": ASSEMBLY
        for name in (
            "bends",
            "cleanliness",
            "flow",
            "lengths",
            "orientation",
            "rating",
            "squeezing",
        )
    },
    **{
        f"identify/sheets/{name}.py": SHEETS
        for name in ("belonging", "conclusion", "fitness", "routing", "sizing", "unsettled")
    },
    "identify/reasoning/density.py": REASONING,
    "identify/reasoning/likelihood.py": REASONING,
    "identify/reasoning/posterior.py": REASONING,
    "identify/reasoning/question.py": REASONING,
    "identify/reasoning/seat_fit.py": REASONING,
    "identify/reasoning/thread_fit.py": REASONING,
    "identify/reasoning/twins.py": REASONING,
    "identify/reasoning/weigh_angle.py": REASONING,
    "identify/reasoning/weigh_length.py": REASONING,
    "identify/reasoning/weigh_pitch.py": REASONING,
    "identify/reasoning/weight.py": REASONING,
    "identify/threads/american_pipe.py": THREADS,
    "identify/threads/designation.py": THREADS,
    "identify/threads/hose_coupling.py": THREADS,
    "identify/threads/metric.py": THREADS,
    "identify/threads/metric_taper.py": THREADS,
    "identify/threads/profile.py": THREADS,
    "identify/threads/unified.py": THREADS,
    "identify/threads/whitworth_pipe.py": THREADS,
}
OTHER = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
    ast.Eq: ast.NotEq, ast.NotEq: ast.Eq, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.And: ast.Or, ast.Or: ast.And,
}  # fmt: skip
TIMEOUT_S = 180


def _changes(node: ast.AST) -> Iterator[tuple[str, object, str]]:
    """Yield attribute, new value and words for each way to change one node."""
    match node:
        case ast.BinOp(op=op) | ast.BoolOp(op=op):
            if other := OTHER.get(type(op)):
                yield "op", other(), f"{type(op).__name__} -> {other.__name__}"
        case ast.Compare(ops=[op, *rest]):
            other = OTHER[type(op)]
            yield "ops", [other(), *rest], f"{type(op).__name__} -> {other.__name__}"
        case ast.UnaryOp(op=ast.USub()):
            yield "op", ast.UAdd(), "sign dropped"
        case ast.Constant(value=bool() as value):
            yield "value", not value, f"{value} -> {not value}"
        case ast.Constant(value=int() | float() as value):
            yield (
                "value",
                value * 1.1 + 0.1 if isinstance(value, float) else value + 1,
                (f"{value} -> more"),
            )
        case ast.IfExp(body=body, orelse=orelse):
            yield "body", orelse, "both branches the second"
            yield "orelse", body, "both branches the first"


def mutants(text: str) -> list[tuple[int, str, str]]:
    """Return line, words and source text of every single change of a module."""
    tree = ast.parse(text)
    notes = {
        id(child)
        for node in ast.walk(tree)
        for part in (getattr(node, "annotation", None), getattr(node, "returns", None))
        if part
        for child in ast.walk(part)
    }
    found = []
    for number, node in enumerate(ast.walk(tree)):
        if id(node) in notes:
            continue
        for attribute, value, words in _changes(node):
            changed = deepcopy(tree)
            twin = next(n for i, n in enumerate(ast.walk(changed)) if i == number)
            setattr(twin, attribute, deepcopy(value))
            source = ast.unparse(ast.fix_missing_locations(changed))
            if source != ast.unparse(tree):
                found.append((node.lineno, words, source))  # type: ignore[attr-defined]
    return found


def noticed(copy: Path, tests: tuple[str, ...]) -> bool:
    """Tell whether a test of the copy fails, or never ends."""
    command = [sys.executable, "-m", "pytest", "-qx", "-p", "no:cacheprovider", *tests]
    try:
        done = subprocess.run(
            command, cwd=copy, capture_output=True, timeout=TIMEOUT_S, check=False
        )
    except subprocess.TimeoutExpired:
        return True
    return done.returncode != 0


def main() -> None:
    """Mutate, test, print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--module", default="", help="part of a module's path")
    parser.add_argument("--sample", type=int, default=10)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        copy = Path(folder)
        for name in NEEDED:
            target = copy / name
            if (ROOT / name).is_dir():
                shutil.copytree(ROOT / name, target, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy(ROOT / name, target)
        for module, tests in MODULES.items():
            if options.module not in module:
                continue
            text = (ROOT / module).read_text(encoding="utf-8")
            every = mutants(text)
            size = min(options.sample or len(every), len(every))
            picked = sorted(random.Random(options.seed).sample(every, size))
            if noticed(copy, tests):
                sys.exit(f"{' and '.join(tests)} fail on the code as it is; mend that first")
            survivors = []
            for line, words, source in picked:
                (copy / module).write_text(source, encoding="utf-8")
                if not noticed(copy, tests):
                    survivors.append(f"  {module}:{line}: {words}")
            (copy / module).write_text(text, encoding="utf-8")
            rate = f"{size - len(survivors)} of {size} noticed ({len(every)} possible)"
            print("\n".join([f"{module}: {rate}", *survivors]), flush=True)


if __name__ == "__main__":
    main()
