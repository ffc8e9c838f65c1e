"""Expert knowledge as values: rules, questions, lookalike notes, cautions.

`knowledge.rule_tables` reads them from `rules/`, `reasoning.expert` fires the rules.
"""

from identify.frozen import StrEnum, dataclass, replace
from identify.light import Iterator, Sequence
from identify.model.connection import EndConnection
from identify.model.feature import FEATURES, Feature
from identify.model.reading import How
from identify.model.source import Support
from identify.model.verdict import Effect, Hazard


class Check(StrEnum):
    """What a condition asks. The first three join other conditions."""

    ALL = "all"
    ANY = "any"
    NOT = "not"
    READING = "reading"  # a feature was read, and so
    MISSING = "missing"  # none of these features was read
    STANDING = "standing"  # an end of this pattern is still possible
    TOP = "top"  # the most probable end is of this pattern
    BOTH_STANDING = "both_standing"  # an end of each of these families is still possible
    NONE_OF_THESE = "none_of_these"  # the tables may not hold the end at all
    VERDICT = "verdict"  # the verdict is one of these


@dataclass(frozen=True, slots=True)
class ReadingPattern:
    """What a reading must be; an empty field allows anything.

    `words` are answers of a choice (or, of a trial fit, outcomes); a measured taper counts as
    "tapered" or "parallel". `low` and `high` bound a measured value [mm, or deg for an angle].
    `basis` is "half", "included" or "unsaid". `fewer_pitches` asks for a pitch counted over fewer
    than this many, a gauge leaf being none. `contains` are words of a marking.
    """

    feature: Feature
    words: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    basis: str = ""
    hows: tuple[How, ...] = ()
    fewer_pitches: float | None = None
    contains: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EndPattern:
    """Which ends are meant; an empty field allows any.

    `rating` is "known" or "unknown"; `caveat` and `refuse` tell whether a row carries such a
    sentence, None for either.
    """

    families: tuple[str, ...] = ()
    sealings: tuple[str, ...] = ()
    genders: tuple[str, ...] = ()
    forms: tuple[str, ...] = ()
    sizes: tuple[str, ...] = ()
    threads: tuple[str, ...] = ()
    confidences: tuple[str, ...] = ()
    rating: str = ""
    caveat: bool | None = None
    refuse: bool | None = None


@dataclass(frozen=True, slots=True)
class Condition:
    """One test, or several joined.

    Only the fields of `check` are set: `parts` for all, any, not; `reading`; `features` for
    missing; `ends` for standing, top, both_standing (one pattern each); `at_least` is the least
    probability [0..1] at which an end counts as standing; `verdicts`.
    """

    check: Check
    parts: Sequence["Condition"] = ()
    reading: ReadingPattern | None = None
    features: tuple[Feature, ...] = ()
    ends: tuple[EndPattern, ...] = ()
    at_least: float = 0.0
    verdicts: tuple[str, ...] = ()

    @property
    def needed(self) -> Iterator["Condition"]:
        """Yield the tests that must all be passed, whatever else holds."""
        if self.check is Check.ALL or (self.check is Check.ANY and len(self.parts) == 1):
            for part in self.parts:
                yield from part.needed
        else:
            yield self


@dataclass(frozen=True, slots=True)
class ExpertRule:
    """A warning with the condition under which it is given.

    `because` is the trade's reason, in addition to the facts that fired it. `ask` is the
    measurement that would settle the matter.
    """

    key: str
    when: Condition
    effect: Effect
    hazard: Hazard
    sentence: str
    because: str
    source: str
    basis: Support
    ask: Feature | None = None
    COLUMNS = ("read", "standing")

    @property
    def read(self) -> tuple[Feature, ...]:
        """Features without a reading of which it never fires."""
        return tuple(each.reading.feature for each in self.when.needed if each.reading)

    @property
    def standing(self) -> tuple[tuple[str, ...], ...]:
        """Families of which it never fires unless one of each group is still possible."""
        patterns = [pattern for each in self.when.needed for pattern in each.ends]
        return tuple(pattern.families for pattern in patterns if pattern.families)


class Tool(StrEnum):
    """What a person may have in the bag; `NONE` is the bare eye and hand.

    `KNOWN_ENDS` are parts of known thread, for a trial fit.
    """

    CALIPER = "caliper"
    RULE = "rule"
    METRIC_GAUGE = "metric_gauge"
    INCH_GAUGE = "inch_gauge"
    SEAT_GAUGE = "seat_gauge"
    PROTRACTOR = "protractor"
    COMBS = "combs"
    KNOWN_ENDS = "known_ends"
    NONE = "none"


