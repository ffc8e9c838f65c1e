"""A small world built by hand: three ends, four questions, and states of an interview."""

from dataclasses import fields, replace
from typing import Any

from identify.interview.session import Equipped, GivenUp, Observed, Reached, SessionState, replay
from identify.interview.snapshot import Snapshot
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family, Rating, Seat, Shape
from identify.model.feature import Feature
from identify.model.observation import VerdictLimits
from identify.model.reading import Choice, How, Length, Reading
from identify.model.rule import (
    Access,
    Caution,
    ChoiceText,
    Moment,
    QuestionText,
    Tool,
    Wording,
)
from identify.model.rulebook import RuleBook
from identify.model.source import Confidence, Provenance, Source, Support
from identify.model.thread import Band, Limits, Thread
from identify.model.verdict import (
    Beyond,
    Certain,
    Danger,
    Effect,
    Evidence,
    Hazard,
    Lack,
    Level,
    Question,
    Ranked,
    Suspect,
    Verdict,
    VerdictKind,
    Warning,
)
from identify.reasoning.engine import Engine

SAYS = Provenance("handbook", Support.FROM_MEMORY, "table 1", caveat="One figure was not checked.")
THREAD = Thread(
    "G 1/2",
    "G",
    25.4 / 14,
    14,
    55,
    0,
    20.955,
    19.793,
    18.631,
    Limits(Band(20.67, 20.97), Band(19.6, 19.8)),
    Limits(Band(18.63, 19.17), Band(19.8, 20.0)),
    SAYS,
)


def an_end(family: str, name: str, half: float | None, shape: Shape, **more: Any) -> EndConnection:
    return EndConnection(
        id=f"{family}:G1/2:male",
        family=family,
        family_name=name,
        standards=("ISO 0000",),
        gender="male",
        form="fixed body, cone inside the nose",
        form_key="male",
        mount="fixed",
        size="G1/2",
        thread="G 1/2",
        seats=(Seat(shape, half),),
        sealing="cone",
        seal="metal cone",
        provenance=SAYS,
        confidence=Confidence.MEDIUM,
        **more,
    )


CONE = an_end(
    "cone60",
    "G parallel thread with 60 deg cone",
    30,
    Shape.CONCAVE,
    rating=Rating(315, Support.FROM_MEMORY, "plain metal cone"),
    hexagons=(),
    o_ring_size="11.3 x 2.4 mm",
    tell_by="A funnel of 60 degrees in the nose.",
)
FLARE = an_end("flare30", "JIS 30 deg flare", 30, Shape.CONVEX, rating=Rating(None))
FLAT = an_end("flat", "G port, flat face", None, Shape.FLAT, rating=Rating(None))
GUARD = an_end(
    "gas", "fuel gas end", 30, Shape.CONVEX, rating=Rating(None), refuse="It carries fuel gas."
)
CATALOGUE = Catalogue(
    {"G 1/2": THREAD},
    (CONE, FLARE, FLAT, GUARD),
    {
        end.family: Family(
            end.family, end.family_name, end.standards, end.sealing, refuse=end.refuse
        )
        for end in (CONE, FLARE, FLAT, GUARD)
    },
    {"handbook": Source("handbook", "A handbook made up for the tests", "memory")},
)
ANYWHERE = tuple(Access)


def a_question(feature: Feature, question: str, **more: Any) -> QuestionText:
    fields: dict[str, Any] = {
        "why": "It narrows the sizes down to a few.",
        "how_to": ("Clean the thread.", "Lay the caliper flat across the crests."),
        "usual_mistake": "A pipe size is not a diameter.",
        "example": "20.9 mm",
        "minutes": {"caliper": 0.5, "rule": 0.7},
        "taken_as": {Tool.CALIPER: How.CALIPER, Tool.RULE: How.RULE, Tool.NONE: How.EYE},
        "access": ANYWHERE,
        "choices": (),
        "source": "handbook",
        "basis": Support.COMMON_PRACTICE,
    }
    return QuestionText(feature=feature, question=question, **(fields | more))


