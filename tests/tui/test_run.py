"""What `run` refuses before the screen is touched."""

from pathlib import Path

import pytest

from identify.errors import RecordError, WhichendError
from identify.jobs.saving import Autosave
from identify.jobs.shelf import last_unfinished
from identify.reasoning.engine import Engine
from identify.tui import run


def test_colours_that_do_not_exist_are_named(engine: Engine) -> None:
    with pytest.raises(WhichendError, match=r'"pink" is no set .* dark, sunlight, terminal'):
        run.run(engine, Autosave(None), theme="pink")


def test_nothing_to_resume_is_said(engine: Engine, tmp_path: Path) -> None:
    with pytest.raises(RecordError, match="no unfinished interview"):
        last_unfinished(engine, tmp_path, True)
