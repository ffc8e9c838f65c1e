"""What a good end table becomes: layers of a row, variants, hexagons, support of single figures."""

from dataclasses import replace
from pathlib import Path

import pytest

from identify.knowledge.build import build_catalogue
from identify.model.catalogue import Catalogue
from identify.model.connection import Across, AlsoSeen, Shape
from identify.model.feature import Feature
from identify.model.source import Confidence, Support

BASE = Path(__file__).parent.parent / "bad_tables" / "base"
TABLE = """schema: end_table/1
family: demo
name: "demonstration end"
standards: ["none"]
sealing: cone
material: brass
confidence: low
provenance: {source: invented, where: "head", basis: from-memory}
rating: {note: "no figure found"}
forms:
  - key: male
    gender: male
    form: "body"
    mount: fixed
    seats: [{shape: concave, half_angle: "12 deg"}]
    seal: "metal cone"
    mates: ["demo:female-ring", "demo:Rc-1/4:female-ring"]
    tell_by: "a funnel"
  - key: female-ring
    gender: female
    form: "nut"
    mount: swivel
    seats:
      - {shape: ball, half_angle: "12 deg", share: 0.25, thread: Rp}
      - {shape: convex, half_angle: "12 deg", share: 0.75}
    seal: "metal cone"
    left_hand: 0.1
sizes:
  - size: "Rc 1/4"
    thread: {male: "R 1/4", female-ring: "Rc 1/4"}
    tube_od: "1/4 in"
    seat_mouth: "8,5 mm"
    hexagons:
      - {part: nut, across: "19 mm", source: invented}
      - {part: body, across: "17 mm", source: handbook, basis: printed}
    by_form:
      male: {tube_od: "6 mm", rating: {bar: 350, basis: printed, note: "steel"}, material: steel}
    notes: ["one remark"]
  - size: "8L"
    forms: [male]
    thread: "M14x1.5"
    confidence: high
    provenance:
      source: handbook
      basis: printed
      checked_against: [invented]
      checked_note: "agree"
      caveat: "Beware."
    figures:
      tube_od: {source: invented, basis: from-memory}
    also_seen:
      - {field: bore, value: "8.1 mm", source: invented, note: "older"}
"""


@pytest.fixture(scope="module")
def tables(tmp_path_factory: pytest.TempPathFactory) -> Catalogue:
    own = tmp_path_factory.mktemp("own")
    (own / "ends").mkdir()
    (own / "ends/demo.yaml").write_text(TABLE, encoding="utf-8")
    source = 'schema: source_table/1\nsources:\n  handbook: {title: "A handbook", kind: handbook}\n'
    (own / "sources.yaml").write_text(source, encoding="utf-8")
    threads = (BASE / "threads/iso7.yaml").read_text(encoding="utf-8")
    (own / "threads").mkdir()
    rp = threads.replace("R 1/4", "Rp 1/4").replace('also: ["Rc 1/4"], ', "")
    (own / "threads/rp.yaml").write_text(rp, encoding="utf-8")
    return build_catalogue([BASE, own])


def test_rows_are_sizes_times_forms_in_table_order(tables: Catalogue) -> None:
    ids = ["demo:Rc-1/4:male", "demo:Rc-1/4:female-ring", "demo:8L:male"]
    assert [end.id for end in tables.ends] == ids


def test_most_particular_place_wins(tables: Catalogue) -> None:
    male, female, other = tables.ends
    assert (
        male.sizes.get(Feature.TUBE_OD),
        female.sizes.get(Feature.TUBE_OD),
        other.sizes.get(Feature.TUBE_OD),
    ) == (6.0, 6.35, None)
    assert (male.rating.bar, male.rating.basis) == (350, Support.PRINTED)
    assert (female.rating.bar, female.rating.note) == (None, "no figure found")
    assert (male.material, female.material) == ("steel", "brass")
    assert (female.confidence, other.confidence) == (Confidence.LOW, Confidence.HIGH)
    assert (male.left_hand, female.left_hand) == (0.0, 0.1)
    assert male.notes == ("one remark",)


def test_thread_by_form_and_thread_of_a_variant(tables: Catalogue) -> None:
    male, female, _ = tables.ends
    assert (male.thread, female.thread) == ("R 1/4", "Rc 1/4")
    assert [seat.thread for seat in female.seats] == ["Rp 1/4", ""]
    assert female.seats[0].shape is Shape.BALL
    assert tables.thread_of(female, female.seats[0].thread) is tables.threads["Rp 1/4"]


def test_shared_hexagons_go_to_the_part_that_carries_them(tables: Catalogue) -> None:
    male, female, _ = tables.ends
    assert [(hexagon.part, hexagon.mm) for hexagon in male.hexagons] == [(Across.BODY, 17)]
    assert [(hexagon.part, hexagon.mm) for hexagon in female.hexagons] == [(Across.NUT, 19)]
    assert male.hexagons[0].provenance.source == "handbook"
    assert female.hexagons[0].provenance.source == "invented"


def test_provenance_is_the_rows_own_with_its_line(tables: Catalogue) -> None:
    male, _, other = tables.ends
    line = TABLE.splitlines().index('  - size: "Rc 1/4"') + 1
    assert male.provenance.line == line
    assert male.provenance.where == "head"
    assert male.provenance.file.endswith("/ends/demo.yaml")
    assert other.provenance.basis is Support.PRINTED
    assert other.provenance.where == "", "a place in one source is no place in another"
    assert other.provenance.checked_against == ("invented",)
    assert other.provenance.caveat == "Beware."


def test_figures_and_second_values_are_carried(tables: Catalogue) -> None:
    other = tables.ends[2]
    (figure,) = other.figures
    assert (figure.field, figure.provenance.source) == ("tube_od", "invented")
    assert other.also_seen == (AlsoSeen("bore", "8.1 mm", "invented", "older"),)


def test_mates_are_those_the_tables_hold(tables: Catalogue) -> None:
    male, female, other = tables.ends
    assert tables.mates_of(male) == (female, female)
    assert tables.mates_of(other) == (female,)
    assert tables.mates_of(replace(other, mates=())) == ()
