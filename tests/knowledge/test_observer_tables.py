"""Observers: what the shipped file says, and every way to write a bad one."""

from pathlib import Path

import pytest

from identify.knowledge.fields import Faults
from identify.knowledge.observation_tables import read_observers
from identify.model.rule import Tool

TEXT = (Path(__file__).parents[2] / "rules" / "observers.yaml").read_text(encoding="utf-8")


def read(text: str):
    faults = Faults()
    return read_observers(text, faults), faults.found


def test_the_shipped_observers_go_from_careful_to_novice():
    table, faults = read(TEXT)
    assert faults == []
    people = table.observers
    assert list(people) == ["careful", "ordinary", "hurried", "novice", "no-gauges"]
    ranks = [people[name] for name in ("careful", "ordinary", "hurried", "novice")]
    for figure in ("errors", "gross", "eye", "neighbour_leaf", "miscount", "mix_up"):
        values = [getattr(each, figure) for each in ranks]
        assert values == sorted(values), figure
    assert people["ordinary"].errors == people["ordinary"].gross == 1
    assert people["careful"].eye < people["ordinary"].eye < 1 < people["novice"].eye
    assert people["no-gauges"].tools == {Tool.CALIPER}


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("tools: [caliper]", "tools: [calliper]", 'tools names "calliper", which is no tool'),
        ("tools: [caliper]", "tools: [none]", 'tools names "none", which is no tool'),
        ("    errors: 0.6\n", "", "errors is missing"),
        ("missing: 0.03", "missing: 1.3", "missing is 1.3, outside 0..1"),
        ("pitches: 10", "pitches: 1", "pitches is 1, outside 2..30"),
        ("seat_worn: 0.3", "seat_wornn: 0.3", "is not a known field; did you mean"),
        ("observer_table/1", "observer_table/2", 'schema must be "observer_table/1"'),
        ('about: "A full', 'abuot: "A full', "about is missing"),
    ],
)
def test_a_bad_table_is_refused_with_its_line(old, new, said):
    assert TEXT.count(old) >= 1
    _, faults = read(TEXT.replace(old, new, 1))
    assert any(said in fault for fault in faults), faults
    assert all(fault.startswith("rules/observers.yaml:") for fault in faults)


def test_a_table_of_nobody_is_refused():
    head, _, rest = TEXT.partition("observers:\n")
    tail = rest[rest.index("seat_tolerance_deg") :]
    _, faults = read(head + "observers: {}\n" + tail)
    assert any('observers has no "novice", who may be told' in fault for fault in faults)
