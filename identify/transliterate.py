"""Write to an output that cannot show every character: the nearest plain ones, never a crash."""

import codecs
from collections.abc import Mapping
from typing import TextIO

ERRORS = "transliterate"
STAND_INS = {
    "·": "-",
    "•": "-",
    "–": "-",
    "—": "-",
    "−": "-",
    "…": "...",
    "×": "x",
    "Ø": "dia ",
    "°": " deg",
    "±": "+/-",
    "≥": ">=",
    "≤": "<=",
    "µ": "u",
    "′": "'",
    "″": '"',
    "“": '"',
    "”": '"',
    "‘": "'",
    "’": "'",
    "⁄": "/",
}


def plain(character: str) -> str:
    """Return what stands for a character where only ASCII can be written."""
    if character in STAND_INS:
        return STAND_INS[character]
    from unicodedata import normalize  # only for what people type; our own texts need none of it

    bare = normalize("NFKD", character).replace("⁄", "/").encode("ascii", "ignore").decode()
    return bare or "?"


def speaks_utf8(encoding: str | None, environ: Mapping[str, str]) -> bool:
    """Tell whether an output shows all that we write.

    Args:
        encoding: Name of the encoding of the output, None if it has none.
        environ: The environment. `LC_ALL=C` is a person who says ASCII, although Python then
            writes UTF-8 of its own accord, unless they told Python an encoding as well.
    """
    said = environ.get("PYTHONIOENCODING") or environ.get("PYTHONUTF8")
    if environ.get("LC_ALL") in ("C", "POSIX") and not said:
        return False
    return bool(encoding) and codecs.lookup(encoding or "ascii").name == "utf-8"


def tolerate(stream: TextIO) -> None:
    """Make an output transliterate what its encoding lacks, whatever that encoding is."""
    if hasattr(stream, "reconfigure"):  # not a stream in memory, which takes every character
        stream.reconfigure(errors=ERRORS)


def prepare(stream: TextIO, environ: Mapping[str, str]) -> None:
    """Make an output fit to be read by a person: ASCII where the person says so, see above."""
    tolerate(stream)
    if hasattr(stream, "reconfigure") and not speaks_utf8(stream.encoding, environ):
        lookup = codecs.lookup(stream.encoding).name
        stream.reconfigure(encoding="ascii" if lookup == "utf-8" else lookup, errors=ERRORS)


def _replace(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(map(plain, error.object[error.start : error.end])), error.end


codecs.register_error(ERRORS, _replace)
