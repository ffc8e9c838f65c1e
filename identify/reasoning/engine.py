"""The one engine behind every face: readings in, a verdict with its reasons out."""

import heapq
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache, partial
from operator import mul

from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.feature import CLUES, FEATURES, SPACINGS, Feature
from identify.model.reading import Reading
from identify.model.rule import Access, Moment, Tool
from identify.model.rulebook import RuleBook
from identify.model.source import Confidence
from identify.model.verdict import (
    Danger,
    Effect,
    Evidence,
    Question,
    Ranked,
    Suspect,
    Verdict,
    VerdictKind,
    Warning,
)
from identify.reasoning import explain
from identify.reasoning.apart import Twins
from identify.reasoning.conditions import Facts
from identify.reasoning.expert import fire
from identify.reasoning.hypotheses import build_hypotheses
from identify.reasoning.posterior import Posterior, posterior, weigh_all
from identify.reasoning.question import Chooser, Offer
from identify.reasoning.risk import Hazards, Risk
from identify.reasoning.sentences import headline, separates

ALL_TOOLS = frozenset({Tool.CALIPER, Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE})
SHOWN_DANGERS = 5  # lookalikes named beside a verdict
REMEMBERED = 256  # readings kept weighed: the words, leaves and angles that come again in a batch
DIGITS = 12  # decimals in which probabilities are compared: what is beyond is rounding
LEAST = 1e-6  # rows below this never stand for anything in a ranking

_NO_FIGURE = frozenset(CLUES) | {Feature.GENDER}
_THIN = (
    "Its row in the tables has weak support and one reading alone fits it. Measure another part "
    "of the end, or compare it with a known one."
)

Group = tuple[int, float, tuple[int, ...]]  # row, probability of the group, the other rows


@dataclass(frozen=True, slots=True)
class Situation:
    """What the person has to hand: tools, access to the end, and what cannot be told."""

    tools: frozenset[Tool] = ALL_TOOLS
    access: Access = Access.END_OFF
    given_up: frozenset[Feature] = frozenset()


