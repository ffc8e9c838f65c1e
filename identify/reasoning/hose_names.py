"""What a line would show of one hose: standard, type and size, in every way they are printed."""

from collections.abc import Iterator
from fractions import Fraction
from functools import cache

from identify.frozen import NamedTuple
from identify.model.hose import Hose
from identify.model.hose_habits import LineHabits

_DN_WAYS = {
    6: ("6", "6.3"), 12: ("12", "12.5", "13"), 19: ("19", "20"), 31: ("31", "31.5", "32"),
    38: ("38", "40"), 51: ("51", "50"), 63: ("63", "60"), 76: ("76", "80"), 102: ("102", "100"),
}  # fmt: skip
_SAE = "SAE"
_SURE = 0.99


class Field(NamedTuple):
    """One thing a line may show: how often it does, and each way with its share."""

    name: str
    shown: float
    words: tuple[tuple[str, float], ...]


class Name(NamedTuple):
    """A hose by the name of one standard: `printed` is its type there."""

    hose: Hose
    standard: str
    share: float  # among the names of the hose
    fields: tuple[Field, ...]


def names_of(hose: Hose, habits: LineHabits) -> Iterator[Name]:
    """Yield a hose by each of the standards that name it, with the standard printed and without.

    Where the standard is printed sizes are written as it says, else in any way. "100R" says it is
    SAE whether that stands there or not.
    """
    standards = hose.kind.names
    shown = habits.shown["standard"]
    trade = tuple(_trade(hose, habits))
    for standard, types in standards:
        sae = standard.startswith(_SAE)
        told = Field("standard", shown if sae else _SURE, _standard_words(standard))
        named = Field("type", habits.shown["type"], _type_words(types))
        strict = (told, named, *_sizes(hose, "dash" if sae else "metric", habits), *trade)
        yield Name(hose, standard, shown / len(standards), strict)
        short = tuple(word.removeprefix("100") for word in types)
        loose = (named._replace(words=_type_words(short)), *_sizes(hose, "loose", habits), *trade)
        yield Name(hose, standard, (1 - shown) / len(standards), loose)


def type_shown(word: str, standard: str) -> str:
    """Return a type by its full name, from the way in which it stands on a line."""
    return f"100{word}" if standard.startswith(_SAE) and word.startswith("R") else word


@cache
def _standard_words(standard: str) -> tuple[tuple[str, float], ...]:
    if standard.startswith(_SAE):
        return (("SAE", 0.8), (standard, 0.15), ("J517", 0.05))
    return ((standard, 0.9), (standard.replace("EN ", "EN ISO ", 1), 0.02),
            (standard.split(" ")[1], 0.08))  # fmt: skip


def _type_words(types: tuple[str, ...]) -> tuple[tuple[str, float], ...]:
    return tuple((name, 1 / len(types)) for name in types)


def _trade(hose: Hose, habits: LineHabits) -> Iterator[Field]:
    if hose.kind.trade:
        share = 1 / len(hose.kind.trade)
        words = tuple((word, share) for word in hose.kind.trade)
        yield Field("trade", habits.shown["trade"], words)


def _sizes(hose: Hose, way: str, habits: LineHabits) -> Iterator[Field]:
    bores = _DN_WAYS.get(hose.dn, (str(hose.dn),))
    if hose.kind.dash_means == "tube":
        bores = (str(hose.dn), f"{hose.nominal_mm:g}")
    share, number = 1 / len(bores), hose.dash[1:]
    yield Field(
        "labelled", habits.shown[f"labelled_{way}"],
        tuple((f"{label} {bore}", share * part) for bore in bores
              for label, part in (("DN", 0.95), ("NW", 0.05))),
    )  # fmt: skip
    bare = tuple((bore, share) for bore in bores)
    yield Field("bare", habits.shown[f"bare_{way}"], bare)
    yield Field("inch", habits.shown[f"inch_{way}"], _inches(hose))
    padded = number.zfill(2)
    short = len(number) == 1
    dashes = ((f"-{number}", 0.9), (f"-{padded}", 0.1)) if short else ((f"-{number}", 1.0),)
    yield Field("dash", habits.shown[f"dash_{way}"], dashes)
    plain = ((padded, 0.6), (number, 0.4)) if short else ((number, 1.0),)
    yield Field("unsigned", habits.shown[f"unsigned_{way}"], plain)


def _inches(hose: Hose) -> tuple[tuple[str, float], ...]:
    """Return the bore as a fraction of an inch, in the ways it is printed."""
    if hose.kind.dash_means == "bore":
        inch = Fraction(int(hose.dash[1:]), 16)
    else:
        inch = Fraction(round(hose.nominal_mm / 25.4 * 32), 32)
    whole, rest = divmod(inch, 1)
    if not rest:
        return ((f'{whole}"', 0.5), (f"{whole} IN", 0.3), (f"{whole} INCH", 0.2))
    return ((f"{whole} {rest}" if whole else f"{rest}", 1.0),)
