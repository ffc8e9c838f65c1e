"""Two flanges bolted together, and a sealing washer put on a thread."""

from identify.frozen import replace
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Shape
from identify.model.feature import Feature
from identify.model.verdict import Hazard
from identify.reasoning.flange_fit import GRIP_MM, HEAD_PLAY_MM, FlangeFit, flange_fit
from identify.reasoning.joint import Mating, Outcome, sealing

WASHER_PLAY_MM = 1.5  # a washer wider than its thread by more hangs off centre; common practice
FALLS_MM = 4.0  # a head narrower by more falls through; neighbours across codes are 3 mm apart


def washered(
    catalogue: Catalogue, washer: EndConnection, other: EndConnection, meant: bool
) -> Mating:
    """Return what a sealing washer does on the thread of `other`."""
    made = Mating(washer.id, other.id, Outcome.APART, Hazard.LOW, "")
    thread, hole = catalogue.thread_of(other), washer.sizes.get(Feature.RING_ID)
    if thread is None or hole is None or other.is_washer:
        return replace(made, reason="A washer goes between a thread's shoulder and a face.")
    play = hole - thread.major_mm
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
    reason = f"Not made to seal on a washer: {other.family_name}."
    return replace(made, outcome=Outcome.NO_SEAL, hazard=Hazard.MEDIUM, reason=reason)


def flanged(head: EndConnection, pad: EndConnection, meant: bool) -> Mating:
    """Return what the head of one flange does on the pad of another."""
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
        return sealing(made, head, pad, reason)
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
    if thicker < -GRIP_MM:
        faults.append(f"{-thicker:.1f} mm too thin to be gripped")
    if thicker > GRIP_MM:
        faults.append(f"{thicker:.1f} mm too thick, so the bolts reach less thread")
    if over < -HEAD_PLAY_MM:
        faults.append(f"{-over:.1f} mm too narrow to be held all round")
    return f" Under the clamp halves of the pad the head is {' and '.join(faults)}."
