"""The mutation of tables makes the slips it names, and a small sample of them is noticed."""

import random

import pytest

from tests.mutation.code import mutants as code_mutants
from tests.mutation.figures import mutants
from tests.mutation.tables import UNNOTICED, Tables, noticed_by

TEXT = """sizes:
  - {size: "6L", tube_od: "12 mm", bore: "13 mm", half_angle: "12 deg"}
  - {size: "8L", tube_od: "15 mm", source: invented}
"""


@pytest.mark.parametrize(
    ("kind", "old", "new"),
    [
        ("digit off by one", "12 mm", "13 mm"),
        ("digits transposed", "12 mm", "21 mm"),
        ("moved a little", "12 mm", "12.1 mm"),
        ("neighbouring size", "12 mm", "15 mm"),
        ("min and max exchanged", "12 mm", "13 mm"),
        ("L for S", "6L", "6S"),
        ("angle basis flipped", "12 deg", "24 deg"),
        ("angle exchanged", "12 deg", "37 deg"),
        ("source dropped", "invented", ""),
    ],
)
def test_slip_is_made_once_in_its_place(kind: str, old: str, new: str) -> None:
    made = [m for m in mutants(TEXT) if (m.kind, m.old, m.new) == (kind, old, new)]
    assert len(made) == 1
    assert made[0].text != TEXT
    assert new in made[0].text
    assert made[0].line == (3 if kind == "source dropped" else 2)


def test_slips_of_figures_are_noticed() -> None:
    """One of each family: the whole run is `python -m tests.mutation.tables`."""
    tables, dice = Tables.read(), random.Random(3)
    missed = 0
    for name, text in tables.texts.items():
        slips = [m for m in mutants(text) if m.kind == "neighbouring size"]
        if slips and noticed_by(tables, name, dice.choice(slips).text) == UNNOTICED:
            missed += 1
    assert missed <= 1


def test_unchanged_table_is_not_noticed() -> None:
    tables = Tables.read()
    name, text = next(iter(tables.texts.items()))
    assert noticed_by(tables, name, text) == UNNOTICED


def test_code_is_changed_in_one_place() -> None:
    words = [
        words for _, words, _ in code_mutants("def f(x: int = 2) -> bool:\n    return x < 3\n")
    ]
    assert sorted(words) == ["2 -> more", "3 -> more", "Lt -> LtE"]
