"""From a printed line and what was measured to ranked hoses and a verdict."""

import re
from collections import defaultdict
from itertools import accumulate

from identify.frozen import dataclass
from identify.model.hose import Hose, HoseMeasures, LayerKind
from identify.model.hose_line import HoseLine
from identify.model.hose_verdict import AssemblyMark, HoseReading, HoseVerdict
from identify.model.verdict import VerdictKind
from identify.reading.hose_line import is_separator
from identify.reading.sightings import Reader
from identify.reasoning.hose_knowledge import HoseKnowledge
from identify.reasoning.hose_line import SIZE_FIELDS, Explained, explain
from identify.reasoning.hose_measures import weigh_measures, weigh_unknown
from identify.reasoning.hose_names import Name, type_shown
from identify.reasoning.hose_pressure import lower_holds, pressure_of

_COVERS = 0.9  # of the probability: what must lie on few types for any to be named
_YEAR_MONTH = re.compile(r"(?<![0-9?])([0-5][0-9])(0[1-9]|1[0-2])(?![0-9?])")


@dataclass(frozen=True, slots=True)
class _Weighed:
    name: Name
    weight: float
    explained: Explained


def identify_hose(
    line: HoseLine | None, seen: HoseMeasures, known: HoseKnowledge, most: int = 10
) -> HoseVerdict:
    """Return the verdict on a hose.

    Args:
        line: What was read of its line; None where nothing is legible.
        seen: What was measured and counted.
        known: Tables and limits.
        most: So many readings are given at most.

    Returns:
        Readings by probability; `none_of_these` with them totals 1 over all hoses.
    """
    habits = known.tables.habits
    reader = Reader(
        line.text, habits, cut_left=line.cut_left, cut_right=line.cut_right
    ) if line else None  # fmt: skip
    weighed = list(_weigh(line, reader, seen, known))
    none = habits.no_hose * weigh_unknown(seen)
    total = none + sum(each.weight for each in weighed)
    by_hose: dict[str, list[_Weighed]] = defaultdict(list)
    for each in weighed:
        by_hose[each.name.hose.id].append(each)
    chances = {key: sum(each.weight for each in rows) / total for key, rows in by_hose.items()}
    order = sorted(chances, key=lambda key: (-round(chances[key], 12), key))
    refused = _refused(line, known)
    readings = tuple(
        _reading(_best(by_hose[key]), chances[key], line, reader, known)
        for key in order[:most]
        if chances[key] >= known.limits.shown and not refused
    )
    kind = VerdictKind.ABSTAIN if refused else _kind(order, chances, none / total, known)
    standing = [each for each in readings if each.probability >= known.limits.standing]
    return HoseVerdict(
        kind=kind, readings=readings, none_of_these=none / total,
        dates=line.dates if line else (), missing=_missing(line, readings, kind, seen),
        lower=lower_holds(standing, seen) if not refused else None, refused=refused,
        assembly=_assembly(line) if line and none / total > known.limits.abstain else None,
    )  # fmt: skip


def _weigh(
    line: HoseLine | None, reader: Reader | None, seen: HoseMeasures, known: HoseKnowledge
) -> "list[_Weighed]":
    habits = known.tables.habits
    measured = {
        hose.id: weigh_measures(seen, hose, habits, known.model) for hose in known.tables.hoses
    }
    out = []
    for name, prior in known.names:
        told = explain(reader, line, name) if line and reader else Explained(1.0, ())
        out.append(_Weighed(name, prior * measured[name.hose.id] * told.weight, told))
    return out


def _best(rows: list[_Weighed]) -> _Weighed:
    """Return the name by which a hose is best read; of several printed ones the first."""
    told = [
        each for each in rows if each.explained.word("standard") and each.explained.word("type")
    ]
    likely = max(rows, key=lambda each: each.weight)
    if likely in told:
        return min(told, key=lambda each: each.explained.taken[0].start)
    return likely


def _kind(
    order: list[str], chances: dict[str, float], none: float, known: HoseKnowledge
) -> VerdictKind:
    leader = chances[order[0]]
    if none >= known.limits.abstain and none >= leader:
        return VerdictKind.ABSTAIN
    if leader >= known.limits.identified:
        return VerdictKind.IDENTIFIED
    kinds = {hose.id: _kind_key(hose) for hose in known.tables.hoses}
    whole = sum(chances.values())
    by_kind: dict[str, float] = defaultdict(float)
    for key in order:
        by_kind[kinds[key]] += chances[key] / whole
    sums = accumulate(sorted(by_kind.values(), reverse=True))
    needed = next((n for n, share in enumerate(sums, 1) if share >= _COVERS), len(by_kind))
    few = needed <= known.tables.habits.most_types
    return VerdictKind.SHORTLIST if few else VerdictKind.ABSTAIN


