"""Read how people and instruments err, how common ends are, where a verdict changes its name."""

from dataclasses import fields as fields_of

from identify.knowledge.fields import Faults, Fields
from identify.knowledge.source_tables import SUPPORTS, cite, open_table
from identify.model.feature import FEATURES, SIZES, Feature, Kind
from identify.model.observation import (
    Instrument,
    ObservationModel,
    PriorTable,
    Tolerance,
    TrialHabits,
    VerdictLimits,
)
from identify.model.observer import CARES, Observer, ObserverTable
from identify.model.reading import How
from identify.model.rule import Tool

_KINDS = (Kind.LENGTH, Kind.PITCH, Kind.ANGLE)
Ranges = dict[tuple[float, float], str]
"""Least and most -> the figures that must lie between, by name."""

_OF_TOOLS: Ranges = {  # figures of the instrument file
    (1, 5): "resolves form_resolves_deg",
    (0.5, 45): "seat_fits_deg seat_slip_deg",
    (0, 5): "seat_worn_deg",
    (0, 1): "half_said one_gauge near_gross",
    (0, 0.5): "basis_slip",
    (0, 0.2): "miscount neighbour_leaf",
    (0.01, 0.1): "half_way",
    (0.005, 0.1): "leaf_share",
    (0.001, 0.1): "range_share",
    (0, 0.05): "growth_spread",
    (0.1, 1): "growth_span",
    (0.01, 1): "near_reach wrong_feature",
}
_OF_PEOPLE: Ranges = {  # of the observation file
    (0, 1): "chamfer_angled no_cone_angled elsewhere other_hex",
    (0.1, 1): "oil_bore",
    (0.01, 1): "oil_bore_spread hex_spread made_alike",
    (1, 3): "hex_of_thread",
    (0, 0.5): "near_bore rare_report",
    (0, 0.1): "bore_share",
    (1, 10): "hose_pitch_times",
    (0.001, 1): "mark_right mark_other",
    (0, 0.99): "origin_unknown repeats_eye repeats_tool repeats_other_tool repeats_other_person",
}
_OF_TRIALS: Ranges = {
    (0, 0.5): "at_limit",
    (0.001, 0.5): "mistaken",
    (3, 50): "most_turns",
    (0, 1): "loose_unfelt wedge_full turns_share",
    (1, 2): "bound_below",
    (0.1, 5): "turns_spread",
}


def read_observation(
    instruments: str, observation: str, faults: Faults, place: str = "rules"
) -> ObservationModel:
    """Return the observation model of `instruments.yaml` and `observation.yaml`.

    Args:
        instruments: Text of the instrument file.
        observation: Text of the observation file.
        faults: Collects every fault with file and line.
        place: Folder name for messages.
    """
    tools = _open(instruments, f"{place}/instruments.yaml", faults, "instrument_table/1")
    people = _open(observation, f"{place}/observation.yaml", faults, "observation_table/1")
    leaves, trial = tools.section("pitch_gauge_leaves"), people.section("trial")
    alike, unlisted = people.section("alike_mm"), people.section("unlisted")
    model = ObservationModel(
        instruments={kind: _instruments(tools, kind) for kind in _KINDS},
        tolerances=_tolerances(people),
        reports=_reports(people),
        leaves_mm=numbers(leaves, "metric_mm"),
        leaves_tpi=numbers(leaves, "inch_tpi"),
        seat_leaves_deg=numbers(tools, "seat_leaves_deg"),
        hose_pitches=numbers(people, "hose_pitches"),
        trial=TrialHabits(**_figures(trial, _OF_TRIALS)),
        **_figures(tools, _OF_TOOLS),
        **_figures(people, _OF_PEOPLE),
        alike_mm={size: alike.number(size, low=0, high=10) for size in SIZES if alike.has(size)},
        unlisted={
            feature: unlisted.number(feature, low=0, high=1)
            for feature, info in FEATURES.items()
            if info.shown
        },
        answered=_weights(people.section("answered")),
    )
    low, high = model.hose_pitches[0], model.hose_pitches[-1]
    if len(model.hose_pitches) != 2 or sum(low <= leaf <= high for leaf in model.leaves_mm) < 2:
        people.fault("hose_pitches", "is not a pair, from and to, with two metric leaves between")
    for fields in (leaves, trial, alike, unlisted, tools, people):
        fields.close()
    return model


