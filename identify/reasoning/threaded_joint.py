"""A male thread run into a female one, then seat against seat.

What the tables name as mates is asked last: it can turn a contact into a seal (a flared tube on a
seat cut 3 deg sharper), never a thread into a fit.
"""

from identify.frozen import replace
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat
from identify.model.thread import Thread
from identify.model.verdict import Hazard
from identify.reasoning.joint import Mating, Outcome, sealing, turns_words
from identify.reasoning.seat_fit import UNSEALED, Contact, Place, place, seat_fit
from identify.reasoning.thread_fit import TIGHT_MM, Spread, Stop, ThreadFit, ThreadVerdict, fit

FORCED_TURNS = 2.0  # on two turns a joint can be pulled tight with a spanner and hold pressure
NIBBLED_TURNS = 1.0
WOBBLE_SHARE = 0.25  # with less of its height a thread rocks in the hand; common practice
SAME_THREAD_MM = 0.15  # basic pitch diameters nearer than this are one thread (G, R, Rp; NPSM)

Fits = dict[tuple[str, str], ThreadFit]


def threaded(
    catalogue: Catalogue, male: EndConnection, female: EndConnection, meant: bool, fits: Fits
) -> Mating:
    """Return what a male (or the hollow bolt of a banjo) makes of a female.

    Ends are made in several ways (a taper male with or without a cone inside). Where all of them
    seal, or none, that is the answer; among those that do not the worst leads. Where some seal and
    some do not, the worst way gives the hazard, and how many are made so is said.
    """
    ways = [
        _way(catalogue, (male, male_seat), (female, female_seat), fits)
        for male_seat in male.seats
        for female_seat in female.seats
    ]
    if meant:
        ways = [_cut_sharper(way, male, female) for way in ways]
        unseen = not any(way.outcome is Outcome.SEALS for way in ways)
        ways = [
            _as_tabled(way, male, female, catalogue) if unseen or _seatless(way) else way
            for way in ways
        ]
    best = min(ways, key=_order)
    failing = [way for way in ways if way.outcome is not Outcome.SEALS]
    if best.outcome is not Outcome.SEALS or not failing:
        return best
    worst = max(failing, key=lambda way: (way.hazard.rank, _share(way)))
    share = sum(map(_share, failing))
    return replace(
        best,
        outcome=Outcome.SOME,
        hazard=worst.hazard,
        reason=f"{best.reason} But about {share:.0%} are made otherwise: {worst.reason}",
    )


def _share(way: Mating) -> float:
    return way.seat.share if way.seat else 1.0


def _order(way: Mating) -> tuple[bool, int, float]:
    """Sort key: a way that seals, then the worst, the most usual."""
    return way.outcome is not Outcome.SEALS, -way.hazard.rank, -_share(way)


def _way(
    catalogue: Catalogue,
    male: tuple[EndConnection, Seat],
    female: tuple[EndConnection, Seat],
    fits: Fits,
) -> Mating:
    """Return what one way of making the male does in one way of making the female."""
    in_thread = _thread(catalogue, *male)
    out_thread = _thread(catalogue, *female)
    ids = male[0].id, female[0].id
    if in_thread is None or out_thread is None:
        return Mating(*ids, Outcome.APART, Hazard.LOW, "One of the two has no thread.")
    run = thread_fit(in_thread, out_thread, fits)
    if run.verdict in (ThreadVerdict.RUNS, ThreadVerdict.WEDGES):
        return _seated(run, (male, in_thread), (female, out_thread))
    outcome, reason = _stopped(run, in_thread, out_thread)
    return Mating(*ids, outcome, _forced(run), reason, fit=run)


def thread_fit(male: Thread, female: Thread, fits: Fits) -> ThreadFit:
    """Return the fit of two threads, worked out once for each pair and kept in `fits`."""
    key = _key(male), _key(female)
    if key not in fits:
        fits[key] = fit(male, female)
    return fits[key]


Reach = tuple[float, float, float, float] | None


def miss(male: Reach, female: Reach) -> bool:
    """Tell whether two threads cannot hold each other for a turn, by how far they reach alone.

    Crests that do not reach each other at a mean fit slip past; a crest that is larger than the
    root at the loosest does not go in. What `thread_fit.fit` says at length of all others.
    """
    if male is None or female is None:
        return False
    low, mean, _, _ = male
    _, _, bore, root = female
    return mean <= bore or low - root > TIGHT_MM


