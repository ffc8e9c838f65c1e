"""What was concluded: ranking, evidence, warnings, the next question."""

from identify.frozen import TYPE_CHECKING, StrEnum, dataclass
from identify.model.connection import EndConnection, Seat
from identify.model.feature import Feature
from identify.model.reading import Reading

if TYPE_CHECKING:
    from identify.model.learnt import Learnt

NEITHER_NATS = 0.1  # evidence nearer to 0 than this speaks neither for nor against
PROBABLY_MISTAKEN = 0.5  # from this chance on a reading is called a mistake for a candidate


class VerdictKind(StrEnum):
    """The three things the tool may say."""

    IDENTIFIED = "identified"
    SHORTLIST = "shortlist"
    ABSTAIN = "abstain"


@dataclass(frozen=True, slots=True)
class Evidence:
    """What one reading says of one candidate.

    `weight_nats` is the natural log of how many times more likely the reading is for this
    candidate than for an end drawn from the tables at random: above 0 speaks for it. `sentence`
    compares the two, and names neither the reading nor how strongly it speaks. `mistaken` is the
    chance [0..1] that the reading is a plain mistake if this candidate is what lies there, `worn`
    that its thread must then be worn beyond its limits.
    """

    feature: Feature
    weight_nats: float
    sentence: str
    mistaken: float = 0.0
    worn: bool = False

    @property
    def side(self) -> int:
        """Return 1 if the reading speaks for the candidate, -1 if against it, 0 if neither.

        What can only be a mistake speaks for nothing, however rare the reading is elsewhere.
        """
        if self.mistaken >= PROBABLY_MISTAKEN or self.weight_nats <= -NEITHER_NATS:
            return -1
        return 1 if self.weight_nats >= NEITHER_NATS else 0


@dataclass(frozen=True, slots=True)
class Form:
    """Another form of an answer that takes the same mates, with its own probability [0..1]."""

    end: EndConnection
    probability: float


@dataclass(frozen=True, slots=True)
class Ranked:
    """A candidate with what is one answer with it.

    `probability` is of the whole answer (`end`, `twins` and `forms`), `own_probability` of `end`
    alone; `seat` is the way the seat is made that fits the readings best. `twins` cannot be told
    from `end` by any measurement; `forms` can, but take the same mates and are the same size of
    the same family.
    """

    end: EndConnection
    probability: float
    own_probability: float
    seat: Seat
    twins: tuple[EndConnection, ...]
    evidence: tuple[Evidence, ...]
    forms: tuple[Form, ...] = ()

    @property
    def others(self) -> tuple[EndConnection, ...]:
        """All that is one answer with `end`."""
        return (*self.twins, *(form.end for form in self.forms))


_DIGITS = 12  # beyond is rounding, which does not choose between two
SHOWN_FORM = 0.02  # a form less likely than this is not called open


def open_forms(ranked: Ranked) -> tuple[Form, ...]:
    """Return the forms of an answer that may still be there, likeliest first; empty if one."""
    own = Form(ranked.end, ranked.own_probability + _alike(ranked))
    found = [each for each in (own, *ranked.forms) if each.probability >= SHOWN_FORM]
    if len(found) < 2:
        return ()
    return tuple(sorted(found, key=lambda each: -round(each.probability, _DIGITS)))


def _alike(ranked: Ranked) -> float:
    """Return the probability of the rows that cannot be told from the first."""
    apart = sum(form.probability for form in ranked.forms)
    return ranked.probability - apart - ranked.own_probability


class Level(StrEnum):
    """How far an end is known."""

    THREAD = "thread"
    FAMILY = "family"
    SIZE = "size"
    FORM = "form"


@dataclass(frozen=True, slots=True)
class Certain:
    """The most probable value of one level, whatever the levels below it are."""

    level: Level
    value: str
    probability: float


@dataclass(frozen=True, slots=True)
class Suspect:
    """A reading that disagrees with all the others; `without` is the best end if it is dropped.

    `probability` is the chance [0..1] that this reading is a plain mistake.
    """

    reading: Reading
    probability: float
    without: EndConnection
    sentence: str


class Effect(StrEnum):
    """What an expert rule does when it fires. None of them changes a probability."""

    WARN = "warn"
    CAUTION = "caution"
    REFUSE = "refuse"
    ASK_FIRST = "ask_first"


class Hazard(StrEnum):
    """How badly it can end."""

    LOW = "low"  # it leaks or does not fit, and shows at once
    MEDIUM = "medium"  # it may hold a first test and weep later
    HIGH = "high"  # it can blow off or inject under pressure

    @property
    def rank(self) -> int:
        """How grave it is: 0 for the least."""
        return _RANKS[self]


_RANKS = {hazard: rank for rank, hazard in enumerate(Hazard)}


