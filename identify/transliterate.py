"""What may go to an output: nothing that moves a cursor, and plain characters where needed."""

from __future__ import annotations

import codecs

from identify.frozen import TYPE_CHECKING
from identify.light import Mapping

if TYPE_CHECKING:
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
    **dict.fromkeys("┌┐└┘├┤", "+"),
    "─": "-",
    "│": "|",
    "█": "#",
    "▒": "x",
}


_SPACES = "\n\t\u00a0\u1680\u202f\u205f\u3000" + "".join(map(chr, range(0x2000, 0x200B)))
_NO_SPACES = dict.fromkeys(map(ord, _SPACES))
_PLAIN = bytes(range(32, 127)) + b"\n\t"


def inert(text: str) -> str:
    r"""Return text that does nothing to a terminal but stand there.

    Control characters, marks that turn the direction of writing, bytes that were no text and the
    like become their number ("\u001b"), which a reader of JSON takes for the character itself.
    """
    few = text.encode("utf-8", "surrogatepass").translate(None, _PLAIN)  # a line of a batch is long
    odd = few.decode("utf-8", "surrogatepass")
    if odd.isprintable() or odd.translate(_NO_SPACES).isprintable():
        return text
    return "".join(c if c.isprintable() or c in _SPACES else _numbered(c) for c in text)


def _numbered(character: str) -> str:
    units = character.encode("utf-16-be", "surrogatepass")
    return "".join(f"\\u{units[at]:02x}{units[at + 1]:02x}" for at in range(0, len(units), 2))


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
