"""The features a person can observe on an end connection, and what may be said of each."""

from dataclasses import dataclass
from enum import StrEnum


class Feature(StrEnum):
    """Names as they are typed (`thread_od=20.9 mm`) and as they stand in tables and rules."""

    GENDER = "gender"
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

    `words` is the feature in plain words; `choices` the allowed answers of a choice; `low` and
    `high` bound a possible value [mm, or deg for an angle]: outside them it is a slip of the
    keyboard or the unit, not a measurement. `genders` names the ends that have the feature, all
    if empty.
    """

    kind: Kind
    words: str
    choices: tuple[str, ...] = ()
    low: float = 0.0
    high: float = 0.0
    genders: tuple[str, ...] = ()


GENDERS = ("male", "female", "flange", "none")
SEAT_SHAPES = ("convex", "concave", "flat", "ball", "none")
O_RINGS = ("none", "face", "nose", "boss", "flange")
ORIGINS = ("uk", "europe", "france", "north-america", "japan", "china", "other", "unknown")
MATERIALS = ("steel", "stainless", "brass", "copper", "aluminium", "plastic")

FEATURES: dict[Feature, FeatureInfo] = {
    Feature.GENDER: FeatureInfo(Kind.CHOICE, "male, female or flange", GENDERS),
    Feature.THREAD_OD: FeatureInfo(
        Kind.LENGTH,
        "outside diameter over the thread crests of a male",
        low=3,
        high=180,
        genders=("male",),
    ),
    Feature.THREAD_ID: FeatureInfo(
        Kind.LENGTH,
        "bore across the thread crests of a female",
        low=3,
        high=180,
        genders=("female",),
    ),
    Feature.PITCH: FeatureInfo(
        Kind.PITCH, "thread pitch", low=0.4, high=4.5, genders=("male", "female")
    ),
    Feature.TAPER: FeatureInfo(
        Kind.TAPER,
        "parallel or tapered thread",
        ("parallel", "tapered"),
        genders=("male", "female"),
    ),
    Feature.FLANK_ANGLE: FeatureInfo(
        Kind.CHOICE, "angle of the thread form", ("55", "60"), genders=("male", "female")
    ),
    Feature.HAND: FeatureInfo(
        Kind.CHOICE, "hand of the thread", ("right", "left"), genders=("male", "female")
    ),
    Feature.SEAT_SHAPE: FeatureInfo(Kind.CHOICE, "shape of the seat", SEAT_SHAPES),
    Feature.SEAT_ANGLE: FeatureInfo(Kind.ANGLE, "angle of the seat", low=5, high=180),
    Feature.O_RING: FeatureInfo(Kind.CHOICE, "where an O-ring or its groove sits", O_RINGS),
    Feature.TUBE_OD: FeatureInfo(Kind.LENGTH, "outside diameter of the tube", low=2, high=130),
    Feature.TUBE_BORE: FeatureInfo(
        Kind.LENGTH,
        "bore that takes the tube, inside a male nose",
        low=2,
        high=130,
        genders=("male",),
    ),
    Feature.PORT_RIDGE: FeatureInfo(
        Kind.CHOICE, "raised ring on the face round a port", ("yes", "no"), genders=("female",)
    ),
    Feature.PLUG_OD: FeatureInfo(
        Kind.LENGTH,
        "outside diameter of a plain plug or spigot",
        low=4,
        high=130,
        genders=("male", "female", "none"),  # people also say a plain plug has no thread
    ),
    Feature.SOCKET_BORE: FeatureInfo(
        Kind.LENGTH,
        "plain bore of a socket that takes a plug or spigot",
        low=4,
        high=130,
        genders=("female", "none"),  # people also say a plain socket has no thread
    ),
    Feature.FLANGE_HEAD_OD: FeatureInfo(
        Kind.LENGTH, "outside diameter of the flange head", low=15, high=260, genders=("flange",)
    ),
    Feature.FLANGE_HEAD_THICKNESS: FeatureInfo(
        Kind.LENGTH, "thickness of the flange head at the rim", low=3, high=60, genders=("flange",)
    ),
    Feature.BOLT_SPACING_LONG: FeatureInfo(
        Kind.LENGTH,
        "larger distance between flange bolt centres",
        low=15,
        high=260,
        genders=("flange",),
    ),
    Feature.BOLT_SPACING_SHORT: FeatureInfo(
        Kind.LENGTH,
        "smaller distance between flange bolt centres",
        low=8,
        high=260,
        genders=("flange",),
    ),
    Feature.EYE_BORE: FeatureInfo(
        Kind.LENGTH, "bore of a banjo eye", low=4, high=80, genders=("none",)
    ),
    Feature.RING_ID: FeatureInfo(
        Kind.LENGTH, "inside diameter of a sealing washer", low=4, high=90, genders=("none",)
    ),
    Feature.RING_OD: FeatureInfo(
        Kind.LENGTH, "outside diameter of a sealing washer", low=6, high=120, genders=("none",)
    ),
    Feature.RING_THICKNESS: FeatureInfo(
        Kind.LENGTH, "thickness of a sealing washer", low=0.5, high=8, genders=("none",)
    ),
    Feature.HEX: FeatureInfo(Kind.LENGTH, "hexagon across the flats", low=5, high=150),
    Feature.HOSE_BORE: FeatureInfo(Kind.LENGTH, "bore of the hose", low=2, high=130),
    Feature.MATERIAL: FeatureInfo(Kind.CHOICE, "what the end is made of", MATERIALS),
    Feature.ORIGIN: FeatureInfo(Kind.CHOICE, "where the machine comes from", ORIGINS),
    Feature.MARKING: FeatureInfo(Kind.TEXT, "what is stamped on the end"),
    Feature.TRIAL_FIT: FeatureInfo(Kind.TRIAL, "what happened when it was tried on a known end"),
}