class Engine:
    """Reasons over one catalogue with one rule book.

    Args:
        catalogue: The tables.
        book: Errors, prevalence, questions, limits.
        even: Rank without prevalence.
        hazards: Of taking one end for another; without them a verdict knows no risk.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        book: RuleBook,
        hazards: Hazards | None = None,
        *,
        even: bool = False,
    ) -> None:
        self.catalogue, self.book = catalogue, book
        self.risk = Risk(catalogue, book, hazards) if hazards is not None else None
        self.space = build_hypotheses(catalogue, book.observation, book.priors, even=even)
        self.weigh = lru_cache(REMEMBERED)(partial(weigh_all, space=self.space, priors=book.priors))
        self.twins = Twins(self.space)
        self.chooser = Chooser(self.space, book.priors, book.questions, book.limits)

    def posterior(self, readings: Sequence[Reading]) -> Posterior:
        """Return the posterior after these readings."""
        return posterior(map(self.weigh, readings), self.space)

    def conclude(
        self, readings: Sequence[Reading], situation: Situation | None = None, *, limit: int = 8
    ) -> Verdict:
        """Return the verdict on some readings.

        Args:
            readings: At most one of each feature.
            situation: Tools and access; by default an end in the hand and a full bag.
            limit: Candidates to rank.
        """
        situation = situation or Situation()
        state = self.posterior(readings)
        groups = self.groups(state, limit)
        kind, warnings, first = self.settle(state, groups)
        ranking = tuple(self.ranked(state, group) for group in groups)
        dangers = self._dangers(state, groups)
        chosen = self.next_offer(state, situation, warnings, held_back=bool(first))
        return Verdict(
            kind=kind,
            sentence=headline(kind, ranking, state.none_of_these, dangers, first)
            if readings
            else "Nothing has been measured yet.",
            ranking=ranking,
            none_of_these=state.none_of_these,
            readings=tuple(readings),
            suspects=self.suspects(state),
            dangers=dangers,
            lookalikes=self._lookalikes(ranking),
            warnings=warnings,
            question=self._question(state, chosen, groups),
            cautions=self.book.cautions_at(Moment.VERDICT),
        )

    def groups(self, state: Posterior, limit: int) -> list[Group]:
        """Return leading groups: best row, probability of the group, the other rows.

        Rows that no measurement can tell apart stand under the most probable of them.
        """
        ends = self.catalogue.ends
        # A few spare rows, because twins join groups that rank above them.
        best = heapq.nsmallest(
            limit * 6 + 40,
            (row for row, p in enumerate(state.rows) if p > LEAST),
            key=lambda row: _order(state.rows[row], ends[row]),
        )
        out: list[Group] = []
        left = best
        while left and len(out) < limit:
            head, *rest = left
            joined = tuple(row for row in rest if self.twins.same(head, row))
            taken = set(joined)
            left = [row for row in rest if row not in taken]
            total = state.rows[head] + sum(state.rows[row] for row in joined)
            out.append((head, total, joined))
        return sorted(out, key=lambda group: _order(group[1], ends[group[0]]))

    def settle(
        self, state: Posterior, groups: list[Group]
    ) -> tuple[VerdictKind, tuple[Warning, ...], str]:
        """Return the verdict, the rules that fire, and what one of them asks for before a name."""
        kind = self.kind_of(state, groups)
        warnings = fire(self.book.rules, self._facts(state, kind))
        first = ""
        if kind is VerdictKind.IDENTIFIED:
            first = _asked_first(warnings, state.readings) or self._thin(state, groups[0][0])
        if first:
            kind = VerdictKind.SHORTLIST
            warnings = fire(self.book.rules, self._facts(state, kind))
        return kind, warnings, first

    def _thin(self, state: Posterior, row: int) -> str:
        """Return what is wanted before a row of low confidence is named, empty if nothing.

        Such a row may itself be wrong in one figure, so one figure that fits is no proof of it.
        """
        if self.catalogue.ends[row].confidence is not Confidence.LOW:
            return ""
        for_it = {
            SPACINGS[0] if each.feature in SPACINGS else each.feature  # one of a square flange
            for each in self.evidence(state, row)
            if each.side > 0 and each.feature not in _NO_FIGURE
        }
        return "" if len(for_it) > 1 else _THIN

    def kind_of(self, state: Posterior, groups: list[Group]) -> VerdictKind:
        """Name the verdict by probability and risk, before the rules have spoken."""
        limits = self.book.limits
        if not groups or state.none_of_these >= max(limits.abstain, groups[0][1]):
            return VerdictKind.ABSTAIN
        if groups[0][1] < limits.identified:
            return VerdictKind.SHORTLIST
        if sum(risk for risk, _ in self.rivals(state, groups)) > limits.risk:
            return VerdictKind.SHORTLIST
        if self.contradicting(state, groups[0][0]):
            return VerdictKind.SHORTLIST
        return VerdictKind.IDENTIFIED

    def contradicting(self, state: Posterior, row: int) -> list[Reading]:
        """Return the measurements of the end that are mistakes if this row is the answer.

        An answer that needs one of them to be wrong is not named before it was taken again:
        readings that fit nothing quite are how an end looks that is in no table.
        """
        way = self._best_way(state, row)
        return [
            each.reading
            for each in state.weighed
            if each.reading.feature not in CLUES and each.mistaken[way] >= self.book.limits.suspect
        ]

    def rivals(self, state: Posterior, groups: list[Group]) -> list[tuple[float, int]]:
        """Return risk and row of dangerous lookalikes of the leading group, greatest first."""
        if self.risk is None or not groups:
            return []
        head, _, joined = groups[0]
        same = {head, *joined}
        taken = self.catalogue.ends[head]
        found = [
            (p * self.risk.weight(self.catalogue.ends[row], taken), row)
            for row, p in enumerate(state.rows)
            if p > LEAST and row not in same
        ]
        return sorted((pair for pair in found if pair[0] > 0), reverse=True)

    def _dangers(self, state: Posterior, groups: list[Group]) -> tuple[Danger, ...]:
        if self.risk is None or not groups or groups[0][1] < self.book.limits.named:
            return ()
        ends, taken = self.catalogue.ends, self.catalogue.ends[groups[0][0]]
        read = {reading.feature for reading in state.readings}
        return tuple(
            self.risk.danger(taken, ends[row], state.rows[row], read)
            for _, row in self.rivals(state, groups)[:SHOWN_DANGERS]
            if state.rows[row] >= self.book.limits.shown
        )

    def _lookalikes(self, ranking: tuple[Ranked, ...]) -> tuple[Danger, ...]:
        """Return lookalikes of the leading end; its twins are named with it, not here."""
        if self.risk is None or not ranking or ranking[0].probability < self.book.limits.named:
            return ()
        lead = ranking[0]
        return tuple(one for one in self.risk.lookalikes(lead.end) if one.end not in lead.twins)

    def offers(
        self, state: Posterior, situation: Situation, needed: frozenset[Feature] = frozenset()
    ) -> list[Offer]:
        """Return the measurements worth making next, best first; those `needed` in any case."""
        asked = {reading.feature for reading in state.readings} | situation.given_up
        return self.chooser.offers(state, asked, situation.tools, situation.access, needed)

    def evidence(self, state: Posterior, row: int) -> tuple[Evidence, ...]:
        """Return what each reading says of one row, in its most probable way of being made."""
        number = self._best_way(state, row)
        out = []
        for reading, table, _, mean, _ in state.weighed:
            spread = self.space.spread(reading.feature)
            kind = spread.of[number]
            weight = math.log(table[kind].likelihood / mean)
            words = explain.sentence(reading, spread.traits[kind], self.space.subjects[number])
            mistaken = min(1.0, table[kind].mistake / table[kind].likelihood)
            out.append(Evidence(reading.feature, weight, words, mistaken))
        return tuple(out)

    def suspects(self, state: Posterior) -> tuple[Suspect, ...]:
        """Return the readings that disagree with all the others, worst first."""
        known = 1 - state.none_of_these
        if len(state.readings) < 2 or known <= 0:
            return ()
        found = []
        for place, each in enumerate(state.weighed):
            wrong = sum(map(mul, state.weights, each.mistaken))
            if wrong / known >= self.book.limits.suspect:
                found.append(self._suspect(state, place, wrong / known))
        return tuple(sorted(found, key=lambda suspect: -suspect.probability))

    def _suspect(self, state: Posterior, place: int, chance: float) -> Suspect:
        reading = state.readings[place]
        others = [each for number, each in enumerate(state.readings) if number != place]
        without = self.posterior(others)
        row = max(range(len(without.rows)), key=without.rows.__getitem__)
        end = self.catalogue.ends[row]
        return Suspect(
            reading,
            min(chance, 0.99),
            end,
            f'The {FEATURES[reading.feature].words}, "{reading.entered}", does not agree with '
            "the other readings; "
            f"without it {end.named} is most likely.",
        )

    def _best_way(self, state: Posterior, row: int) -> int:
        return min(self.space.ways[row], key=lambda way: -round(state.weights[way], DIGITS))

    def ranked(self, state: Posterior, group: Group) -> Ranked:
        """Return a group with what each reading says of its first row."""
        head, total, joined = group
        ends = self.catalogue.ends
        seat = self.space.subjects[self._best_way(state, head)].seat
        return Ranked(
            ends[head],
            total,
            state.rows[head],
            seat or ends[head].seats[0],
            tuple(ends[row] for row in joined),
            self.evidence(state, head),
        )

    def _facts(self, state: Posterior, kind: VerdictKind) -> Facts:
        ends = self.catalogue.ends
        living = [(ends[row], p) for row, p in enumerate(state.rows) if p > LEAST]
        living.sort(key=lambda pair: _order(pair[1], pair[0]))
        readings = {reading.feature: reading for reading in state.readings}
        return Facts(readings, tuple(living), state.none_of_these, kind)

    def next_offer(
        self,
        state: Posterior,
        situation: Situation,
        warnings: tuple[Warning, ...],
        *,
        held_back: bool,
    ) -> tuple[Offer, str] | None:
        """Return the measurement to make next and why: the one that tells most, unless a rule asks.

        What a rule asks before it lets an end be named is asked although it may tell little.
        """
        first = {each.ask: each for each in warnings if each.effect is Effect.ASK_FIRST}
        needed = frozenset(each for each in first if each) if held_back else frozenset()
        offers = self.offers(state, situation, needed)
        for offer in offers:
            if offer.text.feature in first:
                return offer, first[offer.text.feature].sentence
        return (offers[0], offers[0].text.why) if offers else None

    def _question(
        self, state: Posterior, chosen: tuple[Offer, str] | None, groups: list[Group]
    ) -> Question | None:
        if chosen is None:
            return None
        offer, why = chosen
        text = offer.text
        ways = [self._best_way(state, head) for head, _, _ in groups]
        parted = [
            self.catalogue.ends[head]
            for (head, _, _), way in zip(groups[1:], ways[1:], strict=True)
            if self.chooser.tells_apart(offer, ways[0], way)
        ]
        leads = groups and groups[0][1] >= self.book.limits.named
        lead = self.catalogue.ends[groups[0][0]] if leads else None
        return Question(
            feature=text.feature,
            text=f"Try it on a known {offer.known}, by hand: what does it do?"
            if offer.known
            else text.question,
            why=why,
            how=offer.tool,
            bits=offer.bits,
            minutes=offer.minutes,
            separates=separates(lead, parted, sum(p > LEAST for p in state.rows)),
            known=offer.known,
        )


def _asked_first(warnings: tuple[Warning, ...], readings: Sequence[Reading]) -> str:
    """Return what experience asks for before anything is named, empty if that was read."""
    read = {reading.feature for reading in readings}
    asked = (each for each in warnings if each.effect is Effect.ASK_FIRST)
    return next((each.sentence for each in asked if each.ask not in read), "")


def _order(probability: float, end: EndConnection) -> tuple[float, str]:
    """Return what to rank ends by: probability, then name; rounding does not choose between two."""
    return -round(probability, DIGITS), end.id
