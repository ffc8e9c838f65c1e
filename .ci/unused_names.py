"""Fail if nothing but a test uses a name that a module of `identify/` defines.

A use is an import by another module, an attribute of an imported module, or the bare name
elsewhere in the module itself. The benchmarks are programs, so they count as users.
"""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

ROOM, PROGRAMS = Path("identify"), Path("tests/benchmark")


def module_name(path: Path) -> str:
    """Return the dotted name under which a file is imported."""
    parts = path.with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


CALLED_FROM_OUTSIDE = {
    "identify.entry.main",  # [project.scripts] of pyproject.toml
    "identify.knowledge.loading.compiled_knowledge",  # compile_tables.py
    *(  # `entry` imports a command by its name
        f"{module_name(path)}.{name}"
        for path in (ROOM / "commands").rglob("*.py")
        for name in ("add_arguments", "run", "VERBS")
    ),
}


def bound(body: list[ast.stmt]) -> Iterator[tuple[str, ast.stmt]]:
    """Yield each name that a body binds, with the statement that does it."""
    for node in body:
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef):
            yield node.name, node
        elif isinstance(node, ast.Assign | ast.AnnAssign):
            for target in node.targets if isinstance(node, ast.Assign) else [node.target]:
                yield from ((n.id, node) for n in ast.walk(target) if isinstance(n, ast.Name))


def used_elsewhere(tree: ast.Module) -> Iterator[str]:
    """Yield the dotted names of other modules that a module imports or reaches into."""
    modules = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module:
            for alias in node.names:
                modules[alias.asname or alias.name] = f"{node.module}.{alias.name}"
    yield from modules.values()
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            yield f"{modules.get(node.value.id)}.{node.attr}"


def used_here(tree: ast.Module, name: str, definition: ast.stmt) -> bool:
    """Tell whether a module mentions a name outside its definition."""
    own = {id(node) for node in ast.walk(definition)}
    return any(
        isinstance(node, ast.Name) and node.id == name and id(node) not in own
        for node in ast.walk(tree)
    )


def main() -> int:
    """Print each name that nothing uses; return 1 if there is any."""
    paths = [*ROOM.rglob("*.py"), *(p for p in PROGRAMS.glob("*.py") if "test_" not in p.name)]
    trees = {module_name(path): ast.parse(path.read_text("utf-8")) for path in sorted(paths)}
    used = CALLED_FROM_OUTSIDE | {name for tree in trees.values() for name in used_elsewhere(tree)}
    count, unused = 0, []
    for module, tree in trees.items():
        for name, definition in bound(tree.body):
            count += 1
            if f"{module}.{name}" not in used and not used_here(tree, name, definition):
                unused.append(f"{module.replace('.', '/')}.py:{definition.lineno}: {name}")
    print("\n".join([*unused, f"{count} names, {len(unused)} unused"]))
    return 1 if unused else 0


if __name__ == "__main__":
    sys.exit(main())