@dataclass(frozen=True, slots=True)
class Warning:
    """One rule that fired: what to beware of, why it fired, and who says so.

    `because` gives the facts that met the rule, then the trade's `reason`. `families` are those
    that the rule tells apart, empty for a rule that speaks of no pair.
    """

    rule: str
    effect: Effect
    hazard: Hazard
    sentence: str
    because: str
    source: str
    basis: str
    ask: Feature | None = None
    reason: str = ""
    families: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Danger:
    """A lookalike of the leading end, or an answer that stands beside it.

    `probability` is what the readings leave it (the whole answer, where it is the first row of
    one), `hazard` what happens if either is taken for the other, the worse of the two. `tells` are
    the observations that separate them, the one to make first (empty where none does), `again`
    tells that this one was made already and only a second look would make sure,
    `goes_wrong` what experience says and `tell_apart` how it tells the two apart (both empty where
    nobody wrote it down), `source` who says so.
    """

    end: EndConnection
    probability: float
    hazard: Hazard
    tells: tuple[str, ...]
    goes_wrong: str
    source: str
    again: bool = False
    tell_apart: str = ""

    @property
    def tell(self) -> str:
        """The one observation that separates them, empty where none does."""
        return self.tells[0] if self.tells else ""


@dataclass(frozen=True, slots=True)
class Other:
    """A second reading taken with another tool (`how`), or by somebody else, and what it tells.

    `bits` is the expected information, `times` as much as by the same person with the tool
    asked for; `minutes` is what it takes, fetching somebody included.
    """

    how: str
    other_person: bool
    bits: float
    minutes: float
    times: float


@dataclass(frozen=True, slots=True)
class Question:
    """The next measurement: what to ask, why now, what it would separate.

    `bits` is the expected information, `minutes` what the measurement takes with the tool `how`.
    `known` is the part on which a trial fit is to be made, empty for all other questions; `again`
    tells that it was read before and would be read once more, beside what was read; `others` are
    then other ways to do so that tell clearly more.
    """

    feature: Feature
    text: str
    why: str
    how: str
    bits: float
    minutes: float
    separates: str
    known: str = ""
    again: bool = False
    others: tuple[Other, ...] = ()


class Lack(StrEnum):
    """What stands in the way of a measurement that would tell."""

    TOOL = "tool"  # it is not in the bag
    ACCESS = "access"  # the end cannot be reached as it is
    ANSWER = "answer"  # it was answered with "cannot tell"


@dataclass(frozen=True, slots=True)
class Beyond:
    """A measurement that would tell more, if what it lacks were there.

    `tool` is what is missing or what the measurement takes; `values` are what the leading end and
    the likeliest that it would be told from should show, empty where it parts no two that lead.
    `share` [0..1] is the part of all doubt, in bits, that it is expected to take away.
    """

    lack: Lack
    tool: str
    question: Question
    values: tuple[str, ...]
    share: float


@dataclass(frozen=True, slots=True)
class Verdict:
    """The whole conclusion.

    `none_of_these` is the probability that no row of the tables fits; `unlisted_size` names the
    family it then most likely is in a size that they do not hold, empty if none stands out.
    `certain` tells level by level what is most probable. `dangers` are lookalikes that still stand
    beside the leading end, likeliest first; `lookalikes` those that the tables name for it whatever
    was read, worst first.
    `beside` are the answers that stand next to the leading one in a shortlist, likeliest first.
    `beyond` is what would tell more, though not as things stand; None of an end that is identified
    and while there is a `question` that is not a second reading. `care` is whose readings they are
    taken for (`observer.CARES`), empty for anybody's. `learnt` is what a shop's own outcomes did to
    it, None where they do not count.
    """

    kind: VerdictKind
    sentence: str
    ranking: tuple[Ranked, ...]
    none_of_these: float
    readings: tuple[Reading, ...]
    unlisted_size: str = ""
    certain: tuple[Certain, ...] = ()
    suspects: tuple[Suspect, ...] = ()
    dangers: tuple[Danger, ...] = ()
    lookalikes: tuple[Danger, ...] = ()
    warnings: tuple[Warning, ...] = ()
    question: Question | None = None
    cautions: tuple[str, ...] = ()
    beside: tuple[Danger, ...] = ()
    beyond: Beyond | None = None
    care: str = ""
    learnt: "Learnt | None" = None


@dataclass(frozen=True, slots=True)
class Brief:
    """A conclusion without its reasons: what a batch is asked for that only needs the answers.

    `ranking` holds the first end of each answer with the probability of the answer; the rest as in
    `Verdict`.
    """

    kind: VerdictKind
    ranking: tuple[tuple[EndConnection, float], ...]
    none_of_these: float
    suspects: tuple[Suspect, ...]


def percent(probability: float) -> str:
    """Return a probability as whole per cent; never 0 % or 100 %."""
    if probability > 0.99:
        return ">99 %"
    if probability < 0.01:
        return "<1 %"
    return f"{probability * 100:.0f} %"
