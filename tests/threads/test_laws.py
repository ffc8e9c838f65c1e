"""Laws that hold for every shipped thread, whatever its figures."""

import itertools
import re

import pytest

from identify.model.source import Support
from identify.model.thread import Thread
from identify.threads import whitworth_pipe
from identify.threads.designation import parse
from identify.threads.profile import MM_PER_INCH, sharp_height
from tests.threads.shipped import TABLES, inch, limit, shipped

every = pytest.mark.parametrize("thread", shipped().values(), ids=list(shipped()))


def of(*systems: str) -> pytest.MarkDecorator:
    chosen = {name: thread for name, thread in shipped().items() if thread.system in systems}
    assert chosen
    return pytest.mark.parametrize("thread", chosen.values(), ids=list(chosen))


@every
def test_minor_below_pitch_below_major(thread: Thread):
    assert thread.minor_mm < thread.pitch_diameter_mm < thread.major_mm
    assert thread.height_mm < sharp_height(thread.pitch_mm, thread.flank_angle_deg)


@every
def test_has_a_gender_and_limits_with_room_between(thread: Thread):
    assert thread.external or thread.internal
    for limits in filter(None, (thread.external, thread.internal)):
        assert limits.crest.low_mm < limits.crest.high_mm
        assert limits.pitch.low_mm < limits.pitch.high_mm


@every
def test_crests_stand_on_their_side_of_the_pitch_line(thread: Thread):
    if thread.external:
        assert thread.external.crest.low_mm > thread.external.pitch.high_mm
    if thread.internal:
        assert thread.internal.crest.high_mm < thread.internal.pitch.low_mm


@every
def test_pitch_is_stated_once(thread: Thread):
    if thread.tpi:
        assert thread.tpi * thread.pitch_mm == pytest.approx(25.4, abs=1e-9)
    else:
        assert thread.system in ("M", "M-TAPER")


@every
def test_designation_says_the_numbers(thread: Thread):
    said = parse(thread.designation)
    assert said.system == thread.system
    if said.tpi:
        assert said.tpi == thread.tpi
    if said.pitch_mm:
        assert said.pitch_mm == pytest.approx(thread.pitch_mm, abs=1e-9)
    if said.system in ("M", "M-TAPER"):
        assert float(said.size) == pytest.approx(thread.major_mm, abs=1e-9)
    if said.system == "UN":
        assert float(said.size) == pytest.approx(inch(thread.major_mm), abs=1e-9)


@every
def test_names_source_place_and_line(thread: Thread):
    said = thread.provenance
    assert said.source
    assert said.where
    assert said.line > 0
    assert said.file in {path.name for path in TABLES}
    unchecked = not said.checked_against
    assert not unchecked or said.checked_note or said.basis is Support.FROM_MEMORY


@of("M", "UN", "NH", "G")
def test_parallel_male_stays_at_or_below_basic(thread: Thread):
    """ISO 965-1 g, ASME B1.1 2A, ISO 228-1: a male is never above the basic profile."""
    assert thread.external
    assert thread.external.crest.high_mm <= thread.major_mm + 1e-9
    assert thread.external.pitch.high_mm <= thread.pitch_diameter_mm + 0.0013  # printed digits


@of("M", "UN", "NH", "G", "NPSM")
def test_parallel_female_stays_at_or_above_basic(thread: Thread):
    assert thread.internal
    printed_digit = 0.00051 * MM_PER_INCH  # inch minors are printed to .001
    assert thread.internal.crest.low_mm >= thread.minor_mm - printed_digit
    assert thread.internal.pitch.low_mm >= thread.pitch_diameter_mm - 0.0013


@of("M", "UN", "NH", "G", "NPSM")
def test_greatest_male_enters_least_female(thread: Thread):
    assert thread.external
    assert thread.internal
    assert thread.external.pitch.high_mm <= thread.internal.pitch.low_mm + 1e-9
    assert thread.external.crest.low_mm > thread.internal.crest.high_mm  # the flanks engage


@of("M", "UN", "NPT", "NPTF", "NPSM", "NH", "M-TAPER")
def test_sixty_degrees(thread: Thread):
    assert thread.flank_angle_deg == 60


@of("G", "ISO7")
def test_fifty_five_degrees(thread: Thread):
    """Whitworth profile: two thirds of the sharp triangle engage (BS 21, ISO 228-1)."""
    assert thread.flank_angle_deg == 55
    assert thread.height_mm == pytest.approx(0.640327 * thread.pitch_mm, abs=0.0006)


@every
def test_taper_gains_a_sixteenth_of_the_length(thread: Thread):
    if thread.taper == 0:
        assert thread.small_end_mm is None
        assert thread.large_end_mm is None
        return
    assert thread.taper == 1 / 16
    if thread.external is None:
        return  # an Rc is given at its mouth only
    small, large = thread.small_end_mm, thread.large_end_mm
    gauge, useful = thread.gauge_length_mm, thread.useful_length_mm
    assert small is not None
    assert large is not None
    assert gauge is not None
    assert useful is not None
    assert 0 < gauge < useful
    assert large - small == pytest.approx(useful / 16, abs=1e-6)
    assert thread.major_mm - small == pytest.approx(gauge / 16, abs=1e-6)
    assert thread.external.crest.low_mm < small < large < thread.external.crest.high_mm


