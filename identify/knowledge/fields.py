"""Check one YAML mapping field by field, collecting every fault with its line."""

from collections.abc import Iterable, Iterator
from typing import Any

from identify.errors import ReadingError, near_miss
from identify.knowledge.yaml_reader import Mapping, Sequence, short
from identify.model.feature import Feature
from identify.reading.units import parse_length

LONGEST_FAULT = 600  # characters of one sentence


class Faults:
    """Faults of one or more files, in the order found; the same fault is noted once.

    `citations` holds each source key that was cited, with where and by what, so that it can be
    checked once all sources are known.
    """

    def __init__(self) -> None:
        self.found: list[str] = []
        self.citations: dict[tuple[str, int, str, str], None] = {}  # in order, each once

    def add(self, file: str, line: int, text: str) -> None:
        """Note one fault; `text` names the thing and the remedy, a full stop is added."""
        if len(text) > LONGEST_FAULT:
            text = f"{text[:LONGEST_FAULT]}…"
        fault = f"{file}:{line}: {text}{'' if text.endswith(('.', '?', '…')) else '.'}"
        if fault not in self.found:
            self.found.append(fault)

    def cite(self, file: str, line: int, what: str, source: str) -> None:
        """Note that `what` cites `source`."""
        self.citations[file, line, what, source] = None


class Fields:
    """A mapping under check.

    Every getter notes a fault and returns a harmless stand-in instead of raising, so that all
    faults of a file come out at once. `close()` reports keys nobody asked for. `what` names the
    entry in messages ('size "-4"').
    """

    def __init__(self, data: Any, file: str, faults: Faults, what: str, line: int = 1) -> None:
        self.file, self.faults, self.what = file, faults, what
        self.asked: set[str] = set()
        if isinstance(data, Mapping):
            self.data, self.line = data, data.line
        else:
            self.data, self.line = Mapping(), line
            self.data.lines = {}
            if data is not None:
                self.fault(
                    "", f"is {short(data)}, not a mapping; write its fields indented below it"
                )

    def line_of(self, key: str) -> int:
        """Return the line of a key, or of the entry if the key is missing."""
        return self.data.lines.get(key, self.line)

    def fault(self, key: str, text: str) -> None:
        """Note a fault of one field (or of the entry if `key` is empty)."""
        name = f"{self.what}: {key} " if key else f"{self.what} "
        self.faults.add(self.file, self.line_of(key), f"{name}{text}")

    def has(self, key: str) -> bool:
        """Tell whether a key is given and not null."""
        self.asked.add(key)
        return self.data.get(key) is not None

    def text(self, key: str, default: str | None = None) -> str:
        """Return a text field; required when `default` is None. Numbers must be quoted."""
        if not self.has(key):
            if default is None:
                self.fault(key, "is missing")
            return default or ""
        value = self.data[key]
        if not isinstance(value, str):
            self.fault(key, f"is {short(value)}, not text; put it in quotes")
            return short(value)
        if not value.strip() and default is None:
            self.fault(key, "is empty")
        return value

    def number(
        self, key: str, default: float | None = None, *, low: float = -1e9, high: float = 1e9
    ) -> float:
        """Return a plain number; required when `default` is None."""
        if not self.has(key):
            if default is None:
                self.fault(key, "is missing")
            return default or 0.0
        value = self.data[key]
        if isinstance(value, bool) or not isinstance(value, int | float):
            self.fault(key, f"is {short(value)}, not a number")
            return default or 0.0
        if not low <= value <= high:
            self.fault(key, f"is {value:g}, outside {low:g}..{high:g}")
        return float(value)

    def flag(self, key: str, default: bool = False) -> bool:
        """Return true or false."""
        if not self.has(key):
            return default
        if not isinstance(self.data[key], bool):
            self.fault(key, f"is {short(self.data[key])}; write true or false")
        return bool(self.data[key])

    def choice(self, key: str, options: tuple[str, ...], default: str | None = None) -> str:
        """Return a text that must be one of `options`."""
        value = self.text(key, default)
        if value and value not in options and self.has(key):
            self.fault(
                key, f'is "{value}", not one of {", ".join(options)}{near_miss(value, options)}'
            )
            return options[0]
        return value or (default or options[0])

    def texts(self, key: str) -> tuple[str, ...]:
        """Return a list of texts (empty if the key is missing)."""
        out = []
        for value, line in self._items(key):
            if isinstance(value, str):
                out.append(value)
            else:
                self.faults.add(
                    self.file, line, f"{self.what}: {key} holds {short(value)}, not text."
                )
        return tuple(out)

    def sections(self, key: str, what: str) -> Iterator["Fields"]:
        """Yield the entries of a list of mappings; `what` names an entry in messages."""
        for number, (value, line) in enumerate(self._items(key), 1):
            yield Fields(value, self.file, self.faults, f"{self.what}: {what} {number}", line)

    def section(self, key: str) -> "Fields":
        """Return a nested mapping (empty if the key is missing)."""
        value = self.data[key] if self.has(key) else None
        return Fields(value, self.file, self.faults, f"{self.what}: {key}", self.line_of(key))

    def keyed(self, key: str) -> Iterator[tuple[str, "Fields"]]:
        """Yield name and fields of a mapping of mappings."""
        outer = self.section(key)
        for name in outer.data:
            yield (
                name,
                Fields(
                    outer.data[name], self.file, self.faults, f'{key} "{name}"', outer.line_of(name)
                ),
            )

    def _items(self, key: str) -> Iterator[tuple[Any, int]]:
        if not self.has(key):
            return
        value = self.data[key]
        if not isinstance(value, Sequence):
            self.fault(key, f"is {short(value)}, not a list; put it in square brackets")
            return
        yield from zip(value, value.lines, strict=True)

    def close(self) -> None:
        """Note every key that nobody asked for, with the nearest known one."""
        for key in self.data:
            if key not in self.asked:
                self.fault(key, f"is not a known field{near_miss(key, tuple(self.asked))}")


