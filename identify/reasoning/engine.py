"""The one engine behind every face: readings in, a verdict with its reasons out."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING, dataclass, replace
from identify.light import Callable, Collection, Iterable, Sequence, lru_cache, partial
from identify.model.catalogue import Catalogue
from identify.model.feature import Feature
from identify.model.reading import Reading, lacked
from identify.model.rule import Access, Moment, Tool
from identify.model.rulebook import RuleBook
from identify.model.verdict import (
    Beyond,
    Brief,
    Danger,
    Effect,
    Evidence,
    Form,
    Question,
    Ranked,
    Verdict,
    VerdictKind,
    Warning,
)
from identify.reasoning.apart import Twins
from identify.reasoning.certain import certain, unlisted_size
from identify.reasoning.expert import Met, met
from identify.reasoning.hazards import Hazards
from identify.reasoning.hypotheses import build_hypotheses
from identify.reasoning.interchange import GATHERED, Interchange, OneAnswer
from identify.reasoning.layout import Layout, laid_out
from identify.reasoning.length_table import LengthTable
from identify.reasoning.lockstep import alone
from identify.reasoning.naming import Group, kind_told, settle
from identify.reasoning.openings import Offer, Openings
from identify.reasoning.posterior import (
    Posterior,
    best_way,
    evidence_of,
    posteriors,
)
from identify.reasoning.putting import put
from identify.reasoning.question import Chooser
from identify.reasoning.risk import Risk
from identify.reasoning.scales import Averages, Scales, Weighed, is_one_length, means
from identify.reasoning.sentences import headline
from identify.reasoning.standing import beside, dangers
from identify.reasoning.suspects import suspects

if TYPE_CHECKING:
    from identify.reasoning.lockstep import Steps

ALL_TOOLS = frozenset({Tool.CALIPER, Tool.METRIC_GAUGE, Tool.INCH_GAUGE, Tool.SEAT_GAUGE})
NAMED = 3  # answers that the sentence of a verdict may name, however few are listed
REMEMBERED = 1024  # readings kept weighed: the words, leaves and angles that come again in a batch


@dataclass(frozen=True, slots=True)
class Situation:
    """What the person has to hand: tools, access to the end, and what cannot be told.

    What was `put_off` could not be told when it was asked first: it is asked once more, after all
    else. What is `given_up` is not asked again.
    """

    tools: frozenset[Tool] = ALL_TOOLS
    access: Access = Access.END_OFF
    given_up: frozenset[Feature] = frozenset()
    put_off: frozenset[Feature] = frozenset()


class Engine:
    """Reasons over one catalogue with one rule book.

    Args:
        catalogue: The tables.
        book: Errors, prevalence, questions, limits.
        even: Rank without prevalence.
        layout: The hypotheses of these tables and rules as `lay_out` wrote them down; else they are
            laid out here.
        hazards: Of taking one end for another; without them a verdict knows no risk.
        arrays: Sum by numpy, which must be installed: worth its import from some hundred verdicts.
        care: Who takes the readings (`observer.CARES`), empty for anybody.
    """

    def __init__(
        self,
        catalogue: Catalogue,
        book: RuleBook,
        hazards: Hazards | None = None,
        *,
        even: bool = False,
        care: str = "",
        layout: Layout | None = None,
        arrays: bool = False,
    ) -> None:
        self.care, self._siblings = care, {care: self}
        self._for = partial(
            Engine, catalogue, book, hazards, even=even, layout=layout, arrays=arrays
        )
        if care:
            from identify.reasoning.care import told  # seldom said

            book = told(book, care)
        self.catalogue, self.book = catalogue, book
        self.risk = Risk(catalogue, book, hazards) if hazards is not None else None
        if layout:  # what ends show is the same whoever measures; what is answered is not
            self.space = laid_out(layout, catalogue, book.observation, even=even, foreseen=not care)
        else:
            self.space = build_hypotheses(catalogue, book.observation, book.priors, even=even)
        averages: Averages = means
        table: type[LengthTable] = LengthTable
        self._posteriors: Callable[[Sequence[tuple[Weighed, ...]]], list[Posterior]]
        self._posteriors = partial(posteriors, space=self.space)
        asking = Chooser
        self._met: Met = partial(met, book.rules)
        self._asking: Met = self._met  # where those that ask before a name are enough
        if arrays:
            from identify.reasoning.arrays import Arrays  # needs numpy, which is an extra
            from identify.reasoning.length_arrays import LengthArrays
            from identify.reasoning.question_arrays import ArrayChooser
            from identify.reasoning.rules_laid import LaidRules

            summing = Arrays(self.space)
            self._posteriors, averages = summing.posteriors, summing.means
            table, asking = LengthArrays, ArrayChooser
            self._met = LaidRules(book.rules, catalogue.ends)
            asking_first = [each for each in book.rules if each.effect is Effect.ASK_FIRST]
            self._asking = LaidRules(asking_first, catalogue.ends)
        scales = Scales(self.space, book.priors, averages, table)
        self._weigh = lru_cache(REMEMBERED)(scales.weigh)
        self._together = scales.together
        self.twins = Twins(self.space)
        self.one_answer = OneAnswer(self.space, self.twins, Interchange(catalogue))
        self.chooser = asking(self.space, book.priors, book.questions, book.limits)

    def measured_by(self, care: str) -> Engine:
        """Return the engine for readings of one kind of person, empty for anybody; made once."""
        if care not in self._siblings:
            other = self._siblings[care] = self._for(care=care)
            other._siblings = self._siblings
        return self._siblings[care]

    def weigh(self, readings: tuple[Reading, ...]) -> Weighed:
        """Weigh the readings of one feature against everything."""
        return self._weigh(readings)

    def posterior(self, readings: Sequence[Reading]) -> Posterior:
        """Return the posterior after these readings; several may be of one feature."""
        return self._posteriors([tuple([self._weigh(each) for each in _by_feature(readings)])])[0]

    def posteriors(self, samples: Iterable[Sequence[Reading]]) -> list[Posterior]:
        """Return the posterior of each of many samples, with their lengths weighed together."""
        by_feature = [_by_feature(readings) for readings in samples]
        alone = [each for sample in by_feature for each in sample if is_one_length(each)]
        lengths = dict(zip(map(id, alone), self._together(alone), strict=True))
        return self._posteriors(
            [
                tuple([lengths.get(id(each)) or self._weigh(each) for each in sample])
                for sample in by_feature
            ]
        )

    def conclude(
        self, readings: Sequence[Reading], situation: Situation | None = None, *, limit: int = 8
    ) -> Verdict:
        """Return the verdict on some readings.

        Args:
            readings: Several of one feature stand for readings of the same size.
            situation: Tools and access; by default an end in the hand and a full bag.
            limit: Candidates to rank.
        """
        state = self.posterior(readings)
        work = self.concluding(readings, state, situation or Situation(), limit)
        return alone(work, self.chooser.gains)

    def concluding(
        self, readings: Sequence[Reading], state: Posterior, situation: Situation, limit: int
    ) -> Steps[Verdict]:
        """Return the same in steps, to be done for many samples together.

        Args:
            readings: As for `conclude`.
            state: The posterior after them.
            situation: Tools and access.
            limit: Candidates to rank.
        """
        groups = self.groups(state, max(limit, GATHERED))
        yield None
        kind, warnings, first = self.settle(state, groups)
        yield None
        named = groups[: max(limit, NAMED)]
        ranking = self.ranked(state, named)
        yield None
        risks = dangers(state, groups, self.book.limits, self.risk)
        listed = kind is VerdictKind.SHORTLIST
        nearest = beside(state, groups, self.book.limits, self.risk) if listed else ()
        yield None
        named_so = kind is VerdictKind.IDENTIFIED  # asked about no more, unless a rule does
        chosen = yield from self.next_offer(
            state, situation, warnings, held_back=bool(first), rules_only=named_so
        )
        yield None
        beyond = yield from self._beyond(state, situation, groups, kind, chosen and chosen[0])
        yield None
        question = (yield from self._put(state, situation, groups, *chosen)) if chosen else None
        yield None
        known, family = certain(state), unlisted_size(state)
        disagree = suspects(state, self.book.limits.suspect, self.weigh)
        yield None
        return Verdict(
            kind=kind,
            sentence=headline(
                kind,
                ranking,
                state.none_of_these,
                risks,
                first,
                self.book.limits.named,
                self.catalogue.families[family].title if family else "",
            )
            if readings
            else "Nothing has been measured yet.",
            ranking=ranking[:limit],
            none_of_these=state.none_of_these,
            readings=tuple(readings),
            certain=known,
            unlisted_size=family,
            suspects=disagree,
            dangers=risks,
            lookalikes=self._lookalikes(ranking),
            warnings=warnings,
            question=question,
            cautions=self.book.cautions_at(Moment.VERDICT),
            beside=nearest,
            beyond=beyond,
            care=self.care,
        )

    def briefly(self, state: Posterior, limit: int = 8) -> Steps[Brief]:
        """Return what `concluding` would, without reasons, warnings and questions."""
        groups = self.groups(state, max(limit, GATHERED))
        yield None
        ends = self.catalogue.ends
        return Brief(
            kind_told(state, groups, self.book, self.risk, self._asking),
            tuple([(ends[head], total) for head, total, _ in groups[:limit]]),
            state.none_of_these,
            suspects(state, self.book.limits.suspect, self.weigh),
        )

    def _put(
        self,
        state: Posterior,
        situation: Situation,
        groups: Sequence[Group],
        offer: Offer,
        why: str,
    ) -> Steps[Question]:
        """Return an offer as a question, a second reading with other ways to take it."""
        question = put(self.chooser, state, offer, why, groups)
        if not offer.before:
            return question
        from identify.reasoning.others import others  # a first reading needs none

        found = yield from others(self.chooser, state, offer, situation.tools)
        return replace(question, others=found)

    def groups(self, state: Posterior, limit: int) -> list[Group]:
        """Return leading answers; see `OneAnswer.groups`."""
        return self.one_answer.groups(state, limit)

    def settle(
        self, state: Posterior, groups: Sequence[Group]
    ) -> tuple[VerdictKind, tuple[Warning, ...], str]:
        """Return what `naming.settle` makes of a state with the engine's own rules and risks."""
        return settle(state, groups, self.book, self.risk, self._met)

    def _beyond(
        self,
        state: Posterior,
        situation: Situation,
        groups: list[Group],
        kind: VerdictKind,
        offer: Offer | None,
    ) -> Steps[Beyond | None]:
        """Return what would tell more than an offer that is none or a second reading.

        Nothing is needed of an end that has its name. A first reading that can be made is worth
        making before a tool is fetched for another.
        """
        if kind is VerdictKind.IDENTIFIED or (offer and not offer.before):
            return None
        from identify.reasoning.beyond import further  # seldom needed

        least = offer.bits / self.book.limits.nearly_as_good if offer else 0.0
        has = situation.tools, situation.access, situation.given_up
        return (yield from further(self.chooser, state, groups, *has, least))

    def _lookalikes(self, ranking: tuple[Ranked, ...]) -> tuple[Danger, ...]:
        """Return lookalikes of the leading end; what is one answer with it is not named here."""
        if self.risk is None or not ranking or ranking[0].probability < self.book.limits.named:
            return ()
        lead = ranking[0]
        own = {each.id for each in lead.others}
        return tuple([one for one in self.risk.lookalikes(lead.end) if one.end.id not in own])

    def openings(
        self,
        state: Posterior,
        situation: Situation,
        needed: Collection[Feature] = (),
        asked: Collection[Feature | None] = (),
    ) -> Openings:
        """Return the measurements that may be worth making next; those `needed` in any case."""
        return self.chooser.openings(
            state,
            situation.given_up | lacked(state.readings),
            situation.tools,
            situation.access,
            needed,
            situation.put_off,
            asked,
        )

    def ranked(self, state: Posterior, groups: Sequence[Group]) -> tuple[Ranked, ...]:
        """Return answers with what each reading says of their first rows."""
        ways = [best_way(state, head) for head, _, _ in groups]
        said = evidence_of(state, ways)
        return tuple([self._ranked(state, *each) for each in zip(groups, ways, said, strict=True)])

    def _ranked(
        self, state: Posterior, group: Group, way: int, said: tuple[Evidence, ...]
    ) -> Ranked:
        head, total, joined = group
        ends, rows = self.catalogue.ends, state.rows
        end = ends[head]
        seat = end.seats[self.space.ways[head].index(way)]
        if not joined:
            return Ranked(end, total, rows[head], seat, (), said)
        alike = [row for row in joined if self.twins.same(head, row)]
        forms = [Form(ends[row], rows[row]) for row in joined if row not in alike]
        twins = tuple([ends[row] for row in alike])
        return Ranked(end, total, rows[head], seat, twins, said, tuple(forms))

    def next_offer(
        self,
        state: Posterior,
        situation: Situation,
        warnings: tuple[Warning, ...],
        *,
        held_back: bool,
        rules_only: bool = False,
    ) -> Steps[tuple[Offer, str] | None]:
        """Return the measurement to make next and why: the one that tells most, unless a rule asks.

        What a rule asks before it lets an end be named (`held_back`) is asked although it may tell
        little; what could not be told comes after all else even then. With `rules_only` nothing is
        asked but that.
        """
        first = {each.ask: each for each in warnings if each.effect is Effect.ASK_FIRST}
        if rules_only and not first:
            return None
        needed = frozenset(each for each in first if each) if held_back else frozenset()
        openings = self.openings(state, situation, needed, first)
        asked = (yield from openings.first(first)) if first else None
        if asked and not asked.put_off:
            return asked, first[asked.text.feature].sentence
        found = None if rules_only else (yield from openings.first())
        if asked and (found is None or found.put_off):
            return asked, first[asked.text.feature].sentence
        return (found, found.text.why) if found else None


def _by_feature(readings: Iterable[Reading]) -> Collection[tuple[Reading, ...]]:
    found: dict[Feature, tuple[Reading, ...]] = {}
    for reading in readings:
        found[reading.feature] = (*found.get(reading.feature, ()), reading)
    return found.values()
