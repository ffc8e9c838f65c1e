"""What the known hard pairs do when brought together; each with its source or mark."""

import random

import pytest

from identify.model.verdict import Hazard
from identify.reasoning.flange_fit import flange_fit
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.mating import mate, mates_of
from identify.reasoning.seat_fit import Contact, seat_fit
from identify.reasoning.thread_fit import ThreadVerdict, fit
from identify.reasoning.threaded_joint import NIBBLED_TURNS, engages, miss
from tests.reasoning.tables import end, shipped
from tests.shipped import knowledge


def meet(one: str, other: str) -> Mating:
    return mate(shipped(), end(one), end(other))


SHARED_FLARE = ("-2", "-3", "-4", "-5", "-8", "-10")
OWN_FLARE = ("-6", "-12")


@pytest.mark.parametrize("dash", SHARED_FLARE)
def test_37_and_45_deg_flares_share_thread_and_touch_on_a_line(dash: str) -> None:
    """Thread per dash: SAE J514 and J512 tables, as in the thread columns of the tables."""
    blunt = meet(f"flare37:{dash}:female", f"flare45:{dash}:male")
    slim = meet(f"flare37:{dash}:male", f"flare45:{dash}:female")
    for found in (blunt, slim):
        assert found.outcome is Outcome.NO_SEAL
        assert found.hazard is Hazard.HIGH
        assert found.seat is not None
        assert found.seat.contact is Contact.LINE
    assert "large end" in blunt.reason
    assert "small end" in slim.reason


@pytest.mark.parametrize("dash", OWN_FLARE)
def test_37_and_45_deg_flares_of_other_sizes_share_no_thread(dash: str) -> None:
    for one, other in ((37, 45), (45, 37)):
        found = meet(f"flare{one}:{dash}:male", f"flare{other}:{dash}:female")
        assert found.outcome in (Outcome.NO_START, Outcome.NO_CATCH, Outcome.BINDS, Outcome.LOOSE)


@pytest.mark.parametrize("size", ["G1/4", "G3/8", "G1/2", "G3/4", "G1"])
def test_jis_30_flare_and_60_deg_cone_run_on_one_g_thread_and_never_seal(size: str) -> None:
    """Same thread, same half angle, opposite shape: geometry, and common practice."""
    for one, other in (("jis30_g", "bspp60"), ("bspp60", "jis30_g")):
        found = meet(f"{one}:{size}:male", f"{other}:{size}:female")
        assert found.outcome is Outcome.NO_SEAL
        assert found.hazard is Hazard.MEDIUM
        assert found.seat is not None
        assert found.seat.contact is Contact.RIMS


# Sizes of light and heavy series on one thread. Source: ISO 8434-1 thread per tube.
SHARED_24 = [("8L", "6S"), ("10L", "8S"), ("12L", "10S"), ("15L", "14S"), ("22L", "20S")]
SHARED_24 += [("28L", "25S"), ("42L", "38S")]


@pytest.mark.parametrize(("light", "heavy"), SHARED_24)
@pytest.mark.parametrize("form", ["o-ring-nose", "cutting-ring", "universal"])
def test_24_deg_light_and_heavy_on_one_thread(light: str, heavy: str, form: str) -> None:
    """The nose stands out or sinks in by half the tube difference over tan 12 deg."""
    out = meet(f"cone24_L:{light}:female-{form}", f"cone24_S:{heavy}:male")
    sunk = meet(f"cone24_S:{heavy}:female-{form}", f"cone24_L:{light}:male")
    for found in (out, sunk):
        assert found.outcome is Outcome.NO_SEAL
        assert found.hazard is Hazard.HIGH
        assert found.seat is not None
        assert found.seat.contact is Contact.DISPLACED
    assert "stands out" in out.reason
    assert "sinks in" in sunk.reason


def test_15l_in_14s_stands_out_by_the_cone() -> None:
    """By hand: 0.5 mm on the radius over tan 12 deg is 2.35 mm."""
    assert "2.4 mm" in meet("cone24_L:15L:female-o-ring-nose", "cone24_S:14S:male").reason


@pytest.mark.parametrize("dash", ["-4", "-8", "-12", "-16"])
def test_37_male_in_an_o_ring_boss_runs_and_has_nothing_to_seal_on(dash: str) -> None:
    """SAE J514 and J1926-1 share the thread of every dash; the oil runs out at once."""
    found = meet(f"flare37:{dash}:male", f"orb_un:{dash}:female")
    assert found.outcome is Outcome.NO_SEAL
    assert found.hazard is Hazard.LOW


