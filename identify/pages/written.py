"""The verdict as a text file: over a remote line the clipboard cannot be relied on."""

from datetime import datetime
from pathlib import Path

from identify.files import reason, write_new
from identify.interview.session import SessionState
from identify.model.feature import FEATURES
from identify.model.verdict import Verdict
from identify.pages.blocks import BLANK, Block, dashed
from identify.pages.claim import claims_blocks
from identify.pages.text import text_of
from identify.pages.verdict import verdict_text
from identify.pages.words import said
from identify.reasoning.engine import Engine
from identify.transliterate import inert


def write_verdict(engine: Engine, state: SessionState, verdict: Verdict) -> str:
    """Write what was answered and what follows from it beside where the program was started.

    Returns:
        Where the new file lies, or why it could not be written, in a sentence.
    """
    now = datetime.now().astimezone()
    answers = [
        dashed(f"{FEATURES[each.feature].title}: {said(each, engine.book.question(each.feature))}")
        for each in state.readings
    ] or [dashed("none")]
    head = [Block(f"whichend, {now:%Y-%m-%d %H:%M}"), BLANK, Block("Answers"), *answers, BLANK]
    text = text_of(head) + verdict_text(engine, verdict, whole=True)
    if claims := claims_blocks(engine, state, verdict):
        text += "\n" + text_of(claims)
    first = path = Path.cwd() / f"whichend-{now:%Y%m%d-%H%M%S}.txt"
    number = 1
    while True:
        try:
            write_new(path, [inert(text)])
            return f"Written: {path}"
        except FileExistsError:
            number += 1
            path = first.with_stem(f"{first.stem}-{number}")
        except OSError as error:
            why = reason(error)
            return f"{path} cannot be written ({why}). Start whichend in a folder of your own."
