"""Words of the trade -> the ends they name: family, size and gender, said in any order.

"JIC -8 male", "1/2 BSP", "24° 15L swivel" and an id all mean a set of ends of the tables: one, or
several where the words leave something open. What families and forms are called beside their own
name stands in the tables (`also_called`).
"""

from math import ceil, floor

from identify.errors import UnknownEndError, near_misses
from identify.frozen import dataclass
from identify.light import Iterable, re
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family
from identify.reading.numbers import clean
from identify.reading.thread_names import thread_names

LONGEST_NAME = 9  # words of a name: "4-bolt flange, high-pressure series (code 62)"
LISTED = 6  # ends named in a sentence
_GENDERS = {
    "male": "male", "m": "male", "external": "male",
    "female": "female", "f": "female", "internal": "female", "flange": "flange",
}  # fmt: skip
_SPOKEN = {"quarter": "1/4", "half": "1/2"}
_FILLERS = frozenset(
    ("inch", "inches", "in", "size", "thread", "threaded", "the", "a", "of", "with", "and", "hose")
)


@dataclass(frozen=True, slots=True)
class Understood:
    """What words mean: families by key, the size and the gender that were said, and the ends.

    `families` is empty where no family was named, `size` and `gender` are None where they were
    not. `ends` stand in table order; there is at least one.
    """

    query: str
    families: tuple[str, ...]
    size: str | None
    gender: str | None
    ends: tuple[EndConnection, ...]


def understand(catalogue: Catalogue, query: str) -> Understood:
    """Return the ends that words name.

    Raises:
        UnknownEndError: They name none; the message tells the nearest meanings.
        ReadingError: They are empty, overlong or cannot be printed.
    """
    if query.strip() in catalogue.by_id:
        end = catalogue.by_id[query.strip()]
        return Understood(query, (end.family,), end.size, end.gender, (end,))
    words, vocabulary = _words(query), _vocabulary(catalogue)
    for repeats in (False, True):  # a size may repeat words of the name: "… cone and thread"
        named, left = _named(words, vocabulary, repeats=repeats)
        gender, left = _gender(left)
        ends = [end for end in catalogue.ends if _fits(end, named, gender)]
        found, size = _sized(ends, left)
        if found and (named or gender or left):
            families = tuple(dict.fromkeys(end.family for end in found)) if named else ()
            own = {end.size for end in found}
            said = (own.pop() if len(own) == 1 else size) or None
            return Understood(query, families, said if size else None, gender, tuple(found))
    raise UnknownEndError(_nothing(query, words, catalogue, named, ends))


def one_end(catalogue: Catalogue, query: str) -> EndConnection:
    """Return the one end that words name: its id, or words that only it answers to.

    Raises:
        UnknownEndError: None or several answer; the message lists the nearest, or the choices.
        ReadingError: They are empty, overlong or cannot be printed.
    """
    found = understand(catalogue, query).ends
    if len(found) == 1:
        return found[0]
    names = ", ".join(end.id for end in found[:LISTED])
    more = f" and {len(found) - LISTED} more" if len(found) > LISTED else ""
    raise UnknownEndError(
        f'"{query[:60]}" names {len(found)} ends: {names}{more}. Add a word to say which.'
    )


def size_names(end: EndConnection) -> frozenset[str]:
    """Return what the size of an end may be called or stamped, each as `name_key` writes it."""
    dn = end.hose_dn or 0  # DN 12.5 is also said DN 12 and DN 13
    names = {end.size, end.dash or "", *thread_names(end.thread or "")}
    names.update(f"DN {each:g}" for each in (dn, floor(dn), ceil(dn)) if dn)
    if end.size.startswith("-"):
        names.add(end.size[1:])
    return frozenset(name_key(name) for name in names if name)


def family_names(family: Family) -> tuple[str, ...]:
    """Return what a family may be called: its key, then its names, then its standards."""
    usual = (family.usual_name,) if family.usual_name else ()
    return (family.key, family.name, *usual, *family.also_called, *family.standards)


Named = dict[str, frozenset[str]]  # family -> its form keys that are meant, all if empty


def name_key(text: str) -> str:
    """Return a name without case, blanks and signs that people write in several ways."""
    plain = text.lower().replace("×", "x").replace("*", "x").replace("°", "deg")
    plain = re.sub(r"(?<=\d),(?=\d)", ".", plain)
    plain = re.sub(r"(?<=\d)[ -]?in$", "", plain)
    return re.sub(r"[^a-z0-9./]|(?<!\d)\.", "", plain) if plain[:1] != "-" else plain


def _words(query: str) -> list[str]:
    plain = clean(query).lower().replace("×", "x").replace("°", " deg ")
    plain = re.sub(r"\bm ?(\d+(?:[.,]\d+)?) ?[x*] ?(\d+(?:[.,]\d+)?)", r"m\1x\2", plain)
    plain = re.sub(r"\b(?:dash|#) ?-?(\d+)\b", r"-\1", plain).replace("#", "-")
    plain = re.sub(r"\bthree[ -]quarters?\b", "3/4", plain)
    found = re.split(r"[\s:;()\"']+|,(?!\d)", plain)
    return [_SPOKEN.get(word, word) for word in found if word]


