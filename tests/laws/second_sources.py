"""The figures of ends against a second source: `tests/references/ends/*.csv`.

`seen.csv` holds what named public tables and data sheets print. `recollected.csv` is the table
written a second time from memory, where it can be in the unit in which the figure is remembered:
it catches slips of the pen, not errors that a memory repeats. `also_seen FIELD` is a value that the
table names beside the one taken.
"""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

from identify.model.catalogue import Catalogue
from identify.model.connection import Across, EndConnection
from identify.model.source import Support
from identify.reading.units import parse_length
from tests.laws.registry import law
from tests.shipped import figure_of

FOLDER = Path(__file__).parent.parent / "references" / "ends"
# Clearance holes of screws run from a tenth to a third over the screw (ISO 273, from memory).
HOLE = (1.0, 3.2)
STRONG = (Support.OPEN_DATASET, Support.PRINTED, Support.STANDARD_TEXT, Support.COMPUTED)
UNITS = {"mm": 1.0, "in": 25.4, "bar": 1.0, "": 1.0, "psi": 1.0, "MPa": 10.0, "deg": 1.0}


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a second source; an empty `form` means every form of the size."""

    family: str
    size: str
    form: str
    field: str
    value: str
    unit: str
    within: float
    source: str

    @property
    def number(self) -> float:
        """The value in millimetres, bar or degrees."""
        parts = self.value.replace("-", " ").split()
        return float(sum(Fraction(part) for part in parts)) * UNITS[self.unit]

    @property
    def words(self) -> str:
        """The figure with its place, for a complaint."""
        size = f"{self.family}:{self.size}"
        return f"{size} {self.field} is {self.value} {self.unit} in {self.source}"


@cache
def figures(name: str) -> tuple[Figure, ...]:
    """Return the figures of one file."""
    with (FOLDER / f"{name}.csv").open(newline="", encoding="utf-8") as file:
        return tuple(
            Figure(**{**row, "within": float(row["within"] or 0)}) for row in csv.DictReader(file)
        )


@law
def figures_are_those_of_a_source_that_was_seen(tables: Catalogue) -> Iterator[str]:
    yield from _differences(tables, "seen")


@law
def figures_are_those_written_a_second_time(tables: Catalogue) -> Iterator[str]:
    yield from _differences(tables, "recollected")


@law
def claim_of_an_open_source_is_borne_out(tables: Catalogue) -> Iterator[str]:
    """What is said to rest on something seen has a figure among those that were seen."""
    seen = {(figure.family, figure.size) for figure in figures("seen")}
    rated = {(f.family, f.size) for f in figures("seen") if f.field == "rating"}
    for end in tables.ends:
        place = end.family, end.size
        if end.rating.basis in STRONG and place not in rated:
            yield f"{end.id} rating is {end.rating.basis}"
        standard = tables.sources[end.provenance.source].kind == "standard"
        claims = standard and end.provenance.basis in STRONG[:-1]  # computed needs none
        if claims and place not in seen:
            yield f"{end.id} is {end.provenance.basis}"


def _differences(tables: Catalogue, name: str) -> Iterator[str]:
    rows: dict[tuple[str, str], list[EndConnection]] = {}
    for end in tables.ends:
        rows.setdefault((end.family, end.size), []).append(end)
    for figure in figures(name):
        ends = rows.get((figure.family, figure.size), [])
        ends = [end for end in ends if figure.form in ("", end.form_key)]
        if figure.source not in tables.sources:
            yield f"{figure.words}, which is no source"
        if not ends:
            yield f"{figure.words}, but the table has no such size"
        for end in ends:
            if not _agrees(figure, end, tables):
                yield f"{figure.words}, not that of {end.id}"


def _agrees(figure: Figure, end: EndConnection, tables: Catalogue) -> bool:
    field, number = figure.field, figure.number if figure.unit else 0.0
    thread = tables.thread_of(end)
    if field.startswith("also_seen "):
        seen = [s.value for s in end.also_seen if s.field == field.removeprefix("also_seen ")]
        return (not seen and not figure.form) or any(_same(figure, value) for value in seen)
    if field == "thread":
        named = end.thread or ""
        return named == figure.value or named.startswith(f"{figure.value} ")
    if field == "thread major":
        return thread is not None and abs(thread.major_mm - number) <= figure.within
    if field == "dash":
        return (end.dash or "") == (f"-{number / 25.4 * 16:g}" if figure.unit else figure.value)
    if field == "rating":
        return end.rating.bar is None or abs(end.rating.bar - number) <= figure.within
    if field == "nut":
        nuts = [h.mm for h in end.hexagons if h.part is Across.NUT]
        return any(abs(mm - number) <= figure.within for mm in nuts)
    if field.endswith(" hole"):
        screw = _screw(end, field.removesuffix(" hole"))
        return screw is None or HOLE[0] - 0.6 <= number - screw <= HOLE[1]
    if field == "half_angle":
        return any(seat.half_angle_deg == number for seat in end.seats)
    if not figure.unit:
        return getattr(end, field) == figure.value
    ours = figure_of(end, field)
    return ours is not None and abs(ours - number) <= figure.within + 1e-9


def _same(figure: Figure, value: str) -> bool:
    if not figure.unit:
        return value == figure.value
    if value.endswith(" bar"):
        return abs(float(value.removesuffix(" bar")) - figure.number) <= figure.within
    return abs(parse_length(value).mm - figure.number) <= figure.within + 1e-9


def _screw(end: EndConnection, field: str) -> float | None:
    words = getattr(end, field)
    if not words:
        return None
    if field == "bolt_metric":
        return float(words[1:].partition("x")[0])
    return float(Fraction(words.partition("-")[0])) * 25.4
