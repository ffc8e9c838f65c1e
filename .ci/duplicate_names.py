"""Fail if two modules define one public name: there is to be one way to do a thing."""

import ast
import sys
from collections import defaultdict
from pathlib import Path

SHARED = {"add_arguments", "run", "main"}  # the contract of commands, and entry points


def public_names(path: Path) -> list[str]:
    """Return the public functions and classes that a module defines at its top."""
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    nodes = ast.parse(path.read_text(encoding="utf-8")).body
    return [n.name for n in nodes if isinstance(n, kinds) and not n.name.startswith("_")]


def main() -> int:
    """Print each name with more than one home; return 1 if there is any."""
    homes: dict[str, list[str]] = defaultdict(list)
    for path in sorted(Path("identify").rglob("*.py")):
        for name in public_names(path):
            homes[name].append(str(path))
    twice = {n: where for n, where in homes.items() if len(where) > 1 and n not in SHARED}
    for name, where in twice.items():
        print(f"{name}: {', '.join(where)}")
    print(f"{len(homes)} public names, {len(twice)} defined twice")
    return 1 if twice else 0


if __name__ == "__main__":
    sys.exit(main())
