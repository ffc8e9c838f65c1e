"""A page to print at 100 %: pitch combs and seat angles, for those who have no gauges at hand."""

import math
from collections.abc import Iterable
from html import escape

from identify.drawing.outline import Point, ThreadRun
from identify.drawing.thread_profile import thread_lines
from identify.frozen import dataclass
from identify.model.connection import EndConnection
from identify.model.thread import Thread
from identify.pages.text import wrap

PAPERS_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
CHECK_BAR_MM = 50.0
TEN = 10  # pitches; a white mark stands there, since a pitch is best taken over ten
_COMB_MM = 30.0  # length of a comb, in whole pitches

_MARGIN_MM, _GAP_MM = 12.0, 5.0
_HEADER_MM = 64.0
_BACK_MM = 2.5  # of a comb, behind its teeth
_TIP_MM, _WIDEST_MM, _LONGEST_MM = 4.0, 22.0, 16.0  # of an angle silhouette
_RIM_MM = 3.0  # round a cup
_TEXT_MM, _LINE_MM = 2.4, 3.2

BEFORE_USE = (
    "Print at 100 %, not fitted to the page. Before use lay a rule or caliper on BOTH bars: each "
    "must measure 50.0 mm. If one does not, do not use this page.",
    "Combs: hold the thread against the teeth in a good light and look along the whole comb. A "
    "wrong comb drifts off: after ten pitches 19 and 18 tpi are half a pitch apart. The white mark "
    "stands at ten pitches.",
    "Cones: hold the black cone into a seat that is cut in. Cups: hold a seat that points out into "
    "the white notch. The half angle is from the axis, the included angle from side to side.",
    "Paper only narrows the choice. A match of thread and angle here is not yet a safe connection: "
    "confirm with a caliper and steel gauges before anything is put under pressure.",
)


@dataclass(frozen=True, slots=True)
class Comb:
    """One pitch comb: pitch and depth [mm], flank angle [deg], and what it is called."""

    pitch_mm: float
    depth_mm: float
    flank_angle_deg: float
    label: str
    systems: str


@dataclass(frozen=True, slots=True)
class _Figure:
    """SVG of one silhouette with its lower left corner at the origin, and its size [mm]."""

    body: str
    labels: tuple[str, ...]
    width: float
    height: float


def combs_of(threads: Iterable[Thread]) -> tuple[Comb, ...]:
    """Return one comb for every pitch and flank angle among the threads, finest first."""
    found: dict[tuple[float, float], list[Thread]] = {}
    for thread in threads:
        found.setdefault((round(thread.pitch_mm, 4), thread.flank_angle_deg), []).append(thread)
    combs = []
    for (_, flank), same in sorted(found.items()):
        first = same[0]
        words = f"{first.tpi:g} tpi, {first.pitch_mm:.3f} mm" if first.tpi else first.pitch_words
        systems = ", ".join(dict.fromkeys(thread.system for thread in same))
        combs.append(Comb(first.pitch_mm, first.height_mm, flank, f"{words}, {flank:g}°", systems))
    return tuple(combs)


def half_angles_of(ends: Iterable[EndConnection]) -> tuple[float, ...]:
    """Return every half angle of a cone among the seats [deg], smallest first."""
    angles = {seat.half_angle_deg for end in ends for seat in end.seats}
    return tuple(sorted(angle for angle in angles if angle and angle < 90))


def gauge_page(combs: Iterable[Comb], half_angles_deg: Iterable[float], paper: str = "a4") -> str:
    """Return a self-contained HTML document with all combs and angle silhouettes at 1:1.

    Args:
        combs: Pitch combs to print.
        half_angles_deg: Half angles of seats [deg], each above 0 and below 90.
        paper: A key of `PAPERS_MM`.

    Returns:
        HTML with one SVG a sheet of paper, in real millimetres.
    """
    width, height = PAPERS_MM[paper]
    angles = [draw(angle) for angle in half_angles_deg for draw in (_cone, _cup)]
    sheets = _sheets([[_comb(comb) for comb in combs], angles], width, height)
    name = {"a4": "A4", "letter": "letter"}[paper]
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        "<title>Thread pitch combs and seat angles, 1:1</title>\n"
        f"<style>@page {{ size: {name}; margin: 0 }} body {{ margin: 0 }} "
        "svg { display: block; break-after: page }</style>\n</head>\n<body>\n"
        + "".join(_sheet(sheet, n, len(sheets), width, height) for n, sheet in enumerate(sheets, 1))
        + "</body>\n</html>\n"
    )


Placed = list[tuple[float, float, _Figure]]


def _sheets(groups: list[list[_Figure]], width: float, height: float) -> list[Placed]:
    """Place figures in rows from left to right, rows from top to bottom, sheet after sheet.

    Every group begins a row.
    """
    sheets: list[Placed] = [[]]
    x, y, tallest = _MARGIN_MM, _HEADER_MM, 0.0
    begins = {id(group[0]) for group in groups if group}
    for figure in (figure for group in groups for figure in group):
        if x + figure.width > width - _MARGIN_MM or (x > _MARGIN_MM and id(figure) in begins):
            x, y, tallest = _MARGIN_MM, y + tallest + _GAP_MM, 0.0
        if y + figure.height > height - _MARGIN_MM:
            sheets.append([])
            x, y, tallest = _MARGIN_MM, _HEADER_MM, 0.0
        sheets[-1].append((x, y, figure))
        x, tallest = x + figure.width + _GAP_MM, max(tallest, figure.height)
    return sheets


