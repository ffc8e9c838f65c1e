"""A hand at the counter: ten samples in a row on the full screen, every key counted."""

import asyncio
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from textual.pilot import Pilot

from identify.interview.bare import whole_leaf
from identify.interview.habits import Habits
from identify.interview.snapshot import ask_of
from identify.jobs.saving import Autosave
from identify.model.verdict import VerdictKind, percent
from identify.tui.app import Interview
from identify.tui.screens.reading import VerdictScreen
from tests.counter.samples import TOOLS, Sample
from tests.shipped import shipped_engine
from tests.tui.stage import settle

KEY_NAMES = {"\n": "enter", ".": "full_stop", " ": "space", "/": "slash"}
NEXT_JOB = "n2"
LABEL = "l"


@dataclass
class Taken:
    """One sample: what was pressed from its first question to its verdict, and what came of it."""

    sample: Sample
    keys: str = ""
    asked: list[str] = field(default_factory=list)
    verdict: str = ""
    right: bool = False
    label: str = ""  # what the program said of the label


def take(folder: Path, samples: Sequence[Sample]) -> list[Taken]:
    """Take samples one after another, each as a job of its own, with a label of each."""
    habits = Habits(tools=TOOLS)
    app = Interview(shipped_engine(), Autosave(folder), habits)
    out: list[Taken] = []

    async def morning() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            inches = False
            for sample in samples:
                taken = Taken(sample)
                await _press(pilot, taken, NEXT_JOB if out else "1")
                taken.keys = ""  # from its first question on
                await _measure(pilot, app, taken, turn=sample.inches != inches)
                inches = sample.inches
                await _label(pilot, app, taken)
                out.append(taken)
        app.autosave.let_go()

    asyncio.run(morning())
    return out


async def _press(pilot: Pilot[int], taken: Taken, keys: str) -> None:
    for key in keys:
        await pilot.press(KEY_NAMES.get(key, key))
    await settle(pilot)
    taken.keys += keys


async def _measure(pilot: Pilot[int], app: Interview, taken: Taken, *, turn: bool) -> None:
    """Answer what is asked until the verdict stands on the screen."""
    while not isinstance(app.screen, VerdictScreen):
        ask = ask_of(app.snapshot, app.engine.book)
        if ask is None:
            await _press(pilot, taken, "\n")
            continue
        taken.asked.append(ask.text.feature)
        keys = taken.sample.keys(ask)
        if turn and "." in keys and not ask.by_value:  # the first length in the other unit
            keys, turn = f"u{keys}", False
        if ask.by_value and whole_leaf(ask, keys.strip(), TOOLS):
            keys = keys.strip()  # it is sent by its last figure
        await _press(pilot, taken, keys or ("0\n" if ask.measured else "0"))
    verdict = app.snapshot.verdict
    leader = verdict.ranking[0]
    names = (leader.end.id, *(twin.id for twin in leader.twins))
    taken.right = verdict.kind is VerdictKind.IDENTIFIED and taken.sample.end in names
    taken.verdict = f"{verdict.kind}: {leader.end.id} {percent(leader.probability)}"


async def _label(pilot: Pilot[int], app: Interview, taken: Taken) -> None:
    await pilot.press(LABEL)
    await settle(pilot)
    taken.label = app.snapshot.note
