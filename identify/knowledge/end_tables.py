"""One family's table -> its end connections: a row for every size and form."""

import re
from pathlib import PurePath
from typing import Any

from identify.errors import near_miss
from identify.frozen import replace
from identify.knowledge.fields import Faults, Fields, length_mm
from identify.knowledge.row_fields import (
    LENGTHS,
    WORDS,
    read_also_seen,
    read_bore_of_hose,
    read_figures,
    read_rating,
    read_share,
    read_word,
)
from identify.knowledge.seat_fields import read_seats
from identify.knowledge.source_tables import named_support, read_provenance
from identify.knowledge.yaml_reader import Mapping, read_yaml
from identify.model.catalogue import slug
from identify.model.connection import (
    UNASKED,
    Across,
    EndConnection,
    Family,
    Hexagon,
)
from identify.model.feature import GENDERS, MATERIALS, MOUNTS, OF_FIELD, SHARES
from identify.model.source import Confidence, Provenance
from identify.model.thread import Thread

SEALINGS = (
    "cone",
    "flare",
    "o_ring_face",
    "o_ring_boss",
    "bonded_washer",
    "thread_taper",
    "flange_o_ring",
    "flat_washer",
    "coupling",
    "spigot",
)
_OF_ALL_ROWS = ("provenance", "sealing", "confidence", "rating", "material", "refuse")
_FORM_KEY = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def read_ends(
    text: str, file: str, faults: Faults, threads: dict[str, Thread]
) -> tuple[Family, list[EndConnection]]:
    """Return the family and the rows of an `end_table/1` file, in table order.

    Args:
        text: The YAML document.
        file: Its name for messages; its stem must be the family's key.
        faults: Collects what is wrong; rows with faults hold harmless stand-ins.
        threads: Every known thread by designation.

    Raises:
        TableError: Not YAML at all.
    """
    top = Fields(read_yaml(text, file), file, faults, "end table")
    top.choice("schema", ("end_table/1",))
    key = top.text("family")
    if key != PurePath(file).stem:
        top.fault("family", f'is "{key}" in a file called {PurePath(file).name}; name both alike')
    family = Family(
        key=key,
        name=top.text("name"),
        standards=top.texts("standards"),
        sealing=top.choice("sealing", SEALINGS),
        about=top.text("about", ""),
        refuse=top.text("refuse", ""),
        file=file,
        usual_name=top.text("usual_name", ""),
        also_called=top.texts("also_called"),
    )
    top.text("note", "")
    top.asked.update(_OF_ALL_ROWS)
    if top.has("provenance"):
        read_provenance(top)  # also where every row has its own
    forms = _forms(top)
    used: set[str] = set()
    ends: list[EndConnection] = []
    for size in top.sections("sizes", "size"):
        ends += _rows(family, top, forms, size, used, threads)
    if not top.has("sizes") or not top.data["sizes"]:
        top.fault("sizes", "lists no size")
    for name, form in forms.items():
        if name in used:
            form.close()
        else:
            form.fault("key", "is used by no size; remove the form or name it in a size")
    top.close()
    return family, ends


def _forms(top: Fields) -> dict[str, Fields]:
    forms: dict[str, Fields] = {}
    for form in top.sections("forms", "form"):
        key = form.text("key")
        form.what = f'form "{key}"'
        gender = form.choice("gender", GENDERS)
        if not _FORM_KEY.fullmatch(key):
            form.fault("key", "is not small letters and digits with hyphens between")
        elif key.split("-")[0] != gender:
            form.fault("key", f'does not begin with its gender; write "{gender}" or "{gender}-…"')
        if key in forms:
            form.fault("key", "stands twice; give each form its own")
        form.text("form")
        forms.setdefault(key, form)
    if not forms:
        top.fault("forms", "lists no form; every family has at least one")
    return forms


def _rows(
    family: Family,
    top: Fields,
    forms: dict[str, Fields],
    size: Fields,
    used: set[str],
    threads: dict[str, Thread],
) -> list[EndConnection]:
    name = size.text("size")
    size.what = f'size "{name}"'
    if ":" in name:
        size.fault("size", "holds a colon, which separates the parts of an id; leave it out")
    chosen = size.texts("forms") or tuple(forms)
    by_form = size.section("by_form")
    named = [(size, "forms", key) for key in chosen] + [(by_form, key, key) for key in by_form.data]
    if isinstance(size.data.get("thread"), Mapping):
        named += [(size.section("thread"), key, key) for key in size.data["thread"]]
    for where, place, key in named:
        if key not in forms:
            hint = near_miss(key, tuple(forms))
            where.fault(place, f'names "{key}", not a form of this table{hint}')
    ends = []
    for key in chosen:
        if key in forms:
            used.add(key)
            own = by_form.section(key)
            own.what = f'size "{name}", form "{key}"'
            ends.append(_row(family, key, _Layers(own, size, forms[key], top), threads))
            own.close()
    if ends:
        size.close()
    return ends