def engages(one: Thread, other: Thread, fits: Fits, *, inside: bool) -> bool:
    """Tell whether two threads hold each other for a turn at least.

    Args:
        one: A thread.
        other: Another.
        fits: As for `thread_fit`.
        inside: The first is that of the male.
    """
    male, female = (one, other) if inside else (other, one)
    if male.external is None or female.internal is None or miss(male.reach_mm, female.reach_mm):
        return False
    run = thread_fit(male, female, fits)
    return run.verdict is not ThreadVerdict.NO_CATCH and run.turns.loosest >= NIBBLED_TURNS


def _key(thread: Thread) -> str:
    return f"{thread.designation} LH" if thread.left_hand else thread.designation


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
        room = -run.crest_room_mm.mean
        return (
            f"crests interfere with roots by {room:.2f} mm"
            if room >= 0.005
            else "crests touch roots"
        )
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
    run: ThreadFit,
    male: tuple[tuple[EndConnection, Seat], Thread],
    female: tuple[tuple[EndConnection, Seat], Thread],
) -> Mating:
    """Return what happens once the threads have run their length."""
    (male_end, male_seat), in_thread = male
    (female_end, female_seat), out_thread = female
    seat = seat_fit(male_end, male_seat, female_end, female_seat, in_thread)
    ids = male_end.id, female_end.id
    if not same_thread(in_thread, out_thread):
        hazard = Hazard.HIGH
        reason = (
            f"{in_thread.designation} runs in {out_thread.designation} but is another thread; "
            f"{_carries(run.share)}"
        )
    elif seat.seals:
        made = Mating(*ids, Outcome.SEALS, Hazard.LOW, "", fit=run, seat=seat)
        return sealing(made, male_end, female_end, seat.sentence)
    else:
        hazard, reason = UNSEALED[seat.contact], seat.sentence
        if in_thread.taper and hazard.rank < Hazard.MEDIUM.rank:
            hazard, reason = Hazard.MEDIUM, f"{reason} {_wedged(female_end, female_seat)}"
    return Mating(*ids, Outcome.NO_SEAL, hazard, reason, fit=run, seat=seat)


def _wedged(end: EndConnection, seat: Seat) -> str:
    """Return what becomes of a taper male whose seat does not meet that of the female."""
    if place(end, seat) is Place.NOSE:
        return "The taper jams in the thread before any seat touches, and can split a nut."
    return "With sealant the taper may hold at first."


def _seatless(way: Mating) -> bool:
    """Tell whether the tables hold no seat of one of the two."""
    return way.seat is not None and way.seat.contact is Contact.SEATLESS


def _cut_sharper(way: Mating, male: EndConnection, female: EndConnection) -> Mating:
    """Return a line of contact that the tables name as a joint: it is made to seal so."""
    if way.seat is None or way.seat.contact not in (Contact.LINE, Contact.UNKNOWN):
        return way
    reason = f"{way.seat.sentence} The tables name the pair: it is made to seal so."
    return sealing(way, male, female, reason)


def _as_tabled(
    way: Mating, male: EndConnection, female: EndConnection, catalogue: Catalogue
) -> Mating:
    """Return what the tables say of two mates of which geometry cannot show how they seal."""
    if way.fit is None:
        return replace(way, outcome=Outcome.SEALS, reason=_AS_TABLED)
    if way.seat is None or way.seat.contact in (Contact.DISPLACED, Contact.RING):
        return way
    thread = catalogue.thread_of(male)
    means = (male if thread and thread.taper else female).seal
    reason = f"The seats do not meet; the tables name the pair, and what seals is: {means}."
    return sealing(way, male, female, reason)


def same_thread(male: Thread, female: Thread) -> bool:
    """Tell whether two threads are made to one form and size, taper or not."""
    return (
        abs(male.pitch_mm - female.pitch_mm) < 1e-6
        and male.flank_angle_deg == female.flank_angle_deg
        and abs(male.pitch_diameter_mm - female.pitch_diameter_mm) < SAME_THREAD_MM
    )


def _carries(share: Spread) -> str:
    return f"{share.mean:.0%} of the thread height carries ({share.loosest:.0%} at the loosest)."
