"""README and DEVELOPERS tell the truth: their outputs, the screen, the table of twins, commands."""

import importlib.util
import re
from pathlib import Path

import pytest

from identify.entry import COMMANDS, main
from identify.model.feature import Feature

ROOT = Path(__file__).resolve().parent.parent


@pytest.fixture(scope="module")
def readme():
    return (ROOT / "README.md").read_text(encoding="utf-8")


def test_outputs_shown_are_those_printed(readme):
    spec = importlib.util.spec_from_file_location("readme_maker", ROOT / ".ci" / "readme.py")
    maker = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(maker)
    developers = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for text in (readme, developers):
        assert maker.renewed(text) == text, "run: python .ci/readme.py"


def test_every_command_is_documented(readme):
    for name in COMMANDS:
        assert name == "ask" or f"whichend {name}" in readme, name


def test_every_reading_stands_in_the_help_of_rank(capsys):
    with pytest.raises(SystemExit):
        main(["rank", "--help"])
    printed = capsys.readouterr().out
    for feature in Feature:
        assert f"\n  {feature} " in printed, feature


def test_the_readme_is_short(readme):
    assert len(readme.splitlines()) <= 150


def test_each_one_line_command_is_one_line(readme):
    for marker in ("the start command", "the test command"):
        block = re.search(rf"<!-- {marker} -->\n```sh\n(.*?)\n```", readme, re.S)
        assert block, marker
        assert "\n" not in block[1]
