"""Which entry of a sheet is asked next; pure."""

from collections.abc import Iterator

from identify.assembly import measured_from
from identify.frozen import replace
from identify.model.sheet import HoseSheet, SheetEnd
from identify.sheets.entries import BY_PATH, ENTRIES, Entry
from identify.sheets.known import SheetKnowledge
from identify.sheets.sizing import end_kind

_AFTERWARDS = ("making.squeezed_a", "making.squeezed_b", "making.counted")
_ONLY_WITH = {  # asked only where another entry has an answer
    "a.rating_from": "a.rating", "b.rating_from": "b.rating",
    "a.port_rating_from": "a.port_rating", "b.port_rating_from": "b.port_rating",
    "a.known": "a.end", "b.known": "b.end", "a.port_known": "a.port", "b.port_known": "b.port",
    "angle.convention": "angle.angle", "use.bend_angle": "use.bend_radius",
    "use.viscosity": "use.flow", "use.cold_viscosity": "use.flow", "use.density": "use.flow",
    "making.plus": "making.target", "making.minus": "making.target",
    "making.data": "making.target", "making.dies": "making.target",
    "making.division": "making.dies",
}  # fmt: skip


SECTIONS = {
    "job": "Job", "a": "End A and its port", "b": "End B and its port", "hose": "Hose",
    "length": "Length and angle", "use": "Use and way", "making": "Making",
}  # fmt: skip
"""The parts of a sheet as they are shown, by the first word of their paths."""
_BESIDE = {"angle": "length"}  # a part that is shown with another


def section_entries(section: str, sheet: HoseSheet, known: SheetKnowledge) -> Iterator[Entry]:
    """Yield the entries of a section that were made or matter for this hose, in order."""
    entered = {path for path, _ in sheet.entered}
    for entry in ENTRIES:
        part = entry.path.partition(".")[0]
        if _BESIDE.get(part, part) != section:
            continue
        needs = _ONLY_WITH.get(entry.path)
        open_now = (needs is None or needs in entered) and _matters(entry.path, sheet, known)
        if entry.path in entered or open_now:
            yield _worded(entry, sheet, known)


def to_ask(sheet: HoseSheet, known: SheetKnowledge) -> Iterator[Entry]:
    """Yield the entries that are open and matter for this hose, in order."""
    entered = {path for path, _ in sheet.entered}
    for entry in ENTRIES:
        if entry.path in entered or entry.path in _AFTERWARDS:
            continue
        needs = _ONLY_WITH.get(entry.path)
        if (needs is None or needs in entered) and _matters(entry.path, sheet, known):
            yield _worded(entry, sheet, known)


def _worded(entry: Entry, sheet: HoseSheet, known: SheetKnowledge) -> Entry:
    """Return an entry in the words of the end at hand: which points a length may go to."""
    side, _, field = entry.path.partition(".")
    end = sheet.a if side == "a" else sheet.b
    if field != "measured_to" or end.end is None or end.shape is None:
        return entry
    point = measured_from(known.rules, end_kind(end.end, end.shape))
    return replace(
        entry, ask=f"{entry.ask} {point.ask}", example=point.points[0], needed=True,
        choices=point.points,
    )  # fmt: skip


def _matters(path: str, sheet: HoseSheet, known: SheetKnowledge) -> bool:
    part, _, field = path.partition(".")
    bent = all(each.shape is not None and each.shape.bent for each in (sheet.a, sheet.b))
    if part in ("a", "b"):
        return _end_matters(field, sheet.a if part == "a" else sheet.b, known) and (
            field != "position" or bent
        )
    if part == "angle":
        return bent and (sheet.a.position is None or sheet.b.position is None)
    if path in ("hose.bore", "hose.outside", "hose.layers"):
        return sheet.hose.line is None
    if path == "hose.stated_by":
        return sheet.hose.line is None and sheet.hose.bore is None
    if path == "hose.data":
        return sheet.hose.rating is not None or sheet.hose.bend is not None
    return path in BY_PATH


def _end_matters(field: str, end: SheetEnd, known: SheetKnowledge) -> bool:
    if field in ("hand", "port_hand"):
        row = end.end if field == "hand" else end.port
        return row is not None and row.left_hand > 0
    if field == "measured_to":
        if end.end is None or end.shape is None:
            return False
        return bool(measured_from(known.rules, end_kind(end.end, end.shape)).ask)
    if field == "data":
        return any(v is not None for v in (end.cut_off, end.insertion, end.bore))
    return True
