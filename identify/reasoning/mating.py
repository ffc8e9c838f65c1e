"""What happens when any two ends of the catalogue are brought together, with its hazard.

Threads come first (`thread_fit`), then seats (`seat_fit`) or flanges (`flange_fit`). What the
tables name as mates is asked last: it can turn a contact into a seal (a flared tube on a seat cut
3 deg sharper), never a thread into a fit. Calculated from table values, never tested on parts.

Hazard. HIGH: the joint can be tightened and put under pressure before the fault shows. MEDIUM: it
may hold a first test and weep, or be forced by a turn or two. LOW: it seals, or it plainly does not
go together.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.thread import Thread
from identify.model.verdict import Hazard
from identify.reasoning.flange_fit import FlangeFit, flange_fit
from identify.reasoning.seat_fit import Contact, Place, SeatFit, place, seat_fit
from identify.reasoning.thread_fit import Spread, Stop, ThreadFit, ThreadVerdict, fit

FORCED_TURNS = 2.0  # on two turns a joint can be pulled tight with a spanner and hold pressure
NIBBLED_TURNS = 1.0
WOBBLE_SHARE = 0.25  # with less of its height a thread rocks in the hand; common practice
SAME_THREAD_MM = 0.15  # basic pitch diameters nearer than this are one thread (G, R and Rp; NPSM)
WASHER_PLAY_MM = 1.5  # a washer wider than its thread by more hangs off centre; common practice
RATING_SHARE = 0.95
FALLS_MM = 4.0  # a head narrower by more falls through; neighbours across codes are 3 mm apart

Fits = dict[tuple[str, str], ThreadFit]


class Outcome(StrEnum):
    """What happens, in words."""

    SEALS = "mates and seals"
    NO_SEAL = "threads run but does not seal"
    BINDS = "starts, then binds"
    LOOSE = "loose"
    NO_START = "does not start"
    NO_CATCH = "slips past without catching"
    BOLTS = "bolts do not line up"
    UNCLAMPED = "bolts line up but the clamp does not hold the head"
    APART = "not made to meet"
    UNKNOWN = "the tables do not say"


@dataclass(frozen=True, slots=True)
class Mating:
    """Two ends brought together. All figures are calculated.

    `meant` tells that the tables name the two as mates. `fit` is None where no thread is run,
    `seat` where no seat is reached, `flange` but for two flanges.
    """

    a: str
    b: str
    outcome: Outcome
    hazard: Hazard
    reason: str
    meant: bool = False
    fit: ThreadFit | None = None
    seat: SeatFit | None = None
    flange: FlangeFit | None = None

    @property
    def words(self) -> str:
        """The outcome with its number of turns."""
        if self.outcome is Outcome.BINDS and self.fit:
            return f"{self.outcome} after {turns_words(self.fit.turns.mean)}"
        return str(self.outcome)


@dataclass(frozen=True, slots=True)
class Mates:
    """What one end meets.

    `meant`: what the tables name. `fits_too`: what seals by geometry though no row names it.
    `dangers`: what screws or bolts on and must not be used, worst first.
    """

    meant: tuple[Mating, ...]
    fits_too: tuple[Mating, ...]
    dangers: tuple[Mating, ...]


def mate(
    catalogue: Catalogue, a: EndConnection, b: EndConnection, fits: Fits | None = None
) -> Mating:
    """Work out what happens when two ends are brought together.

    Order does not matter, but for two flanges: then the head of `a` goes on the pad of `b`.

    Args:
        catalogue: The tables, for threads and for what is meant to meet.
        a: One end.
        b: The other.
        fits: Thread fits already worked out, by designations of male and female; added to.
    """
    meant = _meant(catalogue, a, b)
    genders = {a.gender, b.gender}
    if a.gender == b.gender == "flange":
        found = _flanges(a, b, meant)
    elif a.ring_id_mm is not None or b.ring_id_mm is not None:
        washer, other = (a, b) if a.ring_id_mm is not None else (b, a)
        found = _washer(catalogue, washer, other, meant)
    elif "female" in genders and genders & {"male", "none"}:
        male, female = (b, a) if a.gender == "female" else (a, b)
        found = _threads(catalogue, male, female, meant, {} if fits is None else fits)
    else:
        found = _apart(a, b)
    found = replace(found, a=a.id, b=b.id, meant=meant)
    refused = [end for end in (a, b) if end.refuse]
    joined = found.outcome not in (Outcome.APART, Outcome.NO_CATCH, Outcome.NO_START)
    if refused and joined and not meant:
        reason = f"{found.reason} {refused[0].family_name} is not a hydraulic end."
        return replace(found, hazard=Hazard.HIGH, reason=reason)
    return found


def mates_of(catalogue: Catalogue, end: EndConnection, fits: Fits | None = None) -> Mates:
    """Return what an end is meant to meet and what else of the tables goes on it."""
    fits = {} if fits is None else fits
    found = [mate(catalogue, end, other, fits) for other in _opposite(catalogue, end)]
    dangers = [one for one in found if not one.meant and one.hazard is not Hazard.LOW]
    return Mates(
        meant=tuple(one for one in found if one.meant),
        fits_too=tuple(
            one
            for one in found
            if one.outcome is Outcome.SEALS and not one.meant and one.hazard is Hazard.LOW
        ),
        dangers=tuple(sorted(dangers, key=lambda one: (one.hazard is not Hazard.HIGH, one.b))),
    )


def turns_words(turns: float) -> str:
    """Return a number of turns as a person would say it."""
    if turns < 0.75:
        return "about half a turn"
    whole = round(turns)
    return f"about {whole} turn{'s' if whole != 1 else ''}"


def _opposite(catalogue: Catalogue, end: EndConnection) -> Iterator[EndConnection]:
    for other in catalogue.ends:
        pair = {end.gender, other.gender}
        if len(pair) == 2 or pair == {"flange"}:
            yield other


def _meant(catalogue: Catalogue, a: EndConnection, b: EndConnection) -> bool:
    return b in catalogue.mates_of(a) or a in catalogue.mates_of(b)


def _apart(a: EndConnection, b: EndConnection) -> Mating:
    if a.gender == b.gender:
        reason = f"Both are {a.gender}." if a.gender != "none" else "Neither has a thread."
    else:
        reason = f"A {a.gender} end and a {b.gender} end have nothing to join by."
    return Mating(a.id, b.id, Outcome.APART, Hazard.LOW, reason)


# ---- a male in a female


def _threads(
    catalogue: Catalogue, male: EndConnection, female: EndConnection, meant: bool, fits: Fits
) -> Mating:
    ways = [
        _way(catalogue, (male, male_seat), (female, female_seat), meant, fits)
        for male_seat in male.seats
        for female_seat in female.seats
    ]
    best = min(ways, key=_order)
    seat = best.seat
    if best.outcome is Outcome.SEALS and seat and seat.share < 1 and not meant:
        return replace(best, hazard=Hazard.MEDIUM, reason=f"{best.reason} Not all are made so.")
    return best


_WORST = {Hazard.HIGH: 0, Hazard.MEDIUM: 1, Hazard.LOW: 2}


def _order(way: Mating) -> tuple[bool, bool, int, float]:
    """Sort key: a way that seals (of itself before by custom), then the worst, the most usual."""
    share, seals = (way.seat.share, way.seat.seals) if way.seat else (0.0, False)
    return way.outcome is not Outcome.SEALS, not seals, _WORST[way.hazard], -share


def _way(
    catalogue: Catalogue,
    male: tuple[EndConnection, Seat],
    female: tuple[EndConnection, Seat],
    meant: bool,
    fits: Fits,
) -> Mating:
    """Return what one way of making the male does in one way of making the female."""
    in_thread = _thread(catalogue, *male)
    out_thread = _thread(catalogue, *female)
    made = Mating(male[0].id, female[0].id, Outcome.UNKNOWN, Hazard.LOW, "")
    if in_thread is None or out_thread is None:
        if meant:
            return replace(made, outcome=Outcome.SEALS, reason=_AS_TABLED)
        return replace(made, outcome=Outcome.APART, reason="One of the two has no thread.")
    key = in_thread.designation, out_thread.designation
    if in_thread.left_hand or out_thread.left_hand or key not in fits:
        run = fit(in_thread, out_thread)
        if not (in_thread.left_hand or out_thread.left_hand):
            fits[key] = run
    else:
        run = fits[key]
    made = replace(made, fit=run)
    if run.verdict in (ThreadVerdict.RUNS, ThreadVerdict.WEDGES):
        return _seated(made, run, (male, in_thread), (female, out_thread), meant)
    outcome, reason = _stopped(run, in_thread, out_thread)
    return replace(made, outcome=outcome, hazard=_forced(run), reason=reason)


_AS_TABLED = "The tables name them as mates and hold no dimension to check it by."


def _thread(catalogue: Catalogue, end: EndConnection, seat: Seat) -> Thread | None:
    thread = catalogue.thread_of(end, seat.thread)
    if thread is not None and end.left_hand > 0.5 and not thread.left_hand:
        return replace(thread, left_hand=True)
    return thread


def _stopped(run: ThreadFit, male: Thread, female: Thread) -> tuple[Outcome, str]:
    """Return outcome and reason of threads that do not run their length."""
    pair = f"{male.designation} in {female.designation}"
    if run.verdict is ThreadVerdict.NO_CATCH:
        return Outcome.NO_CATCH, f"{pair}: the crests hardly overlap."
    if run.stop is Stop.HAND:
        return Outcome.NO_START, f"{pair}: one is right-hand, the other left-hand."
    if run.verdict is ThreadVerdict.LOOSE:
        sentence = f"{pair}: only {run.share.mean:.0%} of the thread height carries; it strips."
        return Outcome.LOOSE, sentence
    if run.verdict is ThreadVerdict.NO_START:
        worn = (
            f" At the loosest fit it goes {turns_words(run.turns.loosest)}."
            if run.turns.loosest >= NIBBLED_TURNS
            else ""
        )
        return Outcome.NO_START, f"{pair}: {_no_start(run)}.{worn}"
    why = {
        Stop.PITCH: f"{male.pitch_words} against {female.pitch_words}: the flanks bind",
        Stop.TAPER: "the taper jams on its first turns",
        Stop.CREST: "crests meet roots",
    }.get(run.stop, "the threads bind")
    span = f"{run.turns.tightest:.1f} to {run.turns.loosest:.1f} turns"
    return Outcome.BINDS, f"{pair}: {why} after {span} of about {run.available:.0f}."


def _no_start(run: ThreadFit) -> str:
    clearance = run.clearance_mm.mean
    if clearance < 0:
        return f"the male is {-clearance:.2f} mm too large on the pitch diameter"
    if run.stop is Stop.CREST:
        return f"crests foil roots by {max(0.0, -run.crest_room_mm.mean):.2f} mm"
    return f"{clearance:.2f} mm of clearance is too little for the difference of the threads"


def _forced(run: ThreadFit) -> Hazard:
    """Return the hazard of threads that do not run their length."""
    if run.stop is Stop.HAND or run.verdict is ThreadVerdict.NO_CATCH:
        return Hazard.LOW
    if run.turns.loosest < NIBBLED_TURNS:
        return Hazard.LOW
    carries = run.share.mean >= WOBBLE_SHARE
    return Hazard.HIGH if carries and run.turns.loosest >= FORCED_TURNS else Hazard.MEDIUM


def _seated(
    made: Mating,
    run: ThreadFit,
    male: tuple[tuple[EndConnection, Seat], Thread],
    female: tuple[tuple[EndConnection, Seat], Thread],
    meant: bool,
) -> Mating:
    """Return what happens once the threads have run their length."""
    (male_end, male_seat), in_thread = male
    (female_end, female_seat), out_thread = female
    seat = seat_fit(male_end, male_seat, female_end, female_seat, in_thread)
    made = replace(made, seat=seat, outcome=Outcome.NO_SEAL, hazard=Hazard.HIGH)
    if not same_thread(in_thread, out_thread):
        reason = (
            f"{in_thread.designation} runs in {out_thread.designation} but is another thread; "
            f"{_carries(run.share)}"
        )
        return replace(made, reason=reason)
    if seat.seals:
        return _sealing(made, male_end, female_end, seat.sentence)
    if meant and seat.contact is Contact.NOTHING:
        means = (male_end if in_thread.taper else female_end).seal
        reason = f"The seats do not meet; the tables name the pair, and what seals is: {means}."
        return _sealing(made, male_end, female_end, reason)
    if meant and seat.contact is not Contact.DISPLACED:
        reason = f"{seat.sentence} The tables name the pair: it is made to seal so."
        return _sealing(made, male_end, female_end, reason)
    if in_thread.taper and place(female_end, female_seat) is not Place.NOSE:
        reason = f"{seat.sentence} With sealant the taper may hold at first."
        return replace(made, hazard=Hazard.MEDIUM, reason=reason)
    return replace(made, reason=seat.sentence)


def same_thread(male: Thread, female: Thread) -> bool:
    """Tell whether two threads are made to one form and size, taper or not."""
    return (
        abs(male.pitch_mm - female.pitch_mm) < 1e-6
        and male.flank_angle_deg == female.flank_angle_deg
        and abs(male.pitch_diameter_mm - female.pitch_diameter_mm) < SAME_THREAD_MM
    )


def _carries(share: Spread) -> str:
    return f"{share.mean:.0%} of the thread height carries ({share.loosest:.0%} at the loosest)."


def _sealing(made: Mating, one: EndConnection, other: EndConnection, reason: str) -> Mating:
    """Return a joint that seals; two ratings that differ make it a matter of care."""
    low, high = sorted((one.rating.bar or 0.0, other.rating.bar or 0.0))
    sealed = replace(made, outcome=Outcome.SEALS, hazard=Hazard.LOW, reason=reason)
    if low and low < RATING_SHARE * high:
        return replace(sealed, reason=f"{reason} The lower rating, {low:g} bar, governs.")
    return sealed


# ---- washers and flanges


def _washer(
    catalogue: Catalogue, washer: EndConnection, other: EndConnection, meant: bool
) -> Mating:
    made = Mating(washer.id, other.id, Outcome.APART, Hazard.LOW, "")
    thread = catalogue.thread_of(other)
    if thread is None or other.ring_id_mm is not None or washer.ring_id_mm is None:
        return replace(made, reason="A washer goes between a thread's shoulder and a face.")
    play = washer.ring_id_mm - thread.major_mm
    if play < 0:
        reason = f"The washer is {-play:.2f} mm too small for {thread.designation}."
        return replace(made, outcome=Outcome.NO_START, reason=reason)
    if play > WASHER_PLAY_MM:
        reason = f"The washer is {play:.1f} mm wider than {thread.designation} and hangs off."
        hazard = Hazard.MEDIUM if play < 2 * WASHER_PLAY_MM else Hazard.LOW
        return replace(made, outcome=Outcome.LOOSE, hazard=hazard, reason=reason)
    shapes = {seat.shape for seat in other.seats}
    if meant or (shapes == {Shape.FLAT} and other.sealing in ("bonded_washer", "flat_washer")):
        reason = f"It centres on {thread.designation} with {play:.1f} mm play, between flat faces."
        return replace(made, outcome=Outcome.SEALS, reason=reason)
    if Shape.CHAMFER in shapes:
        reason = "The washer's lip hangs over the chamfer of the port."
        return replace(made, outcome=Outcome.NO_SEAL, hazard=Hazard.HIGH, reason=reason)
    reason = f"{other.family_name} does not seal on a washer."
    return replace(made, outcome=Outcome.NO_SEAL, hazard=Hazard.MEDIUM, reason=reason)


def _flanges(head: EndConnection, pad: EndConnection, meant: bool) -> Mating:
    found = flange_fit(head, pad)
    made = Mating(head.id, pad.id, Outcome.UNKNOWN, Hazard.MEDIUM, "", flange=found)
    under = _under_clamp(found)
    if found.bolts is False:
        over = found.head_over_mm
        risky = found.nearly or (found.enters and over is not None and over > -FALLS_MM)
        near = " Holes have been filed until such a pair met." if found.nearly else ""
        reason = (
            f"Bolt spacing differs by {found.bolts_off_mm:.1f} mm; "
            f"{_allowed(found.bolts_may_mm)}.{near}{under}"
        )
        hazard = Hazard.HIGH if risky else Hazard.LOW
        return replace(made, outcome=Outcome.BOLTS, hazard=hazard, reason=reason)
    if found.held is False:
        off = found.bolts_off_mm or 0.0
        reason = f"The bolts go in; spacing differs by {off:.1f} mm.{under}"
        return replace(made, outcome=Outcome.UNCLAMPED, hazard=Hazard.HIGH, reason=reason)
    if meant and head.id == pad.id:
        reason = "Head, clamp halves and pad of one size and series."
        return replace(made, outcome=Outcome.SEALS, hazard=Hazard.LOW, reason=reason)
    if found.bolts and found.held:
        reason = "Bolt pattern, head and clamp halves agree."
        return _sealing(made, head, pad, reason)
    return replace(made, reason="The tables lack bolt spacing or head of one of the two.")


def _allowed(may_mm: float) -> str:
    if may_mm < 0:
        return "the bolts of the pad do not pass the holes"
    return f"the holes allow {may_mm:.1f} mm"


def _under_clamp(found: FlangeFit) -> str:
    """Return what the clamp halves left on the pad do to the head, empty if nothing is wrong."""
    over, thicker = found.head_over_mm, found.head_thicker_mm
    if found.held is not False or over is None or thicker is None:
        return ""
    if not found.enters:
        return f" The clamp halves of the pad do not close over it: {over:.1f} mm too wide."
    faults = []
    if thicker < -0.5:
        faults.append(f"{-thicker:.1f} mm too thin to be gripped")
    if thicker > 0.5:
        faults.append(f"{thicker:.1f} mm too thick, so the bolts reach less thread")
    if over < -0.8:
        faults.append(f"{-over:.1f} mm too narrow to be held all round")
    return f" Under the clamp halves of the pad the head is {' and '.join(faults)}."
