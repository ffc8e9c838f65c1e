"""From a key on the interview screen to what it means; pure, so that every case can be tested."""

from identify.frozen import StrEnum, dataclass
from identify.interview.snapshot import Ask


class Act(StrEnum):
    """What a key means at this moment."""

    TYPE = "type"  # the character joins what is typed
    ERASE = "erase"
    OPEN = "open"  # open the entry line, so that letters are typed too
    SHUT = "shut"
    SEND = "send"
    CHOOSE = "choose"  # one of the answers listed
    MARK = "mark"  # another answer, for Enter to take
    CANNOT = "cannot"
    COMMAND = "command"  # a letter that stands for a screen or a deed
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class Meaning:
    """An act with its character, or the word of the answer chosen."""

    act: Act
    text: str = ""


def meaning(
    ask: Ask | None, typed: str, opened: bool, key: str, character: str | None, marked: str = ""
) -> Meaning:
    """Return what a key means.

    While nothing is typed letters are commands; a digit chooses an answer at once, or begins a
    value: one that is measured, or the number of a leaf, which the arrow keys mark too. Once
    something is typed, or the line was opened with Enter, all characters
    are typed. An open line with nothing on it is shut by Enter or Escape.

    Args:
        ask: The open question, None if none is left.
        typed: What stands on the entry line.
        opened: Whether the line was opened with Enter.
        key: Name of the key.
        character: What it prints, None for keys that print nothing.
        marked: Word of the answer that the arrow keys marked, empty for none.
    """
    writing = bool(typed) or opened
    if key == "backspace":
        return Meaning(Act.ERASE if typed else Act.NOTHING)
    if key == "escape":
        return Meaning(Act.SHUT if opened and not typed else Act.NOTHING)
    if key == "enter":
        return Meaning(Act.CHOOSE, marked) if marked and not writing else _enter(ask, typed, opened)
    if key in ("up", "down") and ask and ask.by_value and not writing:
        return Meaning(Act.MARK, _beside(ask, marked, 1 if key == "down" else -1))
    if not character or not character.isprintable():
        return Meaning(Act.NOTHING)
    if writing:
        return Meaning(Act.TYPE, character)
    if ask and ask.measured and (character.isdigit() or character in ".,"):
        return Meaning(Act.TYPE, character)
    if ask and ask.choices and character.isdigit():
        return _digit(ask, int(character))
    if ask and character == "0":
        return Meaning(Act.CANNOT)
    return Meaning(Act.COMMAND, character)


def _enter(ask: Ask | None, typed: str, opened: bool) -> Meaning:
    if typed.strip() == "0":
        return Meaning(Act.CANNOT)
    if typed.strip():
        return Meaning(Act.SEND)
    if opened:
        return Meaning(Act.SHUT)
    if ask and ask.typed:
        return Meaning(Act.OPEN)
    return Meaning(Act.COMMAND, "enter")


def _beside(ask: Ask, marked: str, step: int) -> str:
    """Return the answer beside the one marked; from none to the first or the last."""
    words = [each.word for each in ask.choices]
    at = words.index(marked) + step if marked in words else min(step, 0)
    return words[at % len(words)]


def _digit(ask: Ask, number: int) -> Meaning:
    if number == 0:
        return Meaning(Act.CANNOT)
    if number <= len(ask.choices):
        return Meaning(Act.CHOOSE, ask.choices[number - 1].word)
    return Meaning(Act.NOTHING)
