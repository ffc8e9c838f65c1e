"""Every law of a verdict holds of the engine as it is, and of the one that sums by numpy."""

import pytest

from identify.reasoning.engine import Engine
from tests.shipped import array_engine, shipped_engine


@pytest.fixture(scope="session", params=["plain", "arrays"])
def engine(request: pytest.FixtureRequest) -> Engine:
    """Return an engine over the shipped tables and rules; tests must not change it."""
    return shipped_engine() if request.param == "plain" else array_engine()
