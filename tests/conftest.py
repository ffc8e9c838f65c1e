"""What all tests share: one engine over the shipped tables."""

import pytest

from identify.reasoning.engine import Engine
from tests.shipped import shipped_engine


@pytest.fixture(scope="session")
def engine() -> Engine:
    """Return the engine over the shipped tables and rules; tests must not change it."""
    return shipped_engine()
