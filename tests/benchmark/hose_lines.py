"""Lines as the marking clauses of the standards ask for them, and the damage that hoses take.

What is printed follows the clauses: EN says maker, standard, type, nominal bore, quarter and year;
ISO adds the working pressure in MPa (bar); SAE the dash and the pressure in psi. Damage is drawn by
class. Nothing here is shared with the code that reads lines.
"""

import random
from collections.abc import Callable, Sequence
from typing import NamedTuple

from identify.model.hose import Hose, LayerKind

ALIKE = {"0": "ODQ", "O": "0DQ", "1": "IL", "I": "1L", "2": "Z", "Z": "2", "5": "S", "S": "5",
         "8": "B", "B": "8", "6": "G", "G": "6"}  # fmt: skip
EXTRAS = ("HYDRO 2", "H2471", "FLEX 40", "MSHA IC-40/12", "FRAS", "MADE IN EU", "LOT 71", "")
BORES = {6: "6,3", 12: "12,5", 31: "31,5"}
FRACTIONS = {"-3": "3/16", "-4": "1/4", "-5": "5/16", "-6": "3/8", "-8": "1/2", "-10": "5/8",
             "-12": "3/4", "-16": "1", "-20": "1-1/4", "-24": "1-1/2", "-32": "2",
             "-40": "2-1/2", "-48": "3", "-64": "4"}  # fmt: skip
PSI_IN_BAR = 14.5037738


class Line(NamedTuple):
    """A line, the hose it was printed for (none of ours: None), what it says, and its damage."""

    text: str
    damage: str
    hose: Hose | None
    bar: float | None  # printed
    date: str


def clean(hose: Hose, chance: random.Random) -> Line:
    """Return the line of a hose as its standard asks for it."""
    standard, types = chance.choice(hose.kind.names)
    quarter, year = chance.randint(1, 4), chance.randint(8, 25)
    date = f"{quarter}Q{year:02d}"
    maker = " ".join(
        filter(None, ("MAKER", chance.choice(EXTRAS) if chance.random() < 0.4 else ""))
    )
    name = chance.choice(types)
    bar = None
    if standard == "ISO 18752":
        bar = hose.rating_bar
        mpa = f"{bar / 10:.1f}".replace(".", ",")
        parts = [f"{maker} ISO 18752-{name} class {bar:g} DN {hose.dn} {mpa} MPa {date}"]
        return Line(parts[0], "clean", hose, bar, f"20{year:02d} Q{quarter}")
    if standard.startswith("SAE"):
        parts = [maker, f"{chance.choice(('SAE ', 'SAE ', ''))}{name}{hose.dash}"]
        if hose.kind.dash_means == "bore" and chance.random() < 0.6:
            inch = FRACTIONS[hose.dash]
            parts.append(f"{inch} IN" if chance.random() < 0.5 or "/" not in inch else inch)
        if hose.rating_bar:
            psi = 25 * round(hose.rating_bar * PSI_IN_BAR / 25)
            bar = psi / PSI_IN_BAR
            parts.append(f"{psi} PSI{chance.choice(('', ' MAX WP', ' W.P.'))}")
        parts.append(date)
        return Line(" ".join(parts), "clean", hose, bar, f"20{year:02d} Q{quarter}")
    if standard.startswith("ISO"):
        size = BORES.get(hose.dn, f"{hose.dn}")
        edition = chance.choice((":2017", "", ""))
        parts = [maker, f"{standard}{edition}", name, size]
        if hose.rating_bar:
            bar = hose.rating_bar
            mpa = f"{bar / 10:.1f}".replace(".", ",")
            parts.append(f"{mpa} MPa ({bar:g} bar)")
        parts.append(date)
        return Line("/".join(parts), "clean", hose, bar, f"20{year:02d} Q{quarter}")
    parts = [maker, standard, name, f"DN {hose.dn}"]
    if chance.random() < 0.3 and hose.dash in FRACTIONS:
        parts.append(FRACTIONS[hose.dash])
    if chance.random() < 0.3 and hose.rating_bar:
        bar = hose.rating_bar
        parts.append(f"{bar:g} BAR")
    parts.append(date)
    between = chance.choice(("/", "/", " * ", " | ", " - ", " "))
    return Line(between.join(parts), "clean", hose, bar, f"20{year:02d} Q{quarter}")


def worn(text: str, chance: random.Random) -> str:
    """A part of the line is rubbed off."""
    length = chance.randint(2, 6)
    start = chance.randrange(5, max(6, len(text) - length))
    return text[:start] + "?" * length + text[start + length :]


def dirty(text: str, chance: random.Random) -> str:
    """Paint and dirt hide single characters."""
    return "".join("?" if c.isalnum() and chance.random() < 0.12 else c for c in text)


def cut(text: str, chance: random.Random) -> str:
    """A short hose holds less than one repeat."""
    start, end = chance.randint(0, len(text) // 3), chance.randint(0, len(text) // 3)
    head = "..." if start else ""
    return f"{head}{text[start : len(text) - end]}{'...' if end else ''}"


def confused(text: str, chance: random.Random) -> str:
    """Two letters are taken for others that look like them."""
    places = [place for place, c in enumerate(text) if c in ALIKE and place > 5]
    for place in chance.sample(places, min(2, len(places))):
        text = text[:place] + chance.choice(ALIKE[text[place]]) + text[place + 1 :]
    return text


def unparted(text: str, _: random.Random) -> str:
    """Separators are lost."""
    return "".join(c for c in text if c.isalnum() or c in ".,")


def joined(text: str, chance: random.Random) -> str:
    """The end of one repeat and the beginning of the next."""
    place = chance.randint(len(text) // 4, 3 * len(text) // 4)
    return f"...{text[place:]} {text[:place]}..."


def without_standard(text: str, _: random.Random) -> str:
    """The number of the standard is rubbed off."""
    for word in ("EN 85", "ISO ", "SAE "):
        if (at := text.find(word)) >= 0:
            end = at + len(word)
            while end < len(text) and text[end].isalnum():
                end += 1
            return text[:at] + "?" * (end - at) + text[end:]
    return text


def lower_case(text: str, _: random.Random) -> str:
    """Somebody types it in small letters."""
    return text.lower()


DAMAGE: dict[str, Callable[[str, random.Random], str]] = {
    "clean": lambda text, _: text,
    "worn": worn,
    "dirty": dirty,
    "cut": cut,
    "confused": confused,
    "unparted": unparted,
    "joined": joined,
    "no standard": without_standard,
    "small letters": lower_case,
}


def lines(hoses: Sequence[Hose], count: int, seed: int) -> list[Line]:
    """Return lines by turns of all classes of damage, of hoses drawn alike by type."""
    chance = random.Random(seed)
    by_type: dict[str, list[Hose]] = {}
    for hose in hoses:
        key = hose.kind.group if hose.kind.layer_kind is LayerKind.ANY else hose.kind.key
        by_type.setdefault(key, []).append(hose)
    kinds = sorted(by_type)
    made = []
    for number in range(count):
        damage = list(DAMAGE)[number % len(DAMAGE)]
        line = clean(chance.choice(by_type[chance.choice(kinds)]), chance)
        made.append(line._replace(text=DAMAGE[damage](line.text, chance), damage=damage))
    return made
