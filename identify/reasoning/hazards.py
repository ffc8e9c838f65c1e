"""What it costs to take one end for another, worked out for the pairs that are asked about.

Taking A for B means that somebody fits a B where an A was: the hazard is that of B on the mates of
A. Where the tables hold no mate of A, a part that mirrors it stands in.
"""

from identify.frozen import replace
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Seat, Shape
from identify.model.thread import Thread
from identify.model.verdict import Hazard
from identify.reasoning.joint import Mating
from identify.reasoning.threaded_joint import Fits, engages

REMEMBERED = 200_000  # pairs kept: those of one interview are some hundred, a batch repeats many


class Hazards:
    """The hazard of taking one end for another, of one catalogue; what was asked is kept.

    Two ends of different genders are not mistaken for each other, nor an end for itself.
    """

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self._fits: Fits = {}
        self._partners: dict[str, tuple[EndConnection, ...]] = {}
        self._threads: dict[str, list[Thread]] = {}
        self._known: dict[tuple[str, str], Hazard] = {}

    def of(self, truth: EndConnection, taken: EndConnection) -> Hazard:
        """Return the hazard of taking `truth` for `taken`."""
        if truth.gender != taken.gender or truth.id == taken.id:
            return Hazard.LOW
        key = truth.id, taken.id
        found = self._known.get(key)
        if found is None:
            if len(self._known) >= REMEMBERED:
                self._known.clear()
            found = self._known[key] = self._worst(truth, taken)
        return found

    def _worst(self, truth: EndConnection, taken: EndConnection) -> Hazard:
        """Return what `worst_mating` says, without mating threads that cannot engage."""
        from identify.reasoning.mating import mate  # an end that is not nearly named needs none

        worst = Hazard.LOW
        for partner in self._partners_of(truth):
            if worst is Hazard.HIGH:
                break
            if self._goes_on(taken, partner):
                found = mate(self.catalogue, taken, partner, self._fits).hazard
                worst = max(worst, found, key=lambda hazard: hazard.rank)
        return worst

    def _goes_on(self, end: EndConnection, partner: EndConnection) -> bool:
        """Tell whether the thread of an end could go on a partner at all, however both are made."""
        ours, theirs = self._threads_of(end), self._threads_of(partner)
        if end.gender == "none" or partner.is_washer or not ours or not theirs:
            return True
        inside = end.gender != "female"
        for one in ours:
            for other in theirs:
                if engages(one, other, self._fits, inside=inside):
                    return True
        return False

    def _threads_of(self, end: EndConnection) -> list[Thread]:
        found = self._threads.get(end.id)
        if found is None:
            several = [self.catalogue.thread_of(end, seat.thread) for seat in end.seats]
            found = self._threads[end.id] = [thread for thread in several if thread is not None]
        return found

    def _partners_of(self, end: EndConnection) -> tuple[EndConnection, ...]:
        found = self._partners.get(end.id)
        if found is None:
            found = self._partners[end.id] = partners(self.catalogue, end)
        return found


def worst_mating(
    catalogue: Catalogue, truth: EndConnection, taken: EndConnection, fits: Fits | None = None
) -> Mating:
    """Return what happens where a `taken` is fitted in place of a `truth`: the worst mate's."""
    from identify.reasoning.mating import mate

    fits = {} if fits is None else fits
    met = [mate(catalogue, taken, other, fits) for other in partners(catalogue, truth)]
    return max(met, key=lambda one: one.hazard.rank)


def partners(catalogue: Catalogue, end: EndConnection) -> tuple[EndConnection, ...]:
    """Return what this end is fitted to; a part that mirrors it where the tables hold none."""
    return catalogue.mates_of(end) or (mirror(end),)


_MIRRORED = {
    Shape.CONVEX: Shape.CONCAVE,
    Shape.CONCAVE: Shape.CONVEX,
    Shape.BALL: Shape.CONCAVE,
    Shape.CHAMFER: Shape.NONE,
}


def mirror(end: EndConnection) -> EndConnection:
    """Return a part made to take this end: other gender, seat turned inside out.

    It is no row of any table and is used only to judge what else would go where the end goes.
    """
    gender = {"male": "female", "female": "male"}.get(end.gender, end.gender)
    seats = tuple(_mirrored(end, seat) for seat in end.seats)
    return replace(end, id=f"{end.id} (its mate)", gender=gender, seats=seats, mates=())


def _mirrored(end: EndConnection, seat: Seat) -> Seat:
    boss = end.sealing == "o_ring_boss"
    shape = _MIRRORED.get(seat.shape, seat.shape)
    if boss and seat.shape is not Shape.CHAMFER:
        shape = Shape.CHAMFER
    ring = "none" if seat.o_ring != "none" else "boss" if boss else "none"
    if end.sealing == "o_ring_face" and seat.o_ring == "none":
        ring = "face"
    return replace(seat, shape=shape, o_ring=ring)
