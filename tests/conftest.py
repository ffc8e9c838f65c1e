"""What all tests share: one engine over the shipped tables."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from identify.reasoning.engine import Engine
from tests.shipped import shipped_engine


@pytest.fixture(scope="session", autouse=True)
def _nothing_is_written_here() -> Iterator[None]:
    """A verdict is written where the program runs; a test that writes one has its own folder."""
    before = set(Path.cwd().glob("whichend-*"))
    yield
    assert set(Path.cwd().glob("whichend-*")) == before


@pytest.fixture(scope="session")
def engine() -> Engine:
    """Return the engine over the shipped tables and rules; tests must not change it."""
    return shipped_engine()
