"""Whatever is typed, in whatever order, the dialogue goes on and the disk agrees with it."""

import contextlib
import tempfile
from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from identify.interview.session import replay
from identify.jobs.saving import Autosave
from identify.jobs.shelf import unfinished
from tests.plain.talk import engine, hold

KEYS = ("0", "1", "2", "3", "4", "5", "b", "?", "a", "t", "v", "r", "w", "x", "", "12")
VALUES = (
    "18.9 mm", "10 pitches = 15.9 mm", "14 tpi", "37 deg half", "0.5 mm over 8 mm", "13/16 in",
    "27 mm", "M16x1.5", "G 1/4 female: binds after 3 turns", "unknown", "none", "1 3",
)  # fmt: skip
ANSWERS = st.sampled_from(KEYS + VALUES)
LINES = st.lists(ANSWERS | st.text(max_size=12).map(lambda t: " ".join(t.split())), max_size=14)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(LINES)
def test_nothing_typed_stops_it_or_is_lost(lines):
    with tempfile.TemporaryDirectory() as scratch, contextlib.chdir(scratch):
        said, dialogue = hold(Path(scratch), "1", "1", *(line for line in lines if line != "q"))
        assert said.count("\nCautions\n") >= 1
        features = [each.feature for each in dialogue.state.answers]
        assert len(features) == len(set(features))
        assert not dialogue.state.given_up & set(features)
        if kept := unfinished(Path(scratch)):
            assert replay(kept[0].events) == dialogue.state
        assert isinstance(dialogue.autosave, Autosave)
        assert dialogue.engine is engine()
