"""Fail if two modules of one room define one public name: one word a thing, one way to do it."""

import ast
import sys
from collections import defaultdict
from pathlib import Path

# Contracts that several modules of a room fulfil: commands, thread systems.
SHARED = {"add_arguments", "run", "main", "thread"}


def public_names(path: Path) -> list[str]:
    """Return the public functions and classes that a module defines at its top."""
    kinds = (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
    nodes = ast.parse(path.read_text(encoding="utf-8")).body
    return [n.name for n in nodes if isinstance(n, kinds) and not n.name.startswith("_")]


def main() -> int:
    """Print each name with more than one home; return 1 if there is any."""
    homes: dict[tuple[Path, str], list[str]] = defaultdict(list)
    for path in sorted(Path("identify").rglob("*.py")):
        for name in public_names(path):
            homes[path.parent, name].append(path.name)
    twice = {key: where for key, where in homes.items() if len(where) > 1 and key[1] not in SHARED}
    for (room, name), where in twice.items():
        print(f"{room}: {name} is defined in {', '.join(where)}")
    print(f"{len(homes)} public names, {len(twice)} defined twice")
    return 1 if twice else 0


if __name__ == "__main__":
    sys.exit(main())