def read_priors(text: str, faults: Faults, file: str = "rules/priors.yaml") -> PriorTable:
    """Return the prior table; weights must be above 0."""
    fields = _open(text, file, faults, "prior_table/1")
    regions = {name: _weights(section) for name, section in fields.keyed("regions")}
    for name in regions:
        if name not in FEATURES[Feature.ORIGIN].choices:
            fields.fault("regions", f'names "{name}", which is no origin')
    table = PriorTable(
        families=_weights(fields.section("families")),
        regions=regions,
        forms=_weights(fields.section("forms")),
        bores=_weights(fields.section("bores")),
        none_of_these=fields.number("none_of_these", low=0.001, high=0.5),
        unlisted_seat=fields.number("unlisted_seat", low=0, high=1),
        unlisted_size=fields.number("unlisted_size", low=0, high=1),
    )
    if table.unlisted_seat + table.unlisted_size > 1:
        fields.fault("unlisted_size", "and unlisted_seat are shares of one whole, and exceed 1")
    fields.close()
    return table


def read_limits(text: str, faults: Faults, file: str = "rules/limits.yaml") -> VerdictLimits:
    """Return the thresholds of a verdict."""
    fields = _open(text, file, faults, "limit_table/1")
    keys = (each.name for each in fields_of(VerdictLimits))
    limits = VerdictLimits(**{key: fields.number(key, low=0, high=1) for key in keys})
    fields.close()
    return limits


def _open(text: str, file: str, faults: Faults, schema: str) -> Fields:
    """Return the fields of a file that says in a note, a source and a basis what it rests on."""
    fields = open_table(text, file, faults, schema)
    fields.text("note")
    cite(fields, "source")
    fields.choice("basis", SUPPORTS)
    return fields


def _figures(fields: Fields, ranges: Ranges) -> dict[str, float]:
    return {
        key: fields.number(key, low=low, high=high)
        for (low, high), keys in ranges.items()
        for key in keys.split()
    }


def _instruments(fields: Fields, kind: str) -> dict[str, Instrument]:
    out = {}
    for how, entry in fields.keyed(kind):
        if how not in set(How):
            fields.fault(kind, f'names "{how}", which is no way of measuring')
        out[how] = Instrument(
            entry.number("sigma", low=0), entry.number("share", low=0, high=1),
            entry.number("gross", low=1e-6, high=0.5),
        )  # fmt: skip
        if not out[how].sigma + out[how].share > 0:
            entry.fault("sigma", "and share are both 0; give the reading an error")
        entry.close()
    return out


def _tolerances(fields: Fields) -> dict[str, Tolerance]:
    out = {}
    for name, entry in fields.keyed("tolerances"):
        if name not in set(Feature):
            fields.fault("tolerances", f'names "{name}", which is no feature')
        out[name] = Tolerance(
            entry.number("below", low=0), entry.number("above", low=0),
            entry.number("worn", low=0, high=1), entry.number("wear", low=0.01),
            entry.flag("shrinks"),
        )  # fmt: skip
        entry.close()
    return out


def _reports(fields: Fields) -> dict[str, dict[str, dict[str, float]]]:
    out: dict[str, dict[str, dict[str, float]]] = {}
    for name, entry in fields.keyed("reports"):
        choices = FEATURES[Feature(name)].choices if name in set(Feature) else ()
        out[name] = {}
        for truth in entry.data:
            row = entry.section(truth)
            shares = {said: row.number(said, low=0, high=1) for said in choices}
            row.close()
            if abs(sum(shares.values()) - 1) > 1e-9:
                row.fault("", f"totals {sum(shares.values()):g}, not 1")
            out[name][truth] = shares
    return out


def _weights(fields: Fields) -> dict[str, float]:
    return {name: fields.number(name, low=1e-6, high=1e6) for name in fields.data}


def numbers(fields: Fields, key: str) -> tuple[float, ...]:
    """Return a list of positive numbers."""
    fields.asked.add(key)
    values = fields.data.get(key) or []
    good = [float(v) for v in values if isinstance(v, int | float) and v > 0]
    if not good or len(good) != len(values):
        fields.fault(key, "is not a list of positive numbers")
        return (1.0,)
    return tuple(good)


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
    fields = _open(text, file, faults, "observer_table/1")
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
    for name in CARES:
        if name not in table.observers:
            fields.fault("observers", f'has no "{name}", who may be told')
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