def _vocabulary(catalogue: Catalogue) -> dict[str, Named]:
    """Return every name of a family or form, as `name_key` writes it, with what it means."""
    out: dict[str, Named] = {}

    def add(name: str, family: str, forms: Iterable[str] = ()) -> None:
        meant = out.setdefault(name_key(name), {})
        meant[family] = meant.get(family, frozenset()) | frozenset(forms)

    for family in catalogue.families.values():
        for name in family_names(family):
            add(name, family.key)
    for end in catalogue.ends:
        own = (end.form_key,) if "-" in end.form_key else ()
        for name in (*end.also_called, *own):
            add(name, end.family, (end.form_key,))
    return out


def _named(
    words: list[str], vocabulary: dict[str, Named], *, repeats: bool
) -> tuple[Named, list[str]]:
    """Return the families that words name, and the words left over; longer names first.

    A name that adds nothing to those before it is taken with `repeats` only.
    """
    named: Named = {}
    left = list(words)
    for many in range(min(LONGEST_NAME, len(left)), 0, -1):
        at = 0
        while at + many <= len(left):
            meant = vocabulary.get(name_key(" ".join(left[at : at + many])))
            both = _both(named, meant) if meant else None
            if both and (repeats or both != named):
                named = both
                del left[at : at + many]
            else:
                at += 1
    return named, left


def _both(one: Named, other: Named) -> Named:
    """Return what two names mean together, nothing if they exclude each other."""
    if not one:
        return other
    return {
        family: (one[family] & forms) if one[family] and forms else one[family] | forms
        for family, forms in other.items()
        if family in one
    }


def _gender(words: list[str]) -> tuple[str | None, list[str]]:
    said = [word for word in words if word in _GENDERS]
    genders = {_GENDERS[word] for word in said}
    if len(genders) != 1:
        return None, words
    return genders.pop(), [word for word in words if word not in _GENDERS]


def _fits(end: EndConnection, named: Named, gender: str | None) -> bool:
    if gender and end.gender != gender:
        return False
    forms = named.get(end.family)
    return not named or (forms is not None and (not forms or end.form_key in forms))


def _sized(ends: list[EndConnection], words: list[str]) -> tuple[list[EndConnection], str]:
    """Return the ends that the words left over mean, and those of them that say the size."""
    if whole := _of_size(ends, name_key(" ".join(words))):  # a size may be words: "3/8 rubber hose"
        return whole, " ".join(words)
    own = {end.id: _letters(end.form_key, end.form) for end in ends}
    forms: dict[str, set[str]] = {}
    for end in ends:
        forms.setdefault(end.family, set()).update(own[end.id])
    # A word of a family's name that tells its forms apart speaks of the form: "banjo eye".
    describing = {
        end.id: own[end.id] | (_letters(end.family_name) - forms[end.family]) for end in ends
    }
    known = set().union(*describing.values())
    told = known.intersection(words) - _FILLERS
    left = [word for word in words if word not in _FILLERS | known]
    found = [end for end in ends if told <= describing[end.id]]
    size = " ".join(left)
    return (_of_size(found, name_key(size)) if size else found), size


def _letters(*texts: str) -> set[str]:
    return set(re.findall(r"[a-z]{3,}", " ".join(texts).lower()))


def _of_size(ends: list[EndConnection], size: str) -> list[EndConnection]:
    """Return the ends of a size; bare figures also name what bears them among letters: G1/2, 12L.

    Part of a figure is no name of it: "1/2" is not "1 1/2".
    """
    exact = [end for end in ends if size and size in size_names(end)]
    if not size or size.startswith("-") or _bare(size) != size:
        return exact
    return [end for end in ends if _bare(size) in map(_bare, size_names(end))]


def _bare(size: str) -> str:
    """Return a size without the letters round it; a nominal bore stays "dn6", which is no -6."""
    return size if size.startswith("dn") else size.strip("abcdefghijklmnopqrstuvwxyz")


def _nothing(
    query: str,
    words: list[str],
    catalogue: Catalogue,
    named: Named,
    ends: list[EndConnection],
) -> str:
    shown = f'"{query[:60]}" names no end of the tables.'
    if ":" in query and (ids := near_misses(query.lower(), (end.id for end in catalogue.ends), 3)):
        return f"{shown} Nearest: {', '.join(ids)}."
    if named and ends:
        sizes = list(dict.fromkeys(end.size for end in ends))
        of = " or ".join(catalogue.families[key].name for key in list(named)[:2])
        return f"{shown} Sizes of {of}: {', '.join(sizes[:12])}{', …' * (len(sizes) > 12)}."
    spoken: dict[str, str] = {}
    for family in catalogue.families.values():
        for name in family_names(family)[1:]:
            spoken.setdefault(name.lower(), name)
    near = [spoken[name] for name in near_misses(" ".join(words), spoken, 3, 0.5)]
    hint = f" Nearest: {', '.join(near)}." if near else ""
    return f'{shown}{hint} Say family, size and gender, such as "JIC -8 male".'
