"""Expert rules laid out for many samples: which hold, as `conditions.holds` says of each.

A pattern of ends is the set of rows it means, found once; a condition is a function of the facts.
"""

from collections.abc import Callable, Iterator, Sequence
from functools import cache

from identify.model.connection import EndConnection
from identify.model.rule import Check, Condition, EndPattern, ExpertRule
from identify.reasoning.conditions import Facts, holds, matches

Test = Callable[[Facts], bool]
Rows = frozenset[int]


class LaidRules:
    """The rules over one catalogue.

    Args:
        rules: In the order in which they are told.
        ends: Of the catalogue.
    """

    def __init__(self, rules: Sequence[ExpertRule], ends: Sequence[EndConnection]) -> None:
        self._ends, self._rows = ends, cache(self._rows_of)
        self._rules = [
            (rule, frozenset(rule.read), rule.standing, self._test(rule.when)) for rule in rules
        ]

    def __call__(self, facts: Facts) -> Iterator[ExpertRule]:
        """Yield the rules that hold; see `expert.met`."""
        read, standing = facts.readings.keys(), facts.by_family.keys()
        for rule, features, groups, test in self._rules:
            if features <= read:
                for families in groups:
                    if standing.isdisjoint(families):
                        break
                else:
                    if test(facts):
                        yield rule

    def _test(self, condition: Condition) -> Test:
        check = condition.check
        if check in (Check.ALL, Check.ANY, Check.NOT):
            return _joined(check, [self._test(part) for part in condition.parts])
        if check is Check.TOP:
            return _leads(self._rows(condition.ends[0]), condition.at_least)
        if check in (Check.STANDING, Check.BOTH_STANDING):
            patterns = [(self._rows(each), each.families) for each in condition.ends]
            return _stand(patterns, condition.at_least)
        return lambda facts: holds(condition, facts)

    def _rows_of(self, pattern: EndPattern) -> Rows:
        return frozenset(row for row, end in enumerate(self._ends) if matches(pattern, end))


def _joined(check: Check, tests: list[Test]) -> Test:
    until = check is not Check.ALL  # the first that is so settles it
    settled = check is Check.ANY

    def test(facts: Facts) -> bool:
        for each in tests:
            if each(facts) is until:
                return settled
        return not settled

    return test


def _leads(rows: Rows, at_least: float) -> Test:
    def test(facts: Facts) -> bool:
        if not facts.ranking:
            return False
        row, probability = facts.ranking[0]
        return probability >= at_least and row in rows

    return test


def _stand(patterns: list[tuple[Rows, tuple[str, ...]]], at_least: float) -> Test:
    """Return a test that an end of each pattern stands; `ranking` is in falling order."""

    def stands(rows: Rows, ranking: Sequence[tuple[int, float]]) -> bool:
        for row, probability in ranking:
            if probability < at_least:
                return False
            if row in rows:
                return True
        return False

    def test(facts: Facts) -> bool:
        for rows, families in patterns:
            if not families:
                if not stands(rows, facts.ranking):
                    return False
                continue
            for family in families:
                if family in facts.by_family and stands(rows, facts.by_family[family]):
                    break
            else:
                return False
        return True

    return test
