"""How people and instruments report what is there: errors, mistakes, wear, habits, prevalence.

All figures are data in `rules/`, each file with its basis; nothing here is a dimension of a part.
"""

from identify.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Instrument:
    """Error of one way of measuring one kind of value.

    A length has a normal error of `sigma` [mm] plus `share` of its value; an angle `sigma` [deg],
    or, of two diameters of the cone by caliper, `sigma` [mm] across its flank;
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
class TrialHabits:
    """How two threads meet and what people tell of it.

    `at_limit` is how often a pair is nearest to the loosest fit the standards allow, and as often
    to the tightest. `mistaken` is the share of trials of which any outcome may be told: dirt,
    burrs, impatience. Turns that mean nothing lie anywhere below `most_turns`. `loose_unfelt` is
    how often a loose thread is said to run fully, `wedge_full` a taper that tightens as it should.
    A thread that stops at less than `bound_below` times the turns of a sound joint is said to bind.
    A told number of turns spreads by `turns_spread` plus `turns_share` of it.
    """

    at_limit: float
    mistaken: float
    most_turns: float
    loose_unfelt: float
    wedge_full: float
    bound_below: float
    turns_spread: float
    turns_share: float


@dataclass(frozen=True, slots=True)
class ObservationModel:
    """Everything the likelihood needs beside the dimensions.

    Of instruments: `instruments[kind][how]`; `resolves` times its error is what an instrument tells
    apart, `form_resolves_deg` what a leaf held to the light tells of thread forms. `leaves_mm` are
    the leaves of a metric pitch gauge [mm], `leaves_tpi` those of an inch one; `neighbour_leaf` is
    the chance of calling the leaf beside the one that fits, `one_gauge` the share of people who
    have only one of the two gauges, `half_way` the relative misfit of a leaf that they still
    accept; `leaf_share` is the relative spread of a leaf that was named without a gauge,
    `range_share` that of a pitch given as a range. `miscount` is the chance of counting one pitch
    too many, and as much for one too few. `seat_leaves_deg` are the half angles of a seat gauge
    [deg], of which one further than `seat_fits_deg` from the seat is not called, nor one further
    than `seat_slip_deg` from the one that fits called for it; `seat_worn_deg` is what wear adds to
    the spread [deg]. `half_said` is the chance that an angle given without a word is the half
    angle, `basis_slip` that half and included are exchanged although said. `growth_spread` adds to
    the error of a taper taken by two diameters, of which a plain mistake lies anywhere from 0 to
    `growth_span`. Of plain mistakes in a length the share `near_gross` lands within `near_reach`
    (relative) of the truth; `wrong_feature` is the share of mistakes that measure what the end does
    not have.

    Of parts and people: `tolerances[feature]`; `reports[feature][what is there][what is said]` are
    conditional tables that total 1 each, of which a report at most `rare_report` usual counts as a
    mistake. `chamfer_angled` is how often the angle of a port's chamfer is read and
    `no_cone_angled` some angle where there is no cone at all, `elsewhere` how often the oil bore is
    measured where no step takes a tube, all relative to where there is something to measure;
    `oil_bore` is the middle of that bore over the thread diameter, `oil_bore_spread` its log
    spread. `hex_of_thread` is the middle ratio of a nut's hexagon to its thread where no table
    gives it, `hex_spread` the log spread of that ratio, `other_hex` the chance that a maker took
    another hexagon than the tables name. `near_bore` is the chance that a hose bore one size off
    belongs to an end, `bore_share` what a bore may be off beside its tolerance (relative). Of
    threads in no table, pitches within `hose_pitches` [mm] are `hose_pitch_times` as common as
    others; of ends in no table the share `unlisted[feature]` has a left-hand thread or a feature of
    `SHARES`. `mark_right` is the chance of a stamped mark where the row would bear it, `mark_other`
    where it would not; `origin_unknown` that nobody knows where a machine comes from. Two rows made
    alike in the share `made_alike` of cases cannot be told apart; sizes within `alike_mm[feature]`
    are taken for each other at first, where that is more than a rule leaves open. A mistake is made
    again at the next reading of the same feature in the share `repeats_eye` of cases if the same
    person looks again, `repeats_tool` if they measure again in the same way, `repeats_other_tool`
    in another way, `repeats_other_person` by somebody else. `trial` is of trial fits.
    `answered[feature]` is the chance that a person can answer at all, 1 where it is not listed.
    """

    instruments: dict[str, dict[str, Instrument]]
    resolves: float
    form_resolves_deg: float
    leaves_mm: tuple[float, ...]
    leaves_tpi: tuple[float, ...]
    neighbour_leaf: float
    one_gauge: float
    half_way: float
    leaf_share: float
    range_share: float
    miscount: float
    seat_leaves_deg: tuple[float, ...]
    seat_fits_deg: float
    seat_slip_deg: float
    seat_worn_deg: float
    half_said: float
    basis_slip: float
    growth_spread: float
    growth_span: float
    near_gross: float
    near_reach: float
    wrong_feature: float
    tolerances: dict[str, Tolerance]
    reports: dict[str, dict[str, dict[str, float]]]
    rare_report: float
    alike_mm: dict[str, float]
    made_alike: float
    repeats_eye: float
    repeats_tool: float
    repeats_other_tool: float
    repeats_other_person: float
    chamfer_angled: float
    no_cone_angled: float
    elsewhere: float
    oil_bore: float
    oil_bore_spread: float
    hex_of_thread: float
    hex_spread: float
    other_hex: float
    near_bore: float
    bore_share: float
    hose_pitches: tuple[float, ...]
    hose_pitch_times: float
    unlisted: dict[str, float]
    mark_right: float
    mark_other: float
    origin_unknown: float
    trial: TrialHabits
    answered: dict[str, float]


@dataclass(frozen=True, slots=True)
class PriorTable:
    """How common ends are before anything is measured.

    `families[key]` is a relative weight; `regions[origin][family]` multiplies it where the
    machine's origin is known; `forms["family:form_key"]` splits a family; `bores[dn]` weights a
    hose size. `none_of_these` is the chance that the end is in no table, of which
    `unlisted_seat` has a thread we know with a seat we do not, and `unlisted_size` is a family of
    the tables in a size they do not hold.
    """

    families: dict[str, float]
    regions: dict[str, dict[str, float]]
    forms: dict[str, float]
    bores: dict[str, float]
    none_of_these: float
    unlisted_seat: float
    unlisted_size: float


@dataclass(frozen=True, slots=True)
class VerdictLimits:
    """Where a verdict changes its name.

    `identified` is the least probability of the leading group, `risk` the most summed
    hazard-weighted probability of dangerous lookalikes beside it, `abstain` the probability of
    none-of-these from which the tool names nothing, `standing` the probability from which a
    candidate still counts as standing, `suspect` the chance of a mistake from which a reading is
    named. A claimed identity is refuted below the probability `refuted` if the readings of the end
    itself are together at most `against` times as likely for it as for the end that fits best.
    A lookalike of medium hazard counts with the share `medium_risk` of its probability. A leading
    end below `named` is one of many; a lookalike is named as still standing from `shown` on. A
    measurement is not offered that is expected to tell less than `worth_bits`, or than the share
    `worth_share` of all doubt that is left; of two the quicker is, if it tells the share
    `nearly_as_good` of the better.
    """

    identified: float
    risk: float
    abstain: float
    standing: float
    suspect: float
    refuted: float
    against: float
    medium_risk: float
    named: float
    shown: float
    worth_bits: float
    worth_share: float
    nearly_as_good: float
