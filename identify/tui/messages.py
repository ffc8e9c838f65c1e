"""What screens report to the app: keys turned into intentions, nothing decided."""

from dataclasses import dataclass

from textual.message import Message

from identify.jobs.facts import Field, Place
from identify.jobs.journal import Kept
from identify.model.feature import Feature
from identify.model.rule import Access, Tool


@dataclass
class Answered(Message):
    """An answer was given: the typed text."""

    feature: Feature
    typed: str


@dataclass
class CannotTell(Message):
    """The person cannot tell."""

    feature: Feature


@dataclass
class TakenBack(Message):
    """One answer is withdrawn."""

    feature: Feature


@dataclass
class Prepared(Message):
    """Tools and access were said, and who measures."""

    tools: frozenset[Tool]
    access: Access
    care: str


@dataclass
class Asked(Message):
    """A question is wanted out of turn: anew, or once more beside what was read."""

    feature: Feature
    once_more: bool = False
    other_person: bool = False


class SteppedBack(Message):
    """Back from the interview: the last answer is undone."""


class SteppedForward(Message):
    """What was taken back last is given again."""


class RetakeWanted(Message):
    """The reading in question is to be taken anew."""


class OnceMoreWanted(Message):
    """The reading in question is to be taken once more, beside what was read."""


class AnotherWanted(Message):
    """Somebody else takes the reading in question, or after all the same person."""


class UnitTurned(Message):
    """Bare numbers are to take the next unit."""


class ToolTurned(Message):
    """The reading is taken with the next tool."""


class ThemeWanted(Message):
    """The next set of colours, please."""


@dataclass
class StartedAgain(Message):
    """What comes next is to begin: one of the picks of `pages.onward`."""

    way: str


@dataclass
class InShort(Message):
    """Readings were given on one line."""

    line: str


@dataclass
class Claims(Message):
    """Somebody says what the end is."""

    text: str
    by: str = ""


@dataclass
class Unclaims(Message):
    """What was said in these words is taken back."""

    words: str


class GuessPassed(Message):
    """The person does not say what it is; all is to be told."""


class WriteWanted(Message):
    """The verdict is to be written to a file."""


class Left(Message):
    """The program is to end; what was answered is kept."""


@dataclass
class Opened(Message):
    """A screen is wanted: its name in `screens.SCREENS`, and the end it is about."""

    screen: str
    end: str = ""


class WentBack(Message):
    """The screen under this one is wanted."""


class BrokenOffDiscarded(Message):
    """The interview that is offered is to be discarded."""


@dataclass
class JobOpened(Message):
    """A job is wanted: its file below the folder of all jobs."""

    job: str


@dataclass
class JobTold(Message):
    """A fact of a job was typed."""

    kept: Kept
    place: Place
    field: Field
    value: str


@dataclass
class JobDiscarded(Message):
    """A job is to be discarded."""

    kept: Kept


@dataclass
class JobTaken(Message):
    """An end of a job is to be measured, or gone on with."""

    kept: Kept
    place: Place


@dataclass
class HandWanted(Message):
    """Slip, label or report of a job is wanted, of the running one where none is named."""

    what: str
    kept: Kept | None = None


@dataclass
class SheetWanted(Message):
    """The sheet of a hose of a job is wanted, of the running one where none is named."""

    hose: int
    kept: Kept | None = None


@dataclass
class GoOn(Message):
    """Whether to go on with the interview that was broken off."""

    resume: bool
