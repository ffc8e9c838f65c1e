"""The everyday command line, read without `argparse`: words, and flags that take no value.

The commands declare their options once, to `argparse` or to this; what this does not know at once
(an option with a value, a slip, a request for help) is left to `argparse`, which takes as long to
import as half a bare start.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import SimpleNamespace

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from typing import Any

_ONE, _SOME = (1, 1), (1, None)
_COUNTS = {None: _ONE, "?": (0, 1), "*": (0, None), "+": _SOME}


class Everyday:
    """Takes the declarations of a command as `argparse.ArgumentParser` does."""

    def __init__(self) -> None:
        self.values: dict[str, Any] = {}
        self.flags: dict[str, str] = {}
        self.places: list[tuple[str, str | None]] = []
        self.groups: list[list[str]] = []
        self.strange = False

    def add_argument(
        self, name: str, *, action: str = "", nargs: str | None = None, default: Any = None,
        type: Callable[[str], Any] | None = None, choices: Any = None, **_: object,
    ) -> None:  # fmt: skip
        """Take a declaration; one of a kind that is not known here makes all words strange."""
        if not name.startswith("-"):
            self.places.append((name, nargs))
            self.strange |= type is not None or choices is not None or nargs not in _COUNTS
        elif action == "store_true":
            self.flags[name] = name.lstrip("-").replace("-", "_")
            self.values[self.flags[name]] = False
        else:
            self.values[name.lstrip("-").replace("-", "_")] = default

    def set_defaults(self, **values: Any) -> None:
        """Take values that no word gives."""
        self.values |= values

    def add_mutually_exclusive_group(self) -> _Group:
        """Return what takes the options of a group, of which one may be given."""
        self.groups.append([])
        return _Group(self, self.groups[-1])

    def read(self, words: Sequence[str]) -> SimpleNamespace | None:
        """Return what the words say, as `argparse` would; None where it is left to that."""
        flags = [word for word in words if word in self.flags]
        rest = [word for word in words if word not in self.flags]
        several = len(self.places) > 1 and any(many for _, many in self.places)
        clash = any(sum(flag in group for flag in flags) > 1 for group in self.groups)
        if self.strange or several or clash or any(w[:1] == "-" for w in rest):
            return None
        if len(self.places) != 1:
            if len(rest) != len(self.places):
                return None
            told: dict[str, Any] = dict(zip([name for name, _ in self.places], rest, strict=True))
        else:
            ((name, many),) = self.places
            least, most = _COUNTS[many]
            if len(rest) < least or (most is not None and len(rest) > most):
                return None
            told = {name: rest if most is None else rest[0] if rest else None}
        raised = {self.flags[word]: True for word in flags}
        return SimpleNamespace(**(self.values | raised | told))


class _Group:
    """Takes the declarations of a group, for the whole."""

    def __init__(self, whole: Everyday, names: list[str]) -> None:
        self._whole, self._names = whole, names

    def add_argument(self, name: str, **how: Any) -> None:
        """Take a declaration, as `Everyday.add_argument`."""
        self._names.append(name)
        self._whole.add_argument(name, **how)
