"""Which picture an end connection gets: cut open, or as it lies on the bench."""

from identify.drawing.angle_arcs import angle_arcs
from identify.drawing.bench import Look, bench_measures, bench_sheet
from identify.drawing.flanges import flange_part
from identify.drawing.males import male_part
from identify.drawing.measures import Drawn, annotate
from identify.drawing.named_parts import named_parts
from identify.drawing.outline import NOT_TO_SCALE, Sheet
from identify.drawing.plain_ends import eye_part, plug_part, socket_part, washer_part
from identify.drawing.ports import port_part
from identify.drawing.revolved import joined
from identify.drawing.seat_words import cone_construction, seat_words
from identify.drawing.style import View
from identify.drawing.swivels import swivel_part
from identify.drawing.views import end_view, section
from identify.frozen import StrEnum, replace
from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.thread import Thread

WORN = "The crests of its thread are worn, and some are broken; drawn larger than it is."
_INSIDE = frozenset({Feature.SEAT_ANGLE, Feature.SEAT_SHAPE, Feature.TUBE_BORE})
"""What is measured where only a cut shows how."""


class Sort(StrEnum):
    """The sorts of end that are drawn differently."""

    MALE = "male"
    SWIVEL = "swivel"
    PORT = "port"
    FLANGE = "flange"
    PLUG = "plug"
    SOCKET = "socket"
    BANJO = "banjo"
    WASHER = "washer"


def picture(end: EndConnection, thread: Thread | None, view: View) -> Sheet:
    """Draw one end connection in one of the ways it can be drawn."""
    if view is View.SECTION:
        return named_section(end, thread)
    if view is View.MEASURED:
        return half_section(end, thread)
    return bench_view(end, thread, Look(view))


def half_section(
    end: EndConnection, thread: Thread | None, ask: Feature | None = None, value: str = ""
) -> Sheet:
    """Draw one end connection, cut open, from the dimensions in the tables.

    Args:
        end: The end connection.
        thread: Its thread, None where it has none.
        ask: The feature to be measured: only it is shown, without the tables' figure, so that the
            figure does not guide the hand. None shows what the tables know, with figures.
        value: A reading to write at the asked dimension.

    Returns:
        A sheet in millimetres: section with the connecting side to the left; flanges, eyes and
        washers from the front, because there they are measured.
    """
    drawn, sort = drawn_of(end, thread, ask), sort_of(end)
    if sort in (Sort.BANJO, Sort.WASHER):
        return bench_view(end, thread, Look.BENCH, ask, value)
    if sort is Sort.FLANGE and ask is not Feature.FLANGE_HEAD_THICKNESS:
        face = replace(
            end_view(drawn.part),
            title=drawn.title,
            words=(f"Face of {drawn.title}, seen from the open side.", *drawn.told,
                   seat_words(end, ask)),
        )  # fmt: skip
        return annotate(face, [m for m in drawn.measures if m.on_face], ask, value)
    sheet = _cut(end, drawn, ask)
    if ask is Feature.SEAT_ANGLE and drawn.part.seat:
        unit = thread.major_mm if thread else 20.0
        built = cone_construction(end, drawn.part.seat, 1.2 * unit)
        sheet = replace(sheet, lines=(*sheet.lines, *built.lines))
    return annotate(sheet, [m for m in drawn.measures if not m.on_face], ask, value)


def asked_view(
    end: EndConnection, thread: Thread | None, ask: Feature | None, value: str = ""
) -> Sheet:
    """Draw one end connection for who is to measure `ask` on it, or for who is asked nothing.

    What can be measured from outside is shown from outside, on the one view that shows it, so that
    no seat is seen before it is asked for. What is inside is shown cut.
    """
    if ask is not None and ask not in _INSIDE:
        drawn = drawn_of(end, thread)
        for look in (Look.SIDE, Look.END):
            if any(each.feature is ask for each in bench_measures(drawn, look)):
                return bench_view(end, thread, look, ask, value)
    return half_section(end, thread, ask, value)


def named_section(end: EndConnection, thread: Thread | None) -> Sheet:
    """Draw one end connection cut open, its places named as the trade does, its angle as an arc.

    No figure stands on it but the angle of the seat, half and included.
    """
    drawn = drawn_of(end, thread)
    sheet = _cut(end, drawn)
    arcs = angle_arcs(end, drawn.part)
    both = joined(sheet, arcs)
    words = (*sheet.words, f"Named: {', '.join(name.term for name in drawn.part.names)}.",
             NOT_TO_SCALE)  # fmt: skip
    return replace(
        both, title=sheet.title, words=words, notes=(*arcs.notes, *named_parts(drawn.part))
    )


def bench_view(
    end: EndConnection,
    thread: Thread | None,
    look: Look = Look.BENCH,
    ask: Feature | None = None,
    value: str = "",
    worn_mm: float = 0.0,
    name: str = "",
) -> Sheet:
    """Draw one end connection as the eye sees it: from the side, and into its end beside that.

    Args:
        end: The end connection.
        thread: Its thread, None where it has none.
        look: Both views, or one of them.
        ask: The feature to be measured, shown without the tables' figure; None shows no figure.
        value: A reading to write at the asked dimension.
        worn_mm: What is gone from the crests of the thread, measured on the radius [mm].
        name: What to call it in words in place of its title, where that is not to be told.

    Returns:
        A sheet in millimetres. Nothing is cut, so a seat shows only as far as it is seen.
    """
    drawn = drawn_of(end, thread, None, worn_mm)
    drawn = replace(drawn, title=name or drawn.title)
    sheet = bench_sheet(drawn, look)
    if worn_mm:
        sheet = replace(sheet, words=(*sheet.words, WORN))
    if ask is None:
        return replace(sheet, words=(*sheet.words, NOT_TO_SCALE))
    return annotate(sheet, bench_measures(drawn, look), ask, value)


def drawn_of(
    end: EndConnection, thread: Thread | None, ask: Feature | None = None, worn_mm: float = 0.0
) -> Drawn:
    """Return an end as a part that can be looked at, and what can be measured on it."""
    match sort_of(end):
        case Sort.FLANGE:
            return flange_part(end)
        case Sort.WASHER:
            return washer_part(end)
        case Sort.BANJO:
            return eye_part(end)
        case Sort.PLUG:
            return plug_part(end)
        case Sort.SOCKET:
            return socket_part(end)
        case Sort.PORT:
            return port_part(end, thread, worn_mm)
        case Sort.SWIVEL:
            return swivel_part(end, thread, ask, worn_mm)
        case Sort.MALE:
            return male_part(end, thread, ask, worn_mm)


def sort_of(end: EndConnection) -> Sort:
    """Return the sort of an end, from its gender, dimensions and mount."""
    if end.gender == "flange":
        return Sort.FLANGE
    if end.gender == "none":
        return Sort.BANJO if end.is_eye else Sort.WASHER
    if end.gender == "female":
        if end.thread is None:
            return Sort.SOCKET
        return Sort.PORT if end.mount == "port" else Sort.SWIVEL
    return Sort.PLUG if end.thread is None else Sort.MALE


def _cut(end: EndConnection, drawn: Drawn, ask: Feature | None = None) -> Sheet:
    how = "Section" if drawn.part.block else "Half section"
    half = "" if drawn.part.block else ", upper half cut"
    words = (f"{how} of {drawn.title}: {drawn.lies}{half}.", *drawn.told, seat_words(end, ask))
    return replace(section(drawn.part), title=drawn.title, words=words)