QUESTIONS = (
    a_question(
        Feature.GENDER,
        "Is the thread on the outside or on the inside?",
        minutes={"none": 0.1},
        example="male",
        choices=(
            ChoiceText("male", "Thread outside", "the thread is on the outside of the part"),
            ChoiceText("female", "Thread inside", "the thread is inside a nut or a hole"),
        ),
    ),
    a_question(Feature.THREAD_OD, "What does the caliper read over the outside of the thread?"),
    a_question(
        Feature.PITCH,
        "How far is it over ten pitches, or which gauge leaf fits?",
        minutes={"caliper": 1, "inch_gauge": 0.7},
        taken_as={Tool.CALIPER: How.COUNTED, Tool.INCH_GAUGE: How.GAUGE},
        example="10 pitches = 18.1 mm",
        wordings=(
            Wording(
                (Tool.INCH_GAUGE,),
                question="Which leaf of the inch gauge fits?",
                example="28 tpi",
                choices=(
                    ChoiceText("14 tpi", "14", "threads an inch"),
                    ChoiceText("19 tpi", "19", "threads an inch"),
                ),
            ),
        ),
    ),
    a_question(
        Feature.TAPER,
        "Does the thread grow thicker towards the hexagon?",
        minutes={"caliper": 1, "none": 0.2},
        example="0.5 mm over 8 mm",
        choices=(
            ChoiceText("parallel", "Parallel", "same thickness from end to end"),
            ChoiceText("tapered", "Tapered", "grows thicker towards the hexagon"),
        ),
    ),
    a_question(
        Feature.MARKING,
        "Is anything stamped on the end?",
        minutes={"none": 0.3},
        example="12L",
    ),
)
BEFORE = Caution(
    "release",
    "Let no pressure be in the hose.",
    (Moment.BEFORE,),
    "handbook",
    Support.COMMON_PRACTICE,
)
_UNUSED: Any = dict.fromkeys((field.name for field in fields(RuleBook)), ())  # by a screen
LIMITS = VerdictLimits(
    identified=0.98,
    risk=0.01,
    abstain=0.2,
    standing=0.01,
    suspect=0.5,
    refuted=0.1,
    against=0.1,
    medium_risk=0.25,
    named=0.1,
    shown=0.001,
    worth_bits=0.02,
    worth_share=0.0,
    nearly_as_good=0.8,
)
BOOK = RuleBook(**(_UNUSED | {"questions": QUESTIONS, "cautions": (BEFORE,), "limits": LIMITS}))


class Told(Engine):
    """Knows tables and rules but does not reason, which no screen needs."""

    def __init__(self, catalogue: Catalogue, book: RuleBook) -> None:
        self.catalogue, self.book, self.care = catalogue, book, ""

    def measured_by(self, care: str) -> "Told":
        """Return itself: whoever measures, nothing is weighed."""
        return self


ENGINE = Told(CATALOGUE, BOOK)

GENDER = Reading(Feature.GENDER, Choice("male"), How.EYE, "male")
OD = Reading(Feature.THREAD_OD, Length(20.9), How.CALIPER, "20.9 mm")
PREPARED = (Equipped(frozenset({Tool.CALIPER})), Reached(Access.END_OFF))
OFFERED = Question(
    Feature.PITCH,
    QUESTIONS[2].question,
    "Pitch decides most pairs of threads.",
    "caliper",
    1.2,
    1.0,
    "It would part the 60 deg cone from the 30 deg flare.",
)
WITH_A_GAUGE = Beyond(
    Lack.TOOL, "inch_gauge", replace(OFFERED, how="inch_gauge"), ("14 tpi", "19 tpi"), 0.6
)
GRAVE = Warning(
    "mixed",
    Effect.WARN,
    Hazard.HIGH,
    "A 30 degree flare and a 60 degree cone share this thread; mixed they blow out.",
    "because both still stand",
    "handbook",
    "common-practice",
)
SUSPECT = Suspect(
    OD,
    0.8,
    FLARE,
    'The thread diameter, "20.9 mm", does not agree with the other readings; without it another '
    "end leads.",
)


