"""Laws that hold for every thread, whatever its figures, and the printed tables they must meet."""

import csv
from collections.abc import Callable, Iterator
from functools import cache
from itertools import pairwise

from identify.model.catalogue import Catalogue
from identify.model.source import Support
from identify.model.thread import Thread
from identify.threads.designation import parse
from identify.threads.profile import sharp_height
from tests.laws.registry import law
from tests.threads.printed import JIS_B_0203, NPSM, NPSM_ALLOWANCE, NPT, PIPE_OD, USEFUL_LENGTH
from tests.threads.shipped import REFERENCES, inch, limit

NPSM_LIMITS = [
    f"{end}_{diameter}_{limit}"
    for end in ("external", "internal")
    for diameter in ("crest", "pitch")
    for limit in ("min", "max")
]
Threads = dict[str, Thread]
Claim = Callable[[Thread, Threads], None]


def near(one: float, other: float, within: float) -> bool:
    """Tell whether two figures of one unit differ by no more than `within`."""
    return abs(one - other) <= within


def of(*systems: str) -> Callable[[Claim], Claim]:
    """Register a claim about each thread of the systems named, or of all: it asserts."""

    def register(claim: Claim) -> Claim:
        def complaints(tables: Catalogue) -> Iterator[str]:
            for thread in tables.threads.values():
                if not systems or thread.system in systems:
                    try:
                        claim(thread, tables.threads)
                    except (AssertionError, KeyError, ValueError) as error:
                        yield f"{thread.designation}: {error}"

        complaints.__name__ = claim.__name__
        law(complaints)
        return claim

    return register


@of()
def minor_below_pitch_below_major(thread: Thread, threads: Threads) -> None:
    assert thread.minor_mm < thread.pitch_diameter_mm < thread.major_mm
    assert thread.height_mm < sharp_height(thread.pitch_mm, thread.flank_angle_deg)


@of()
def has_a_gender_and_limits_with_room_between(thread: Thread, threads: Threads) -> None:
    assert thread.external or thread.internal
    for limits in filter(None, (thread.external, thread.internal)):
        assert limits.crest.low_mm < limits.crest.high_mm
        assert limits.pitch.low_mm < limits.pitch.high_mm


@of()
def crests_stand_on_their_side_of_the_pitch_line(thread: Thread, threads: Threads) -> None:
    if thread.external and thread.taper:  # both limits run along the cone
        assert thread.external.crest.low_mm > thread.external.pitch.low_mm
        assert thread.external.crest.high_mm > thread.external.pitch.high_mm
    elif thread.external:
        assert thread.external.crest.low_mm > thread.external.pitch.high_mm
    if thread.internal:
        assert thread.internal.crest.high_mm < thread.internal.pitch.low_mm


@of()
def pitch_is_stated_once(thread: Thread, threads: Threads) -> None:
    if thread.tpi:
        assert near(thread.tpi * thread.pitch_mm, 25.4, 1e-9)
    else:
        assert thread.system in ("M", "M-TAPER")


@of()
def designation_says_the_numbers(thread: Thread, threads: Threads) -> None:
    said = parse(thread.designation)
    assert said.system == thread.system
    if said.tpi:
        assert said.tpi == thread.tpi
    if said.pitch_mm:
        assert near(said.pitch_mm, thread.pitch_mm, 1e-9)
    if said.system in ("M", "M-TAPER"):
        assert near(float(said.size), thread.major_mm, 1e-9)
    if said.system == "UN":
        assert near(float(said.size), inch(thread.major_mm), 1e-9)


@of("M", "UN", "NH", "G")
def parallel_male_stays_at_or_below_basic(thread: Thread, threads: Threads) -> None:
    """ISO 965-1 g, ASME B1.1 2A, ISO 228-1: a male is never above the basic profile."""
    assert thread.external
    assert thread.external.crest.high_mm <= thread.major_mm + 1e-9
    assert thread.external.pitch.high_mm <= thread.pitch_diameter_mm + 0.0013  # printed digits


@of("M", "UN", "NH", "G", "NPSM")
def parallel_female_stays_at_or_above_basic(thread: Thread, threads: Threads) -> None:
    assert thread.internal
    printed_digit = 0.00051 * 25.4  # inch minors are printed to .001
    assert thread.internal.crest.low_mm >= thread.minor_mm - printed_digit
    assert thread.internal.pitch.low_mm >= thread.pitch_diameter_mm - 0.0013


