"""Laws of geometry and order, each over every shipped thread and row.

They are written here anew, apart from those that the loader applies, so that each guards the other.
"""

from collections import Counter
from math import hypot, isclose

import pytest

from identify.knowledge.build import read_folders
from identify.knowledge.data import data_dir
from identify.knowledge.fields import Faults
from identify.knowledge.rulebook import build_rulebook
from identify.model.catalogue import Catalogue, slug
from identify.model.connection import Across, EndConnection, Seat, Shape
from identify.model.feature import GENDERS, MATERIALS, O_RINGS
from identify.model.thread import Thread
from identify.threads.designation import parse

FAULTS = Faults()
TABLES: Catalogue = read_folders([data_dir("thread_tables")], FAULTS)
ENDS = pytest.mark.parametrize("family", TABLES.families)
THREADS = pytest.mark.parametrize("system", sorted({t.system for t in TABLES.threads.values()}))


def ends_of(family: str) -> list[EndConnection]:
    return [end for end in TABLES.ends if end.family == family]


def threads_of(system: str) -> list[Thread]:
    return [thread for thread in TABLES.threads.values() if thread.system == system]


def test_shipped_tables_have_no_fault() -> None:
    assert FAULTS.found == []


@THREADS
def test_designation_parses_back_to_the_numbers(system: str) -> None:
    for thread in threads_of(system):
        said = parse(thread.designation)
        assert said.system == thread.system, thread.designation
        if said.pitch_mm is not None:
            assert isclose(said.pitch_mm, thread.pitch_mm), thread.designation
            assert isclose(float(said.size), thread.major_mm), thread.designation
        if said.tpi is not None:
            assert said.tpi == thread.tpi, thread.designation
        if said.system == "UN":
            assert isclose(float(said.size) * 25.4, thread.major_mm), thread.designation


@THREADS
def test_pitch_and_threads_per_inch_are_one_figure(system: str) -> None:
    for thread in threads_of(system):
        if thread.tpi:
            assert isclose(thread.tpi * thread.pitch_mm, 25.4), thread.designation


@THREADS
def test_diameters_ascend_and_limits_bracket(system: str) -> None:
    for thread in threads_of(system):
        assert 0 < thread.minor_mm < thread.pitch_diameter_mm < thread.major_mm, thread.designation
        assert thread.external or thread.internal, thread.designation
        if thread.external and not thread.taper:
            assert thread.external.pitch.high_mm <= thread.pitch_diameter_mm + 1e-6, (
                thread.designation
            )
            assert thread.external.crest.high_mm <= thread.major_mm + 1e-6, thread.designation
        if thread.internal and not thread.taper and thread.system != "ISO7":  # Rp is bilateral
            assert (
                thread.internal.pitch.low_mm >= thread.pitch_diameter_mm - 0.05
            )  # NPSM, printed, thread.designation
            assert thread.internal.crest.low_mm >= thread.minor_mm - 0.13, thread.designation


@THREADS
def test_flank_angle_is_that_of_the_system(system: str) -> None:
    for thread in threads_of(system):
        assert thread.flank_angle_deg == (55 if thread.system in ("G", "ISO7") else 60), (
            thread.designation
        )


@THREADS
def test_taper_gains_one_in_sixteen_from_small_end_to_gauge_plane(system: str) -> None:
    for thread in threads_of(system):
        assert thread.taper in (0, 1 / 16), thread.designation
        if thread.taper and thread.small_end_mm and thread.gauge_length_mm:
            gained = thread.major_mm - thread.small_end_mm
            assert gained == pytest.approx(thread.gauge_length_mm / 16, abs=0.01), (
                thread.designation
            )


@ENDS
def test_id_is_made_of_family_size_and_form(family: str) -> None:
    for end in ends_of(family):
        assert end.id == f"{end.family}:{slug(end.size)}:{end.form_key}", end.id
        assert end.id.count(":") == 2, end.id
        assert not set(end.id) & set(' "'), end.id
        assert TABLES.families[end.family].name == end.family_name, end.id
        assert end.form_key.split("-")[0] == end.gender, end.id


@ENDS
def test_words_are_those_of_the_model(family: str) -> None:
    for end in ends_of(family):
        assert end.gender in GENDERS, end.id
        assert end.material in MATERIALS, end.id
        assert {seat.o_ring for seat in end.seats} <= set(O_RINGS), end.id
        kind = TABLES.sources[end.provenance.source].kind
        assert end.standards or kind != "standard", end.id
        assert end.seal, end.id


@ENDS
def test_shares_of_a_seat_total_one(family: str) -> None:
    for end in ends_of(family):
        assert isclose(sum(seat.share for seat in end.seats), 1, abs_tol=1e-6), end.id


@ENDS
def test_cones_have_a_half_angle_and_flats_have_none(family: str) -> None:
    for end in ends_of(family):
        for seat in end.seats:
            if seat.shape in (Shape.CONVEX, Shape.CONCAVE):
                assert seat.half_angle_deg, end.id
                assert 10 < seat.half_angle_deg < 60, end.id
            if seat.shape in (Shape.FLAT, Shape.PLUG, Shape.NONE):
                assert seat.half_angle_deg is None, end.id


@ENDS
def test_thread_is_known_and_of_the_end_gender(family: str) -> None:
    for end in ends_of(family):
        thread = TABLES.thread_of(end)
        if thread and end.gender == "male":
            assert thread.external, end.id
        if thread and end.gender == "female":
            assert thread.internal, end.id


