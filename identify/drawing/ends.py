"""Which picture an end connection gets."""

from identify.drawing.flanges import flange_sheet
from identify.drawing.males import male_sheet
from identify.drawing.outline import Sheet
from identify.drawing.plain_ends import banjo_sheet, plug_sheet, washer_sheet
from identify.drawing.ports import port_sheet
from identify.drawing.swivels import swivel_sheet
from identify.frozen import StrEnum
from identify.model.connection import EndConnection, Shape
from identify.model.feature import Feature
from identify.model.thread import Thread


class Sort(StrEnum):
    """The sorts of end that are drawn differently."""

    MALE = "male"
    SWIVEL = "swivel"
    PORT = "port"
    FLANGE = "flange"
    PLUG = "plug"
    BANJO = "banjo"
    WASHER = "washer"


def half_section(
    end: EndConnection, thread: Thread | None, ask: Feature | None = None, value: str = ""
) -> Sheet:
    """Draw one end connection from the dimensions in the tables.

    Args:
        end: The end connection.
        thread: Its thread, None where it has none.
        ask: The feature to be measured: only it is shown, without the tables' figure, so that the
            figure does not guide the hand. None shows what the tables know, with figures.
        value: A reading to write at the asked dimension.

    Returns:
        A sheet in millimetres: section with the connecting side to the left, flanges and banjo eyes
        from the front.
    """
    match sort_of(end):
        case Sort.FLANGE:
            return flange_sheet(end, ask, value)
        case Sort.WASHER:
            return washer_sheet(end, ask, value)
        case Sort.BANJO:
            return banjo_sheet(end, ask, value)
        case Sort.PLUG:
            return plug_sheet(end, ask, value)
        case Sort.PORT:
            return port_sheet(end, thread, ask, value)
        case Sort.SWIVEL:
            return swivel_sheet(end, thread, ask, value)
        case Sort.MALE:
            return male_sheet(end, thread, ask, value)


def sort_of(end: EndConnection) -> Sort:
    """Return the sort of an end, from its gender, dimensions and mount."""
    if end.gender == "flange":
        return Sort.FLANGE
    if end.gender == "none":
        return Sort.BANJO if end.is_eye else Sort.WASHER
    if end.gender == "female":
        shapes = {seat.shape for seat in end.seats}
        bare = shapes == {Shape.NONE} and end.mount != "swivel"
        return Sort.PORT if end.mount == "port" or bare else Sort.SWIVEL
    return Sort.PLUG if end.thread is None else Sort.MALE