class _Layers:
    """The places a row's field may stand, most particular first: by_form, size, form, family."""

    def __init__(self, own: Fields, size: Fields, form: Fields, top: Fields) -> None:
        self.size, self.form, self.top = size, form, top
        self.row = (own, size, form)

    def at(self, key: str) -> Fields:
        """Return the most particular place that holds `key`, else the size."""
        return ([layer for layer in self.row if layer.has(key)] or [self.size])[0]

    def above(self, key: str) -> Fields:
        """Return `at(key)`, or the head of the table where no row says otherwise."""
        at, head = self.at(key), self.top.has(key)
        return self.top if head and not at.has(key) else at


def _row(family: Family, key: str, at: _Layers, threads: dict[str, Thread]) -> EndConnection:
    support = read_provenance(at.above("provenance"))
    provenance = replace(support, file=at.size.file, line=at.size.line)
    thread = _thread(at.at("thread"), key, at, threads)
    size = at.size.text("size")
    words: dict[str, Any] = {name: read_word(at.at(name), name) for name in WORDS}
    lengths = {name: length_mm(at.at(name), name, required=False) for name in LENGTHS}
    sizes = {of: mm for name, of in OF_FIELD.items() if (mm := lengths[name]) is not None}
    unasked: dict[str, Any] = {f"{name}_mm": lengths[name] for name in UNASKED}
    return EndConnection(
        id=f"{family.key}:{slug(size)}:{key}",
        family=family.key,
        family_name=family.name,
        standards=family.standards,
        gender=at.form.choice("gender", GENDERS),
        form=at.form.text("form"),
        form_key=key,
        mount=at.form.choice("mount", MOUNTS),
        size=size,
        thread=thread,
        seats=read_seats(at.at("seats"), thread, threads),
        sealing=at.above("sealing").choice("sealing", SEALINGS),
        seal=at.at("seal").text("seal"),
        provenance=provenance,
        confidence=Confidence(at.above("confidence").choice("confidence", tuple(Confidence))),
        rating=read_rating(at.above("rating")),
        **words,
        sizes=sizes,
        **unasked,
        hose_dn=read_bore_of_hose(at.at("hose_dn")),
        shares={of: share for of in SHARES if (share := read_share(at.at(of), of)) is not None},
        left_hand=read_share(at.at("left_hand"), "left_hand") or 0.0,
        hexagons=_hexagons(at, provenance),
        material=at.above("material").choice("material", MATERIALS, "steel"),
        mates=at.at("mates").texts("mates"),
        tell_by=at.at("tell_by").text("tell_by", ""),
        refuse=at.above("refuse").text("refuse", ""),
        notes=at.at("notes").texts("notes"),
        figures=read_figures(at.at("figures"), provenance),
        also_seen=read_also_seen(at.at("also_seen")),
        usual_name=family.usual_name,
        also_called=at.form.texts("also_called"),
    )


def _thread(where: Fields, form: str, at: _Layers, threads: dict[str, Thread]) -> str | None:
    if not where.has("thread"):
        return None
    if isinstance(where.data["thread"], Mapping):
        where = where.section("thread")
        if not where.has(form):
            return None
        name, key = where.text(form), form
    else:
        name, key = where.text("thread"), "thread"
    if name in threads:
        return name
    where.fault(key, f'is "{name}", which no thread table has{near_miss(name, tuple(threads))}')
    return None


def _hexagons(at: _Layers, row: Provenance) -> tuple[Hexagon, ...]:
    """Return the hexagons seen on this part.

    What stands under the size is shared by both parts: the nut then belongs to the female, which
    carries the swivel nut, the body to the male. Under `by_form` all belong to that form.
    """
    default = Provenance(row.source, row.basis, row.where)
    where = at.at("hexagons")
    gender = at.form.choice("gender", GENDERS)
    out = []
    for entry in where.sections("hexagons", "hexagon"):
        part = Across(entry.choice("part", tuple(Across)))
        across = length_mm(entry, "across", required=True)
        hexagon = Hexagon(part, across or 0.0, named_support(entry, default))
        if where is not at.size or (part is Across.NUT) == (gender == "female"):
            out.append(hexagon)
    return tuple(out)
