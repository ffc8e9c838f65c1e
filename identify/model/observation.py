"""How people and instruments report what is there: errors, mistakes, wear, habits, prevalence.

All figures are data in `rules/`, each file with its basis; nothing here is a dimension of a part.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Instrument:
    """Error of one way of measuring one kind of value.

    A length has a normal error of `sigma` [mm] plus `share` of its value; an angle `sigma` [deg];
    a pitch `share` of its value for a gauge leaf, or `sigma` [mm] over the whole counted length.
    `gross` is the share of readings that are plain mistakes.
    """

    sigma: float
    share: float
    gross: float


@dataclass(frozen=True, slots=True)
class Tolerance:
    """How far a part may lie below and above the tabulated figure [mm], and its wear.

    `worn` is the share of parts that are worn, by up to `wear_mm`; `shrinks` tells that wear
    makes the figure smaller (a male crest) and not larger (a bore).
    """

    below_mm: float
    above_mm: float
    worn: float
    wear_mm: float
    shrinks: bool


@dataclass(frozen=True, slots=True)
class ObservationModel:
    """Everything the likelihood needs beside the dimensions.

    `instruments[kind][how]`; `tolerances[feature]`; `reports[feature][what is there][what is
    said]` are conditional tables that total 1 each; `leaves_mm` the leaves of a metric pitch
    gauge [mm] and `leaves_tpi` of an inch one; `half_said` the chance that an angle given without
    a word is the half angle, `basis_slip` that half and included are exchanged although said;
    `miscount` the chance of counting one pitch too many, and as much for one too few;
    `neighbour_leaf` the chance of calling the leaf of a gauge beside the one that fits;
    `seat_leaves_deg` the half angles of a seat gauge [deg], of which one further than
    `seat_fits_deg` from the seat is not called, nor one further than `seat_slip_deg` from the one
    that fits called for it. Of plain mistakes in a length the share
    `near_gross` lands within `near_reach` (relative) of the truth. `chamfer_angled`
    is how often the angle of a port's chamfer is read and `no_cone_angled` some angle where there
    is no cone at all, `elsewhere` how often the oil bore is measured where no step takes a tube;
    all relative to where there is something to measure.
    `hex_of_thread` is the middle ratio of a nut's hexagon to its thread where no table gives it,
    `hex_spread` the log spread of that ratio, `other_hex` the chance that a maker took another
    hexagon than the tables name. `near_bore` is the chance that a hose bore one
    size off belongs to an end. A report at most `rare_report` usual for what is there counts as a
    mistake. `mark_right` is the chance that a stamped mark is one of those
    the row would bear. `answered[feature]` is the chance that a person can answer at all, 1 where
    it is not listed.
    """

    instruments: dict[str, dict[str, Instrument]]
    tolerances: dict[str, Tolerance]
    reports: dict[str, dict[str, dict[str, float]]]
    leaves_mm: tuple[float, ...]
    leaves_tpi: tuple[float, ...]
    half_said: float
    basis_slip: float
    miscount: float
    neighbour_leaf: float
    seat_leaves_deg: tuple[float, ...]
    seat_fits_deg: float
    seat_slip_deg: float
    near_gross: float
    near_reach: float
    chamfer_angled: float
    no_cone_angled: float
    elsewhere: float
    hex_of_thread: float
    hex_spread: float
    other_hex: float
    near_bore: float
    rare_report: float
    mark_right: float
    answered: dict[str, float]


@dataclass(frozen=True, slots=True)
class PriorTable:
    """How common ends are before anything is measured.

    `families[key]` is a relative weight; `regions[origin][family]` multiplies it where the
    machine's origin is known; `forms["family:form_key"]` splits a family; `bores[dn]` weights a
    hose size. `none_of_these` is the chance that the end is in no table, of which
    `unlisted_seat` has a thread we know with a seat we do not.
    """

    families: dict[str, float]
    regions: dict[str, dict[str, float]]
    forms: dict[str, float]
    bores: dict[str, float]
    none_of_these: float
    unlisted_seat: float


@dataclass(frozen=True, slots=True)
class VerdictLimits:
    """Where a verdict changes its name.

    `identified` is the least probability of the leading group, `risk` the most summed
    hazard-weighted probability of dangerous lookalikes beside it, `abstain` the probability of
    none-of-these from which the tool names nothing, `standing` the probability from which a
    candidate still counts as standing, `suspect` the chance of a mistake from which a reading is
    named. A claimed identity is refuted below the probability `refuted` if the readings of the end
    itself are together at most `against` times as likely for it as for the end that fits best.
    """

    identified: float
    risk: float
    abstain: float
    standing: float
    suspect: float
    refuted: float
    against: float
