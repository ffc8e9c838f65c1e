"""Every single change of one figure in the text of a table, as a slip of the pen makes it."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import yaml


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


LENGTHS = _words(
    """major pitch gauge_length beyond_gauge useful_length pitch_diameter external_crest_min
    external_crest_max external_pitch_min external_pitch_max internal_crest_min internal_crest_max
    internal_pitch_min internal_pitch_max tube_od bore seat_mouth spotface plug_od side eye_bore
    ring_id ring_od ring_thickness flange_head_od flange_head_thickness bolt_spacing_long
    bolt_spacing_short across nominal outside outside_max outside_seen reinforcement radius"""
)
NUMBERS = _words(
    """hose_dn bar tpi share port_ridge left_hand dn layers low_c high_c water_c cycles percent at_c
    more less until"""
)
WITH_FIGURES = _words(
    "thread designation also size dash bolt_metric bolt_inch o_ring_size value half_angle"
)
NEIGHBOURED = LENGTHS | _words(
    "dn hose_dn bar tpi thread dash bolt_metric bolt_inch o_ring_size size"
)
EXCHANGED = (
    ("bolt_spacing_short", "bolt_spacing_long"),
    ("ring_id", "ring_od"),
    ("tube_od", "bore"),
    *(
        (f"{gender}_{diameter}_min", f"{gender}_{diameter}_max")
        for gender in ("external", "internal")
        for diameter in ("crest", "pitch")
    ),
)
LIMITS = _words("bore outside reinforcement")  # lists of the least and the most
HALF_ANGLES = ("12", "30", "37", "45")
FLIPS = {
    "gender": {"male": ("female",), "female": ("male",)},
    "shape": {
        "convex": ("concave",),
        "concave": ("convex",),
        "flat": ("none",),
        "none": ("flat",),
        "ball": ("none",),
        "chamfer": ("flat",),
        "plug": ("none",),
    },
    "o_ring": {
        "none": ("face", "nose", "boss", "captive"),
        "face": ("none",),
        "nose": ("none",),
        "boss": ("none", "captive"),
        "captive": ("none", "boss"),
        "flange": ("none",),
    },
    "basis": {"from-memory": ("open-dataset", "printed"), "common-practice": ("standard-text",)},
    "layer_kind": {
        "wire-braid": ("wire-spiral",),
        "wire-spiral": ("wire-braid",),
        "any": ("textile",),
    },
    "dash_means": {"tube": ("bore",)},
}
STEP = {"mm": 0.1, "in": 0.004}


@dataclass(frozen=True, slots=True)
class Cell:
    """One scalar of a YAML text: its path, its value, and where value and key stand."""

    path: tuple[str | int, ...]
    value: str
    start: int
    end: int
    key_start: int
    line: int

    @property
    def field(self) -> str:
        """The name of the field; that of the list for an entry of a list."""
        return next(str(part) for part in reversed(self.path) if isinstance(part, str))


@dataclass(frozen=True, slots=True)
class Mutant:
    """One changed text: what was changed where, and in what way."""

    kind: str
    field: str
    line: int
    old: str
    new: str
    text: str


def cells(text: str) -> list[Cell]:
    """Return the scalars of a YAML text in order; what an alias repeats stands once."""
    found: list[Cell] = []
    seen: set[int] = set()

    def walk(node: yaml.Node, path: tuple[str | int, ...], key_start: int) -> None:
        if id(node) in seen:
            return
        seen.add(id(node))
        if isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                walk(value, (*path, key.value), key.start_mark.index)
        elif isinstance(node, yaml.SequenceNode):
            for index, value in enumerate(node.value):
                walk(value, (*path, index), key_start)
        else:
            start, end = node.start_mark, node.end_mark
            found.append(Cell(path, node.value, start.index, end.index, key_start, start.line + 1))

    top = yaml.compose(text, Loader=yaml.SafeLoader)
    assert top is not None
    walk(top, (), 0)
    return found


def mutants(text: str) -> Iterator[Mutant]:
    """Yield each text that differs from `text` by one slip."""
    table = {cell.path: cell for cell in cells(text)}
    for cell in table.values():
        done = {cell.value}
        for kind, new in _changes(cell, table):
            if new not in done:
                done.add(new)
                changed = _replaced(text, cell, new)
                yield Mutant(kind, _name(cell), cell.line, cell.value, new, changed)
        if cell.field == "source":
            yield Mutant(
                "source dropped", "source", cell.line, cell.value, "", _dropped(text, cell)
            )
    yield from _exchanges(text, table)


def _name(cell: Cell) -> str:
    return "also_seen value" if cell.field == "value" else cell.field


def _changes(cell: Cell, table: dict[tuple[str | int, ...], Cell]) -> Iterator[tuple[str, str]]:
    field, value = cell.field, cell.value
    if field in LENGTHS | NUMBERS | WITH_FIGURES:
        yield from (("digit off by one", new) for new in _digits(value))
        yield from (("digits transposed", new) for new in _transposed(value))
    if field in LENGTHS:
        yield from (("moved a little", new) for new in _moved(value))
    if field in NEIGHBOURED and "sizes" in cell.path:
        yield from (("neighbouring size", new) for new in _neighbours(cell, table))
    if field == "half_angle":
        angle = float(value.split()[0])
        for new in (angle * 2, angle / 2):
            yield "angle basis flipped", f"{new:g} deg"
        if value.split()[0] in HALF_ANGLES:
            yield from (("angle exchanged", f"{new} deg") for new in HALF_ANGLES)
    if field == "size" and re.fullmatch(r"\d+[LS]", value):
        yield "L for S", value[:-1] + {"L": "S", "S": "L"}[value[-1]]
    for new in FLIPS.get(field, {}).get(value, ()):
        yield f"{field} flipped", new


def _digits(value: str) -> Iterator[str]:
    for at, letter in enumerate(value):
        if letter.isdigit():
            yield value[:at] + str((int(letter) + 1) % 10) + value[at + 1 :]


def _transposed(value: str) -> Iterator[str]:
    for at, (one, other) in enumerate(pairwise(value)):
        if one.isdigit() and other.isdigit() and one != other:
            yield value[:at] + other + one + value[at + 2 :]


def _moved(value: str) -> Iterator[str]:
    number, _, unit = value.rpartition(" ")
    if re.fullmatch(r"\d+(\.\d+)?", number):
        places = max(len(number.partition(".")[2]), 1 if unit == "mm" else 3)
        for step in (STEP[unit], -STEP[unit]):
            yield f"{float(number) + step:.{places}f} {unit}"


def _neighbours(cell: Cell, table: dict[tuple[str | int, ...], Cell]) -> Iterator[str]:
    at = cell.path.index("sizes") + 1
    index = cell.path[at]
    assert isinstance(index, int)
    for other in (index + 1, index - 1):
        path = (*cell.path[:at], other, *cell.path[at + 1 :])
        if path in table:
            yield table[path].value


def _replaced(text: str, cell: Cell, new: str) -> str:
    quote = text[cell.start] if text[cell.start] in "\"'" else ""
    return f"{text[: cell.start]}{quote}{new}{quote}{text[cell.end :]}"


def _dropped(text: str, cell: Cell) -> str:
    after = text[cell.end :]
    return text[: cell.key_start] + (after[2:] if after.startswith(", ") else after)


def _exchanges(text: str, table: dict[tuple[str | int, ...], Cell]) -> Iterator[Mutant]:
    for path, small in table.items():
        large = table.get((*path[:-1], 1)) if path[-1] == 0 and small.field in LIMITS else None
        if large and large.value != small.value:
            changed = _replaced(_replaced(text, large, small.value), small, large.value)
            yield Mutant(
                "min and max exchanged", small.field, small.line, small.value, large.value, changed
            )
        for low, high in EXCHANGED:
            large = table.get((*path[:-1], high)) if path[-1] == low else None
            if large is None or large.value == small.value:
                continue
            first, second = sorted((small, large), key=lambda cell: cell.start)
            changed = _replaced(_replaced(text, second, first.value), first, second.value)
            yield Mutant(
                "min and max exchanged", low, small.line, small.value, large.value, changed
            )