@pytest.mark.parametrize("size", ["M14x1.5", "M18x1.5", "M22x1.5", "M27x2", "M33x2"])
def test_iso_6149_and_iso_9974_do_not_seal_on_each_other(size: str) -> None:
    """One wedges a ring in a chamfer, the other closes on a flat face: common practice."""
    stud = meet(f"orb_metric:{size}:male", f"port_metric_flat:{size}:female")
    flat = meet(f"port_metric_flat:{size}:male", f"orb_metric:{size}:female")
    assert {stud.outcome, flat.outcome} == {Outcome.NO_SEAL}
    assert {stud.hazard, flat.hazard} == {Hazard.HIGH}
    assert "chamfer" in stud.reason
    assert "chamfer" in flat.reason


def test_a_captive_ring_seals_on_a_spotface_and_hangs_over_a_chamfer() -> None:
    """ISO 9974-2 form E in an ISO 9974-1 port, and in an ISO 6149-1 port: common practice."""
    male, root = end("port_metric_flat:M22x1.5:male"), shipped().threads["M22x1.5"]
    captive = next(seat for seat in male.seats if seat.o_ring == "captive")
    flat, chamfered = (
        end(f"{family}:M22x1.5:female") for family in ("port_metric_flat", "orb_metric")
    )
    on_face = seat_fit(male, captive, flat, flat.seats[0], root)
    on_chamfer = seat_fit(male, captive, chamfered, chamfered.seats[0], root)
    assert (on_face.contact, on_face.seals) == (Contact.WASHER, True)
    assert (on_chamfer.contact, on_chamfer.seals) == (Contact.UNSUPPORTED, False)
    assert "captive ring" in on_face.sentence
    assert "hangs over the chamfer" in on_chamfer.sentence


# Face seal and 37 deg flare of one thread: 9/16-18, 1 3/16-12, 1 7/16-12 ... as the tables have it.
@pytest.mark.parametrize(("face", "flare"), [("-4", "-6"), ("-12", "-14"), ("-32", "-32")])
def test_face_seal_and_flare_of_one_thread(face: str, flare: str) -> None:
    if shipped().by_id[f"orfs:{face}:male"].thread != end(f"flare37:{flare}:male").thread:
        pytest.fail("the tables no longer give the two one thread")
    for found in (
        meet(f"orfs:{face}:male", f"flare37:{flare}:female"),
        meet(f"flare37:{flare}:male", f"orfs:{face}:female"),
    ):
        assert found.outcome is Outcome.NO_SEAL
        assert found.hazard is Hazard.HIGH


@pytest.mark.parametrize("size", ["1/2", "3/4"])
def test_npt_male_on_a_g_swivel_tightens_and_does_not_seal(size: str) -> None:
    found = meet(f"npt:{size}-NPT:male", f"bspp60:G{size}:female")
    assert found.outcome is Outcome.NO_SEAL
    assert found.hazard is Hazard.HIGH


def test_words_count_the_turns() -> None:
    found = meet("cone24_L:8L:male", "flare37:-6:female")  # M14x1.5 in 9/16-18
    assert found.words == "starts, then binds after about 3 turns"
    assert found.hazard is Hazard.HIGH
    assert meet("flare37:-6:male", "cone24_L:8L:female-o-ring-nose").outcome is Outcome.NO_START


@pytest.mark.parametrize("size", ["1/2-in", "3/4-in", "1-in", "1-1/4-in", "1-1/2-in", "2-in"])
def test_code_61_and_62_bolts_do_not_line_up(size: str) -> None:
    """Bolt spacing per SAE J518; the safety notice of a filed flange names 1 in."""
    for one, other in (("flange61", "flange62"), ("flange62", "flange61")):
        found = meet(f"{one}:{size}:flange", f"{other}:{size}:flange")
        assert found.outcome is Outcome.BOLTS


def test_one_inch_code_61_on_62_is_the_filed_pair() -> None:
    """Published safety notice: 0.188 and 0.064 in between the patterns of 1 in."""
    found = meet("flange61:1-in:flange", "flange62:1-in:flange")
    assert found.hazard is Hazard.HIGH
    assert found.flange is not None
    assert found.flange.bolts_off_mm == pytest.approx(0.188 * 25.4, abs=0.05)
    assert found.flange.head_thicker_mm == pytest.approx(-1.5)


