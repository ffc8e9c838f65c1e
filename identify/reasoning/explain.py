"""Say what a reading means for a candidate, from the very numbers it was weighed with."""

from identify.light import Sequence
from identify.model.feature import FEATURES, Feature, agrees
from identify.model.reading import (
    Angle,
    Choice,
    Length,
    Marking,
    Outcome,
    Pitch,
    Reading,
    Slope,
    Trial,
)
from identify.reasoning.subject import Subject
from identify.reasoning.traits import (
    ABSENT,
    UNKNOWN,
    Cone,
    Hexagons,
    HoseBore,
    Interval,
    Marks,
    OilBore,
    Share,
    ThreadTaper,
    Trait,
    Word,
)


def sentence(readings: Sequence[Reading], trait: Trait, subject: Subject) -> str:
    """Return what the readings of one feature say of one candidate, but for how strongly.

    Args:
        readings: What was observed, in the order it was.
        trait: What this candidate shows of the feature.
        subject: The candidate, for its names.
    """
    said = list(dict.fromkeys(_one(each, trait, subject) for each in readings))
    read = f" (read {_TIMES.get(len(readings), f'{len(readings)} times')})"
    return "; ".join(said) + (read if len(readings) > 1 else "")


_TIMES = {2: "twice"}


def _one(reading: Reading, trait: Trait, subject: Subject) -> str:
    words = FEATURES[reading.feature].words
    if trait is ABSENT:
        return f"it has no {words}"
    if trait is UNKNOWN or isinstance(trait, OilBore):
        return f"the tables do not give its {words}"
    match reading.value:
        case Length() as value:
            return _length(reading, value, trait, subject)
        case Pitch() as value:
            return _pitch(reading, value, subject)
        case Angle() as value:
            return _angle(reading, value, trait)
        case Slope() as value:
            return _slope(value, trait)
        case Choice() as value:
            return _choice(reading, value, trait, subject)
        case Trial() as value:
            return _trial(value)
        case Marking(text):
            from identify.reading.names import name_key  # marks are seldom read

            own = isinstance(trait, Marks) and name_key(text) in trait.keys
            return f'"{reading.entered}" {"could" if own else "would not usually"} stand on it'


def _trial(value: Trial) -> str:
    turns = f" after {value.turns:g} turns" if value.turns else ""
    return (
        f"on a known {value.known} it {_DID[value.outcome]}{turns}, weighed against what the "
        "threads should do by calculation; that a thread goes in is no proof"
    )


_DID = {
    Outcome.NO_START: "did not start",
    Outcome.BINDS: "bound",
    Outcome.FULL: "ran fully by hand",
    Outcome.LOOSE: "was loose",
}


def _length(reading: Reading, value: Length, trait: Trait, subject: Subject) -> str:
    said = f"{value.mm:.2f} mm"
    if isinstance(trait, Interval):
        name, (low, high) = "it", trait
        if _is_thread(reading) and subject.thread:
            name = subject.thread.designation
            if crest := subject.thread.crest(subject.gender):  # before plating, as `show` has it
                low, high = crest.low_mm, crest.high_mm
        span = f"{low:.2f} to {high:.2f} mm"
        if value.mm > high:
            return f"{said} is {value.mm - high:.2f} mm above the {span} of {name}"
        if value.mm < low:
            return f"{said} is {low - value.mm:.2f} mm below the {span} of {name}"
        return f"{said} lies within the {span} of {name}"
    if isinstance(trait, Hexagons):
        known = " or ".join(f"{mm:g}" for mm in trait.known_mm)
        return f"{said} against a hexagon of {known} mm"
    if isinstance(trait, HoseBore):
        return f"{said} against a hose of nominal bore {trait.nominal_mm:g} mm; only a clue"
    return f"{said} against a usual hexagon for this thread; only a clue"


def _is_thread(reading: Reading) -> bool:
    return reading.feature in (Feature.THREAD_OD, Feature.THREAD_ID)


def _pitch(reading: Reading, value: Pitch, subject: Subject) -> str:
    thread = subject.thread
    if thread is None:
        return "it has no thread"
    said = reading.entered or f"{value.mm:.3f} mm"
    off = value.mm / thread.pitch_mm - 1
    own = f"the {thread.pitch_words} of {thread.designation}"
    if abs(off) < 0.012:
        return f"{said} is {own}"
    side = "coarser" if off > 0 else "finer"
    return f"{said} ({value.mm:.3f} mm) is {abs(off):.0%} {side} than {own}"


def _angle(reading: Reading, value: Angle, trait: Trait) -> str:
    if not isinstance(trait, Cone) or trait.half_deg is None:
        return "it has no cone to measure"
    half = trait.half_deg
    said = reading.entered
    if value.over_mm:
        said = f"{said} ({value.deg:.0f} deg half)"
    as_half = abs(value.deg - half) <= abs(value.deg - 2 * half)
    basis = "half" if as_half else "included"
    off = value.deg - (half if as_half else 2 * half)
    own = f"its {half:g} deg half angle ({2 * half:g} included)"
    if value.basis and value.basis != basis:
        return f"{said} fits {own} only if {basis} was meant"
    if abs(off) <= 2.5:
        return f"{said} fits {own}"
    return f"{said} is {abs(off):.3g} deg off {own}"


def _slope(value: Slope, trait: Trait) -> str:
    per = value.rise_mm / value.over_mm
    kind = "tapered 1 in 16" if isinstance(trait, ThreadTaper) and trait.growth else "parallel"
    return f"diameter grows {per:.3f} mm per mm; a {kind} thread was expected"


def _choice(reading: Reading, value: Choice, trait: Trait, subject: Subject) -> str:
    if reading.feature is Feature.ORIGIN:
        return "where the machine comes from only shifts what is common"
    shown = shown_word(reading.feature, trait)
    vague = reading.feature is Feature.GENDER and agrees(value.word, subject.seen_as)
    if shown == value.word or vague:
        return f"{value.word} is what it shows"
    return f"{value.word} was answered, but this end should show {shown}"


def shown_word(feature: Feature, trait: Trait) -> str:
    """Return what a candidate shows of a choice feature, in the words of the answers."""
    match trait:
        case ThreadTaper():
            return trait.word
        case Share(share):
            yes, no = FEATURES[feature].shown_or_not
            return yes if share >= 0.5 else no
        case Word(name):
            return name if feature is Feature.GENDER else _SHOWN.get(name, name)
    return "something else"


_SHOWN = {
    "chamfer": "a chamfered mouth",
    "plug": "a plain plug",
}
