"""Which readings a row needs to be wrong, and which disagree with all the others."""

from identify.light import Callable
from identify.model.connection import EndConnection
from identify.model.feature import CLUES, FEATURES, Feature
from identify.model.reading import Reading
from identify.model.verdict import Suspect
from identify.reasoning.posterior import DIGITS, Posterior, best_way
from identify.reasoning.scales import Weighed


def contradicting(state: Posterior, row: int, suspect: float) -> list[Feature]:
    """Return the measurements of the end that are nothing but mistakes if this row is the answer.

    An answer that needs one of them to be wrong is not named before it was taken again: readings
    that fit nothing quite are how an end looks that is in no table.

    Args:
        state: What is known.
        row: The answer in question.
        suspect: From which chance of a mistake on a measurement counts as one.
    """
    way = best_way(state, row)
    return [
        each.feature
        for each in state.weighed
        if each.feature not in CLUES
        and len(each.readings) < 2
        and each.wrong(each.of[way]) >= suspect
    ]


def suspects(
    state: Posterior, suspect: float, weigh: Callable[[tuple[Reading, ...]], Weighed]
) -> tuple[Suspect, ...]:
    """Return the readings that disagree with all the others, worst first.

    Args:
        state: What is known.
        suspect: From which chance of a mistake on a reading is named.
        weigh: Weighs readings of one feature, for those that are left of several.
    """
    known = state.listed()
    if len(state.readings) < 2 or known <= 0:
        return ()
    found = []
    bounds = state.mistaken_at_most(suspect * known)
    for each, most in zip(state.weighed, bounds, strict=True):
        if most < suspect * known:
            continue
        for place, reading in enumerate(each.readings):
            wrong = state.mistaken(each, place) / known
            if wrong >= suspect:
                others = tuple([one for one in each.readings if one is not reading])
                row = state.likeliest_without(each, weigh(others) if others else None)
                found.append(_suspect(reading, wrong, state.space.ends[row]))
    return tuple(sorted(found, key=lambda suspect: -round(suspect.probability, DIGITS)))


def _suspect(reading: Reading, chance: float, end: EndConnection) -> Suspect:
    return Suspect(
        reading,
        min(chance, 0.99),
        end,
        f'The {FEATURES[reading.feature].words}, "{reading.entered}", does not agree with '
        "the other readings; "
        f"without it {end.named} is most likely.",
    )
