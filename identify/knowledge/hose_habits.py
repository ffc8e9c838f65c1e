"""`rules/hoses.yaml` -> how lines on hoses are printed, damaged and misread."""

from identify.knowledge.fields import Faults, Fields, length_mm
from identify.knowledge.source_tables import SUPPORTS, cite, open_table
from identify.model.hose_habits import LineHabits, Refused

FIELDS = ("labelled", "bare", "inch", "dash", "unsigned")
_SHOWN = (
    "standard", "type", "trade", "no_size", "no_size_cut",
    *(f"{field}_{way}" for field in FIELDS for way in ("metric", "dash", "loose")),
)  # fmt: skip
_SECTIONS = {
    "reading": ("right", "confused", "other", "digit", "letter", "mark"),
    "found": ("glued_digit", "glued_letter", "glued", "spaced", "cut", "later", "before_type"),
    "pressure": ("agrees", "of_class", "editions", "rounding", "bare"),
    "measured": ("least_outside", "cover_worn", "miscounted", "kind_mistaken"),
}


def read_habits(text: str, faults: Faults, file: str = "rules/hoses.yaml") -> LineHabits:
    """Return how lines are read; faults are collected with file and line."""
    top = open_table(text, file, faults, "hose_habits/1")
    top.text("note")
    cite(top, "source")
    top.choice("basis", SUPPORTS)
    parts = {key: top.section(key) for key in (*_SECTIONS, "shown", "types")}
    shares = {
        name: parts[section].number(name, low=1e-6, high=1)
        for section, names in _SECTIONS.items()
        for name in names
    }
    weights = {
        name: parts["types"].number(name, low=1e-6, high=1e6) for name in parts["types"].data
    }
    habits = LineHabits(
        alike=top.texts("alike"),
        shown={name: parts["shown"].number(name, low=1e-4, high=0.9999) for name in _SHOWN},
        classes=int(parts["pressure"].number("classes", low=2, high=1000)),
        types=weights,
        other_type=top.number("other_type", low=1e-6, high=1e6),
        no_hose=top.number("no_hose", low=1e-6, high=0.9),
        cover_wear_mm=length_mm(parts["measured"], "cover_wear") or 1.0,
        bore_off_mm=length_mm(parts["measured"], "bore_off") or 1.0,
        most_types=int(top.number("most_types", low=1, high=50)),
        refused=tuple(_refused(entry) for entry in top.sections("refused", "refused")),
        **shares,
    )
    for section in parts.values():
        section.close()
    top.close()
    return habits


def _refused(entry: Fields) -> Refused:
    words = entry.texts("words")
    if not words:
        entry.fault("words", "is missing or empty")
    why = entry.text("why")
    entry.close()
    return Refused(words, why)
