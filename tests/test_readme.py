"""The README tells the truth: its outputs, its screen, its table of families, its commands."""

import importlib.util
import re
from pathlib import Path

import pytest

from identify.entry import COMMANDS
from identify.model.feature import Feature

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def readme():
    return (ROOT / "README.md").read_text(encoding="utf-8")


def test_outputs_shown_are_those_printed(readme):
    spec = importlib.util.spec_from_file_location("readme_maker", ROOT / ".ci" / "readme.py")
    maker = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(maker)
    assert maker.renewed(readme) == readme, "run: python .ci/readme.py"


def test_every_command_and_reading_is_documented(readme):
    for name in COMMANDS:
        assert name == "ask" or f"whichend {name}" in readme, name
    for feature in Feature:
        assert f"`{feature}`" in readme, feature


def test_each_one_line_command_is_one_line(readme):
    for marker in ("the start command", "the test command"):
        block = re.search(rf"<!-- {marker} -->\n```sh\n(.*?)\n```", readme, re.S)
        assert block, marker
        assert "\n" not in block[1]
