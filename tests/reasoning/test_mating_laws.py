"""Laws of mating over all pairs, and over threads of any size."""

from dataclasses import replace
from math import inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.connection import EndConnection
from identify.model.thread import Band, Limits, Thread
from identify.model.verdict import Hazard
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.mating import mate, opposite
from identify.reasoning.seat_fit import Contact
from identify.reasoning.thread_fit import Stop, ThreadVerdict, fit
from tests.reasoning.tables import shipped

ENDS = shipped().ends
SOUND = (ThreadVerdict.RUNS, ThreadVerdict.WEDGES)  # as deep as a sound joint of its kind
MALES = [thread for thread in shipped().threads.values() if thread.external]
FEMALES = [thread for thread in shipped().threads.values() if thread.internal]
LAWFUL = settings(max_examples=300, derandomize=True, deadline=None)

males, females = st.sampled_from(MALES), st.sampled_from(FEMALES)
ends = st.sampled_from(ENDS)


# A taper male is made with and without a cone inside; without one it jams in a swivel nut that has
# a cone (common practice), so the worst way gives the hazard.
PARTLY = {
    ("bspp60", "r_taper"): Hazard.MEDIUM,
    ("bspp60", "jis_pt"): Hazard.MEDIUM,
    ("npsm60", "npt"): Hazard.MEDIUM,
    ("airbrake_metric", "airbrake_metric"): Hazard.HIGH,  # ports with and without a chamfer
}


@pytest.mark.parametrize("family", shipped().families)
def test_an_end_mates_with_what_its_standard_says(family: str) -> None:
    """Threads and seats are computed; the tables only say who is meant."""
    for one in (row for row in ENDS if row.family == family):
        for other in shipped().mates_of(one):
            found = mate(shipped(), one, other)
            partly = PARTLY.get(tuple(sorted((one.family, other.family))))
            wanted = (Outcome.SOME, partly) if partly else (Outcome.SEALS, Hazard.LOW)
            assert (found.outcome, found.hazard) == wanted, (one.id, other.id, found.reason)
            assert found.meant
            assert found.fit is None or found.fit.verdict in SOUND


# Pairs that seal by other means than seat on seat, or on a line by design. All others of the
# tables must come out as a seal by geometry alone.
BY_CUSTOM = {
    ("bspp60", "port_g_flat", Contact.NOTHING),  # bonded washer under a flat shoulder
    ("metric_taper", "port_metric_flat", Contact.NOTHING),  # sealant in the thread
    ("ac_oring", "ac_oring", Contact.SEATLESS),  # a pilot with its ring in a plain bore
    ("screw_coupling", "screw_coupling", Contact.SEATLESS),  # a nose in a plain bore
    ("washer_m22", "washer_m22", Contact.SEATLESS),  # a spigot in a plain bore
    ("testpoint", "testpoint", Contact.SEATLESS),  # a probe with its ring
    ("tool_coupling_720", "tool_coupling_720", Contact.SEATLESS),  # how it seals is not known
    ("trailer_brake_hyd", "trailer_brake_hyd", Contact.SEATLESS),  # how it seals is not known
    ("airbrake_comp", "airbrake_comp", Contact.SEATLESS),  # a sleeve on the tube
    ("airbrake_hose", "airbrake_hose", Contact.SEATLESS),  # how it seals is not known
    ("brake_tube", "brake_tube", Contact.LINE),  # as below
    ("inverted45", "inverted45", Contact.LINE),  # the tube's flare lies between nut and seat
}


def test_meant_pairs_seal_by_geometry_but_for_a_listed_few() -> None:
    found = set()
    for one in ENDS:
        for other in shipped().mates_of(one):
            seat = mate(shipped(), one, other).seat
            if seat and not seat.seals:
                families = sorted((one.family, other.family))
                found.add((*families, seat.contact))
    assert found == BY_CUSTOM


def told(found: Mating) -> tuple[object, ...]:
    return found.outcome, found.hazard, found.reason, found.meant, found.fit, found.seat


@LAWFUL
@given(ends, ends)
def test_order_does_not_matter_but_for_flanges(one: EndConnection, other: EndConnection) -> None:
    if one.gender == other.gender == "flange":
        return
    there, back = mate(shipped(), one, other), mate(shipped(), other, one)
    assert told(there) == told(back)
    assert (there.a, there.b) == (back.b, back.a) == (one.id, other.id)


@LAWFUL
@given(ends, ends)
def test_two_males_or_two_females_never_meet(one: EndConnection, other: EndConnection) -> None:
    if one.gender == other.gender and one.gender in ("male", "female"):
        assert mate(shipped(), one, other).outcome is Outcome.APART