HOW_TAKEN = {
    Tool.CALIPER: How.CALIPER,
    Tool.RULE: How.RULE,
    Tool.METRIC_GAUGE: How.GAUGE,
    Tool.INCH_GAUGE: How.GAUGE,
    Tool.SEAT_GAUGE: How.GAUGE,
    Tool.PROTRACTOR: How.PROTRACTOR,
    Tool.COMBS: How.COMBS,
    Tool.KNOWN_ENDS: How.GAUGE,
    Tool.NONE: How.EYE,
}
"""How a reading counts that was taken with a tool, where its question does not say otherwise."""


class Access(StrEnum):
    """How much of the end can be reached."""

    END_OFF = "end_off"  # undone, in the hand
    END_ON_MACHINE = "end_on_machine"  # still screwed together
    HOSE_ONLY = "hose_only"  # only the hose behind it


@dataclass(frozen=True, slots=True)
class ChoiceText:
    """One answer of a choice: the word that is stored, a short label, a line that describes it."""

    word: str
    label: str
    line: str


@dataclass(frozen=True, slots=True)
class Wording:
    """How a question is put with some tools, or after one answer of gender, where that differs.

    What is empty stays as the question has it; no tool stands for any, no gender for any.
    """

    tools: tuple[Tool, ...] = ()
    gender: str = ""
    question: str = ""
    how_to: tuple[str, ...] = ()
    usual_mistake: str = ""
    example: str = ""
    choices: Sequence[ChoiceText] = ()

    def fits(self, tool: Tool, gender: str | None) -> bool:
        """Tell whether it is meant for this tool and this end."""
        return (not self.tools or tool in self.tools) and self.gender in ("", gender)


@dataclass(frozen=True, slots=True)
class QuestionText:
    """How a feature is asked for.

    `minutes` holds what the measurement takes with each tool that can take it [min], `taken_as`
    how the reading then counts. `access` lists the states of the joint in which it can be taken.
    `example` is an answer as it may be typed. `choices` is empty for a measured value. `wordings`
    say what differs by tool and gender.
    """

    feature: Feature
    question: str
    why: str
    how_to: tuple[str, ...]
    usual_mistake: str
    example: str
    minutes: dict[str, float]
    taken_as: dict[str, How]
    access: tuple[Access, ...]
    choices: Sequence[ChoiceText]
    source: str
    basis: Support
    wordings: Sequence[Wording] = ()
    COLUMNS = ("feature", "access", "tools")

    def put(self, tool: Tool, gender: str | None) -> "QuestionText":
        """Return the question as it is put with a tool, of an end of a gender if that is known."""
        text = self
        for each in self.wordings:
            if each.fits(tool, gender):
                text = replace(
                    text,
                    question=each.question or text.question,
                    how_to=each.how_to or text.how_to,
                    usual_mistake=each.usual_mistake or text.usual_mistake,
                    example=each.example or text.example,
                    choices=each.choices or text.choices,
                )
        return text

    def label(self, word: str) -> str:
        """Return the label of a numbered answer in any wording, empty if none has that word."""
        every = (self.choices, *(wording.choices for wording in self.wordings))
        return next((each.label for one in every for each in one if each.word == word), "")

    @property
    def title(self) -> str:
        """The heading of the question."""
        return FEATURES[self.feature].title

    @property
    def tools(self) -> tuple[Tool, ...]:
        """Tools that can take this reading, quickest first."""
        return tuple(Tool(name) for name in sorted(self.minutes, key=self.minutes.__getitem__))


@dataclass(frozen=True, slots=True)
class LookalikeNote:
    """What goes wrong when one end is taken for another; geometry cannot know it.

    `a` and `b` each name a family ("flare37") or a family and size ("orfs:-12", the size as it
    stands in an id). How bad it is, is no matter of notes: the mating of the two gives the hazard.
    """

    a: str
    b: str
    what_goes_wrong: str
    tell_apart: str
    source: str
    basis: Support
    COLUMNS = ("a", "b")


def names_of(end: EndConnection) -> tuple[str, str]:
    """Return the names by which a note may mean an end: its family, its family and size."""
    return end.family, end.id.rpartition(":")[0]


class Moment(StrEnum):
    """When a standing caution is shown."""

    BEFORE = "before"  # before anything is undone or measured
    VERDICT = "verdict"  # beside every answer
    REPLACEMENT = "replacement"  # when a new part or hose is to be made or fitted
    LEAK = "leak"  # when a leak or a first check is spoken of
    RATING = "rating"  # beside the working pressure of one end
    WORKSHOP = "workshop"  # on the slip that goes to the workshop with a hose


@dataclass(frozen=True, slots=True)
class Caution:
    """A standing caution and when it is shown."""

    key: str
    sentence: str
    when: tuple[Moment, ...]
    source: str
    basis: Support
    COLUMNS = ("when",)
