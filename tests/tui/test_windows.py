"""A window that is made too small and large again, with every key pressed, on every screen."""

import asyncio
import string
from collections.abc import Callable

import pytest
from textual.app import App
from textual.events import Key, Paste
from textual.message import Message

from identify.tui.messages import Left
from identify.tui.screens.base import Face
from tests.tui.stage import REPORTED, Stage, settle
from tests.tui.test_goldens import SCREENS

SMALL = ((35, 24), (20, 8))  # `python -m tests.torture screen` tries many more
KEYS = [
    *string.digits, *string.ascii_lowercase, "enter", "backspace", "escape", "space", "up", "down",
    "left", "right", "pageup", "pagedown", "home", "end", "tab", "delete", "question_mark", "slash",
]  # fmt: skip

CHARACTERS = {"enter": "\r", "space": " ", "question_mark": "?", "slash": "/", "tab": "\t"}


def press(app: App[object], *keys: str) -> None:
    """Hand keys to the screen in front, one after the other and without waiting for each."""
    for key in keys:
        character = CHARACTERS.get(key, key if len(key) == 1 else None)
        app.screen.post_message(Key(key, character))


def pressed(make: Callable[[], Face], before: tuple[str, ...]) -> tuple[list[Message], int]:
    """Press every key on a screen in windows too small, then once more in a large one.

    Returns what was reported while the window was too small, and how much in the large one.
    """
    found: list[Message] = []

    def hook(message: Message) -> None:
        if isinstance(message, REPORTED) and not any(message is each for each in found):
            found.append(message)

    async def play() -> tuple[list[Message], int]:
        async with Stage(make()).run_test(size=(80, 24), message_hook=hook) as pilot:
            await settle(pilot)
            await pilot.press(*before)
            for size in SMALL:
                found.clear()
                await pilot.resize_terminal(*size)
                press(pilot.app, *(key for key in KEYS if key != "q"))
                pilot.app.screen.post_message(Paste("20.9"))
                await settle(pilot)
                if found:
                    return found, 0
            press(pilot.app, "q")
            await settle(pilot)
            small = list(found)
            await pilot.resize_terminal(120, 40)
            press(pilot.app, *KEYS)
            await settle(pilot)
            return small, len(found) - len(small)

    return asyncio.run(play())


@pytest.mark.parametrize("name", SCREENS)
def test_no_key_means_anything_but_q_while_the_window_is_too_small(name: str) -> None:
    make, before = SCREENS[name]
    small, large = pressed(make, before)
    assert [type(each) for each in small] == [Left]
    assert large > 0
