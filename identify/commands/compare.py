"""`whichend compare A B`: two end connections side by side, and what happens when they meet."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING

from identify.commands.layout import WIDTH, labelled, paragraph, table
from identify.knowledge.compiled import load_catalogue
from identify.model.connection import Shape
from identify.reasoning.differences import crest_of, differences
from identify.reasoning.lookalikes import worst_mating
from identify.reasoning.mating import mate

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from identify.model.catalogue import Catalogue
    from identify.model.connection import EndConnection, Seat
    from identify.reasoning.differences import Difference
    from identify.reasoning.joint import Mating

CALCULATED = (
    "Calculated from the tables' limits for new, clean parts; never tested. A thread that runs is "
    "no proof of a joint. Release stored pressure before you open or try one."
)
DRAWING_ROWS = 20
STYLES = ("braille", "blocks", "ascii", "none")

_DIMENSIONS = (
    ("tube_od_mm", "tube OD"),
    ("bore_mm", "bore for tube, plug or spigot"),
    ("seat_mouth_mm", "mouth of the seat"),
    ("spotface_mm", "spotface"),
    ("plug_od_mm", "plug OD"),
    ("eye_bore_mm", "bore of the eye"),
    ("ring_id_mm", "washer ID"),
    ("ring_od_mm", "washer OD"),
    ("flange_head_od_mm", "flange head OD"),
    ("flange_head_thickness_mm", "head thickness"),
    ("bolt_spacing_long_mm", "larger bolt spacing"),
    ("bolt_spacing_short_mm", "smaller spacing"),
)


def add_arguments(subparsers: argparse._SubParsersAction[argparse.ArgumentParser]) -> None:
    """Add the command to the command line."""
    parser = subparsers.add_parser(
        "compare",
        help="two end connections side by side, and what happens when they meet",
        epilog='Name an end by its id, or by words in quotes that only it answers to: "flare37 -8 '
        'male".',
    )
    parser.add_argument("one", metavar="A", help="an end connection")
    parser.add_argument("other", metavar="B", help="another")
    parser.add_argument("--tables", metavar="DIR", help="a folder with tables of your own")
    parser.add_argument(
        "--drawing",
        choices=STYLES,
        help="how to draw the two over each other; braille where the terminal can, else ascii",
    )
    parser.set_defaults(run=run)


def run(args: argparse.Namespace) -> int:
    """Print two ends side by side."""
    from pathlib import Path

    catalogue = load_catalogue(Path(args.tables) if args.tables else None)
    one, other = catalogue.find(args.one), catalogue.find(args.other)
    print(compare(catalogue, one, other, args.drawing or _style()))
    return 0


def compare(
    catalogue: Catalogue, one: EndConnection, other: EndConnection, style: str = "none"
) -> str:
    """Return the whole comparison, in 80 columns.

    Args:
        catalogue: The tables.
        one: One end.
        other: The other.
        style: One of `STYLES`.
    """
    parts = [
        "\n".join([*_heading("A", one), *_heading("B", other)]),
        _side_by_side(catalogue, one, other),
        _apart(catalogue, one, other),
        "\n".join(_meeting(catalogue, one, other)),
        _drawing(catalogue, one, other, style),
        labelled("CAUTION", CALCULATED),
    ]
    return "\n\n".join(part for part in parts if part)


def _heading(letter: str, end: EndConnection) -> tuple[str, str]:
    return f"{letter}  {end.id}", paragraph(f"{end.title}, {end.form}", 3)


def _side_by_side(catalogue: Catalogue, one: EndConnection, other: EndConnection) -> str:
    left, right = dict(_figures(catalogue, one)), dict(_figures(catalogue, other))
    names = [*left, *(name for name in right if name not in left)]
    rows = [(name, left.get(name, "-"), right.get(name, "-")) for name in names]
    return table(("", "A", "B"), rows)


def _figures(catalogue: Catalogue, end: EndConnection) -> Iterator[tuple[str, str]]:
    yield "gender", end.gender
    if thread := catalogue.thread_of(end):
        yield "thread", thread.designation
        if crest := crest_of(end, thread):
            name = "bore" if end.gender == "female" else "OD"
            yield f"crest {name}", f"{crest.low_mm:.2f} to {crest.high_mm:.2f} mm"
        yield "pitch", f"{thread.pitch_mm:.3f} mm ({25.4 / thread.pitch_mm:.4g} tpi)"
        yield "flanks", f"{thread.flank_angle_deg:g} deg, {_taper(thread.taper)}"
    yield "seat", " or ".join(dict.fromkeys(_seat(seat) for seat in end.seats))
    yield "O-ring", " or ".join(dict.fromkeys(seat.o_ring for seat in end.seats))
    for field, name in _DIMENSIONS:
        value = getattr(end, field)
        if value is not None:
            yield name, f"{value:g} mm"
    if bolts := end.bolt_metric or end.bolt_inch:
        yield "bolts", bolts
    bar = end.rating.bar
    yield "rating", f"{bar:g} bar ({end.rating.basis})" if bar is not None else "unknown"


def _taper(taper: float) -> str:
    return f"taper 1:{1 / taper:g}" if taper else "parallel"


def _seat(seat: Seat) -> str:
    angle = f" {seat.half_angle_deg:g} deg half" if seat.half_angle_deg else ""
    return f"{seat.shape}{angle}"


def _apart(catalogue: Catalogue, one: EndConnection, other: EndConnection) -> str:
    if one.gender != other.gender:
        return ""
    found = differences(catalogue, one, other)
    resolved = [_difference(each) for each in found if each.resolved]
    hidden = [_words(each) for each in found if not each.resolved]
    lines = [labelled("Tell apart" if i == 0 else "", text) for i, text in enumerate(resolved)]
    if not resolved:
        text = "No measurement of the end itself separates these two."
        lines = [labelled("Tell apart", text)]
    if hidden:
        lines.append(labelled("", f"Too close to decide on: {', '.join(hidden)}."))
    return "\n".join(lines)


def _difference(each: Difference) -> str:
    gap = ""
    if each.size is not None:
        unit = "deg" if each.feature in ("seat_angle", "flank_angle") else "mm"
        gap = f", {each.size:.2g} {unit} apart"
    return f"{_words(each)}: {each.one} against {each.other}{gap} ({each.tool})"


def _words(each: Difference) -> str:
    return each.feature.replace("_", " ")


def _meeting(catalogue: Catalogue, one: EndConnection, other: EndConnection) -> Iterator[str]:
    if one.gender != other.gender:
        yield labelled("Together", _told(mate(catalogue, one, other)))
        return
    if one.gender == "flange":
        yield labelled("A on B", f"Head of A on pad of B: {_told(mate(catalogue, one, other))}")
        yield labelled("B on A", f"Head of B on pad of A: {_told(mate(catalogue, other, one))}")
        return
    yield labelled("Together", f"Both are {one.gender}: not made to meet.")
    yield from _taken("B for A", worst_mating(catalogue, one, other))
    yield from _taken("A for B", worst_mating(catalogue, other, one))


def _taken(label: str, worst: Mating) -> Iterator[str]:
    yield labelled(label, f"{label[0]} fitted where {label[-1]} was, on {worst.b}: {_told(worst)}")


def _told(found: Mating) -> str:
    meant = " The tables name them as mates." if found.meant else ""
    return f"{found.words}. Hazard {found.hazard}. {found.reason}{meant}"


def _drawing(catalogue: Catalogue, one: EndConnection, other: EndConnection, style: str) -> str:
    if style == "none" or not (one.gender == other.gender or _cones_meet(one, other)):
        return ""
    from identify.drawing.render import render
    from identify.drawing.seat_detail import seat_detail

    sheet = seat_detail(one, catalogue.thread_of(one), other, catalogue.thread_of(other))
    lines = render(sheet, WIDTH, DRAWING_ROWS, style)
    return "\n".join([paragraph(sheet.words[0]), *lines])


def _cones_meet(one: EndConnection, other: EndConnection) -> bool:
    """Tell whether a cone enters a funnel of another angle, which only a picture makes plain."""
    cones = {seat.shape: seat.half_angle_deg for end in (one, other) for seat in end.seats}
    out, into = cones.get(Shape.CONVEX), cones.get(Shape.CONCAVE)
    return out is not None and into is not None and out != into and len(cones) == 2


def _style() -> str:
    return "braille" if (sys.stdout.encoding or "").lower().startswith("utf") else "ascii"
