"""How a reading was taken and by whom, as it is typed after a value."""

from identify.errors import ReadingError, quoted
from identify.model.feature import FEATURES, Feature, Kind
from identify.model.reading import Angle, How, Value

HOW_WORDS = {
    "caliper": How.CALIPER,
    "calliper": How.CALIPER,
    "calipers": How.CALIPER,
    "callipers": How.CALIPER,
    "rule": How.RULE,
    "ruler": How.RULE,
    "gauge": How.GAUGE,
    "protractor": How.PROTRACTOR,
    "comb page": How.COMBS,
    "combs": How.COMBS,
    "eye": How.EYE,
}
_NOT_HOW = {  # what a way of measuring cannot give
    Kind.LENGTH: (How.COUNTED, How.PROTRACTOR),
    Kind.PITCH: (How.PROTRACTOR,),
    Kind.ANGLE: (How.COUNTED, How.RULE),
    Kind.CHOICE: (How.COUNTED,),
    Kind.TAPER: (How.COUNTED,),
}
SOMEBODY_ELSE = "by somebody else"
_OTHER_PERSON = r"(.*\S),? by (?:somebody|someone) else"


def split_how(text: str) -> tuple[str, How | None]:
    """Part a value from the way it was taken: "20.9 mm by rule", "14 tpi counted".

    Returns:
        The value alone, and the way; None where none was said.

    Raises:
        ReadingError: The way is unknown, or said in other words.
    """
    plain = text.lower()
    if not any(word in plain for word in (" by ", " counted", " with ", " using ", "(")):
        return text, None
    import re  # most say only the value

    found = re.fullmatch(r"(.*?),? (?:by (?:a |an |the )?([a-z -]+)|(counted))", text, re.I)
    if found and found[3]:
        return found[1], How.COUNTED
    if found:
        return found[1], how_of(found[2])
    other = re.search(r" (?:with|using) (?:a |the )?([a-z ]+)$|\(([a-z ]+)\)$", text, re.I)
    if other and (word := " ".join((other[1] or other[2]).lower().split())) in HOW_WORDS:
        raise ReadingError(
            f'{quoted(text)}: say how it was measured as "by {word}" at the end of the value.'
        )
    return text, None


def split_person(text: str) -> tuple[str, bool]:
    """Part a value from who took it: "20.9 mm by rule, by somebody else".

    Returns:
        The value with the way it was taken, and whether somebody else took it.
    """
    if not text.lower().endswith(" else"):
        return text, False
    import re

    found = re.fullmatch(_OTHER_PERSON, text, re.I)
    return (found[1].rstrip(","), True) if found else (text, False)


def with_person(text: str, *, other_person: bool) -> str:
    """Return a value with who took it, as it is typed; the one who asks goes unnamed."""
    return f"{text}, {SOMEBODY_ELSE}" if other_person else text


def how_of(word: str) -> How:
    """Return the way of measuring a word names: "caliper", "comb page", "counted".

    Raises:
        ReadingError: It names none.
    """
    from identify.reading.numbers import clean

    plain = clean(word).lower().removeprefix("by ")
    if plain == How.COUNTED:
        return How.COUNTED
    if plain not in HOW_WORDS:
        raise ReadingError(
            f"{quoted(word)} is no way of measuring; write caliper, rule, gauge, protractor, "
            "comb page, eye or counted."
        )
    return HOW_WORDS[plain]


def how_words(how: How) -> str:
    """Return a way of measuring as it is typed after a value: "by rule", "counted"."""
    return str(how) if how is How.COUNTED else f"by {how_word(how)}"


def how_word(how: How) -> str:
    """Return the one word, or two, that name a way of measuring: "rule", "comb page"."""
    return "comb page" if how is How.COMBS else str(how)


def check_how(feature: Feature, how: How, value: Value) -> None:
    """Refuse a way of measuring that cannot give this feature, or not so.

    A caliper gives a seat angle by two diameters of the cone, and nothing else does.

    Raises:
        ReadingError: It cannot.
    """
    if isinstance(value, Angle) and (how is How.CALIPER) is not bool(value.over_mm):
        raise ReadingError(
            f'two diameters of the cone are not taken "{how_words(how)}"; leave that out.'
            if value.over_mm
            else "a caliper reads no degrees; write two diameters of the cone and how far apart "
            "they are: 10.2 and 14.7 mm, 3 mm apart."
        )
    refused = _NOT_HOW.get(FEATURES[feature].kind, tuple(How))
    if how in refused:
        ways = [how_words(way) for way in How if way not in refused]
        rest = f"write it {', '.join(ways[:-1])} or {ways[-1]}" if ways else "leave that out"
        raise ReadingError(f'it cannot be taken "{how_words(how)}"; {rest}.')
