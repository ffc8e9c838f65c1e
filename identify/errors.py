"""Every error a person can cause, under one base class.

The command line turns a `WhichendError` into one sentence on stderr and exit status 2; anything
else is a bug and exits 1. Texts name the thing, the place and the remedy.
"""

from identify.light import Iterable

SHOWN_CHARS = 60  # of what was typed, in a message


class WhichendError(Exception):
    """Base of all errors that are the caller's to mend; its text is shown as it stands."""


class ReadingError(WhichendError):
    """What was typed is not a reading: unknown name, wrong unit, impossible value.

    `problem` is the sentence by itself, for a face that has just named the reading.
    """

    def __init__(self, problem: str, reading: str = "") -> None:
        super().__init__(f"{reading}: {problem}" if reading else problem)
        self.problem = problem


class TableError(WhichendError):
    """One or more faults in the tables or rules; `faults` holds them all, in file order."""

    def __init__(self, *faults: str) -> None:
        super().__init__("\n".join(faults))
        self.faults = faults


class UnknownEndError(WhichendError):
    """No end connection answers to the name given."""


class AssemblyError(WhichendError):
    """A made-up hose cannot be as it was entered; says what does not go together."""


class OutputError(WhichendError):
    """Standard output or input fails: a full disk, a closed stream."""


class RecordError(WhichendError):
    """A stored session or record cannot be read or written."""


def near_misses(word: str, options: Iterable[str], most: int = 1, cutoff: float = 0.6) -> list[str]:
    """Return the options most like a word, the nearest first; none where nothing is near."""
    import difflib  # only on the way to an error message

    return difflib.get_close_matches(word[:60], list(options), n=most, cutoff=cutoff)


def near_miss(word: str, options: Iterable[str]) -> str:
    """Return '; did you mean "…"?' for a near miss, else nothing."""
    close = near_misses(word, options)
    return f'; did you mean "{close[0]}"?' if close else ""


def quoted(text: str) -> str:
    """Return typed text fit for a message: in quotes, cut short, nothing unprintable in it."""
    head = "".join(c if c.isprintable() else ascii(c)[1:-1] for c in text[:SHOWN_CHARS])
    return f'"{head}…"' if len(text) > SHOWN_CHARS else f'"{head}"'