def evidence(first: float, second: float) -> tuple[Evidence, ...]:
    return (
        Evidence(Feature.GENDER, first, "male is what it shows"),
        Evidence(Feature.THREAD_OD, second, "20.90 mm lies within the 20.67 to 20.97 mm of G 1/2"),
    )


def ranked(end: EndConnection, probability: float, *twins: EndConnection) -> Ranked:
    weight = 2.5 if probability > 0.1 else -2.5
    return Ranked(end, probability, probability, end.seats[0], twins, evidence(0.8, weight))


BESIDE = Danger(
    FLARE,
    0.3,
    Hazard.HIGH,
    ("shape of the seat: convex, not concave (by eye)",),
    "Cone meets cone and blows out.",
    "handbook",
)
RANKING = (ranked(CONE, 0.62), ranked(FLARE, 0.3, FLAT), ranked(GUARD, 0.02))


def verdict(kind: VerdictKind = VerdictKind.SHORTLIST, **more: Any) -> Verdict:
    fields: dict[str, Any] = {
        "sentence": "Not identified yet. Most likely the 60 deg cone, G1/2, male (62 %).",
        "ranking": RANKING,
        "none_of_these": 0.06,
        "readings": (GENDER, OD),
        "question": OFFERED,
        "certain": (Certain(Level.THREAD, "G 1/2", 0.99),),
        "beside": (BESIDE,) if kind is VerdictKind.SHORTLIST else (),
        "cautions": ("A matching thread is not a matching connection.",),
    }
    return Verdict(kind, **(fields | more))


def state(*events: Any) -> SessionState:
    return replay((*PREPARED, *events))


HALFWAY = state(Observed(GENDER), Observed(OD))
FIRST = Question(
    Feature.GENDER, QUESTIONS[0].question, "Each thread has both.", "none", 1, 0.1, "All."
)
SNAPSHOTS = {
    "start": Snapshot(state(), verdict(readings=(), question=FIRST), saved="saved"),
    "halfway": Snapshot(HALFWAY, verdict(warnings=(GRAVE,)), saved="saved"),
    "suspect": Snapshot(HALFWAY, verdict(suspects=(SUSPECT,), warnings=(GRAVE,)), saved="saved"),
    "misread": Snapshot(
        HALFWAY, verdict(), problem='"20,4,1" is not a length; write it as 20.4 mm.', saved="saved"
    ),
    "unsaved": Snapshot(
        HALFWAY, verdict(), saved="NOT saved", trouble="Answers are not kept: the disk is full."
    ),
    "given-up": Snapshot(
        state(Observed(GENDER), Observed(OD), GivenUp(Feature.PITCH)),
        verdict(question=None, beyond=WITH_A_GAUGE),
        saved="saved",
    ),
    "identified": Snapshot(
        HALFWAY,
        verdict(
            VerdictKind.IDENTIFIED,
            sentence="Identified: the 60 deg cone, G1/2, male (98 %).",
            ranking=(ranked(CONE, 0.98), ranked(FLARE, 0.01)),
            question=None,
        ),
        saved="saved",
    ),
    "nothing-fits": Snapshot(
        HALFWAY,
        verdict(
            VerdictKind.ABSTAIN,
            sentence="No end in the tables fits these readings well.",
            none_of_these=0.9,
            question=None,
        ),
        saved="saved",
    ),
    "chosen": Snapshot(HALFWAY, verdict(), asking=Feature.THREAD_OD, saved="saved"),
    "choice": Snapshot(HALFWAY, verdict(), asking=Feature.TAPER, tool=Tool.NONE, saved="saved"),
    "tool": Snapshot(HALFWAY, verdict(), tool=Tool.INCH_GAUGE, saved="saved"),
    "unit": Snapshot(HALFWAY, verdict(), unit=1, saved="saved"),
    "once-more": Snapshot(
        HALFWAY,
        verdict(),
        asking=Feature.THREAD_OD,
        once_more=True,
        other_person=True,
        saved="saved",
    ),
}
