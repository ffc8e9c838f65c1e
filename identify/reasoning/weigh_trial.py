"""A trial fit on a known part as evidence: what it should do, from the mating computation.

A trial that engages is never proof: many wrong parts go in, and that is exactly what the
computed outcomes say.
"""

import math
from functools import lru_cache

from identify.errors import ReadingError, UnknownEndError
from identify.model.catalogue import Catalogue
from identify.model.feature import Feature
from identify.model.observation import TrialHabits
from identify.model.reading import Outcome, Trial
from identify.model.thread import Thread
from identify.reading.names import one_end
from identify.reasoning.answers import Answers, answers_called
from identify.reasoning.density import normal_pdf
from identify.reasoning.thread_fit import START_TURNS, Spread, ThreadVerdict, fit
from identify.reasoning.traits import UNKNOWN, Missing, ThreadOf, Trait
from identify.reasoning.weight import Weight, misfit

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
        end = one_end(catalogue, trial.known)
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


def weigh_trial(
    trial: Trial, known: Known, trait: Trait, habits: TrialHabits, catalogue: Catalogue
) -> Weight:
    """Weigh a trial fit against one thread: the chance of its outcome, per turn if turns are told.

    Args:
        trial: What was done and what happened.
        known: Gender and thread of the part it was tried on.
        trait: The thread in question.
        habits: How fits spread and what people tell of them.
        catalogue: The tables, for the thread.
    """
    turns = trial.turns if trial.outcome is Outcome.BINDS else None
    flat = (1.0 if turns is None else 1 / habits.most_turns) / len(Outcome)
    if trait is UNKNOWN:
        return Weight(flat, 0.0)
    pair = None if isinstance(trait, Missing) else _pair(known, trait, catalogue)
    if pair is None:
        return Weight(habits.mistaken * flat, habits.mistaken * flat)
    chance = expected(*pair, habits)[trial.outcome]
    if turns is not None:
        chance *= _turns(*pair, turns, habits)
    return _told(chance, flat, habits)


def _told(chance: float, flat: float, habits: TrialHabits) -> Weight:
    """Return the weight of an outcome that comes with a chance, or by mistake as any other."""
    mistake = habits.mistaken * flat
    return Weight((1 - habits.mistaken) * chance + mistake, mistake)


def answers_trial(
    known: Known, trait: Trait, habits: TrialHabits, catalogue: Catalogue
) -> Answers | None:
    """Return the outcomes expected of a thread on a known part, None if it cannot be tried."""
    pair = None if isinstance(trait, Missing) else _pair(known, trait, catalogue)
    if pair is None:
        return None
    chances, flat = expected(*pair, habits), 1 / len(Outcome)
    return answers_called(_told(chances[each], flat, habits).likelihood for each in Outcome)


def known_parts(catalogue: Catalogue, traits: list[Trait]) -> list[Known]:
    """Return parts that would fit these candidates: their threads in the other gender."""
    found: dict[tuple[str, str], Known] = {}
    for each in traits:
        if not isinstance(each, ThreadOf):
            continue
        gender, name = each
        other = "female" if gender == "male" else "male"
        thread = catalogue.threads[name]
        if (thread.internal if other == "female" else thread.external) is not None:
            found[other, name] = (other, thread)
    return list(found.values())


def _pair(known: Known, trait: Trait, catalogue: Catalogue) -> tuple[Thread, Thread] | None:
    """Return male and female thread of the trial, None if both have one gender."""
    if not isinstance(trait, ThreadOf):
        raise misfit(Feature.TRIAL_FIT, trait)
    gender, name = trait
    if {gender, known[0]} != {"male", "female"}:
        return None
    own = catalogue.threads[name]
    male, female = (own, known[1]) if gender == "male" else (known[1], own)
    return None if male.external is None or female.internal is None else (male, female)


@lru_cache(maxsize=32768)
def expected(male: Thread, female: Thread, habits: TrialHabits) -> dict[Outcome, float]:
    """Return how often each outcome is told when `male` is tried in `female`; totals 1."""
    found = fit(male, female)
    if found.verdict is ThreadVerdict.LOOSE:
        return _shares(loose=1 - habits.loose_unfelt, full=habits.loose_unfelt)
    if found.verdict is ThreadVerdict.NO_CATCH:
        return _shares(loose=0.5, no_start=0.5)  # two words for one thing
    no_start = binds = full = 0.0
    for share, turns in _fits(found.turns, habits):
        if turns < START_TURNS:
            no_start += share
        elif turns < found.available * habits.bound_below or found.verdict is ThreadVerdict.WEDGES:
            binds += share
        else:
            full += share
    if found.verdict is ThreadVerdict.WEDGES:  # a taper tightens as it should
        full, binds = full + habits.wedge_full * binds, (1 - habits.wedge_full) * binds
    return _shares(no_start=no_start, binds=binds, full=full)


def _fits(turns: Spread, habits: TrialHabits) -> tuple[tuple[float, float], ...]:
    """Return how often a part is nearest to the loosest, the mean and the tightest fit."""
    middle = 1 - 2 * habits.at_limit
    return (
        (habits.at_limit, turns.loosest), (middle, turns.mean), (habits.at_limit, turns.tightest)
    )  # fmt: skip


def _shares(
    no_start: float = 0.0, binds: float = 0.0, full: float = 0.0, loose: float = 0.0
) -> dict[Outcome, float]:
    return {
        Outcome.NO_START: no_start,
        Outcome.BINDS: binds,
        Outcome.FULL: full,
        Outcome.LOOSE: loose,
    }


def _turns(male: Thread, female: Thread, told: float, habits: TrialHabits) -> float:
    """Weigh the number of turns that was told, per turn."""
    found = fit(male, female)
    total = 0.0
    for share, turns in _fits(found.turns, habits):
        middle = min(turns, found.available) if math.isfinite(turns) else found.available
        sigma = habits.turns_spread + habits.turns_share * middle
        total += share * normal_pdf((told - middle) / sigma) / sigma
    return total
