"""Which screen a name means, with what it needs to be drawn."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from identify.reasoning.lookalikes import lookalikes_of
from identify.reasoning.mating import mates_of
from identify.tui.inquiry import example, why_not
from identify.tui.screens.answers import AnswersScreen
from identify.tui.screens.base import Face
from identify.tui.screens.browse import TablesScreen, WhyNotSearchScreen
from identify.tui.screens.drawings import OverlayScreen, PictureScreen
from identify.tui.screens.guide import GuideScreen
from identify.tui.screens.reading import (
    EndScreen,
    HelpScreen,
    LookalikesScreen,
    VerdictScreen,
    WhyNotScreen,
    WhyScreen,
)
from identify.tui.screens.tools import ToolsScreen

if TYPE_CHECKING:
    from identify.tui.app import Interview


def screen_named(app: "Interview", name: str, end: str = "") -> Face | None:
    """Return the screen of a name; None where it would have nothing to show yet.

    Args:
        app: For engine, tables and the present snapshot.
        name: As in `Opened`.
        end: The id of the end it is about; of two for an overlay, parted by a blank.
    """
    return _MAKE[name](app, end)


def _end(app: "Interview", name: str) -> Face:
    return EndScreen(app.reference, app.snapshot, app.engine.catalogue.by_id[name])


def _picture(app: "Interview", name: str) -> Face | None:
    lead = app.leader
    end = app.engine.catalogue.by_id[name] if name else lead
    return PictureScreen(app.reference, app.snapshot, end, app.style) if end else None


def _lookalikes(app: "Interview", _: str) -> Face | None:
    end = app.leader
    if end is None:
        return None
    found = lookalikes_of(app.engine.catalogue, end)
    return LookalikesScreen(app.reference, app.snapshot, end, found)


def _verdict(app: "Interview", _: str) -> Face:
    end = app.leader
    mates = mates_of(app.engine.catalogue, end) if end else None
    return VerdictScreen(app.reference, app.snapshot, mates)


def _why_not(app: "Interview", name: str) -> Face:
    end = app.engine.catalogue.by_id[name]
    return WhyNotScreen(app.reference, app.snapshot, why_not(app.engine, app.snapshot, end))


def _overlay(app: "Interview", names: str) -> Face:
    one, other = names.split(" ")
    return OverlayScreen(app.reference, app.snapshot, one, other, app.style)


_MAKE: dict[str, Callable[["Interview", str], Face | None]] = {
    "help": lambda app, _: HelpScreen(app.reference, app.snapshot),
    "tools": lambda app, _: ToolsScreen(app.reference, app.snapshot, app.snapshot.state.tools),
    "answers": lambda app, _: AnswersScreen(app.reference, app.snapshot),
    "why": lambda app, _: WhyScreen(app.reference, app.snapshot),
    "why_not": lambda app, _: WhyNotSearchScreen(app.reference, app.snapshot),
    "why_not_end": _why_not,
    "lookalikes": _lookalikes,
    "overlay": _overlay,
    "tables": lambda app, _: TablesScreen(app.reference, app.snapshot),
    "end": _end,
    "picture": _picture,
    "verdict": _verdict,
    "guide": lambda app, _: GuideScreen(app.reference, app.snapshot, example(app.engine)),
}
