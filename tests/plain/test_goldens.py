"""Whole dialogues of three people, word for word; `dialogues/NAME.in` is what they type.

After a wanted change run `python tests/plain/test_goldens.py`, read the files aloud, commit them.
"""

import re
import sys
import tempfile
from pathlib import Path

import pytest

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.plain.talk import hold

FOLDER = Path(__file__).parent / "dialogues"
NAMES = ("engineer", "trainee", "counter-hand")


def spoken(name: str, folder: Path) -> str:
    """Return all that is said in one dialogue."""
    said = hold(folder, *(FOLDER / f"{name}.in").read_text().splitlines())[0]
    return re.sub(rf"{re.escape(str(folder))}/\d{{4}}-\d\d", "FOLDER/MONTH", said)


@pytest.mark.parametrize("name", NAMES)
def test_the_dialogue_says_what_it_said(name, tmp_path):
    assert spoken(name, tmp_path) == (FOLDER / f"{name}.out").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", NAMES)
def test_no_line_is_wider_than_80_columns_but_for_a_word(name):
    said = (FOLDER / f"{name}.out").read_text(encoding="utf-8")
    assert [line for line in said.splitlines() if len(line) > 80] == []


if __name__ == "__main__":
    for each in NAMES:
        with tempfile.TemporaryDirectory() as scratch:
            text = spoken(each, Path(scratch))
        (FOLDER / f"{each}.out").write_text(text, encoding="utf-8")
