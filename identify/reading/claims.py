"""What somebody says an end is, as it is typed: "JIC 8 by the driver".

What the words name is told by `names.understand`; here they are only parted from who said so, and
from why the end is ordered although the readings are against it.
"""

from identify.errors import ReadingError, quoted
from identify.light import re
from identify.model.claim import Said
from identify.reading.numbers import clean

_ANYWAY = ", ordered anyway because "
_FORM = re.compile(
    r"(?P<words>.*?)(?:,? by (?P<by>.*?))?(?:,? ordered anyway,? because (?P<anyway>.*))?"
)


def claim_of(text: str) -> Said:
    """Read a claim: "half inch BSP", "JIC 8 by Ann, ordered anyway because the block is JIC".

    Raises:
        ReadingError: It is empty, overlong or cannot be printed, or a part of it is left empty.
    """
    found = _FORM.fullmatch(clean(text))
    words, by, anyway = found.group("words", "by", "anyway") if found else ("", None, None)
    if not words or by == "" or anyway == "":
        raise ReadingError(
            f"{quoted(text)} does not say what the end is called; write it as JIC 8, as JIC 8 by "
            f"the driver, or as JIC 8{_ANYWAY}the block is JIC."
        )
    return Said(words, by or "", (anyway or "").rstrip(" ."))


def claim_text(said: Said) -> str:
    """Return a claim as it is typed; `claim_of` reads it back equal."""
    by = f" by {said.by}" if said.by else ""
    return f"{said.words}{by}{f'{_ANYWAY}{said.anyway}' if said.anyway else ''}"


def quoted_claim(said: Said) -> str:
    """Return the words of a claim in quotes, fit for a sentence."""
    return quoted(said.words)
