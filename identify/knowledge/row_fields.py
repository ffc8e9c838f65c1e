"""The fields of a row of an end table, each read from the place that holds it."""

import re

from identify.errors import near_miss
from identify.knowledge.fields import Fields
from identify.knowledge.source_tables import cite, named_support
from identify.model.connection import UNASKED, AlsoSeen, Figure, Rating
from identify.model.feature import FEATURES, OF_FIELD, SHARES, Feature
from identify.model.source import Provenance, Support

LENGTHS = (*OF_FIELD, *UNASKED)
WORDS = ("dash", "bolt_metric", "bolt_inch", "o_ring_size")
FIGURE_FIELDS = (
    *LENGTHS,
    *WORDS,
    "thread",
    "hose_dn",
    "seats",
    "mates",
    "rating",
    *SHARES,
    "left_hand",
)

_PATTERNS = {
    "dash": (re.compile(r"-[1-9][0-9]*"), 'sixteenths of an inch as text, such as "-8"'),
    "bolt_metric": (re.compile(r"M[0-9]+(?:x[0-9.]+)?"), 'a metric bolt, such as "M10"'),
    "bolt_inch": (re.compile(r"[0-9/ ]+-[0-9]+(?: UN[A-Z]*)?"), 'an inch bolt, such as "3/8-16"'),
}


def read_word(where: Fields, key: str) -> str | None:
    """Return one of `WORDS`, None where absent; a fault if it is not written as the trade does."""
    if not where.has(key):
        return None
    word = where.text(key)
    pattern, remedy = _PATTERNS.get(key, (None, ""))
    if pattern and isinstance(where.data[key], str) and not pattern.fullmatch(word):
        where.fault(key, f'is "{word}"; write {remedy}')
    return word


def read_bore_of_hose(where: Fields) -> float | None:
    """Return the nominal bore of the hose [mm], None where it is absent."""
    info = FEATURES[Feature.HOSE_BORE]
    return where.number("hose_dn", low=info.low, high=info.high) if where.has("hose_dn") else None


def read_share(where: Fields, key: str) -> float | None:
    """Return a share [0..1], None where it is absent."""
    return where.number(key, low=0, high=1) if where.has(key) else None


def read_rating(where: Fields) -> Rating:
    """Return the working pressure; where it is unknown the table must say why."""
    entry = where.section("rating")
    bar = entry.number("bar") if entry.has("bar") else None
    if bar is not None and not bar > 0:
        entry.fault("bar", f"is {bar:g}; it must be above 0")
    if bar is None and not entry.text("note", ""):
        where.fault(
            "rating", 'has neither bar nor note; write {note: "…"} to say why it is unknown'
        )
    basis = Support(entry.choice("basis", tuple(Support))) if bar is not None else None
    rating = Rating(bar, basis, entry.text("note", ""))
    entry.close()
    return rating


def read_figures(where: Fields, row: Provenance) -> tuple[Figure, ...]:
    """Return the support of single fields; the place is the row's where the source is."""
    default = Provenance(row.source, row.basis, row.where)
    out = []
    outer = where.section("figures")
    for field in outer.data:
        entry = outer.section(field)
        _known_field(outer, field, field)
        out.append(Figure(field, named_support(entry, default)))
    return tuple(out)


def read_also_seen(where: Fields) -> tuple[AlsoSeen, ...]:
    """Return the second values found, each with the source that gives it."""
    out = []
    for entry in where.sections("also_seen", "also_seen"):
        field = entry.text("field")
        _known_field(entry, "field", field)
        seen = AlsoSeen(field, entry.text("value"), cite(entry, "source"), entry.text("note", ""))
        out.append(seen)
        entry.close()
    return tuple(out)


def _known_field(where: Fields, key: str, field: str) -> None:
    if field not in FIGURE_FIELDS:
        hint = near_miss(field, FIGURE_FIELDS)
        where.fault(key, f'names "{field}", not a field that carries a figure{hint}')
