"""Folders of tables: where the shipped ones lie, which files are read, what lies there unread."""

from __future__ import annotations

import os

import identify
from identify.errors import TableError, near_misses
from identify.files import read_regular, reason
from identify.frozen import TYPE_CHECKING
from identify.light import Iterable, Iterator

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable
    from pathlib import Path

MOST_BYTES = 5_000_000  # of one file; the largest shipped one has 60 kB
ENDING = ".yaml"
OWN_RULES = ("sources.yaml", "expert.yaml", "lookalikes.yaml")
"""Rule files that may lie in a folder of one's own; the others are the project's alone."""
PLACES: dict[str, tuple[str, ...]] = {
    "": ("sources.yaml",), "threads": (), "ends": (), "hoses": (), "rules": OWN_RULES,
}  # fmt: skip
"""Folder of a set of tables -> the files read of it; empty for all that end in .yaml."""


def data_path(name: str) -> str:
    """Return where the shipped YAML called `name` lies; see `data_dir`."""
    root = identify.__path__[0]
    installed, beside = f"{root}/_data/{name}", f"{root}/.."
    if os.path.isdir(installed):  # noqa: PTH112 - pathlib takes a third of a bare start
        return installed
    if os.path.isfile(f"{beside}/pyproject.toml") and os.path.isdir(f"{beside}/{name}"):  # noqa: PTH112, PTH113
        return f"{beside}/{name}"
    return str(data_dir(name))


def data_dir(name: str) -> Traversable:
    """Return the directory of shipped YAML called `name` ("rules", "thread_tables").

    In an installed wheel it lies inside the package, in a checkout beside `pyproject.toml`.

    Raises:
        TableError: It is in neither place.
    """
    from pathlib import Path

    root: Traversable = Path(identify.__path__[0])
    if not root.is_dir():  # installed as a zip; importlib.resources is slow to import
        from importlib.resources import files

        root = files("identify")
    checkout = root.joinpath("..")
    if (installed := root.joinpath("_data", name)).is_dir():
        return installed
    if checkout.joinpath("pyproject.toml").is_file() and checkout.joinpath(name).is_dir():
        return checkout.joinpath(name)
    raise TableError(f"{name}/ is missing from this installation; install whichend again.")


def files_of(folder: Traversable, place: str) -> Iterator[tuple[str, Traversable]]:
    """Yield the files read of one place with their names for messages, in order of name.

    Raises:
        TableError: The folder cannot be listed.
    """
    inner = folder.joinpath(place) if place else folder
    shown = _shown(folder)
    if inner.is_dir():
        for file in _listed(inner, "/".join(filter(None, (shown, place)))):
            if _is_read(place, file.name):
                yield "/".join(filter(None, (shown, place, file.name))), file


def text_of(file: Traversable, name: str) -> str:
    """Return the text of a table file.

    Raises:
        TableError: It cannot be read, is no regular file, too large, or not UTF-8.
    """
    from pathlib import Path

    try:
        if isinstance(file, Path):
            return read_regular(file, MOST_BYTES)[0].decode("utf-8")
        return file.read_text(encoding="utf-8")  # within a zip
    except UnicodeDecodeError as error:
        text = f"{name}:1: is not UTF-8 text ({error.reason}); save it as UTF-8."
        raise TableError(text) from None
    except OSError as error:
        raise TableError(f"{name}:1: cannot be read ({reason(error)}).") from None


def passed_over(folder: Path) -> list[str]:
    """Return what lies in a folder of tables and is not read, each with what to do about it."""
    found = []
    for place in PLACES:
        inner = folder / place
        if inner.is_dir():
            for file in _listed(inner, str(inner)):
                name = f"{place}/{file.name}" if place else file.name
                if not _is_read(place, file.name) and name not in PLACES:
                    found.append(f"{name}{_why(place, file)}")
    return found


def _why(place: str, file: Traversable) -> str:
    if file.name.startswith("."):
        return " (hidden)"
    if file.is_dir():
        near = near_misses(file.name, [each for each in PLACES if each])
        return f"/ (did you mean {near[0]}/?)" if near and not place else "/ (a folder)"
    if PLACES[place]:
        return f" (read here: {', '.join(PLACES[place])})"
    return f" (only names that end in {ENDING} are read)"


def _is_read(place: str, name: str) -> bool:
    if PLACES[place]:
        return name in PLACES[place]
    return name.endswith(ENDING) and not name.startswith(".")  # as an editor's lock ".#x.yaml"


def _listed(folder: Traversable, name: str) -> Iterable[Traversable]:
    try:
        return sorted(folder.iterdir(), key=lambda file: file.name)
    except OSError as error:
        raise TableError(f"{name}:1: cannot be listed ({reason(error)}).") from None


def _shown(folder: Traversable) -> str:
    return "thread_tables" if folder.name == "thread_tables" else str(folder)
