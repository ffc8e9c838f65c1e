"""What is kept of a job beside the answers and claims: facts, verdicts, what became of it.

Every step is a frozen value and one line of the file. `at` is UTC, as "2026-11-26T08:30:00Z".
"""

from identify.errors import ReadingError, quoted
from identify.frozen import StrEnum, dataclass
from identify.interview.session import Event
from identify.model.verdict import VerdictKind

LONGEST_TEXT = 400  # characters of one fact
MOST_HOSES = 99  # of one job
SHAPES = ("straight", "45", "90")


class Field(StrEnum):
    """A fact that one text says. The last of a kind stands; a note joins those before it."""

    CUSTOMER = "customer"
    MACHINE = "machine"
    BAG = "bag"
    MEASURED_BY = "measured_by"
    CHECKED_BY = "checked_by"
    NOTE = "note"
    QUANTITY = "quantity"
    PRINTED = "printed"
    SHAPE = "shape"


OF_HOSE = frozenset({Field.QUANTITY, Field.PRINTED})
OF_END = frozenset({Field.SHAPE})
"""Of what a field is a fact; all others are facts of the job."""


@dataclass(frozen=True, slots=True)
class Place:
    """An end of a job: the number of its hose, from 1, and "A" or "B"."""

    hose: int = 1
    side: str = "A"

    def __str__(self) -> str:
        return f"{self.hose}{self.side}"

    def after(self, *, hose: bool = False) -> "Place":
        """Return the end that comes next: the other of this hose, else the first of the next one.

        Args:
            hose: Leave the other end of this hose out.
        """
        return Place(self.hose, "B") if self.side == "A" and not hose else Place(self.hose + 1)


FIRST = Place()


@dataclass(frozen=True, slots=True)
class Noted:
    """A fact was said; an empty value takes it back, all notes in the case of a note."""

    field: Field
    value: str


@dataclass(frozen=True, slots=True)
class Named:
    """An end that a verdict names: id, title, designation of its thread ("" if none), chance."""

    id: str
    title: str
    thread: str
    probability: float


@dataclass(frozen=True, slots=True)
class Concluded:
    """A verdict as it was given, with the likeliest ends first, and on what it rests.

    `tables` and `rules` are fingerprints of what was read (`knowledge.fingerprint`), `program` the
    version of this program.
    """

    kind: VerdictKind
    sentence: str
    ends: tuple[Named, ...]
    tables: str
    rules: str
    program: str
    at: str


class Fate(StrEnum):
    """What became of a hose that was made by a verdict."""

    FITTED = "fitted"
    CAME_BACK = "came back"


@dataclass(frozen=True, slots=True)
class Settled:
    """The outcome of an end is known; `why` says what was wrong where it came back."""

    fate: Fate
    why: str
    at: str


@dataclass(frozen=True, slots=True)
class Corrected:
    """An entry was wrong: `what` it was, `before` and `after`; why, and who says so."""

    what: str
    before: str
    after: str
    why: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Back:
    """The last answer was taken back."""


@dataclass(frozen=True, slots=True)
class Finished:
    """The interview on an end came to its close and need not be offered again."""


@dataclass(frozen=True, slots=True)
class Reopened:
    """The interview on an end goes on after all; a discarded job is back."""


@dataclass(frozen=True, slots=True)
class Discarded:
    """The job is no more offered or listed; its file stays."""


Fact = Noted | Concluded | Settled | Corrected | Back | Finished | Reopened | Discarded
Step = Event | Fact
"""All that a line of a file can say."""


def noted(name: str, value: str) -> Noted:
    """Return the fact that a person typed.

    Args:
        name: A `Field`; blanks and hyphens count as underscores.
        value: Text; a whole number for the quantity, one of `SHAPES` for the shape.

    Raises:
        ReadingError: There is no such field, or it cannot have this value.
    """
    plain, text = name.strip().lower().replace("-", "_").replace(" ", "_"), " ".join(value.split())
    if plain not in list(Field):
        raise ReadingError(f"{quoted(name)} is no field of a job; write {', '.join(Field)}.")
    field = Field(plain)
    if not possible_fact(field, text):
        raise ReadingError(f"{quoted(value)} {_REFUSED.get(field, _TOO_LONG)}", field)
    return Noted(field, text)


def possible_fact(field: Field, value: str) -> bool:
    """Tell whether a field can have a value; all can be empty."""
    if not value or field not in (Field.QUANTITY, Field.SHAPE):
        return len(value) <= LONGEST_TEXT
    if field is Field.SHAPE:
        return value in SHAPES
    return value.isascii() and value.isdecimal() and len(value) <= 4 and int(value) > 0


_TOO_LONG = f"is too long; a fact has at most {LONGEST_TEXT} characters."
_REFUSED = {
    Field.QUANTITY: "is not a number of pieces; write a whole number from 1 to 9999.",
    Field.SHAPE: f"is no shape of an end; write {', '.join(SHAPES)}.",
}


def place_said(text: str) -> Place:
    """Return the end that "A", "b" or "2B" names; without a number it is of the first hose.

    Raises:
        ReadingError: It names none.
    """
    number, side = text.strip()[:-1], text.strip()[-1:].upper()
    ordinary = not number or (number.isascii() and number.isdecimal() and len(number) <= 2)
    hose = int(number or 1) if ordinary else 0
    if side not in ("A", "B") or not 1 <= hose <= MOST_HOSES:
        raise ReadingError(
            f"{quoted(text)} is no end of a hose; write A or B, or 2A for the second hose."
        )
    return Place(hose, side)
