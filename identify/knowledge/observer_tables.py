"""Read the simulated observers of `rules/observers.yaml`."""

from dataclasses import fields as fields_of

from identify.knowledge.fields import Faults, Fields
from identify.knowledge.observation_tables import open_table
from identify.model.observer import Observer, ObserverTable
from identify.model.rule import Tool

_LARGEST = {"errors": 10.0, "gross": 10.0, "eye": 10.0, "resolution_mm": 2.0}
_OWN = ("observers", "pitches")
_DEGREES = ("seat_tolerance_deg", "seat_wear_deg")


def read_observers(text: str, faults: Faults, file: str = "rules/observers.yaml") -> ObserverTable:
    """Return all observers and what they share.

    Args:
        text: The file's text.
        faults: Collects every fault with file and line.
        file: Name for messages.
    """
    fields = open_table(text, file, faults, "observer_table/1")
    shares = {
        each.name: fields.number(each.name, low=0, high=45 if each.name in _DEGREES else 1)
        for each in fields_of(ObserverTable)
        if each.name not in _OWN
    }
    table = ObserverTable(
        observers={name: _observer(name, entry) for name, entry in fields.keyed("observers")},
        pitches=int(fields.number("pitches", low=2, high=30)),
        **shares,
    )
    if not table.observers:
        fields.fault("observers", "names nobody")
    fields.close()
    return table


def _observer(name: str, entry: Fields) -> Observer:
    tools = []
    for word in entry.texts("tools"):
        if word in set(Tool) - {Tool.NONE}:
            tools.append(Tool(word))
        else:
            entry.fault("tools", f'names "{word}", which is no tool')
    figures = {
        each.name: entry.number(each.name, low=0, high=_LARGEST.get(each.name, 1.0))
        for each in fields_of(Observer)
        if each.name not in ("name", "about", "tools")
    }
    about = entry.text("about")
    entry.close()
    return Observer(name=name, about=about, tools=frozenset(tools), **figures)
