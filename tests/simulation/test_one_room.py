"""Parts and the habits of people are made in one room; practice and measurement share it."""

import ast
from pathlib import Path

ROOT = Path(__file__).parents[2]
NOISE = {"gauss", "normalvariate", "lognormvariate", "triangular", "betavariate", "expovariate"}


def noisy(path: Path) -> bool:
    tree = ast.parse(path.read_text("utf-8"))
    return any(isinstance(node, ast.Attribute) and node.attr in NOISE for node in ast.walk(tree))


def test_noise_is_added_to_a_measure_in_the_room_of_the_simulation_alone() -> None:
    room = ROOT / "identify" / "simulation"
    found = {path for path in (ROOT / "identify").rglob("*.py") if noisy(path)}
    assert found
    assert all(room in path.parents for path in found)


def test_practice_takes_parts_people_and_readings_from_there() -> None:
    text = "".join(path.read_text("utf-8") for path in (ROOT / "identify/practice").glob("*.py"))
    for name in ("make_part", "blueprint_of", "observe", "attempt", "Person"):
        assert f"import {name}" in text or f", {name}" in text
    assert "class Part" not in text
    assert "class Person" not in text
