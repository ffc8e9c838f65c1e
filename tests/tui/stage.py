"""Shows one screen with a state built by hand, and keeps what it reports."""

import asyncio
from collections.abc import Callable

from textual.app import App
from textual.message import Message
from textual.pilot import Pilot

from identify.tui import messages, themes
from identify.tui.app import Interview
from identify.tui.screens.base import Face

REPORTED = tuple(
    kind
    for kind in vars(messages).values()
    if isinstance(kind, type) and issubclass(kind, Message) and kind is not Message
)


class Stage(App[None]):
    """An app without an engine: it draws, and answers to nothing."""

    ENABLE_COMMAND_PALETTE = False
    HORIZONTAL_BREAKPOINTS = Interview.HORIZONTAL_BREAKPOINTS
    VERTICAL_BREAKPOINTS = Interview.VERTICAL_BREAKPOINTS
    CSS = Interview.CSS

    def __init__(self, face: Face) -> None:
        super().__init__()
        for theme in themes.THEMES:
            self.register_theme(theme)
        self.theme = "dark"
        self.face = face

    def on_mount(self) -> None:
        self.push_screen(self.face)


def text_of(app: App[object]) -> str:
    """Return the rows on the screen; the one place that looks into the library's compositor."""
    rows = app.screen._compositor.render_strips()
    return "\n".join("".join(part.text for part in row).rstrip() for row in rows) + "\n"


def shown(make: Callable[[], Face], size: tuple[int, int], *keys: str) -> str:
    """Return what a screen looks like after some keys."""
    return perform(make, size, *keys)[0]


def perform(
    make: Callable[[], Face], size: tuple[int, int], *keys: str
) -> tuple[str, list[Message]]:
    """Return what a screen looks like after some keys, and what it reported."""
    found: list[Message] = []

    def hook(message: Message) -> None:
        if isinstance(message, REPORTED) and not any(message is each for each in found):
            found.append(message)

    async def play() -> str:
        app = Stage(make())
        async with app.run_test(size=size, message_hook=hook) as pilot:
            await settle(pilot)
            await pilot.press(*keys)
            await settle(pilot)
            return text_of(app)

    return asyncio.run(play()), found


async def settle(pilot: "Pilot[object]") -> None:
    """Wait until a change of size has gone round."""
    await pilot.pause()
    await pilot.pause()