@ENDS
def test_end_without_a_thread_has_another_dimension_to_go_by(family: str) -> None:
    for end in ends_of(family):
        if end.thread is None:
            sizes = [end.flange_head_od_mm, end.bolt_spacing_long_mm, end.plug_od_mm]
            assert any([*sizes, end.eye_bore_mm, end.ring_id_mm, end.hose_dn]), end.id


@ENDS
def test_every_source_cited_is_known(family: str) -> None:
    for end in ends_of(family):
        supports = [end.provenance, *(f.provenance for f in end.figures)]
        supports += [hexagon.provenance for hexagon in end.hexagons]
        cited = {key for p in supports for key in (p.source, *p.checked_against)}
        assert cited | {seen.source for seen in end.also_seen} <= set(TABLES.sources), end.id
        assert end.provenance.file == f"thread_tables/ends/{end.family}.yaml", end.id
        assert end.provenance.line > 0, end.id


@ENDS
def test_dash_is_sixteenths_as_text(family: str) -> None:
    for end in ends_of(family):
        if end.dash:
            assert end.dash[0] == "-", end.id
            assert int(end.dash[1:]) > 0, end.id
            assert str(int(end.dash)) == end.dash, end.id


@ENDS
def test_washer_tube_and_flange_are_the_right_way_round(family: str) -> None:
    for end in ends_of(family):
        if end.ring_id_mm and end.ring_od_mm:
            assert end.ring_id_mm < end.ring_od_mm, end.id
        if end.bore_mm and end.seat_mouth_mm:
            assert end.bore_mm < end.seat_mouth_mm, end.id
        if end.bore_mm and end.tube_od_mm:
            assert 0 <= end.bore_mm - end.tube_od_mm <= 0.6, end.id
        if end.bolt_spacing_long_mm and end.bolt_spacing_short_mm:
            assert end.bolt_spacing_long_mm >= end.bolt_spacing_short_mm, end.id
            if end.flange_head_od_mm:
                diagonal = hypot(end.bolt_spacing_long_mm, end.bolt_spacing_short_mm)
                assert diagonal > end.flange_head_od_mm, end.id


@ENDS
def test_nut_goes_over_its_thread(family: str) -> None:
    for end in ends_of(family):
        thread = TABLES.thread_of(end)
        for hexagon in end.hexagons:
            if thread and hexagon.part is Across.NUT:
                assert thread.major_mm < hexagon.mm < 2.4 * thread.major_mm, end.id


@ENDS
def test_rating_is_positive_and_says_its_basis_or_is_unknown_with_a_reason(family: str) -> None:
    for end in ends_of(family):
        if end.rating.bar is None:
            assert end.rating.note, end.id
        else:
            assert 0 < end.rating.bar <= 10000, end.id
            assert end.rating.basis, end.id


@ENDS
def test_mates_are_known_and_meet_seat_on_seat(family: str) -> None:
    """A cone meets a cone of its angle and the other shape, or a ball; a flat meets a flat."""
    for end in ends_of(family):
        for mate in TABLES.mates_of(end):
            if mate.family != family:  # a washer between them may take any shoulder
                continue
            pairs = [(one, other) for one in end.seats for other in mate.seats]
            assert any(_meet(one, other) for one, other in pairs), mate.id


def _meet(one: Seat, other: Seat) -> bool:
    shapes = {one.shape, other.shape}
    if shapes & {Shape.NONE, Shape.CHAMFER, Shape.PLUG}:
        return True
    if Shape.BALL in shapes:
        return Shape.CONCAVE in shapes
    if Shape.FLAT in shapes:
        return one.shape is other.shape
    angles = [seat.half_angle_deg or 0 for seat in (one, other)]
    return one.shape is not other.shape and abs(angles[0] - angles[1]) <= 3  # 42 on 45 is made


def test_mates_name_each_other() -> None:
    """What is meant for an end is meant back."""
    pairs = {(end.id, mate.id) for end in TABLES.ends for mate in TABLES.mates_of(end)}
    assert {pair for pair in pairs if pair[::-1] not in pairs} == set()


def test_every_id_is_unique_and_finds_its_end() -> None:
    assert [end_id for end_id, n in Counter(end.id for end in TABLES.ends).items() if n > 1] == []
    assert all(TABLES.find(end.id) is end for end in TABLES.ends)


def test_series_ascend() -> None:
    """Within a form, sizes of one series and system never fall in thread diameter or dash."""
    last: dict[tuple[str, ...], tuple[float, int]] = {}
    for end in TABLES.ends:
        thread = TABLES.thread_of(end)
        if thread and end.dash:
            letters = "".join(filter(str.isalpha, end.size))
            key = (end.family, end.form_key, letters, thread.system)
            now = (thread.major_mm, int(end.dash[1:]))
            before = last.get(key, (0.0, 0))
            assert now[0] >= before[0], end.id
            assert now[1] >= before[1], end.id
            last[key] = now


def test_every_source_is_used() -> None:
    book = build_rulebook([data_dir("rules")], TABLES)
    cited = {key for *_, key in FAULTS.citations}
    cited |= {source for source in TABLES.sources if f"'{source}'" in repr(book)}
    assert set(TABLES.sources) - cited == set()
