"""Say what a reading means for a candidate, from the very numbers it was weighed with."""

from identify.light import Callable, Sequence, partial
from identify.model.feature import FEATURES, Feature, Kind, agrees
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
from identify.model.thread import Thread
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
from identify.reasoning.wear import wears

Compare = Callable[..., str]
"""Says what a reading of a feature with its value means for candidates that are alike in it."""
THREADS = (Feature.THREAD_OD, Feature.THREAD_ID, Feature.PITCH)
"""Features of which a comparison names the thread; of all others it tells by the trait alone."""


def sentence(readings: Sequence[Reading], compare: Compare) -> str:
    """Return what the readings of one feature say of one candidate, but for how strongly.

    Args:
        readings: What was observed, in the order it was.
        compare: Of the candidate, as `comparison` returns it.
    """
    if len(readings) == 1:
        return compare(readings[0], readings[0].value)
    said = list(dict.fromkeys(compare(each, each.value) for each in readings))
    return f"{'; '.join(said)} (read {_TIMES.get(len(readings), f'{len(readings)} times')})"


_TIMES = {2: "twice"}


def comparison(feature: Feature, trait: Trait, subject: Subject) -> Compare:
    """Return what compares the readings of a feature with a candidate.

    Args:
        feature: What is read.
        trait: What this candidate shows of it.
        subject: The candidate; of `THREADS` its thread counts, of all else nothing.
    """
    words = FEATURES[feature].words
    if trait is ABSENT:
        return partial(_always, f"it has no {words}")
    if trait is UNKNOWN or isinstance(trait, OilBore):
        return partial(_always, f"the tables do not give its {words}")
    kind = FEATURES[feature].kind
    if kind is Kind.LENGTH:
        return _length(feature, trait, subject)
    if kind is Kind.PITCH and subject.thread is None:
        return partial(_always, "it has no thread")
    return partial(_OF_KIND[kind], subject.thread if kind is Kind.PITCH else trait)


def _always(words: str, _reading: Reading, _value: object) -> str:
    return words


def _length(feature: Feature, trait: Trait, subject: Subject) -> Compare:
    if isinstance(trait, Interval):
        name, (low, high) = "it", trait
        if feature in THREADS and subject.thread:
            name = subject.thread.designation
            if crest := subject.thread.crest(subject.gender):  # before plating, as `show` has it
                low, high = crest.low_mm, crest.high_mm
        return partial(_within, low, high, f"{low:.2f} to {high:.2f} mm of {name}")
    if isinstance(trait, Hexagons):
        known = " or ".join([f"{mm:g}" for mm in trait.known_mm])
        return partial(_against, f"a hexagon of {known} mm")
    if isinstance(trait, HoseBore):
        bore = f"a hose of nominal bore {trait.nominal_mm:g} mm"
        return partial(_against, f"{bore}; only a clue")
    return partial(_against, "a usual hexagon for this thread; only a clue")


def _within(low: float, high: float, span: str, _reading: Reading, value: Length) -> str:
    mm = value.mm
    if mm > high:
        return f"{mm:.2f} mm is {mm - high:.2f} mm above the {span}"
    if mm < low:
        return f"{mm:.2f} mm is {low - mm:.2f} mm below the {span}"
    return f"{mm:.2f} mm lies within the {span}"


def _against(words: str, _reading: Reading, value: Length) -> str:
    return f"{value.mm:.2f} mm against {words}"


def _trial(_trait: Trait, _reading: Reading, value: Trial) -> str:
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


def _marking(trait: Trait, reading: Reading, value: Marking) -> str:
    from identify.reading.names import name_key  # marks are seldom read

    own = isinstance(trait, Marks) and name_key(value.text) in trait.keys
    return f'"{reading.entered}" {"could" if own else "would not usually"} stand on it'


def _pitch(thread: Thread, reading: Reading, value: Pitch) -> str:
    said = reading.entered or f"{value.mm:.3f} mm"
    off = value.mm / thread.pitch_mm - 1
    own = f"the {thread.pitch_words} of {thread.designation}"
    if abs(off) < 0.012:
        return f"{said} is {own}"
    side = "coarser" if off > 0 else "finer"
    return f"{said} ({value.mm:.3f} mm) is {abs(off):.0%} {side} than {own}"


def _angle(trait: Trait, reading: Reading, value: Angle) -> str:
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


def _taper(trait: Trait, reading: Reading, value: Slope | Choice) -> str:
    if isinstance(value, Choice):
        return _choice(trait, reading, value)
    per = value.rise_mm / value.over_mm
    kind = "tapered 1 in 16" if isinstance(trait, ThreadTaper) and trait.growth else "parallel"
    return f"diameter grows {per:.3f} mm per mm; a {kind} thread was expected"


def _choice(trait: Trait, reading: Reading, value: Choice) -> str:
    if reading.feature is Feature.ORIGIN:
        return "where the machine comes from only shifts what is common"
    shown = shown_word(reading.feature, trait)
    vague = reading.feature is Feature.GENDER and agrees(value.word, shown)
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

_OF_KIND: dict[Kind, Callable[..., str]] = {
    Kind.PITCH: _pitch,
    Kind.ANGLE: _angle,
    Kind.TAPER: _taper,
    Kind.CHOICE: _choice,
    Kind.TRIAL: _trial,
    Kind.TEXT: _marking,
}


class Alike:
    """Candidates of which a reading of one feature says the same.

    `kind` is the number of their trait, `compare` as in `comparison`, `wears` as in `wear.wears`.
    """

    __slots__ = ("compare", "kind", "wears")

    def __init__(self, feature: Feature, kind: int, trait: Trait, subject: Subject) -> None:
        self.kind = kind
        self.compare = comparison(feature, trait, subject)
        self.wears = wears(feature, trait, subject)


class Alikes(dict[int, Alike]):
    """What each candidate is alike in of one feature, by its number; known once it is looked at.

    Args:
        feature: What is read.
        of: The number of the trait of each candidate.
        traits: By their number.
        subjects: The candidates.
    """

    def __init__(
        self,
        feature: Feature,
        of: Sequence[int],
        traits: Sequence[Trait],
        subjects: Sequence[Subject],
    ) -> None:
        self._feature, self._of, self._traits, self._subjects = feature, of, traits, subjects
        self._made: dict[tuple[int, str], Alike] = {}

    def __missing__(self, number: int) -> Alike:
        kind, thread, subject = self._of[number], "", self._subjects[number]
        if self._feature in THREADS and subject.thread:
            thread = subject.thread.designation
        found = self._made.get((kind, thread))
        if found is None:
            found = Alike(self._feature, kind, self._traits[kind], subject)
            self._made[kind, thread] = found
        self[number] = found
        return found