def nominal(thread: Thread) -> float:
    return float(parse(thread.designation).size)


@pytest.mark.parametrize("system", sorted({thread.system for thread in shipped().values()}))
def test_sizes_ascend(system: str):
    """Table order is size order; at one size the finer pitch of a UN table stands first."""
    threads = [thread for thread in shipped().values() if thread.system == system]
    for before, after in itertools.pairwise(threads):
        assert before.major_mm <= after.major_mm
        assert nominal(before) <= nominal(after)


def test_every_pipe_size_of_iso_7_has_male_taper_female_and_parallel_female():
    names = [name for name, thread in shipped().items() if thread.system == "ISO7"]
    sizes = {name.split(" ", 1)[1] for name in names}
    assert len(names) == 3 * len(sizes)
    for size in sizes:
        male, female, parallel = (shipped()[f"{letters} {size}"] for letters in ("R", "Rc", "Rp"))
        assert male.internal is female.external is parallel.external is None
        assert (male.taper, female.taper, parallel.taper) == (1 / 16, 1 / 16, 0)
        assert female.internal == parallel.internal


@pytest.mark.parametrize(
    "size", ["1/16", "1/8", "1/4", "3/8", "1/2", "3/4", "1", "1 1/4", "1 1/2", "2"]
)
def test_taper_pipe_thread_is_the_parallel_one_at_the_gauge_plane(size: str):
    """ISO 7-1 and ISO 228-1 share basic diameters; the two tables are kept apart here."""
    taper, parallel = shipped()[f"R {size}"], shipped()[f"G {size}"]
    assert taper.major_mm == pytest.approx(parallel.major_mm, abs=1e-9)
    assert taper.pitch_diameter_mm == pytest.approx(parallel.pitch_diameter_mm, abs=1e-9)
    assert taper.minor_mm == pytest.approx(parallel.minor_mm, abs=1e-9)
    assert taper.tpi == parallel.tpi


@of("NPT")
def test_npt_reaches_the_pipe_surface_at_l5(thread: Thread):
    """ASME B1.20.1: at L5 the full-form crests meet the outside of the pipe."""
    pipe_od = {  # ASME B36.10 outside diameters [in], as B1.20.1 lists them
        "1/16": 0.3125, "1/8": 0.405, "1/4": 0.540, "3/8": 0.675, "1/2": 0.840, "3/4": 1.050,
        "1": 1.315, "1 1/4": 1.660, "1 1/2": 1.900, "2": 2.375,
    }  # fmt: skip
    assert thread.large_end_mm is not None
    assert inch(thread.large_end_mm) == pytest.approx(
        pipe_od[thread.designation.split("-")[0]], abs=2e-5
    )


@of("NPTF")
def test_nptf_lies_inside_npt(thread: Thread):
    """ASME B1.20.3 shares everything but truncation: a caliper cannot tell the two apart."""
    general = shipped()[thread.designation.replace("NPTF", "NPT")]
    assert thread.pitch_diameter_mm == general.pitch_diameter_mm
    for gender in ("external", "internal"):
        low, high = (limit(thread, f"{gender}_crest_{end}") for end in ("min", "max"))
        assert limit(general, f"{gender}_crest_min") <= low
        assert high <= limit(general, f"{gender}_crest_max")


@of("NPSM")
def test_npsm_is_unified_form_on_the_npt_pitch_diameter(thread: Thread):
    """ASME B1.20.1: the female's least pitch diameter is E1 of NPT, for all nine sizes."""
    taper = shipped()[thread.designation.replace("NPSM", "NPT")]
    least = inch(limit(thread, "internal_pitch_min"))
    assert least == pytest.approx(inch(taper.pitch_diameter_mm), abs=0.00006)
    pitch = inch(thread.pitch_mm)
    male = inch(limit(thread, "external_crest_max")) - inch(limit(thread, "external_pitch_max"))
    female = least - inch(limit(thread, "internal_crest_min"))
    assert male == pytest.approx(0.649519 * pitch, abs=0.00061)
    assert female == pytest.approx(0.433013 * pitch, abs=0.00061)


def test_class_of_a_g_thread_leaves_its_crest_alone():
    """ISO 228-1: class B doubles the pitch diameter tolerance of the male, nothing else."""
    for thread in (thread for thread in shipped().values() if thread.system == "G"):
        (a, female_a), (b, female_b) = (
            whitworth_pipe.limits_g(thread.major_mm, thread.tpi or 0, grade) for grade in "AB"
        )
        assert a.crest == b.crest
        assert female_a == female_b
        width_a, width_b = (x.pitch.high_mm - x.pitch.low_mm for x in (a, b))
        assert width_b == pytest.approx(2 * width_a, abs=1e-9)


def test_no_row_is_dropped():
    """Every row written in a table gives at least one thread."""
    written = sum(len(re.findall("designation:", path.read_text("utf-8"))) for path in TABLES)
    said = [thread.provenance for thread in shipped().values()]
    assert len({(each.file, each.line) for each in said}) == written
