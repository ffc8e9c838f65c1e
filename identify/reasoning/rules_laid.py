"""Expert rules laid out for many samples: which hold, as `conditions.holds` says of each.

A pattern of ends is the set of rows it means, found once; a condition is a function of the facts.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import cache, reduce
from operator import or_

from identify.model.connection import EndConnection
from identify.model.rule import Check, Condition, EndPattern, ExpertRule
from identify.reasoning.conditions import Facts, holds, matches

Test = Callable[[Facts], bool]
Rows = frozenset[int]
Laid = tuple[ExpertRule, int, int, tuple[int, ...], Test]
"""A rule, what must be read and what must not, families of which one must stand, and the rest."""


class LaidRules:
    """The rules over one catalogue.

    Args:
        rules: In the order in which they are told.
        ends: Of the catalogue.
    """

    def __init__(self, rules: Sequence[ExpertRule], ends: Sequence[EndConnection]) -> None:
        self._ends, self._rows = ends, cache(self._rows_of)
        self._bits: dict[str, int] = {}
        self._rules = [
            (
                rule,
                self._mask(rule.read),
                self._mask(
                    each
                    for condition in rule.when.needed
                    if condition.check is Check.MISSING
                    for each in condition.features
                ),
                tuple(self._mask(families) for families in rule.standing),
                self._test(rule.when),
                [self._rows(each.ends[0]) for each in rule.when.needed if each.check is Check.TOP],
            )
            for rule in rules
        ]
        self._of_lead = cache(self._rules_of_lead)

    def __call__(self, facts: Facts) -> list[ExpertRule]:
        """Return the rules that hold; see `expert.met`."""
        bits, read, standing, found = self._bits, 0, 0, []
        for feature in facts.readings:
            read |= bits.get(feature, 0)
        for rule, needed, unread, groups, test in self._of_lead(
            facts.ranking[0][0] if facts.ranking else -1
        ):
            if needed & read != needed or unread & read:
                continue
            if groups and not standing:
                for family in facts.by_family:
                    standing |= bits.get(family, 0)
            for families in groups:
                if not families & standing:
                    break
            else:
                if test(facts):
                    found.append(rule)
        return found

    def _mask(self, names: Iterable[str]) -> int:
        """Return features or families as bits of one number."""
        return reduce(or_, (self._bits.setdefault(n, 1 << len(self._bits)) for n in names), 0)

    def _rules_of_lead(self, row: int) -> list[Laid]:
        """Return the rules that may hold where a row leads, -1 where none does."""
        return [
            (rule, read, unread, groups, test)
            for rule, read, unread, groups, test, leads in self._rules
            if all(row in rows for rows in leads)
        ]

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