def length_mm(fields: Fields, key: str, required: bool = True) -> float | None:
    """Return a length of a table entry [mm].

    Args:
        fields: The entry under check.
        key: Its field, a text such as "14 mm" or "1 1/16 in".
        required: Whether a missing field is a fault.

    Returns:
        The length, or None where it is missing or faulty; the fault is noted.
    """
    if not fields.has(key):
        if required:
            fields.fault(key, 'is missing; write a length with its unit, such as "14 mm"')
        return None
    return _mm(fields, key, fields.data[key])


def lengths_mm(fields: Fields, key: str) -> tuple[float, ...]:
    """Return a list of lengths [mm], empty where it is missing; a faulty one is left out."""
    found = (_mm(fields, key, text) for text in fields.texts(key))
    return tuple(value for value in found if value is not None)


def _mm(fields: Fields, key: str, value: Any) -> float | None:
    if not isinstance(value, str):
        fields.fault(key, f'is {short(value)}, a number without a unit; write it like "14 mm"')
        return None
    try:
        length = parse_length(value)
    except ReadingError as error:
        fields.fault(key, f"cannot be read: {str(error).rstrip('.')}")
        return None
    if length.spread_mm:
        fields.fault(key, f'is a span, "{value}"; write one length')
        return None
    return length.mm


def some(
    fields: Fields, key: str, options: tuple[str, ...] = (), what: str = ""
) -> tuple[str, ...]:
    """Return one text or a list of texts; with `options`, only those among them.

    `what` says in messages what the options are, by default `key`.
    """
    if not fields.has(key):
        return ()
    one = fields.data[key]
    words = (one,) if isinstance(one, str) else fields.texts(key)
    if not options:
        return words
    return tuple(word for word in words if known(fields, key, (word,), options, what or key))


def known(
    fields: Fields, key: str, words: Iterable[str], options: tuple[str, ...], what: str
) -> bool:
    """Note a fault for every word that is no option; tell whether there was none.

    A word that is itself the key, or names the entry (no key), is not said twice.
    """
    unknown = [word for word in words if word not in options]
    for word in unknown:
        near = near_miss(word, options) or f"; known: {', '.join(options[:12])}"
        said = "" if key in ("", word) else f'"{word}" '
        fields.fault(key, f"{said}is no known {what}{near}")
    return not unknown


def filled(fields: Fields, key: str, words: tuple[str, ...]) -> tuple[str, ...]:
    """Return `words`; a fault if the list they were read from holds nothing."""
    if not fields.data.get(key):
        fields.fault(key, "is missing or empty")
    return words


def feature_named(fields: Fields, key: str) -> Feature | None:
    """Return the feature standing under `key`; None, with a fault, if there is no such feature."""
    name = fields.text(key)
    if not name or not known(fields, key, (name,), tuple(Feature), "feature"):
        return None
    return Feature(name)
