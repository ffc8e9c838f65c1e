"""The configuration file: what a shop would else say at every start. Every key is also a flag.

It is YAML, read by the strict reader of the tables, and looked at by every command; a flag that is
given overrules it. Nothing is read, and no reader imported, where there is no such file.
"""

from __future__ import annotations

import os
import sys

from identify.errors import RecordError, TableError, near_miss
from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

FILE = "config.yaml"
UNITS = ("mm", "in")
THEMES = ("dark", "sunlight", "terminal")  # as in `tui.themes`, which is slow to import


def config_path() -> str:
    """Return where the file is looked for by the custom of the system, "" without a home."""
    home = os.path.expanduser("~")  # noqa: PTH111 - Path.home() raises where there is none
    if sys.platform == "win32":
        base = os.environ.get("APPDATA") or rf"{home}\AppData\Roaming"
    elif sys.platform == "darwin":
        base = f"{home}/Library/Application Support"
    else:
        base = os.environ.get("XDG_CONFIG_HOME", "")
        base = base if base.startswith("/") else f"{home}/.config"
    return f"{base}/whichend/{FILE}" if not base.startswith("~") else ""


def settle(args: Any) -> None:
    """Fill in from the file what no flag said.

    Args:
        args: What a command was given; only what it has is filled in.

    Raises:
        RecordError: The file cannot be read, or has faults; all are named with their lines.
    """
    path = config_path()
    if not path or not os.path.exists(path):  # noqa: PTH110 - pathlib is slow to import
        return
    for key, value in read_config(path).items():
        if hasattr(args, key) and not getattr(args, key):
            setattr(args, key, value)


def read_config(path: str) -> dict[str, Any]:
    """Return what a configuration file says, by the names of the flags.

    Raises:
        RecordError: As `settle`.
    """
    from pathlib import Path

    from identify.files import read_regular, reason
    from identify.knowledge.yaml_reader import read_yaml

    try:
        text = read_regular(path)[0].decode("utf-8")
        found = read_yaml(text, path) if text.strip() else None
    except UnicodeDecodeError:
        raise RecordError(f"{path}:1: is not UTF-8 text; save it as UTF-8.") from None
    except OSError as error:
        raise RecordError(f"{path} cannot be read ({reason(error)}).") from None
    except TableError as error:
        raise RecordError(str(error)) from None
    told: dict[str, Any] = {}
    faults = []
    for key, value in (found or {}).items():
        where = f"{path}:{found.lines[key] if found else 1}"
        try:
            if key not in KEYS:
                near = near_miss(key, KEYS) or f"; the keys are {', '.join(KEYS)}."
                raise ValueError(f'"{key[:40]}" is no key{near}')
            told[key] = KEYS[key](value)
        except ValueError as error:
            faults.append(f"{where}: {error}")
    if faults:
        raise RecordError("\n".join(faults))
    if "tables" in told:
        told["tables"] = Path(path).parent / told["tables"]
    return told


def tools_of(value: object) -> frozenset[Any]:
    """Return the tools of a list, or of words with commas between.

    Raises:
        ValueError: One of them is none.
    """
    from identify.interview.session import ASKED
    from identify.model.rule import Tool

    words = value.split(",") if isinstance(value, str) else value
    if not isinstance(words, list):
        raise ValueError(f"tools is no list; write tools: [{ASKED[0]}, {ASKED[1]}].")
    plain = [str(each).strip().lower().replace(" ", "_") for each in words]
    for word in plain:
        if word not in list(ASKED):
            near = near_miss(word, ASKED) or f"; the tools are {', '.join(ASKED)}."
            raise ValueError(f'"{word[:40]}" is no tool{near}')
    return frozenset(Tool(word) for word in plain)


def _one_of(name: str, words: Callable[[], tuple[str, ...]]) -> Callable[[object], str]:
    def check(value: object) -> str:
        if value not in words():
            raise ValueError(f'{name} is one of {", ".join(words())}, not "{str(value)[:40]}".')
        return str(value)

    return check


def _cares() -> tuple[str, ...]:
    from identify.model.observer import CARES

    return CARES


def origins() -> tuple[str, ...]:
    """Return the regions that can be named."""
    from identify.model.feature import ORIGINS

    return ORIGINS


def _yes_or_no(name: str) -> Callable[[object], bool]:
    def check(value: object) -> bool:
        if not isinstance(value, bool):
            raise ValueError(f'{name} is true or false, not "{str(value)[:40]}".')
        return value

    return check


def _folder(value: object) -> str:
    if not isinstance(value, str) or not value:
        raise ValueError("tables is the path of a folder, such as tables: my-tables.")
    return os.path.expanduser(value)  # noqa: PTH111 - as it is typed


def _stock(value: object) -> str:
    from identify.errors import ReadingError
    from identify.pages.label import label_size

    try:
        return str(label_size(str(value)))
    except ReadingError as error:
        raise ValueError(f"label_size: {error.problem}") from None


KEYS: dict[str, Callable[[object], Any]] = {
    "tools": tools_of,
    "units": _one_of("units", lambda: UNITS),
    "region": _one_of("region", origins),
    "tables": _folder,
    "theme": _one_of("theme", lambda: THEMES),
    "label_size": _stock,
    "care": _one_of("care", _cares),
    "guess": _yes_or_no("guess"),
    "learn": _yes_or_no("learn"),
}
"""What the file may say; each is also a flag of the same name."""
