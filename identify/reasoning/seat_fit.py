"""Where the seats of two ends touch once their threads have run together.

Cones are compared by half angle and by which of the two is hollow, rings by whether a face or a
chamfer stands opposite, 24 deg noses by the counterbore they enter. The tables hold no drawing of
any maker's part, so a diameter is only bounded: a cone lies inside the thread root, its small end
inside the tube. All of it is calculated, none was tested.
"""

import math

from identify.frozen import StrEnum, dataclass
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.feature import CAPTIVE, Feature
from identify.model.thread import Thread
from identify.model.verdict import Hazard

BAND_DEG = 1.0  # cones nearer than this bed down on each other; common practice
NOSE_DEG = 15.0  # half angles up to this are noses that enter a counterbore bored to the tube
COUNTERBORE_MM = 0.3  # a nose or tube this much off its counterbore is of another size

_HOLLOW = (Shape.CONCAVE,)
_RAISED = (Shape.CONVEX, Shape.BALL)
_SHOULDER_SEALS = ("o_ring_boss", "bonded_washer")
_WASHER_SEALS = ("bonded_washer", "flat_washer")


class Contact(StrEnum):
    """How the seats touch."""

    BAND = "a band all round"
    LINE = "a line"
    RIMS = "rim on rim"
    DISPLACED = "the same cone, another size"
    RING = "an O-ring on a face"
    BOSS = "an O-ring in a chamfer"
    UNSUPPORTED = "a ring or washer with nothing behind it"
    WASHER = "a washer, edge or captive ring on a face"
    BARE = "two plain faces"
    THREAD = "the thread itself"
    SOCKET = "a plug in its socket"
    NOTHING = "nothing"
    SEATLESS = "no seat in the tables"
    UNKNOWN = "the tables do not say"


UNSEALED = {
    Contact.LINE: Hazard.HIGH,
    Contact.DISPLACED: Hazard.HIGH,
    Contact.RING: Hazard.HIGH,
    Contact.UNSUPPORTED: Hazard.HIGH,
    Contact.UNKNOWN: Hazard.HIGH,
    Contact.RIMS: Hazard.MEDIUM,
    Contact.BARE: Hazard.MEDIUM,
    Contact.NOTHING: Hazard.LOW,
    Contact.SEATLESS: Hazard.LOW,
}
"""How it ends where a contact does not seal; see `joint` for what the hazards mean. A line, a cone
out of place and a ring that is squeezed but not held carry a first test and give way later; where
nothing touches, the oil runs out at once. Judgement from the mechanics, common practice."""


class Place(StrEnum):
    """Where on an end it seals."""

    NOSE = "nose"
    SHOULDER = "shoulder"
    THREAD = "thread"
    PLUG = "plug"
    NOWHERE = "nowhere"


@dataclass(frozen=True, slots=True)
class SeatFit:
    """What touches when one way of making the male meets one way of making the female.

    `seals` tells whether the contact is one the trade seals with. `share` is how often the two rows
    are made these two ways [0..1].
    """

    contact: Contact
    seals: bool
    sentence: str
    share: float = 1.0


def place(end: EndConnection, seat: Seat) -> Place:
    """Return where this way of making the end seals."""
    if seat.shape in (*_HOLLOW, *_RAISED):
        return Place.NOSE
    if seat.shape is Shape.PLUG:
        return Place.PLUG
    held = seat.shape is Shape.CHAMFER or seat.o_ring == CAPTIVE
    if end.gender == "none" or held or end.sealing in _SHOULDER_SEALS:
        return Place.SHOULDER
    if seat.shape is Shape.FLAT:
        return Place.NOSE
    return Place.THREAD if end.sealing == "thread_taper" else Place.NOWHERE


def seat_fit(
    male: EndConnection, male_seat: Seat, female: EndConnection, female_seat: Seat, root: Thread
) -> SeatFit:
    """Work out where two seats touch.

    Args:
        male: The male end.
        male_seat: One of its seats.
        female: The female end.
        female_seat: One of its seats.
        root: The male's thread; its minor diameter bounds every seat inside it.
    """
    share = male_seat.share * female_seat.share
    contact, seals, sentence = _meet(male, male_seat, female, female_seat, root)
    return SeatFit(contact, seals, sentence, share)


Met = tuple[Contact, bool, str]


def _meet(
    male: EndConnection, male_seat: Seat, female: EndConnection, female_seat: Seat, root: Thread
) -> Met:
    at_male, at_female = place(male, male_seat), place(female, female_seat)
    cones = (*_HOLLOW, *_RAISED)
    if male_seat.shape in cones and female_seat.shape in cones:
        return _cones((male, male_seat), (female, female_seat), root)
    if at_male is at_female is Place.SHOULDER:
        return _shoulders(male, male_seat, female_seat)
    if at_male is at_female is Place.NOSE and male_seat.shape is female_seat.shape is Shape.FLAT:
        return _faces(male, male_seat, female, female_seat)
    if at_female is Place.THREAD and male.sealing == "thread_taper":  # with a cone inside or not
        return Contact.THREAD, True, "Taper threads seal on their flanks, with sealant."
    if at_male is at_female is Place.PLUG:
        return _plug(male, female)
    if at_male is at_female is Place.NOSE:
        return _face_on_cone(male_seat, female_seat)
    sentence = (
        f"The male seals at its {at_male}, the female at its {at_female}: the two never meet."
        if at_male is not at_female and Place.NOWHERE not in (at_male, at_female)
        else f"The {_words(male_seat)} of the male finds a {_words(female_seat)} in the female."
    )
    seatless = Place.NOWHERE in (at_male, at_female)
    return Contact.SEATLESS if seatless else Contact.NOTHING, False, sentence


