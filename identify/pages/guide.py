"""A guided example. The ship, the machine and the reading of every value are invented."""

from identify.frozen import dataclass
from identify.model.feature import Feature
from identify.model.verdict import Verdict, percent
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.words import bar, end_words, likely_words

_BAR = 20


@dataclass(frozen=True, slots=True)
class Step:
    """One answer of the example: what happens, and what is typed."""

    story: str
    feature: Feature
    typed: str


OPENING = (
    "MV Tern, a small ferry (invented). A hose on the anchor windlass weeps. Nobody knows what "
    "its end is called. The pump is stopped, the anchor is on its chain stopper, the gauge shows "
    "no pressure, the hose is off. To hand: a caliper and a lamp."
)
STEPS = (
    Step(
        "The thread is on the outside of the end. That is a male, whatever the nut behind it "
        "looks like.",
        Feature.GENDER,
        "male",
    ),
    Step(
        "The caliper lies across the crests of the third thread and reads 20.9. This is no trade "
        "size: half-inch pipe measures about 21 mm.",
        Feature.THREAD_OD,
        "20.9 mm",
    ),
    Step(
        "No pitch gauge on board. From one crest to the tenth after it the caliper reads 18.1. "
        "Eleven crests, ten gaps.",
        Feature.PITCH,
        "10 pitches = 18.1 mm",
    ),
    Step(
        "Near the end of the thread the crest reads 20.90, near the hexagon 20.89, 8 mm further "
        "on. A pipe taper would have grown half a millimetre. It is parallel.",
        Feature.TAPER,
        "0.01 mm over 8 mm",
    ),
    Step(
        "The lamp shines into the nose: a funnel goes in. The thread only holds; the seat seals.",
        Feature.SEAT_SHAPE,
        "concave",
    ),
    Step(
        "The 60 degree seat gauge sits in it without rocking. It is marked from side to side: that "
        "is the included angle; from the middle line it would be 30, the half.",
        Feature.SEAT_ANGLE,
        "60 deg included by gauge",
    ),
)


def step_blocks(number: int, verdicts: tuple[Verdict, ...]) -> list[Block]:
    """Return one step: the story, what was typed, and what then leads.

    Args:
        number: 0 for the opening, then one for each step.
        verdicts: What was concluded after no answer, the first, the second …
    """
    blocks: list[Block] = []
    if number == 0:
        blocks += [Block(OPENING), BLANK]
    else:
        step = STEPS[number - 1]
        blocks += [Block(step.story), BLANK, Block(f"Typed: {step.typed}", Tone.HEAD)]
    verdict = verdicts[number]
    if verdict.readings:
        blocks += [BLANK, Block("Now in front", Tone.HEAD)]
        for each in verdict.ranking[:3]:
            words = f"{percent(each.probability):>5} {bar(each.probability, _BAR)}"
            blocks.append(Block(f"{words} {likely_words(each.probability)}"))
            blocks.append(Block(end_words(each.end), mark="      "))
        blocks += [BLANK, Block(verdict.sentence)]
    blocks.append(BLANK)
    if number < len(STEPS) and verdict.question:
        blocks.append(Block(f"Asked next: {verdict.question.text}"))
    elif number == len(STEPS):
        blocks.append(Block("That was the example; nothing of it is kept. b goes back."))
    return blocks
