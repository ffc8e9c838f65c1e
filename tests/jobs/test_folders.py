"""Where jobs are kept, against what `platformdirs` says of the same surroundings."""

import sys
from itertools import product
from pathlib import Path

import platformdirs
import pytest

from identify.jobs.folders import folder_path, interviews_folder, state_folder

HOMES = ["/home/somebody", "/", "relative"]
TOLD = [None, "", "/state", "/state/", "relative", "~/state", " "]


@pytest.mark.skipif(sys.platform in ("win32", "darwin"), reason="the library is asked there")
@pytest.mark.parametrize(("told", "home"), list(product(TOLD, HOMES)))
def test_it_is_where_the_library_says(
    told: str | None, home: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", home)
    monkeypatch.delenv("XDG_STATE_HOME", raising=False)
    if told is not None:
        monkeypatch.setenv("XDG_STATE_HOME", told)
    assert folder_path(state_folder()) == platformdirs.user_state_path("whichend", appauthor=False)
    assert folder_path(interviews_folder()) == Path(state_folder()) / "interviews"


def test_without_a_home_there_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    def unknown(*_: object, **__: object) -> Path:
        raise RuntimeError

    monkeypatch.delenv("XDG_STATE_HOME", raising=False)
    monkeypatch.setenv("HOME", "")
    monkeypatch.setattr(platformdirs, "user_state_path", unknown)
    assert state_folder() == interviews_folder() == ""
    assert folder_path("") is None
