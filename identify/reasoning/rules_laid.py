"""Expert rules laid out for many samples: which hold, as `conditions.holds` says of each.

A pattern of ends is the set of rows it means, found once; a condition is a function of the facts.
Few rules are tested. Each needs some simple things to be so; of those a sample shows some forty,
and each is a number whose bits are the rules that it helps, so that all rules are sifted at once.
"""

from collections.abc import Callable, Sequence
from functools import cache, lru_cache, reduce
from operator import or_
from typing import Any

from identify.model.connection import EndConnection
from identify.model.feature import Feature
from identify.model.reading import Reading
from identify.model.rule import Check, Condition, EndPattern, ExpertRule
from identify.model.verdict import VerdictKind
from identify.reasoning.conditions import Facts, fits, holds, matches

Test = Callable[[Facts], bool]
Rows = frozenset[int]
Sign = tuple[str, object]
"""Something simple that is so. A feature was "read", or a reading "fits" a pattern; an end of a
family "stands"; the leading row "leads" some rows, or is "apart" from them; the "verdict"."""
SLOTS = 4  # needs of a rule that are looked at before it is tested
MOST_FAMILIES = 20  # of one need: more are nearly always met
REMEMBERED = 4096  # readings of which it is known what they fit


class LaidRules:
    """The rules over one catalogue.

    Args:
        rules: In the order in which they are told.
        ends: Of the catalogue.
    """

    def __init__(self, rules: Sequence[ExpertRule], ends: Sequence[EndConnection]) -> None:
        self._ends, self._rows = ends, cache(self._rows_of)
        self._rules = [(rule, self._test(rule.when)) for rule in rules]
        self._wide = len(rules)
        self._free = 0  # what nothing is needed for: slot after slot, as in every number here
        signs: dict[Sign, int] = {}
        for number, rule in enumerate(rules):
            needs = sorted(self._needs(rule.when, True), key=len)[:SLOTS]
            absent = {("read", each) for each in _unread(rule.when)}
            for slot, several in enumerate([*needs, *[frozenset[Sign]()] * SLOTS][:SLOTS]):
                bit = 1 << (number + slot * self._wide)
                self._free |= bit if slot >= len(needs) else 0
                for sign in several:
                    signs[sign] = signs.get(sign, 0) | bit
            for sign in absent:  # behind the slots: rules that must not hold
                signs[sign] = signs.get(sign, 0) | 1 << (number + SLOTS * self._wide)
        self._signs = {kind: _of_kind(kind, signs) for kind in _KINDS}
        self._of_reading = lru_cache(REMEMBERED)(self._reading)
        self._of_lead = cache(self._lead)

    def __call__(self, facts: Facts) -> list[ExpertRule]:
        """Return the rules that hold; see `expert.met`."""
        stands, found = self._signs["stands"], self._free
        found |= self._signs["verdict"].get(facts.verdict, 0)
        found |= self._of_lead(facts.ranking[0][0] if facts.ranking else -1)
        for reading in facts.readings.values():
            found |= self._of_reading(reading)
        for family in set(facts.families):
            found |= stands.get(family, 0)
        able = (1 << self._wide) - 1
        for _ in range(SLOTS):
            able &= found
            found >>= self._wide
        able &= ~found
        holding = []
        while able:
            number = (able & -able).bit_length() - 1
            able &= able - 1
            rule, test = self._rules[number]
            if test(facts):
                holding.append(rule)
        return holding

    def _reading(self, reading: Reading) -> int:
        """Return what a reading helps."""
        fitting = [
            bits
            for pattern, bits in self._signs["fits"].items()
            if pattern.feature is reading.feature and fits(pattern, reading)
        ]
        return reduce(or_, fitting, self._signs["read"].get(reading.feature, 0))

    def _lead(self, row: int) -> int:
        """Return what a leading row helps, -1 where none leads."""
        leads = [bits for rows, bits in self._signs["leads"].items() if row in rows]
        apart = [bits for rows, bits in self._signs["apart"].items() if row not in rows]
        return reduce(or_, [*leads, *apart], 0)

    def _needs(self, condition: Condition, want: bool) -> list[frozenset[Sign]]:
        """Return sets of signs of each of which one must be there, or it is not as it is wanted."""
        check = condition.check
        if check in (Check.ALL, Check.ANY, Check.NOT):
            wanted = want is not (check is Check.NOT)
            each = [self._needs(part, wanted) for part in condition.parts]
            if want is (check is not Check.ANY):
                return [signs for needs in each for signs in needs]
            if not all(each):
                return []
            return [frozenset[Sign]().union(*(min(needs, key=len) for needs in each))]
        if check is Check.READING and want:
            return [frozenset({("fits", condition.reading)})]
        if check is Check.MISSING and not want:
            return [frozenset(("read", each) for each in condition.features)]
        if check is Check.VERDICT:
            kinds = [each for each in VerdictKind if (each in condition.verdicts) is want]
            return [frozenset(("verdict", each) for each in kinds)]
        if check is Check.TOP and (want or not condition.at_least):
            return [frozenset({("leads" if want else "apart", self._rows(condition.ends[0]))})]
        if check in (Check.STANDING, Check.BOTH_STANDING) and want:
            families = [{self._ends[n].family for n in self._rows(e)} for e in condition.ends]
            return [
                frozenset(("stands", family) for family in several)
                for several in families
                if len(several) <= MOST_FAMILIES
            ]
        return []

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


_KINDS = ("read", "fits", "stands", "leads", "apart", "verdict")


def _of_kind(kind: str, signs: dict[Sign, int]) -> dict[Any, int]:
    return {sign[1]: bits for sign, bits in signs.items() if sign[0] == kind}


def _unread(condition: Condition) -> list[Feature]:
    """Return the features that must not have been read."""
    missing = [each for each in condition.needed if each.check is Check.MISSING]
    return [feature for each in missing for feature in each.features]


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
