"""Named observers for simulation: how a kind of person measures, looks and slips."""

from identify.frozen import dataclass, replace
from identify.light import Mapping
from identify.model.rule import Tool

CARES = ("careful", "ordinary", "hurried", "novice")
"""Kinds of person that may be told; every rule book has an observer of each name."""


@dataclass(frozen=True, slots=True)
class Observer:
    """One kind of person.

    `tools` are in the bag. `errors` multiplies the spread that `rules/instruments.yaml` gives each
    instrument, `gross` the share of plain mistakes it gives, `eye` the share of wrong answers in
    `rules/observation.yaml`. `resolution_mm` is the step a caliper is read in, `inches` the share
    of lengths said in inches. `neighbour_leaf` is the chance of calling the leaf beside the
    fitting one of a pitch or seat gauge, `leaf_error` the relative spread of a pitch as light
    past a leaf shows it, `miscount` the chance of counting one pitch too many or too few.
    `mix_up` is the chance of saying half for included or the reverse, `unsaid` of saying neither.
    `missing` is the chance of not answering although the feature is there.
    """

    name: str
    about: str
    tools: frozenset[Tool]
    errors: float
    gross: float
    eye: float
    resolution_mm: float
    inches: float
    neighbour_leaf: float
    leaf_error: float
    miscount: float
    mix_up: float
    unsaid: float
    missing: float

    def scaled(self, factor: float) -> "Observer":
        """Return the same person with every error and mistake this many times as large.

        What is typed, in which unit, and what goes unanswered stays the same.
        """
        return replace(
            self,
            errors=self.errors * factor,
            gross=self.gross * factor,
            eye=self.eye * factor,
            neighbour_leaf=min(0.5, self.neighbour_leaf * factor),
            leaf_error=self.leaf_error * factor,
            miscount=min(0.5, self.miscount * factor),
            mix_up=min(0.5, self.mix_up * factor),
        )


@dataclass(frozen=True, slots=True)
class ObserverTable:
    """All observers by name, and what all of them share.

    A pitch leaf further than `pitch_fits` (relative) from the thread is not called. A new seat
    lies within `seat_tolerance_deg` of its nominal half angle; the share `seat_worn` of seats has
    worn by up to `seat_wear_deg` more, either way. `pitches` are counted at a time.
    """

    observers: Mapping[str, Observer]
    seat_tolerance_deg: float
    seat_worn: float
    seat_wear_deg: float
    pitch_fits: float
    pitches: int