@pytest.mark.parametrize("size", ["3/4-in", "1-in", "1-1/4-in", "1-1/2-in", "2-in"])
def test_extra_thick_heads_line_up_with_code_62_and_are_not_held(size: str) -> None:
    """One bolt pattern, heads of 14.2 mm and of 8.8 to 12.6 mm: as the tables have it."""
    for one, other in (("flange62", "flange62_thick"), ("flange62_thick", "flange62")):
        found = meet(f"{one}:{size}:flange", f"{other}:{size}:flange")
        assert found.outcome is Outcome.UNCLAMPED
        assert found.hazard is Hazard.HIGH


def test_neighbouring_heads_across_codes() -> None:
    """44.45, 47.6, 50.8, 54.0 mm: each code 62 head lies between two of code 61."""
    for small, large in (
        ("flange61:1-in", "flange62:1-in"),
        ("flange62:1-in", "flange61:1-1/4-in"),
        ("flange61:1-1/4-in", "flange62:1-1/4-in"),
    ):
        found = flange_fit(end(f"{small}:flange"), end(f"{large}:flange"))
        assert found.head_over_mm == pytest.approx(-3.2, abs=0.1)
        assert found.held is False
        assert meet(f"{small}:flange", f"{large}:flange").outcome is not Outcome.SEALS


def test_large_flange_plainly_swallows_a_small_head() -> None:
    assert meet("flange61:1-in:flange", "flange61:5-in:flange").hazard is Hazard.LOW


def test_washer_sits_on_its_thread_and_overhangs_a_chamfer() -> None:
    washer = "bonded_washer:M22x1.5:none-washer"
    assert meet(washer, "port_metric_flat:M22x1.5:female").outcome is Outcome.SEALS
    hung = meet(washer, "orb_metric:M22x1.5:female")
    assert (hung.outcome, hung.hazard) == (Outcome.NO_SEAL, Hazard.HIGH)
    assert meet(washer, "port_metric_flat:M27x2:male").outcome is Outcome.NO_START


def test_universal_nose_seals_on_24_and_on_60_deg_cone() -> None:
    """A ball on a cone is a line by design: the tables name both as its mates."""
    for male in ("cone24_L:15L:male", "metric60:M22x1.5:male"):
        found = meet("cone24_L:15L:female-universal", male)
        assert found.outcome is Outcome.SEALS
        assert found.seat is not None
        assert found.seat.contact is Contact.LINE


def test_mates_of_a_24_deg_male() -> None:
    found = mates_of(shipped(), end("cone24_L:15L:male"), knowledge().book)
    meant = {one.b for one in found.meant}
    assert meant == {
        f"cone24_L:15L:female-{kind}" for kind in ("o-ring-nose", "universal", "cutting-ring")
    }
    dangers = {one.b: one for one in found.dangers}
    assert dangers["cone24_S:14S:female-o-ring-nose"].hazard is Hazard.HIGH
    assert dangers["bspp60:G5/8:female"].outcome is Outcome.BINDS


def test_what_does_most_harm_is_told_first_the_common_before_the_rare() -> None:
    """By the prevalence of the rules: a 60 degree cone is met more often than an air-brake end."""
    book = knowledge().book
    found = mates_of(shipped(), end("cone24_L:18L:male"), book).dangers
    families = [one.b.split(":")[0] for one in found]
    assert families.index("metric60") < families.index("airbrake_metric")
    assert book.priors.families["metric60"] > book.priors.families["airbrake_metric"]
    assert Hazard.LOW not in {one.hazard for one in found}


def test_a_brake_nut_is_never_a_safe_mate() -> None:
    guarded = [one for one in shipped().ends if one.refuse and one.gender == "male"]
    joined = [
        mate(shipped(), one, other)
        for one in guarded
        for other in shipped().ends
        if other.gender == "female" and not other.refuse and other.thread == one.thread
    ]
    assert joined
    assert {one.hazard for one in joined} == {Hazard.HIGH}


def test_threads_that_miss_by_their_reach_are_those_that_do_not_hold_when_worked_out() -> None:
    """The plain twin of `miss` is the whole fit: no pair is passed over that holds for a turn."""
    threads = list(shipped().threads.values())
    males, females = ([t for t in threads if getattr(t, side)] for side in ("external", "internal"))
    rng, missed, held = random.Random(6), 0, 0
    for _ in range(3000):
        male, female = rng.choice(males), rng.choice(females)
        found = fit(male, female)
        holds = found.verdict is not ThreadVerdict.NO_CATCH and found.turns.loosest >= NIBBLED_TURNS
        assert engages(male, female, {}, inside=True) == engages(female, male, {}, inside=False)
        assert engages(male, female, {}, inside=True) == holds
        if miss(male.reach_mm, female.reach_mm):
            missed += 1
            assert not holds, (male.designation, female.designation)
        held += holds
    assert missed > 1500
    assert held > 30