def _kind_key(hose: Hose) -> str:
    """Return what counts as one type: all classes of one standard that fixes no layers are one."""
    return hose.kind.group if hose.kind.layer_kind is LayerKind.ANY else hose.kind.key


def _reading(
    best: _Weighed,
    chance: float,
    line: HoseLine | None,
    reader: Reader | None,
    known: HoseKnowledge,
) -> HoseReading:
    name, told = best.name, best.explained
    word = told.word("type")
    own = dict(name.hose.kind.names)[name.standard][0]
    printed = type_shown(word, name.standard) if word else own
    if name.hose.kind.layer_kind is LayerKind.ANY and not word:
        printed = name.hose.kind.key
    types, sizes = _beside(told, name, reader, known) if reader else ((), ())
    return HoseReading(
        hose=name.hose, standard=name.standard, type_name=printed, probability=chance,
        pressure=pressure_of(name.hose, name.standard, line, known.tables.habits),
        shown=tuple((each.field, each.word) for each in told.taken),
        types_beside=types, sizes_beside=sizes,
    )  # fmt: skip


def _beside(
    told: Explained, name: Name, reader: Reader, known: HoseKnowledge
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the types and the sizes that stand plainly on the line and are not of this hose."""
    types: dict[str, None] = {}
    sizes: dict[str, None] = {}
    mine = {word for _, words in name.hose.kind.names for word in words}
    own = {word for field in name.fields if field.name in SIZE_FIELDS for word, _ in field.words}
    for word, standard in known.type_words:
        if word not in mine and _free(reader, word, told):
            types[type_shown(word, standard)] = None
    for word in known.size_words if name.hose.kind.dash_means == "bore" else ():
        if word not in own and _free(reader, word, told):
            sizes[word] = None
    return tuple(types), tuple(sizes)


def _free(reader: Reader, word: str, told: Explained) -> bool:
    """Tell whether a word stands plainly on the line, at a place that nothing explains."""
    plain = word.replace(" ", "")
    return any(
        _letters(reader.text[seen.start : seen.end]) == _letters(plain)
        and reader.stands_alone(seen)
        and all(seen.end <= each.start or seen.start >= each.end for each in told.taken)
        for seen in reader.sightings(word)
    )


def _letters(text: str) -> str:
    return "".join(
        character for character in text if not is_separator(character) or character == "/"
    )


def _refused(line: HoseLine | None, known: HoseKnowledge) -> str:
    if line is None:
        return ""
    for entry in known.tables.habits.refused:
        if any(
            re.search(rf"(?<![A-Z]){re.escape(word)}(?![0-9])", line.text) for word in entry.words
        ):
            return entry.why
    return ""


def _missing(
    line: HoseLine | None, readings: tuple[HoseReading, ...], kind: VerdictKind, seen: HoseMeasures
) -> tuple[str, ...]:
    """Return what would have told more and is not there."""
    shown = {field for field, _ in readings[0].shown} if readings else set()
    out = []
    if line is None or "standard" not in shown:
        out.append("standard")
    if line is None or not shown & {"type", "trade"}:
        out.append("type")
    if line is None or not shown & set(SIZE_FIELDS):
        out.append("size")
    if line is None or not any(len(each.bars) for each in line.pressures):
        out.append("pressure")
    if line is None or not any(each.readings for each in line.dates):
        out.append("date")
    if kind is not VerdictKind.IDENTIFIED:
        if seen.layers is None or seen.kind is None:
            out.append("layers")
        if seen.bore is None:
            out.append("bore")
        if seen.outside is None:
            out.append("outside")
    return tuple(out)


def _assembly(line: HoseLine) -> AssemblyMark | None:
    """Return what the mark of a made-up hose says: one pressure with its unit, year and month."""
    months = _YEAR_MONTH.findall(line.text)
    bars = [each.bars[0] for each in line.pressures if len(each.bars) == 1]
    if len(months) != 1 or len(bars) != 1:
        return None
    (year, month), bar = months[0], bars[0]
    return AssemblyMark(bar, f"20{year}-{month}")
