"""THE table of what can be observed on an end: words, bounds, genders, units, answers.

Whoever needs a list of features, a name for one or the field of a row that holds its size takes it
from here. To add a feature see DEVELOPERS.md.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, NamedTuple, StrEnum, dataclass
from identify.light import cache

if TYPE_CHECKING:
    from typing import Any


class Feature(StrEnum):
    """Names as they are typed (`thread_od=20.9 mm`) and as they stand in tables and rules."""

    GENDER = "gender"
    MOUNT = "mount"
    THREAD_OD = "thread_od"
    THREAD_ID = "thread_id"
    PITCH = "pitch"
    TAPER = "taper"
    FLANK_ANGLE = "flank_angle"
    HAND = "hand"
    SEAT_SHAPE = "seat_shape"
    SEAT_ANGLE = "seat_angle"
    O_RING = "o_ring"
    TUBE_OD = "tube_od"
    TUBE_BORE = "tube_bore"
    PORT_RIDGE = "port_ridge"
    PLUG_OD = "plug_od"
    SOCKET_BORE = "socket_bore"
    FLANGE_HEAD_OD = "flange_head_od"
    FLANGE_HEAD_THICKNESS = "flange_head_thickness"
    BOLT_SPACING_LONG = "bolt_spacing_long"
    BOLT_SPACING_SHORT = "bolt_spacing_short"
    EYE_BORE = "eye_bore"
    RING_ID = "ring_id"
    RING_OD = "ring_od"
    RING_THICKNESS = "ring_thickness"
    HEX = "hex"
    HOSE_BORE = "hose_bore"
    MATERIAL = "material"
    ORIGIN = "origin"
    MARKING = "marking"
    TRIAL_FIT = "trial_fit"


class Kind(StrEnum):
    """How the value of a feature is written."""

    LENGTH = "length"
    PITCH = "pitch"
    ANGLE = "angle"
    TAPER = "taper"
    CHOICE = "choice"
    TEXT = "text"
    TRIAL = "trial"


@dataclass(frozen=True, slots=True)
class FeatureInfo:
    """What a feature is.

    `title` heads its question, `label` names it on a drawing or over a column, `words` says it in
    full within a sentence. `choices` are the allowed answers of a choice, `also` other words for
    them, several with a blank between. `low` and `high` bound a possible value [mm, or deg for an
    angle]: outside them it is a slip of the keyboard or the unit, not a measurement. `genders`
    names the answers of `SEEN` after which the feature is there, all if empty; where they come down
    to one end, a measurement of the feature tells it. `clue` tells that it only hints, because it
    is no measurement of the end itself. `turn` is its place where two ends are told apart: 0 is
    seen, 1 is measured first, the rest by growing trouble.

    Where the rows of the tables hold it: `field` is the field of a size [mm], empty for what no row
    states as one figure; `stated` tells that a word for it is the field of its own name; `told` is
    set for a share of ends that show it, in the field of its own name, and says it on a page as
    heading and sentence. `shown` is the answer of two that tells of such a share.

    Of a size: `plain` says as what a threadless end that has it is seen (plug, socket), `unstated`
    what is measured where a row gives no figure (the `bolt` that passes through, the `oil bore`),
    empty where that is not known.

    `short` are the letters that stand before its value where readings are written in short; an
    answer of which the words are its own needs none, unless it is `spelt`.
    """

    kind: Kind
    title: str
    label: str
    words: str
    choices: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 0.0
    genders: tuple[str, ...] = ()
    field: str = ""
    clue: bool = False
    also: tuple[tuple[str, str], ...] = ()
    turn: int = 1
    stated: bool = False
    told: tuple[str, ...] = ()
    shown: str = ""
    plain: str = ""
    unstated: str = ""
    short: str = ""
    spelt: bool = False

    @property
    def shown_or_not(self) -> tuple[str, str]:
        """The answers that what is told as a share is there, and that it is not."""
        return self.shown, next(word for word in self.choices if word != self.shown)


class Seen(NamedTuple):
    """What an answer to the question of gender means: gender of the rows meant, and in words."""

    gender: str
    words: str


SEEN = {
    "male": Seen("male", "a male end"),
    "female": Seen("female", "a female end"),
    "flange": Seen("flange", "a flange"),
    "eye": Seen("none", "a ring eye"),
    "washer": Seen("none", "a sealing washer"),
    "plug": Seen("male", "a plain plug or spigot"),
    "socket": Seen("female", "a plain socket"),
    "none": Seen("none", "an end without a thread"),
}
"""As what an end is seen: the answers to the question of gender, in the order asked."""
VAGUE = "none"  # said of any end without a thread by who cannot say which
GENDERS = tuple(dict.fromkeys(seen.gender for seen in SEEN.values()))
SEAT_SHAPES = ("convex", "concave", "flat", "ball", "none")
O_RINGS = ("none", "face", "nose", "boss", "captive", "flange")
CAPTIVE = (
    "captive"  # a profile ring held in a groove of the shoulder (form E of ISO 1179-2, ISO 9974-2)
)
ORIGINS = ("uk", "europe", "france", "north-america", "japan", "china", "other", "unknown")
MOUNTS = ("swivel", "fixed", "port", "stud", "none")
MATERIALS = ("steel", "stainless", "brass", "copper", "aluminium", "plastic")
_YES_NO, _Y_N = ("yes", "no"), (("yes", "y"), ("no", "n none"))
_THREADED = ("male", "female")
_MALE, _FEMALE, _FLANGE = ("male",), ("female",), ("flange",)
_EYE, _WASHER = ("eye", "none"), ("washer", "none")
_PLUGGED = ("male", "female", "plug", "none")  # a threaded end may have a plain spigot as well
_SOCKETED = ("female", "socket", "none")
_SEATED = ("male", "female", "flange", "none")
_RINGED = ("male", "female", "flange", "plug", "socket", "none")


def _size(
    title: str,
    label: str,
    words: str,
    low: float,
    high: float,
    genders: tuple[str, ...] = (),
    **more: Any,
) -> FeatureInfo:
    return FeatureInfo(Kind.LENGTH, title, label, words, (), low, high, genders, **more)


FEATURES: dict[Feature, FeatureInfo] = {
    Feature.GENDER: FeatureInfo(
        Kind.CHOICE, "Kind of end", "gender", "kind of end",
        tuple(SEEN),
        also=(("male", "m external"), ("female", "f internal"),
              ("eye", "banjo banjo-eye ring-eye"), ("plug", "spigot plain-plug"),
              ("washer", "sealing-washer bonded-washer sealing-ring"),
              ("socket", "plain-socket")), short="ge"),
    Feature.MOUNT: FeatureInfo(
        Kind.CHOICE, "How the thread is held", "held as", "way in which the thread is held",
        MOUNTS, genders=_THREADED, turn=0, stated=True,
        also=(("swivel", "turns loose nut"), ("fixed", "body"), ("port", "hole")), short="mo"),
    Feature.THREAD_OD: _size(
        "Thread outside diameter", "thread OD", "outside diameter over the thread crests of a male",
        3, 180, _MALE, short="od"),
    Feature.THREAD_ID: _size(
        "Bore across the thread", "thread bore", "bore across the thread crests of a female",
        3, 180, _FEMALE, short="id"),
    Feature.PITCH: FeatureInfo(
        Kind.PITCH, "Thread pitch", "pitch", "thread pitch",
        low=0.4, high=4.5, genders=_THREADED, turn=5, short="pi"),
    Feature.TAPER: FeatureInfo(
        Kind.TAPER, "Parallel or tapered", "taper", "parallel or tapered thread",
        ("parallel", "tapered"), genders=_THREADED, turn=0,
        also=(("parallel", "straight"), ("tapered", "taper")), short="ta"),
    Feature.FLANK_ANGLE: FeatureInfo(
        Kind.CHOICE, "Thread form", "flank angle", "angle of the thread form",
        ("55", "60"), genders=_THREADED, turn=8, short="fa"),
    Feature.HAND: FeatureInfo(
        Kind.CHOICE, "Hand of the thread", "hand of thread", "hand of the thread",
        ("right", "left"), genders=_THREADED, turn=7, shown="left",
        also=(("right", "right-hand right-handed rh"), ("left", "left-hand left-handed lh")),
        short="ha"),
    Feature.SEAT_SHAPE: FeatureInfo(
        Kind.CHOICE, "Shape of the seat", "seat", "shape of the seat",
        SEAT_SHAPES, genders=_SEATED, turn=0,
        also=(("convex", "out cone-out external-cone"), ("concave", "in cone-in internal-cone"),
              ("none", "no-seat")), short="se"),
    Feature.SEAT_ANGLE: FeatureInfo(
        Kind.ANGLE, "Angle of the seat", "seat angle", "angle of the seat",
        low=5, high=180, genders=_SEATED, turn=6, short="sa"),
    Feature.O_RING: FeatureInfo(
        Kind.CHOICE, "O-ring", "O-ring", "where an O-ring or its groove sits",
        O_RINGS, genders=_RINGED, turn=0,
        also=(("none", "no n no-o-ring"), (CAPTIVE, "form-e profile-ring captive-ring")),
        spelt=True, short="o"),
    Feature.TUBE_OD: _size(
        "Tube outside diameter", "tube OD", "outside diameter of the tube",
        2, 130, ("male", "female", "flange", "eye", "none"), field="tube_od", turn=4, short="to"),
    Feature.TUBE_BORE: _size(
        "Step that takes the tube", "tube bore", "bore that takes the tube, inside a male nose",
        2, 130, _MALE, field="bore", turn=3, unstated="oil bore", short="tb"),
    Feature.PORT_RIDGE: FeatureInfo(
        Kind.CHOICE, "Raised ring round a port", "raised ring",
        "raised ring on the face round a port",
        _YES_NO, genders=_FEMALE, also=_Y_N, shown="yes",
        told=("Port", "raised ring on the face of {share} of such ports"), spelt=True, short="pr"),
    Feature.PLUG_OD: _size(
        "Plug or spigot diameter", "plug OD", "outside diameter of a plain plug or spigot",
        4, 130, _PLUGGED, field="plug_od", plain="plug", short="po"),
    Feature.SOCKET_BORE: _size(
        "Bore of a plain socket", "socket bore",
        "plain bore of a socket that takes a plug or spigot",
        4, 130, _SOCKETED, field="socket_bore", plain="socket", short="sb"),
    Feature.FLANGE_HEAD_OD: _size(
        "Flange head diameter", "head OD", "outside diameter of the flange head",
        15, 260, _FLANGE, field="flange_head_od", short="ho"),
    Feature.FLANGE_HEAD_THICKNESS: _size(
        "Flange head thickness", "head thickness", "thickness of the flange head at the rim",
        3, 60, _FLANGE, field="flange_head_thickness", turn=2, short="ht"),
    Feature.BOLT_SPACING_LONG: _size(
        "Longer bolt spacing", "long spacing", "larger distance between flange bolt centres",
        15, 260, _FLANGE, field="bolt_spacing_long", short="bl"),
    Feature.BOLT_SPACING_SHORT: _size(
        "Shorter bolt spacing", "short spacing", "smaller distance between flange bolt centres",
        8, 260, _FLANGE, field="bolt_spacing_short", short="bs"),
    Feature.EYE_BORE: _size(
        "Bore of the ring eye", "eye bore", "bore of a banjo eye",
        4, 80, _EYE, field="eye_bore", unstated="bolt", short="eb"),
    Feature.RING_ID: _size(
        "Washer inside diameter", "ring ID", "inside diameter of a sealing washer",
        4, 90, _WASHER, field="ring_id", short="ri"),
    Feature.RING_OD: _size(
        "Washer outside diameter", "ring OD", "outside diameter of a sealing washer",
        6, 120, _WASHER, field="ring_od", turn=2, short="ro"),
    Feature.RING_THICKNESS: _size(
        "Washer thickness", "ring thickness", "thickness of a sealing washer",
        0.5, 8, _WASHER, field="ring_thickness", turn=2, short="rt"),
    Feature.HEX: _size(
        "Hexagon across flats", "across flats", "hexagon across the flats",
        5, 150, _RINGED, clue=True, short="hx"),
    Feature.HOSE_BORE: _size(
        "Bore of the hose", "hose bore", "bore of the hose",
        2, 130, (*_RINGED, "eye"), clue=True, short="hb"),
    Feature.MATERIAL: FeatureInfo(
        Kind.CHOICE, "Material", "material", "what the end is made of",
        MATERIALS, clue=True, stated=True,
        also=(("steel", "carbon-steel"), ("stainless", "stainless-steel")), short="ma"),
    Feature.ORIGIN: FeatureInfo(
        Kind.CHOICE, "Origin of the machine", "origin", "where the machine comes from",
        ORIGINS, clue=True,
        also=(("uk", "united-kingdom britain great-britain"), ("unknown", "not-known"),
              ("north-america", "usa us america canada")), short="or"),
    Feature.MARKING: FeatureInfo(
        Kind.TEXT, "Marks on the end", "marking", "what is stamped on the end",
        clue=True, short="mk"),
    Feature.TRIAL_FIT: FeatureInfo(
        Kind.TRIAL, "Trial on a known part", "trial fit",
        "what happened when it was tried on a known end", genders=(*_THREADED, "none"), short="tf"),
}  # fmt: skip

SIZES = tuple(feature for feature, info in FEATURES.items() if info.field)
"""Features that a row of the tables states as one figure [mm], in the order shown."""
SHARES = tuple(feature for feature, info in FEATURES.items() if info.told)
"""Features of which a row tells the share of such ends that show it."""
STATED = tuple(feature for feature, info in FEATURES.items() if info.stated)
"""Features for which a row has a word."""
PLAIN = tuple(feature for feature in SIZES if FEATURES[feature].plain)
"""Sizes of what goes together without a thread."""
SPACINGS = (Feature.BOLT_SPACING_LONG, Feature.BOLT_SPACING_SHORT)
"""The two ways of a bolt pattern, which a square one has alike; a rule will do for them."""
OF_FIELD = {FEATURES[feature].field: feature for feature in SIZES}
"""The same by their field of the end tables."""
CLUES = tuple(feature for feature, info in FEATURES.items() if info.clue)
"""Features that only hint: asked for when no measurement of the end itself tells more."""


def answers_named(feature: Feature) -> dict[str, str]:
    """Return every word that is an answer to a feature, its other words too, with the answer."""
    info = FEATURES[feature]
    also = {word: answer for answer, words in info.also for word in words.split()}
    return {**{each: each for each in info.choices}, **also}


def is_vague(said: str, seen: str) -> bool:
    """Tell whether an answer is "no thread" and the end is one of those that have none."""
    return said == VAGUE and seen != SEEN[seen].gender


def agrees(said: str, seen: str) -> bool:
    """Tell whether an answer is true of what is there; people also call a plain plug a male."""
    return said in (seen, SEEN[seen].gender) or is_vague(said, seen)


@cache
def gender_told(feature: Feature) -> str:
    """Return as what the only end is seen that has a feature, empty where several or all do."""
    seen = [each for each in FEATURES[feature].genders if each != VAGUE]
    return seen[0] if len(seen) == 1 else ""


def applies(feature: Feature, gender: str | None) -> bool:
    """Tell whether an end seen as this, None while it is open, can have the feature."""
    genders = FEATURES[feature].genders
    return gender is None or not genders or gender in genders