@of("M", "UN", "NH", "G", "NPSM")
def greatest_male_enters_least_female(thread: Thread, threads: Threads) -> None:
    assert thread.external
    assert thread.internal
    assert thread.external.pitch.high_mm <= thread.internal.pitch.low_mm + 1e-9
    assert thread.external.crest.low_mm > thread.internal.crest.high_mm  # the flanks engage


@of("M", "UN", "NPT", "NPTF", "NPSM", "NH", "M-TAPER")
def sixty_degrees(thread: Thread, threads: Threads) -> None:
    assert thread.flank_angle_deg == 60


@of("G", "ISO7")
def fifty_five_degrees(thread: Thread, threads: Threads) -> None:
    """Whitworth profile: two thirds of the sharp triangle engage (BS 21, ISO 228-1)."""
    assert thread.flank_angle_deg == 55
    assert near(thread.height_mm, 0.640327 * thread.pitch_mm, 0.0006)


@of()
def taper_gains_a_sixteenth_of_the_length(thread: Thread, threads: Threads) -> None:
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
    assert near(large - small, useful / 16, 1e-6)
    assert near(thread.major_mm - small, gauge / 16, 1e-6)
    assert thread.external.crest.low_mm < small < large < thread.external.crest.high_mm


@of("NPT")
def npt_reaches_the_pipe_surface_at_l5(thread: Thread, threads: Threads) -> None:
    """ASME B1.20.1: at L5 the full-form crests meet the outside of the pipe."""
    assert thread.large_end_mm is not None
    assert near(inch(thread.large_end_mm), PIPE_OD[thread.designation.split("-")[0]], 2e-5)


@of("NPTF")
def nptf_lies_inside_npt(thread: Thread, threads: Threads) -> None:
    """ASME B1.20.3 shares everything but truncation: a caliper cannot tell the two apart."""
    general = threads[thread.designation.replace("NPTF", "NPT")]
    assert thread.pitch_diameter_mm == general.pitch_diameter_mm
    for gender in ("external", "internal"):
        low, high = (limit(thread, f"{gender}_crest_{end}") for end in ("min", "max"))
        assert limit(general, f"{gender}_crest_min") <= low
        assert high <= limit(general, f"{gender}_crest_max")


@of("NPSM")
def npsm_is_unified_form_on_the_npt_pitch_diameter(thread: Thread, threads: Threads) -> None:
    """ASME B1.20.1: the female's least pitch diameter is E1 of NPT, for all nine sizes."""
    taper = threads[thread.designation.replace("NPSM", "NPT")]
    assert near(thread.pitch_diameter_mm, limit(thread, "internal_pitch_min"), 1e-9)
    least = inch(limit(thread, "internal_pitch_min"))
    assert near(least, inch(taper.pitch_diameter_mm), 0.00006)
    pitch = inch(thread.pitch_mm)
    male = inch(limit(thread, "external_crest_max")) - inch(limit(thread, "external_pitch_max"))
    female = least - inch(limit(thread, "internal_crest_min"))
    assert near(male, 0.649519 * pitch, 0.00061)
    assert near(female, 0.433013 * pitch, 0.00061)


@of("NPSM")
def npsm_keeps_the_printed_allowance(thread: Thread, threads: Threads) -> None:
    gap = limit(thread, "internal_pitch_min") - limit(thread, "external_pitch_max")
    assert near(inch(gap), NPSM_ALLOWANCE[thread.designation], 1e-9)


@of("NPSM")
def npsm_is_as_recollected(thread: Thread, threads: Threads) -> None:
    """A second writing of the table, from memory: it catches slips, not a wrong memory."""
    ours = [inch(limit(thread, name)) for name in NPSM_LIMITS]
    assert all(map(near, ours, NPSM[thread.designation], [1e-9] * 8))


@of("NPT")
def npt_is_as_printed(thread: Thread, threads: Threads) -> None:
    _, tpi, _, _, e1, l1, _ = next(row for row in NPT if row[0] == thread.designation.split("-")[0])
    assert thread.tpi == tpi
    assert near(inch(thread.pitch_diameter_mm), e1, 6e-6)
    assert near(inch(thread.gauge_length_mm or 0), l1, 1e-9)


