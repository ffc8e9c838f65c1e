"""How much likelier a printed line is of one hose than of something else."""

from identify.frozen import NamedTuple
from identify.model.hose import Hose, LayerKind
from identify.model.hose_habits import LineHabits
from identify.model.hose_line import HoseLine, PressureKind, PrintedPressure
from identify.reading.sightings import Reader
from identify.reasoning.hose_names import Field, Name

SIZE_FIELDS = ("labelled", "inch", "dash", "bare", "unsigned")
_MOST_PLACES = 4  # of one word, the likeliest
_BARE = ("bare", "unsigned")
_NEXT = 3  # separators between type and size


class Taken(NamedTuple):
    """A word that a hose explains: its field, the word as it would be printed, and where."""

    field: str
    word: str
    start: int
    end: int
    weight: float


class Explained(NamedTuple):
    """What a hose makes of a line: its weight against chance, and the words it explains."""

    weight: float
    taken: tuple[Taken, ...]

    def word(self, field: str) -> str:
        """Return the word taken for a field, empty where the line does not show it."""
        return next((each.word for each in self.taken if each.field == field), "")


def explain(reader: Reader, line: HoseLine, name: Name) -> Explained:
    """Weigh a line for one hose by one of its names.

    Every field of the hose is printed or is not; where it is, the best place on the line that no
    other field of the hose takes counts for it. What stands on the line beside that is as likely
    for one hose as for another.
    """
    habits = reader.habits
    taken: dict[str, Taken] = {}
    types = [place for field in name.fields if field.name == "type"
             for place in _places(reader, field)]  # fmt: skip
    if types and (first := max(types, key=lambda each: (each[0], -each[1].start)))[0] > 1:
        taken["type"] = first[1]
    found = [
        _placed(gain, place, taken.get("type"), habits)
        for field in name.fields
        if field.name != "type"
        for gain, place in _places(reader, field)
    ]
    found.sort(key=lambda each: (-each[0], each[1].start))
    for gain, place in found:
        free = all(place.end <= other.start or place.start >= other.end for other in taken.values())
        if gain > 1 and free and place.field not in taken:
            taken[place.field] = place
    weight = pressure_weight(line, name.hose, habits)
    sized = any(field in SIZE_FIELDS for field in taken)
    for field in name.fields:
        shown = taken.get(field.name)
        if shown:
            weight *= field.shown * shown.weight
        elif sized or field.name not in SIZE_FIELDS:
            weight *= 1 - field.shown
    if not sized:
        weight *= habits.shown["no_size_cut" if line.cut_left or line.cut_right else "no_size"]
    return Explained(weight, tuple(sorted(taken.values(), key=lambda each: each.start)))


def _places(reader: Reader, field: Field) -> list[tuple[float, Taken]]:
    """Return where a field may stand, each with how much is gained by it."""
    return [
        (
            field.shown * share * seen.weight / (1 - field.shown),
            Taken(field.name, word, seen.start, seen.end, share * seen.weight),
        )
        for word, share in field.words
        for seen in reader.sightings(word)[:_MOST_PLACES]
    ]


def _placed(
    gain: float, place: Taken, type_: Taken | None, habits: LineHabits
) -> tuple[float, Taken]:
    """Weigh where a bare number stands: the standards print the size right after the type."""
    if place.field not in _BARE or (type_ and 0 <= place.start - type_.end <= _NEXT):
        return gain, place
    factor = habits.before_type if type_ and place.start < type_.end else habits.later
    return gain * factor, place._replace(weight=place.weight * factor)


def same_class(one: float, other: float, habits: LineHabits) -> bool:
    """Tell whether two pressures [bar] are one, rounded in two ways (207 and 210)."""
    return abs(one - other) <= habits.rounding * max(one, other)


def pressure_weight(line: HoseLine, hose: Hose, habits: LineHabits) -> float:
    """Return how much likelier the printed pressures are for this hose than at random."""
    weight = 1.0
    for printed in distinct(line.pressures, habits):
        weight *= _one_pressure(printed, hose, habits)
    return weight


def _one_pressure(printed: PrintedPressure, hose: Hose, habits: LineHabits) -> float:
    if hose.rating_bar is None:
        return 1.0
    right = habits.of_class if hose.kind.layer_kind is LayerKind.ANY else habits.agrees
    factor = 4 if printed.kind is PressureKind.BURST else 1
    share = 0.0
    for bar in printed.bars:
        if same_class(bar, factor * hose.rating_bar, habits):
            share = max(share, right)
        elif any(same_class(bar, factor * other.bar, habits) for other in hose.others):
            share = max(share, habits.editions / len(hose.others))
    agrees = share * habits.classes / len(printed.bars) if share else 1 - right
    return habits.bare * agrees + 1 - habits.bare if printed.kind is PressureKind.BARE else agrees


def distinct(
    printed: tuple[PrintedPressure, ...], habits: LineHabits
) -> tuple[PrintedPressure, ...]:
    """Return the pressures of a line without those that say one thing once more, as MPa and bar."""
    kept: list[PrintedPressure] = []
    for each in sorted(printed, key=lambda one: (one.kind is PressureKind.BARE, len(one.bars))):
        again = any(
            same_class(bar, other, habits)
            for seen in kept
            if (seen.kind is PressureKind.BURST) == (each.kind is PressureKind.BURST)
            for bar in each.bars
            for other in seen.bars
        )
        if not again:
            kept.append(each)
    return tuple(kept)
