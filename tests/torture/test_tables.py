"""A sample of `python -m tests.torture tables`."""

import random
from pathlib import Path

import pytest

from identify.knowledge import rulebook, table_files
from tests.torture.tables import SPOILT, harmed

SMALL = Path(__file__).parents[1] / "bad_tables" / "base"
RULES = [name for name in SPOILT if "rules" in name]
SAMPLE = random.Random(5).sample(RULES, 6)


def test_there_are_at_least_sixty() -> None:
    assert len(SPOILT) >= 60


@pytest.mark.parametrize("name", [name for name in SPOILT if name not in RULES])
def test_spoilt_tables_get_their_sentence(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Beside shipped tables of a few lines, and without rules, which take a second to check."""
    monkeypatch.setattr(table_files, "data_dir", lambda name: SMALL)
    monkeypatch.setattr(rulebook, "build_rulebook", lambda *_: None)
    assert harmed(tmp_path, name) is None


@pytest.mark.parametrize("name", SAMPLE)
def test_spoilt_rules_get_their_sentence(name: str, tmp_path: Path) -> None:
    assert harmed(tmp_path, name) is None
