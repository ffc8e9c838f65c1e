"""Samples as a table of comma-separated values: a header, then one sample a line.

A column is named as a reading is (`thread_od`, `thread od`, `pitch (tpi)`); `id` names the sample,
`readings` holds readings in short, `claim` what somebody says it is; every other column is carried
through. A column twice holds a
second reading of the same thing. An empty cell says nothing.
"""

import csv
from collections.abc import Iterable, Iterator

from identify.errors import ReadingError, near_misses, quoted
from identify.frozen import dataclass
from identify.light import re
from identify.model.feature import FEATURES, Feature
from identify.model.reading import Reading
from identify.reading.consistency import gathered, with_gender
from identify.reading.numbers import exact_number
from identify.reading.parse import Threads, reading_from
from identify.reading.quick import read_line

ID, SHORT, CLAIM = "id", "readings", "claim"
FORMULA = ("=", "+", "-", "@", "\t", "\r")  # what a spreadsheet program would work out
_DELIMITERS = ",;\t"
_COLUMN = re.compile(r"\s*([A-Za-z][A-Za-z _-]*?)\s*(?:[(\[]\s*(.*?)\s*[)\]])?\s*")
_HEADER = (
    f"name the columns in the first line: {ID}, gender, thread_od (mm), pitch (tpi), …, or one "
    f"column {SHORT} with readings in short"
)


@dataclass(frozen=True, slots=True)
class Header:
    """The first line: the names as they stand, what parts them, and what each column holds.

    `units[i]` is said of all bare numbers of column i, empty for none. `notes` are sentences about
    columns that are carried through but look as if they were meant as readings.
    """

    names: tuple[str, ...]
    delimiter: str
    meant: tuple[str, ...]
    units: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One sample: the line on which it ends, its cells, and what is wrong with it as a row."""

    line: int
    cells: tuple[str, ...]
    fault: str = ""


def read_rows(lines: Iterable[bytes]) -> tuple[Header, Iterator[Row]]:
    """Return the header of a table and its rows, read as they are asked for.

    Raises:
        ReadingError: There is no header, or none of its columns holds readings.
    """
    texts = (line.decode("utf-8-sig", "surrogateescape") for line in lines)
    first = next((text for text in texts if text.strip()), "")
    delimiter = max(_DELIMITERS, key=first.count)
    names = tuple(next(csv.reader([first], delimiter=delimiter), ()))
    header = _header(names, delimiter)
    return header, _rows(texts, header)


def cell_of(header: Header, row: Row, wanted: str) -> str:
    """Return what stands in the column `ID` or `CLAIM`, empty where there is none."""
    return next((cell for _, name, cell in _cells(header, row) if name == wanted), "")


def sample_of(header: Header, row: Row, threads: Threads) -> tuple[Reading, ...]:
    """Return the readings of a row.

    Raises:
        ReadingError: The row is damaged, a cell is no reading, or they cannot stand together.
    """
    if row.fault:
        raise ReadingError(row.fault)
    found, short = list[Reading](), ""
    for place, name, cell in _cells(header, row):
        if name == SHORT:
            short = f"{short} {cell}".strip()
        elif name in FEATURES and cell:
            found.append(reading_from(name, _with_unit(cell, header.units[place]), threads=threads))
    if short:
        said = next((each.entered for each in found if each.feature is Feature.GENDER), None)
        found += (taken.reading for taken in read_line(short, threads, said))
    return with_gender(gathered(found))


def inert_cell(text: str) -> str:
    """Return a cell that no spreadsheet program takes for a formula; `read_rows` takes it back."""
    if text.startswith(FORMULA) and not _is_number(text):
        return f"'{text}"
    return text


def _header(names: tuple[str, ...], delimiter: str) -> Header:
    meant, units, notes = [], [], []
    for name in names:
        found = _COLUMN.fullmatch(name)
        plain = re.sub("[ -]+", "_", found[1].lower()) if found else ""
        known = plain in FEATURES or plain in (ID, SHORT, CLAIM)
        meant.append(plain if known else "")
        units.append((found[2] or "") if found and known else "")
        if near := near_misses(plain, FEATURES, 1) if plain and not known else ():
            notes.append(
                f"column {quoted(name)} is carried through unread; if it holds readings call it "
                f"{near[0]}."
            )
    if not any(name in FEATURES or name == SHORT for name in meant):
        raise ReadingError(f"its first line names no reading; {_HEADER}.")
    return Header(names, delimiter, tuple(meant), tuple(units), tuple(notes))


def _rows(texts: Iterator[str], header: Header) -> Iterator[Row]:
    reader = csv.reader(texts, delimiter=header.delimiter)
    wide = len(header.names)
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as error:
            yield Row(reader.line_num + 1, ("",) * wide, f"is no line of a table ({error}).")
            continue
        if not any(cell.strip() for cell in cells):
            continue
        fault = ""
        if len(cells) > wide:
            fault = f"has {len(cells)} cells where the header has {wide}; quote cells that hold a "
            fault += f"{quoted(header.delimiter)}."
        elif any("\udc80" <= character <= "\udcff" for cell in cells for character in cell):
            fault = "is not UTF-8; save the file as UTF-8."
        padded = (*cells, *("",) * wide)[:wide]
        yield Row(reader.line_num + 1, tuple(map(_plain, padded)), fault)


def _plain(cell: str) -> str:
    """Return a cell as it was before it was made inert, and without damaged characters."""
    whole = cell.encode("utf-8", "surrogateescape").decode("utf-8", "replace")
    return whole[1:] if whole[:1] == "'" and whole[1:2] in FORMULA else whole


def _cells(header: Header, row: Row) -> Iterator[tuple[int, str, str]]:
    for place, (name, cell) in enumerate(zip(header.meant, row.cells, strict=True)):
        yield place, name, cell.strip()


def _with_unit(cell: str, unit: str) -> str:
    return f"{cell} {unit}" if unit and _is_number(cell) else cell


def _is_number(text: str) -> bool:
    try:
        return exact_number(text.strip().lstrip("+-")) is not None
    except ReadingError:
        return False