def _cones(
    male: tuple[EndConnection, Seat], female: tuple[EndConnection, Seat], root: Thread
) -> Met:
    if (male[1].shape in _HOLLOW) == (female[1].shape in _HOLLOW):
        both = "hollow" if male[1].shape in _HOLLOW else "raised"
        return Contact.RIMS, False, f"Both seats are {both} cones; only their rims touch."
    hollow, raised = (male, female) if male[1].shape in _HOLLOW else (female, male)
    funnel, nose = hollow[1].half_angle_deg, raised[1].half_angle_deg
    if funnel is None:
        return Contact.UNKNOWN, False, "The angle of the hollow cone is not known."
    if off := _off_size(hollow[0], raised[0], funnel):
        return off
    if raised[1].shape is Shape.BALL or nose is None:
        sentence = f"A ball touches the {funnel:g} deg cone along a line, as it is made to."
        return Contact.LINE, True, sentence
    if abs(nose - funnel) <= BAND_DEG:
        return Contact.BAND, True, f"Both cones are {funnel:g} deg from the axis."
    if nose < funnel:
        end, within = "small end", raised[0].sizes.get(Feature.TUBE_OD)
    else:
        end, within = "large end", root.minor_mm
    sentence = (
        f"A {nose:g} deg cone touches a {funnel:g} deg one only along a line at its {end}"
        + (f", inside {within:.1f} mm." if within else ".")
    )
    return Contact.LINE, False, sentence


def _face_on_cone(male: Seat, female: Seat) -> Met:
    """Return how a flat face and a cone touch; one of the two seats is flat."""
    cone = female if male.shape is Shape.FLAT else male
    if cone.shape in _RAISED:
        sentence = "The cone enters the bore of the flat face and touches only along its edge."
        return Contact.LINE, False, sentence
    if cone is female:
        sentence = "The edge of the flat nose touches the hollow cone only along a line."
        return Contact.LINE, False, sentence
    return Contact.RIMS, False, "The rim of the hollow cone meets the flat face."


def _off_size(hollow: EndConnection, raised: EndConnection, funnel_deg: float) -> Met | None:
    """Return how a nose of another tube size sits in a cone with a counterbore, None if it fits."""
    bore, tube = (
        hollow.sizes.get(Feature.TUBE_BORE) or hollow.sizes.get(Feature.TUBE_OD),
        raised.sizes.get(Feature.TUBE_OD),
    )
    if funnel_deg > NOSE_DEG or not bore or not tube or abs(tube - bore) <= COUNTERBORE_MM:
        return None
    shift = abs(tube - bore) / 2 / math.tan(math.radians(funnel_deg))
    way = "stands out" if tube > bore else "sinks in"
    sentence = (
        f"A nose for {tube:g} mm tube {way} {shift:.1f} mm too far in a cone bored for {bore:g} mm."
    )
    return Contact.DISPLACED, False, sentence


def _shoulders(stud: EndConnection, stud_seat: Seat, port_seat: Seat) -> Met:
    captive = stud_seat.o_ring == CAPTIVE
    ring = stud.sealing == "o_ring_boss" and not captive
    if port_seat.shape is Shape.CHAMFER:
        if ring:
            return Contact.BOSS, True, "The O-ring of the stud is squeezed in the chamfer."
        what = "captive ring" if captive else "washer or edge"
        hangs = f"The {what} of the stud hangs over the chamfer of the port."
        return Contact.UNSUPPORTED, False, hangs
    if ring:
        wedge = "The O-ring of the stud lies on a flat face and has no chamfer to wedge in."
        return Contact.UNSUPPORTED, False, wedge
    if captive:
        return Contact.WASHER, True, "The captive ring in the shoulder closes on the spotface."
    return Contact.WASHER, True, "Shoulder and spotface close on a washer, edge or ring."


def _faces(male: EndConnection, male_seat: Seat, female: EndConnection, female_seat: Seat) -> Met:
    rings = (male_seat.o_ring != "none") + (female_seat.o_ring != "none")
    if rings == 1:
        return Contact.RING, True, "An O-ring in one face closes on the plain other face."
    if rings == 2:
        return Contact.RING, False, "Groove lies on groove: the rings have no face."
    if male.sealing in _WASHER_SEALS or female.sealing in _WASHER_SEALS:
        return Contact.WASHER, True, "Two flat faces close on a washer between them."
    return Contact.BARE, False, "Two plain faces meet without ring or washer."


def _plug(male: EndConnection, female: EndConnection) -> Met:
    one = male.sizes.get(Feature.PLUG_OD)
    other = female.sizes.get(Feature.SOCKET_BORE, female.sizes.get(Feature.PLUG_OD))
    if one is None or other is None or male.family != female.family:
        return Contact.NOTHING, False, "A plug of one kind is no plug of another."
    if abs(one - other) > COUNTERBORE_MM:
        return Contact.NOTHING, False, f"A {one:g} mm plug in a socket for {other:g} mm."
    return Contact.SOCKET, True, f"A {one:g} mm plug in its socket."


def _words(seat: Seat) -> str:
    if seat.shape is Shape.NONE:
        return "plain end without a seat"
    angle = f"{seat.half_angle_deg:g} deg " if seat.half_angle_deg else ""
    return f"{angle}{seat.shape} seat"