def _sheet(placed: Placed, number: int, count: int, width: float, height: float) -> str:
    body = [_header(number, count)]
    for x, y, figure in placed:
        body.append(f'<g transform="translate({x:.3f} {y:.3f})">{figure.body}</g>')
        for line, label in enumerate(figure.labels):
            base = y + figure.height - (len(figure.labels) - line - 1) * _LINE_MM - 0.6
            body.append(_text(x, base, label))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="0 0 {width:g} {height:g}" role="img">\n'
        "<title>Pitch combs and seat angles at actual size</title>\n"
        f"<desc>{escape(' '.join(BEFORE_USE))}</desc>\n" + "\n".join(body) + "\n</svg>\n"
    )


def _header(number: int, count: int) -> str:
    left, top = _MARGIN_MM, _MARGIN_MM
    right, middle = left + CHECK_BAR_MM, left + CHECK_BAR_MM / 2
    upright = left + CHECK_BAR_MM + 8.0
    bars = (
        f'<path class="check" data-mm="{CHECK_BAR_MM:g}" d="M{left} {top + 8}H{right}"/>'
        f'<path class="check" data-mm="{CHECK_BAR_MM:g}" '
        f'd="M{upright} {top - 6}V{top - 6 + CHECK_BAR_MM}"/>'
        f'<path d="M{left} {top + 6}v4M{right} {top + 6}v4'
        f'M{upright - 2} {top - 6}h4M{upright - 2} {top - 6 + CHECK_BAR_MM}h4"/>'
    )
    lines = [line for text in BEFORE_USE for line in (*wrap(text, 84), "")]
    words = "".join(
        _text(upright + 6, top - 4 + row * _LINE_MM * 0.92, line)
        for row, line in enumerate(lines)
        if line
    )
    title = _text(left, top, f"Pitch combs and seat angles, 1:1, sheet {number} of {count}")
    return (
        f'<g fill="none" stroke="#000" stroke-width="0.25">{bars}</g>'
        + title
        + _text(middle - 10, top + 12.5, "check: 50.0 mm")
        + words
    )


def _comb(comb: Comb) -> _Figure:
    """Return teeth on a back, teeth up, with a mark at ten pitches."""
    teeth = max(TEN, int(_COMB_MM / comb.pitch_mm))
    run = ThreadRun(
        (0.0, comb.depth_mm),
        (teeth * comb.pitch_mm, comb.depth_mm),
        comb.pitch_mm,
        comb.depth_mm,
        male=True,
        flank_angle_deg=comb.flank_angle_deg,
    )
    (profile, *_), _ = thread_lines(run, teeth=True)
    high = comb.depth_mm
    outline = [(x, high - y) for x, y in profile.points]
    right = outline[-1][0]
    outline += [(right, high + _BACK_MM), (0.0, high + _BACK_MM)]
    labels = (comb.label, f"10 = {TEN * comb.pitch_mm:.2f} mm; {comb.systems}")
    wide = max(right, max(len(label) for label in labels) * 0.52 * _TEXT_MM)
    body = (
        f'<path class="comb" data-pitch-mm="{comb.pitch_mm:.4f}" '
        f'data-flank-deg="{comb.flank_angle_deg:g}" d="{_path(outline)}Z"/>'
        f'<path class="mark" stroke="#fff" stroke-width="0.3" '
        f'd="M{TEN * comb.pitch_mm:.4f} {high + 0.5:.4f}v{_BACK_MM}"/>'
    )
    return _Figure(body, labels, wide, high + _BACK_MM + len(labels) * _LINE_MM + 0.6)


def _cone(half_deg: float) -> _Figure:
    """Return a black cone, its tip up."""
    long, half = _cone_size(half_deg)
    middle, tip = half, _TIP_MM / 2
    points = [
        (middle - tip, 0.0),
        (middle + tip, 0.0),
        (middle + half, long),
        (middle - half, long),
    ]
    return _angle_figure("cone", half_deg, points, 2 * half, long)


def _cup(half_deg: float) -> _Figure:
    """Return a black block with a white notch of the same angle, its mouth up."""
    long, half = _cone_size(half_deg)
    middle, tip = half + _RIM_MM, _TIP_MM / 2
    right, bottom = 2 * middle, long + _RIM_MM
    points = [
        (0.0, 0.0), (middle - half, 0.0), (middle - tip, long), (middle + tip, long),
        (middle + half, 0.0), (right, 0.0), (right, bottom), (0.0, bottom),
    ]  # fmt: skip
    return _angle_figure("cup", half_deg, points, right, bottom)


def _cone_size(half_deg: float) -> tuple[float, float]:
    """Return length and half width of a silhouette [mm] that keeps within its bounds."""
    slope = math.tan(math.radians(half_deg))
    long = min(_LONGEST_MM, (_WIDEST_MM - _TIP_MM) / 2 / slope)
    return long, _TIP_MM / 2 + long * slope


def _angle_figure(
    name: str, half_deg: float, points: list[Point], wide: float, tall: float
) -> _Figure:
    labels = (f"{name} {half_deg:g}° half", f"{2 * half_deg:g}° included")
    body = f'<path class="{name}" data-half-deg="{half_deg:g}" d="{_path(points)}Z"/>'
    wide = max(wide, max(len(label) for label in labels) * 0.52 * _TEXT_MM)
    return _Figure(body, labels, wide, tall + len(labels) * _LINE_MM + 0.6)


def _path(points: list[Point]) -> str:
    return "M" + "L".join(f"{x:.4f} {y:.4f}" for x, y in points)


def _text(x: float, y: float, words: str) -> str:
    return (
        f'<text x="{x:.2f}" y="{y:.2f}" font-family="sans-serif" font-size="{_TEXT_MM}">'
        f"{escape(words)}</text>"
    )
