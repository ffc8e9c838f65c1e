"""What still stands beside the leading answer: dangerous lookalikes, and the next answers."""

from identify.light import Sequence
from identify.model.observation import VerdictLimits
from identify.model.verdict import Danger
from identify.reasoning.naming import Group, rivals
from identify.reasoning.posterior import Posterior
from identify.reasoning.risk import Risk

SHOWN_DANGERS = 5  # lookalikes named beside a verdict
SHOWN_BESIDE = 2  # answers shown next to the leading one


def dangers(
    state: Posterior, groups: Sequence[Group], limits: VerdictLimits, risk: Risk | None
) -> tuple[Danger, ...]:
    """Return the dangerous lookalikes of the leading answer that still stand, gravest risk first.

    A row that is one answer with another is named by the first row of that answer, an end that
    must be left alone by its own name.
    """
    if risk is None or not groups or groups[0][1] < limits.named:
        return ()
    answers = {row: group for group in groups[1:] for row in _handled(state, group)}
    shown, least = [], limits.shown
    for row, p in state.standing:
        if p < least:
            break
        shown.append((row, p))
    behind = [row for row, group in answers.items() if group[1] >= least > state.rows[row]]
    shown += [(row, state.rows[row]) for row in behind]
    found: dict[int, Group] = {}
    for _, row in rivals(state, groups[0], risk, shown):
        group = answers.get(row, (row, state.rows[row], ()))
        found.setdefault(group[0], group)
    return tuple(
        [
            _danger(state, groups[0][0], group, risk)
            for group in list(found.values())[:SHOWN_DANGERS]
        ]
    )


def beside(
    state: Posterior, groups: Sequence[Group], limits: VerdictLimits, risk: Risk | None
) -> tuple[Danger, ...]:
    """Return the answers next to the leading one, likeliest first, and what tells them from it."""
    if risk is None or not groups or groups[0][1] < limits.named:
        return ()
    return tuple(
        [
            _danger(state, groups[0][0], group, risk)
            for group in groups[1 : 1 + SHOWN_BESIDE]
            if group[1] >= limits.standing
        ]
    )


def _handled(state: Posterior, group: Group) -> list[int]:
    """Return the rows of an answer, without those of ends that must be left alone."""
    head, _, joined = group
    return [head, *(row for row in joined if not state.space.ends[row].refuse)]


def _danger(state: Posterior, lead: int, group: Group, risk: Risk) -> Danger:
    """Return an answer beside the leading row, with the worst hazard of its rows."""
    ends, (head, share, _) = state.space.ends, group
    worst = [risk.pair(ends[row], ends[lead]) for row in _handled(state, group)]
    read = {each.feature for each in state.readings}
    return risk.danger(ends[lead], ends[head], share, read, worst)