def shrunk(thread: Thread, by: float) -> Thread:
    """The male thinned: flanks and crests closer to the axis by `by` [mm] on the diameter."""
    limits = thread.external
    assert limits
    crest = Band(limits.crest.low_mm - by, limits.crest.high_mm - by)
    pitch = Band(limits.pitch.low_mm - by, limits.pitch.high_mm - by)
    small = thread.small_end_mm - by if thread.small_end_mm else None
    return replace(thread, external=Limits(crest, pitch), small_end_mm=small)


@LAWFUL
@given(males, females, st.floats(0.001, 0.5))
def test_more_clearance_never_means_fewer_turns(male: Thread, female: Thread, by: float) -> None:
    before, after = fit(male, female), fit(shrunk(male, by), female)
    for name in ("loosest", "mean", "tightest"):
        assert getattr(after.turns, name) >= getattr(before.turns, name) - 1e-9
        assert getattr(after.clearance_mm, name) > getattr(before.clearance_mm, name)


@LAWFUL
@given(males, females)
def test_the_loosest_fit_goes_farthest_and_carries_least(male: Thread, female: Thread) -> None:
    found = fit(male, female)
    assert found.turns.loosest >= found.turns.mean >= found.turns.tightest >= 0
    if not male.taper and not female.taper:
        assert found.share.loosest <= found.share.mean <= found.share.tightest


@LAWFUL
@given(males, females)
def test_equal_pitch_never_binds_by_pitch(male: Thread, female: Thread) -> None:
    same = replace(female, pitch_mm=male.pitch_mm)
    found = fit(male, same)
    assert found.stop is not Stop.PITCH
    if not male.taper and not female.taper:
        assert found.turns.mean in (0, inf)


@LAWFUL
@given(males, females, st.floats(0.5, 2.0))
def test_scale_changes_no_turns(male: Thread, female: Thread, by: float) -> None:
    """Twice as large in every length is the same thread seen closer."""
    one, other = fit(male, female), fit(scaled(male, by), scaled(female, by))
    assert other.turns.mean == pytest.approx(one.turns.mean, rel=1e-6, abs=1e-4)
    assert other.share.mean == pytest.approx(one.share.mean, rel=1e-6, abs=1e-9)


def scaled(thread: Thread, by: float) -> Thread:
    def band(each: Band) -> Band:
        return Band(each.low_mm * by, each.high_mm * by)

    def limits(each: Limits | None) -> Limits | None:
        return Limits(band(each.crest), band(each.pitch)) if each else None

    lengths = {
        name: getattr(thread, name) * by
        for name in (
            "pitch_mm", "major_mm", "pitch_diameter_mm", "minor_mm", "small_end_mm",
            "large_end_mm", "gauge_length_mm", "useful_length_mm",
        )
        if getattr(thread, name) is not None
    }  # fmt: skip
    return replace(
        thread, external=limits(thread.external), internal=limits(thread.internal), **lengths
    )


@LAWFUL
@given(males, females)
def test_a_designation_changes_nothing(male: Thread, female: Thread) -> None:
    named = fit(replace(male, designation="x", system="?"), replace(female, designation="y"))
    assert named == fit(male, female)


@LAWFUL
@given(ends, ends)
def test_names_of_ends_change_nothing(one: EndConnection, other: EndConnection) -> None:
    """Only the tables' own `mates` look at a name; unnamed, every other pair stays as it was."""
    before = mate(shipped(), one, other)
    if before.meant:
        return
    after = mate(shipped(), replace(one, id="x", mates=()), replace(other, id="y", mates=()))
    assert told(before) == told(after)


def test_every_thread_runs_in_its_own_female() -> None:
    for thread in shipped().threads.values():
        if thread.external and thread.internal:
            found = fit(thread, thread)
            assert found.verdict in SOUND, thread.designation
            assert found.turns.tightest > 0


@pytest.mark.parametrize("end", shipped().ends[::31], ids=lambda end: end.id)
def test_ends_whose_threads_cannot_engage_change_nothing(end: EndConnection) -> None:
    """`mates_of` does not look at them; here every end of another gender is looked at."""
    found = {other.id for other in opposite(shipped(), end, {})}
    for other in shipped().ends:
        if other.id not in found and (other.gender != end.gender):
            met = mate(shipped(), end, other)
            assert not met.meant
            assert met.outcome is not Outcome.SEALS
            assert met.hazard is Hazard.LOW
