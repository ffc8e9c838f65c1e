"""How long the full screen takes from an answer to the next question drawn, with a full bag."""

import asyncio
import gc
import random
import statistics
import time
from collections.abc import Iterator

from textual.pilot import Pilot

from identify.entry import MADE_BETWEEN_LOOKS
from identify.interview.snapshot import ask_of
from identify.jobs.saving import Autosave
from identify.knowledge.loading import Knowledge, load_knowledge
from identify.model.rule import Access, Tool
from identify.reasoning.engine import Engine
from identify.simulation.lots import Lot
from identify.simulation.measuring import NOT_SIMULATED, observe
from identify.simulation.parts import Part
from identify.simulation.people import Person
from identify.tui import messages
from identify.tui.app import Interview
from tests.benchmark.starts import Figure, ms

SIZE = (80, 24)
BAG = frozenset(Tool) - {Tool.NONE, Tool.KNOWN_ENDS}
DRAWN_S = 0.06  # the screen draws what changed sixty times a second
READ_S = 0.8  # what a person takes to read a question at least
QUESTIONS = 6
FIGURES = QUESTIONS + 1


def redraws(knowledge: Knowledge, interviews: int, seed: int) -> Iterator[Figure]:
    """Yield the median processor time from tools to the first question, then question by question.

    Each interview is held by an application just started, as the first of its process would be
    but for imports; the parts and the person are simulated.
    """
    rng = random.Random(seed)
    lot = Lot(knowledge.catalogue, knowledge.book)
    person = Person(knowledge.book.people.observers["careful"], knowledge.book)
    before = gc.get_threshold()
    gc.set_threshold(MADE_BETWEEN_LOOKS)
    laps = [_interview(lot.draw(rng), person, rng) for _ in range(interviews)]
    gc.set_threshold(*before)
    tools = statistics.median(lap[0] for lap in laps)
    yield "tools to the first question", ms(tools), "", "under 60 ms"
    for number in range(1, QUESTIONS + 1):
        taken = [lap[number] for lap in laps if len(lap) > number]
        most = f"{ms(max(taken))} at most of {len(taken)}" if taken else ""
        median = ms(statistics.median(taken)) if taken else "-"
        yield f"answer {number} to redraw", median, most, "under 16 ms"


def _interview(part: Part, person: Person, rng: random.Random) -> list[float]:
    """Return the processor times of one interview [s]: to the first question, and each after it."""
    known = load_knowledge()  # as a start has it: nothing looked at yet
    engine = Engine(known.catalogue, known.book, known.hazards, layout=known.layout)
    app = Interview(engine, Autosave(None))
    laps: list[float] = []

    async def drawn(pilot: Pilot[int], message: object) -> None:
        await asyncio.sleep(READ_S)
        start = time.process_time()
        app.post_message(message)  # type: ignore[arg-type]
        await pilot.pause(DRAWN_S)
        laps.append(time.process_time() - start)

    async def hold() -> None:
        async with app.run_test(size=SIZE) as pilot:
            await pilot.pause()
            await drawn(pilot, messages.Prepared(BAG, Access.END_OFF, ""))
            while len(laps) <= QUESTIONS:
                ask = ask_of(app.snapshot, engine.book)
                if ask is None:
                    break
                feature = ask.text.feature
                typed = ""
                if feature not in NOT_SIMULATED:
                    found = observe(rng, part, feature, person, ask.tool)
                    typed = found.entered if found else ""
                await drawn(
                    pilot,
                    messages.Answered(feature, typed) if typed else messages.CannotTell(feature),
                )

    asyncio.run(hold())
    return laps
