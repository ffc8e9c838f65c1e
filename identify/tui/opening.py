"""Which screen a name means, with what it needs to be drawn."""

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from identify.interview.session import Observed, conclude, replay
from identify.interview.snapshot import Snapshot
from identify.model.connection import EndConnection
from identify.model.verdict import Verdict
from identify.pages.guide import STEPS
from identify.pages.reasons import WhyNot
from identify.reading.parse import reading_from
from identify.reasoning.engine import Engine
from identify.reasoning.hazards import Hazards
from identify.reasoning.lookalikes import lookalikes_of
from identify.reasoning.mating import mates_of
from identify.reasoning.posterior import evidence
from identify.tui.keeping import jobs_found, open_sheet_page
from identify.tui.screens.base import Face
from identify.tui.screens.choosing import AnswersScreen, OnwardScreen, ToolsScreen
from identify.tui.screens.drawings import OverlayScreen, PictureScreen
from identify.tui.screens.entry import ClaimScreen, GuessScreen, ShortScreen
from identify.tui.screens.jobs import JobsScreen
from identify.tui.screens.reading import (
    EndScreen,
    GuideScreen,
    HelpScreen,
    LookalikesScreen,
    VerdictScreen,
    WhyNotScreen,
    WhyScreen,
)
from identify.tui.screens.search import TablesScreen, WhyNotSearchScreen
from identify.tui.screens.words import WordScreen, WordsScreen

if TYPE_CHECKING:
    from identify.tui.holding import Holding


def screen_named(app: "Holding", name: str, end: str = "") -> Face | None:
    """Return the screen of a name; None where it would have nothing to show yet.

    Args:
        app: For engine, tables and the present snapshot.
        name: As in `Opened`.
        end: The id of the end it is about; of two for an overlay, parted by a blank;
            for jobs what was typed.
    """
    return _MAKE[name](app, end)


def _tools(app: "Holding") -> Face:
    state = app.snapshot.state
    return ToolsScreen(app.engine, app.snapshot, state.tools, state.care)


def _end(app: "Holding", name: str) -> Face:
    end = app.engine.catalogue.by_id[name]
    return EndScreen(
        app.engine, app.snapshot, end, mates_of(app.engine.catalogue, end, app.engine.book)
    )


def _picture(app: "Holding", name: str) -> Face | None:
    lead = app.leader
    end = app.engine.catalogue.by_id[name] if name else lead
    return PictureScreen(app.engine, app.snapshot, end, app.style) if end else None


def _lookalikes(app: "Holding", _: str) -> Face | None:
    end = app.leader
    if end is None:
        return None
    engine = app.engine
    hazards = Hazards(engine.catalogue)
    found = lookalikes_of(engine.catalogue, end, engine.book.observation, hazards)
    return LookalikesScreen(app.engine, app.snapshot, end, found)


def _verdict(app: "Holding", _: str) -> Face:
    end = app.leader
    mates = mates_of(app.engine.catalogue, end, app.engine.book) if end else None
    return VerdictScreen(app.engine, app.snapshot, mates)


def _why_not(app: "Holding", name: str) -> Face:
    end = app.engine.catalogue.by_id[name]
    return WhyNotScreen(app.engine, app.snapshot, why_not(app.engine, app.snapshot, end))


def _overlay(app: "Holding", names: str) -> Face:
    one, other = names.split(" ")
    return OverlayScreen(app.engine, app.snapshot, one, other, app.style)


def _words(app: "Holding", _: str) -> Face:
    from identify.knowledge.glossary_tables import load_glossary  # read when first asked for

    return WordsScreen(app.engine, app.snapshot, load_glossary())


def _word(app: "Holding", pick: str) -> Face:
    from identify.knowledge.glossary_tables import load_glossary

    return WordScreen(app.engine, app.snapshot, load_glossary(), pick, app.style)


def _onward(app: "Holding") -> Face:
    kept = app.autosave
    end, hose = kept.next_place(), kept.next_place(hose=True)
    return OnwardScreen(app.engine, app.snapshot, kept.place, end, hose)


_MAKE: dict[str, Callable[["Holding", str], Face | None]] = {
    "help": lambda app, _: HelpScreen(app.engine, app.snapshot),
    "tools": lambda app, _: _tools(app),
    "onward": lambda app, _: _onward(app),
    "answers": lambda app, _: AnswersScreen(app.engine, app.snapshot),
    "why": lambda app, _: WhyScreen(app.engine, app.snapshot),
    "why_not": lambda app, _: WhyNotSearchScreen(app.engine, app.snapshot),
    "why_not_end": _why_not,
    "lookalikes": _lookalikes,
    "overlay": _overlay,
    "tables": lambda app, _: TablesScreen(app.engine, app.snapshot),
    "end": _end,
    "picture": _picture,
    "verdict": _verdict,
    "words": _words,
    "word": _word,
    "jobs": lambda app, typed: JobsScreen(
        app.engine, app.snapshot, partial(jobs_found, app), typed
    ),
    "sheet_page": open_sheet_page,
    "short": lambda app, _: ShortScreen(app.engine, app.snapshot),
    "claims": lambda app, _: ClaimScreen(app.engine, app.snapshot),
    "guess": lambda app, _: GuessScreen(app.engine, app.snapshot),
    "guide": lambda app, _: GuideScreen(app.engine, app.snapshot, example(app.engine)),
}


def why_not(engine: Engine, snapshot: Snapshot, end: EndConnection) -> WhyNot:
    """Return what the readings say of one end."""
    posterior = engine.posterior(snapshot.state.readings)
    row = engine.catalogue.row_of[end.id]
    ranking = snapshot.verdict.ranking
    leader = ranking[0] if ranking and snapshot.verdict.readings else None
    return WhyNot(end, posterior.rows[row], evidence(posterior, row), leader)


def example(engine: Engine) -> tuple[Verdict, ...]:
    """Return the verdicts of the guided example: before it, and after each step."""
    events = [Observed(reading_from(step.feature, step.typed)) for step in STEPS]
    return tuple(conclude(engine, replay(events[:done])) for done in range(len(STEPS) + 1))