@of("ISO7")
def taper_pipe_is_as_printed(thread: Thread, threads: Threads) -> None:
    size = thread.designation.split(" ", 1)[1]
    parallel = threads[f"G {size}"]  # ISO 7-1 and ISO 228-1 share basic diameters
    assert thread.tpi == parallel.tpi
    assert near(thread.major_mm, parallel.major_mm, 1e-9)
    assert near(thread.pitch_diameter_mm, parallel.pitch_diameter_mm, 1e-9)
    assert near(thread.minor_mm, parallel.minor_mm, 1e-9)
    if size in JIS_B_0203 and thread.gauge_length_mm:
        gauge, *basic = JIS_B_0203[size]
        assert near(thread.gauge_length_mm, gauge, 1e-9)
        ours = (thread.major_mm, thread.pitch_diameter_mm, thread.minor_mm)
        assert all(map(near, ours, basic, [0.0006] * 3))
    if thread.gauge_length_mm and thread.useful_length_mm:
        assert near(thread.useful_length_mm, USEFUL_LENGTH[size], 0.06)


@cache
def _published_g() -> dict[tuple[str, str], float]:
    with (REFERENCES / "bd_warehouse.csv").open(newline="", encoding="utf-8") as file:
        rows = csv.DictReader(file)
        return {(row["designation"], row["limit"]): float(row["value"]) for row in rows}


@of("G")
def parallel_pipe_is_as_published(thread: Thread, threads: Threads) -> None:
    published = _published_g()
    for name, ours in (
        ("major_diameter", thread.major_mm),
        ("pitch_diameter", thread.pitch_diameter_mm),
        ("minor_diameter", thread.minor_mm),
    ):
        assert near(ours, published[thread.designation, name], 0.0006)


@of("M-TAPER")
def metric_taper_lengths_go_with_the_pitch(thread: Thread, threads: Threads) -> None:
    """DIN 158 short design: the gauge plane stands 2.5 mm in at pitch 1, 3.5 mm at 1.5."""
    assert near(thread.gauge_length_mm or 0, {1.0: 2.5, 1.5: 3.5}[thread.pitch_mm], 1e-9)
    useful = 14 if thread.major_mm >= 22 else 12 if thread.pitch_mm > 1 else 8  # from memory
    assert near(thread.useful_length_mm or 0, useful, 1e-9)


@of("NH")
def hose_coupling_keeps_its_allowance(thread: Thread, threads: Threads) -> None:
    """From memory of ASME B1.20.7, so only the rule is tested: .010 in between the two."""
    gap = limit(thread, "internal_pitch_min") - limit(thread, "external_pitch_max")
    assert near(inch(gap), 0.0100, 1e-9)
    assert near(inch(thread.external.crest.high_mm), 1.0625, 1e-9) if thread.external else False


@law
def printed_minor_of_coarse_unified_female_is_used(tables: Catalogue) -> Iterator[str]:
    """ASME B1.1 prints .814 in for 7/8-14 UNF, where the formula gives .8135."""
    thread = tables.threads.get("7/8-14 UNF")
    if not thread or not near(inch(limit(thread, "internal_crest_max")), 0.814, 1e-9):
        yield "7/8-14 UNF"


def nominal(thread: Thread) -> float:
    """Return the size a designation names, in its own unit."""
    return float(parse(thread.designation).size)


@law
def thread_sizes_ascend(tables: Catalogue) -> Iterator[str]:
    """Table order is size order; at one size the finer pitch of a UN table stands first."""
    for system in {thread.system for thread in tables.threads.values()}:
        threads = [thread for thread in tables.threads.values() if thread.system == system]
        for before, after in pairwise(threads):
            if not (before.major_mm <= after.major_mm and nominal(before) <= nominal(after)):
                yield f"{after.designation} after {before.designation}"


@law
def every_pipe_size_of_iso_7_has_three_threads(tables: Catalogue) -> Iterator[str]:
    """R is a taper male, Rc a taper female, Rp a parallel female."""
    names = {name for name, thread in tables.threads.items() if thread.system == "ISO7"}
    for size in {name.split(" ", 1)[1] for name in names}:
        if not {f"{letters} {size}" for letters in ("R", "Rc", "Rp")} <= names:
            yield size
            continue
        male, female, parallel = (tables.threads[f"{x} {size}"] for x in ("R", "Rc", "Rp"))
        if not (
            male.internal is female.external is parallel.external is None
            and (male.taper, female.taper, parallel.taper) == (1 / 16, 1 / 16, 0)
            and female.internal == parallel.internal
        ):
            yield size


@of()
def thread_says_what_it_was_checked_against(thread: Thread, threads: Threads) -> None:
    said = thread.provenance
    assert said.source
    assert said.where
    assert said.line > 0
    assert said.checked_against or said.checked_note or said.basis is Support.FROM_MEMORY
