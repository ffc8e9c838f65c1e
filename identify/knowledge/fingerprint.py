"""By what a verdict can be traced to the tables and rules it rests on."""

from pathlib import Path
from typing import TYPE_CHECKING

from identify.knowledge.table_files import ENDING, data_dir, text_of

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

DIGITS = 12  # of a fingerprint; what is compared are a few dozen versions


def fingerprints(extra: Path | None = None) -> tuple[str, str]:
    """Return a digest of all tables and one of all rules.

    It follows from names and content of the files as they are now, and from nothing else, so that
    it is the same on every machine.

    Args:
        extra: A user's own folder, its `rules` among the rules and all else among the tables.

    Raises:
        TableError: A file cannot be read.
    """
    tables: list[Traversable] = [data_dir("thread_tables"), *([extra] if extra else [])]
    rules: list[Traversable] = [data_dir("rules"), *([extra / "rules"] if extra else [])]
    return _digest(tables, ("threads", "ends", "")), _digest(rules, ("",))


def hose_fingerprint(extra: Path | None = None) -> str:
    """Return a digest of all tables of hoses, apart: no verdict on an end rests on them.

    Args:
        extra: A user's own folder.

    Raises:
        TableError: A file cannot be read.
    """
    return _digest([data_dir("thread_tables"), *([extra] if extra else [])], ("hoses",))


def _digest(folders: "list[Traversable]", places: tuple[str, ...]) -> str:
    import hashlib  # slow to import, and needed only with a verdict that is kept

    digest = hashlib.sha256()
    for number, folder in enumerate(folders):
        for place in places:
            for file in _yaml_in(folder.joinpath(place) if place else folder):
                data = text_of(file, str(file)).encode()
                digest.update(f"{number}/{place}/{file.name}:{len(data)}:".encode() + data)
    return digest.hexdigest()[:DIGITS]


def _yaml_in(folder: "Traversable") -> "list[Traversable]":
    if not folder.is_dir():
        return []
    found = (each for each in folder.iterdir() if each.name.endswith(ENDING) and each.is_file())
    return sorted(found, key=lambda each: each.name)
