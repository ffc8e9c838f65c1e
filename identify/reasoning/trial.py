"""A trial fit on a known part as evidence: what it should do, from the mating computation.

A trial that engages is never proof: many wrong parts go in, and that is exactly what the
computed outcomes say.
"""

import math
from functools import lru_cache

from identify.errors import ReadingError, UnknownEndError
from identify.model.catalogue import Catalogue
from identify.model.reading import Outcome, Reading, Trial
from identify.model.thread import Thread
from identify.reasoning.density import normal_pdf
from identify.reasoning.thread_fit import START_TURNS, ThreadVerdict, fit
from identify.reasoning.traits import ABSENT, UNKNOWN, Trait
from identify.reasoning.weight import Weight

FITS = (0.2, 0.6, 0.2)  # how often a part is nearest to the loosest, mean and tightest fit
NOISE = 0.06  # dirt, burrs and impatience: any outcome may be told of any fit
TURNS = 12.0  # a told number of turns that means nothing lies anywhere below this
Known = tuple[str, Thread]  # gender and thread of the part it was tried on


def known_part(catalogue: Catalogue, trial: Trial) -> Known:
    """Return gender and thread of the part a sample was tried on.

    Raises:
        ReadingError: The words name no thread and no end of the tables, or no gender.
    """
    words = trial.known.lower().split()
    gender = next((word for word in words if word in ("male", "female")), "")
    plain = "".join(word for word in words if word not in ("male", "female"))
    for name, thread in catalogue.threads.items():
        if plain and plain in (_plain(name), _plain(name).replace("-14npt", "npt")):
            if not gender:
                raise ReadingError(
                    f'trial_fit "{trial.known}": say male or female, as in "{name} female".'
                )
            limits = thread.external if gender == "male" else thread.internal
            if limits is not None:
                return gender, thread
    try:
        end = catalogue.find(trial.known)
    except UnknownEndError as error:
        raise ReadingError(
            f'trial_fit: {error} Name a thread and its gender, as in "G 1/4 female".'
        ) from None
    own = catalogue.thread_of(end, end.seats[0].thread)
    if own is None:
        raise ReadingError(f"trial_fit: {end.id} has no thread to try on.")
    return end.gender, own


def _plain(designation: str) -> str:
    return designation.lower().replace(" ", "")


def weigh_trial(reading: Reading, known: Known, trait: Trait, catalogue: Catalogue) -> Weight:
    """Weigh a trial fit against one candidate; see `likelihood.weigh`."""
    trial = reading.value
    assert isinstance(trial, Trial)
    told = trial.turns is not None and trial.outcome is Outcome.BINDS
    flat = (1 / TURNS if told else 1.0) / len(Outcome)
    if trait == UNKNOWN:
        return Weight(flat, 0.0)
    mistake = NOISE * flat
    if trait == ABSENT:
        return Weight(mistake, mistake)
    pair = _pair(known, trait, catalogue)
    if pair is None:
        return Weight(mistake, mistake)
    chance = expected(*pair)[trial.outcome]
    if told and trial.turns is not None:
        chance *= _turns(*pair, trial.turns)
    return Weight((1 - NOISE) * chance + mistake, mistake)


def known_parts(catalogue: Catalogue, traits: list[Trait]) -> list[Known]:
    """Return parts that would fit these candidates: their threads in the other gender."""
    found: dict[tuple[str, str], Known] = {}
    for each in traits:
        if not isinstance(each, tuple):
            continue
        gender, name = each
        other = "female" if gender == "male" else "male"
        thread = catalogue.threads[name]
        if (thread.internal if other == "female" else thread.external) is not None:
            found[other, name] = (other, thread)
    return list(found.values())


def trial_outcomes(known: Known, trait: Trait, catalogue: Catalogue) -> dict[object, float] | None:
    """Return the outcomes expected of a candidate on a known part, None if it cannot be tried."""
    pair = None if trait in (ABSENT, UNKNOWN) else _pair(known, trait, catalogue)
    if pair is None:
        return None
    noise = NOISE / len(Outcome)
    return {outcome: (1 - NOISE) * p + noise for outcome, p in expected(*pair).items()}


def _pair(known: Known, trait: Trait, catalogue: Catalogue) -> tuple[Thread, Thread] | None:
    """Return male and female thread of the trial, None if both have one gender."""
    assert isinstance(trait, tuple)
    gender, name = trait
    if {gender, known[0]} != {"male", "female"}:
        return None
    own = catalogue.threads[name]
    male, female = (own, known[1]) if gender == "male" else (known[1], own)
    return None if male.external is None or female.internal is None else (male, female)


@lru_cache(maxsize=4096)
def expected(male: Thread, female: Thread) -> dict[Outcome, float]:
    """Return how often each outcome is told when `male` is tried in `female`; totals 1."""
    found = fit(male, female)
    if found.verdict is ThreadVerdict.LOOSE:
        return _shares(loose=0.75, full=0.25)
    if found.verdict is ThreadVerdict.NO_CATCH:
        return _shares(loose=0.5, no_start=0.5)
    no_start = binds = full = 0.0
    spread = (found.turns.loosest, found.turns.mean, found.turns.tightest)
    for share, turns in zip(FITS, spread, strict=True):
        if turns < START_TURNS:
            no_start += share
        elif turns < found.available * 1.2 or found.verdict is ThreadVerdict.WEDGES:
            binds += share
        else:
            full += share
    if found.verdict is ThreadVerdict.WEDGES:  # a taper that tightens as it should may be called so
        full, binds = full + 0.25 * binds, 0.75 * binds
    return _shares(no_start=no_start, binds=binds, full=full)


def _shares(
    no_start: float = 0.0, binds: float = 0.0, full: float = 0.0, loose: float = 0.0
) -> dict[Outcome, float]:
    return {
        Outcome.NO_START: no_start,
        Outcome.BINDS: binds,
        Outcome.FULL: full,
        Outcome.LOOSE: loose,
    }


def _turns(male: Thread, female: Thread, told: float) -> float:
    """Weigh the number of turns that was told, per turn."""
    found = fit(male, female)
    total = 0.0
    spread = (found.turns.loosest, found.turns.mean, found.turns.tightest)
    for share, turns in zip(FITS, spread, strict=True):
        middle = min(turns, found.available) if math.isfinite(turns) else found.available
        sigma = 0.7 + 0.25 * middle
        total += share * normal_pdf((told - middle) / sigma) / sigma
    return total
