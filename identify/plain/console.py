"""Lines out, lines in: no cursor movement, no colour, nothing that can stop on a strange byte."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping

from identify.errors import OutputError
from identify.files import reason
from identify.frozen import TYPE_CHECKING
from identify.pages.blocks import Block
from identify.pages.text import text_of, wrap
from identify.transliterate import prepare

if TYPE_CHECKING:
    from typing import TextIO

    from identify.jobs.facts import Place
    from identify.jobs.journal import Kept


LONGEST = 1000  # characters of a line that are looked at
PROMPT = "> "


class Stopped(Exception):  # noqa: N818 - no error: the person asked to stop, or the input ended
    """There is nothing more to hear."""


class Wanted(Exception):  # noqa: N818 - no error: something else than was asked
    """An end of another job is wanted than what was asked; `what` is that job, and its end."""

    def __init__(self, what: tuple[Kept, Place]) -> None:
        self.what = what


class Console:
    """Speaks on one text stream and listens on another.

    What is heard is echoed where nobody typed it on this terminal, so that the output of a script
    reads like a dialogue.
    """

    def __init__(
        self, heard: TextIO, spoken: TextIO, environ: Mapping[str, str] | None = None
    ) -> None:
        self.heard, self.spoken = heard, spoken
        self.typed = heard.isatty()
        self.offers: Mapping[str, tuple[Kept, Place]] = {}  # lines that want an end of a job
        self.finders: list[Callable[[str], str]] = []  # what to say to a line, and hear again
        prepare(spoken, os.environ if environ is None else environ)
        if hasattr(heard, "reconfigure"):
            heard.reconfigure(errors="replace")

    def say(self, text: str = "", head: str = "") -> None:
        """Say one paragraph, `head` before its first line."""
        self.tell("\n".join(wrap(text, head=head)))

    def show(self, blocks: Iterable[Block]) -> None:
        """Say a page; what can be picked is numbered from 1."""
        self.tell(text_of(blocks, numbered=True))

    def tell(self, block: str) -> None:
        """Say text that is set already."""
        self.spoken.write(block.rstrip("\n") + "\n")

    def hear(self) -> str:
        """Return the next line without the space round it; one that a finder answers is not it.

        Raises:
            Stopped: The input is at its end.
            Wanted: It is one of `offers`.
            OutputError: It cannot be read.
        """
        while True:
            line = self._heard()
            if line.lower() in self.offers:
                raise Wanted(self.offers[line.lower()])
            told = self._told(line)
            if not told:
                return line
            self.tell(told)

    def _told(self, line: str) -> str:
        return next(filter(None, (finder(line) for finder in self.finders)), "")

    def _heard(self) -> str:
        self.spoken.write(PROMPT)
        self.spoken.flush()
        try:
            line = self.heard.readline(LONGEST)
            if line and not line.endswith("\n"):  # overlong, or the last: no more is looked at
                while (rest := self.heard.readline(LONGEST)) and not rest.endswith("\n"):
                    pass
        except OSError as error:
            raise OutputError(f"standard input cannot be read ({reason(error)}).") from None
        if not self.typed or not line:
            self.tell("".join(c if c.isprintable() else "?" for c in line.strip()))
        if not line:
            raise Stopped
        return line.strip()
