"""Which measurement tells most a minute, given what is known and the tools at hand."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import (
    Callable,
    Collection,
    Iterable,
    Iterator,
    Mapping,
    Sequence,
    lru_cache,
    partial,
)
from identify.model.catalogue import column
from identify.model.feature import CLUES, FEATURES, Feature, Kind
from identify.model.observation import PriorTable, VerdictLimits
from identify.model.reading import How, Reading
from identify.model.rule import Access, QuestionText, Tool
from identify.reasoning.answers import TRIFLE, Answers, information
from identify.reasoning.apart import separated
from identify.reasoning.hypotheses import Hypotheses
from identify.reasoning.likelihood import answers
from identify.reasoning.openings import Offer, Opening, Openings, Told, Wish
from identify.reasoning.posterior import ROUNDING, Posterior
from identify.reasoning.traits import Trait
from identify.reasoning.weigh_pitch import GAUGES

if TYPE_CHECKING:
    from identify.reasoning.answers_again import Called, CalledAgain, LengthAgain

Measured = tuple[Feature, How, frozenset[Tool]]
Askable = tuple[Feature, tuple[Tool, ...]]
TRIALS = 6  # known parts considered for a trial fit, those of the likeliest threads
OFFERED_READINGS = 3  # of one feature: further ones tell next to nothing


class Chooser:
    """Weighs every open measurement by information per minute; caches expected answers.

    Args:
        space: The hypotheses.
        priors: Prevalence by region, for the origin.
        questions: How each feature is asked for.
        limits: Which measurement is worth offering, and which of two tools.
    """

    def __init__(
        self,
        space: Hypotheses,
        priors: PriorTable,
        questions: Sequence[QuestionText],
        limits: VerdictLimits,
    ) -> None:
        self.space, self.priors, self.limits = space, priors, limits
        self.questions: Mapping[Feature, QuestionText] = _ByFeature(questions)
        reach, tools = column(questions, "access"), column(questions, "tools")
        self.reach = dict(zip(self.questions, reach, strict=True))
        self.tools = {
            feature: tuple(map(Tool, each))
            for feature, each in zip(self.questions, tools, strict=True)
        }
        self.answered = space.model.answered
        self._predicted: dict[Measured, dict[int, Answers | None]] = {}
        self._once_more = lru_cache(maxsize=256)(self._reread)
        self._called: dict[Measured, Called] = {}
        self._tried = lru_cache(maxsize=20_000)(self._try)
        self._askable = lru_cache(maxsize=64)(self._find_askable)
        self._quickest = lru_cache(maxsize=256)(self._find_quickest)

    def openings(
        self,
        state: Posterior,
        given_up: Collection[Feature],
        tools: Collection[Tool],
        access: Access,
        needed: Collection[Feature] = (),
        put_off: Collection[Feature] = (),
        asked: Collection[Feature | None] = (),
    ) -> Openings:
        """Return the measurements that may be worth making.

        Args:
            state: What is known.
            given_up: Features of which nothing can be told.
            tools: What is in the bag; the bare eye always is.
            access: How much of the end can be reached.
            needed: Features that are worth it however little they tell.
            put_off: Features that could not be told when they were asked first; they come last.
            asked: Features that a rule asks for, worth it however small a share of the doubt goes.
        """
        read = {each.feature: each.readings for each in state.weighed}
        doubts, least = state.doubts(), self.limits.worth_bits
        known = self._wishes, self._offer, read, state.memory.told
        if not needed and doubts.whole * ROUNDING < least:
            return Openings((), *known)  # nothing tells more than there is to be told
        # Of a great doubt a share must go: what takes less is a question more and no answer nearer.
        usual = max(least, self.limits.worth_share * doubts.whole)
        found, gauges = [], GAUGES.intersection(tools)
        for feature, at_hand in self._askable(frozenset(tools), access):
            before, late = read.get(feature, ()), feature in put_off
            if feature in given_up or not _may_read(feature, before, late):
                continue
            share = 1.0 if before else self.answered.get(feature, 1.0)
            if late:
                share *= 1 - self.space.model.repeats_eye
            worth = least if feature in asked else usual
            if feature in needed and not before:
                worth = 0.0
            most = share * doubts.bits(feature)
            if most >= worth:
                found.append(
                    Opening(
                        self.questions[feature], partial(doubts.mass, feature), share, worth,
                        at_hand, self._quickest(feature, at_hand), most, gauges, before, late,
                    )
                )  # fmt: skip
        return Openings(found, *known)

    def _find_askable(self, tools: frozenset[Tool], access: Access) -> list[Askable]:
        """Return the features that can be measured with some tools, and which of them can do it."""
        at_hand = {
            feature: tuple(t for t in able if t is Tool.NONE or t in tools)
            for feature, able in self.tools.items()
        }
        reached = (feature for feature in at_hand if access in self.reach[feature])
        return [(feature, at_hand[feature]) for feature in reached if at_hand[feature]]

    def _find_quickest(self, feature: Feature, tools: Iterable[Tool]) -> float:
        """Return what the quickest of some tools takes [min]."""
        minutes = self.questions[feature].minutes
        return min(minutes[tool] for tool in tools)

    def _wishes(self, opening: Opening) -> list[Wish]:
        """Return what is to be known of an opening: what each tool would tell, or each part."""
        text, mass = opening.text, opening.mass()
        known = mass, opening.gauges, opening.before
        hows = [text.taken_as[tool] for tool in opening.tools]
        if text.feature is Feature.TRIAL_FIT:
            parts = self._known_parts(mass)
            return [Wish(text.feature, how, *known, known=part) for how in hows for part in parts]
        return [Wish(text.feature, how, *known) for how in hows]

    def _offer(self, opening: Opening, told: Told) -> Offer | None:
        """Return an opening with the quickest tool, unless a slower one tells more."""
        if opening.text.feature is Feature.TRIAL_FIT:
            likeliest = max(told, key=lambda each: each[1], default=None)
            told = iter([likeliest] if likeliest else [])
        enough, best = self.limits.nearly_as_good, None
        for tool in opening.tools:
            if best and best.bits >= opening.most * enough:
                break
            wish, bits = next(told, (None, 0.0))
            bits *= opening.share
            if wish and bits >= opening.worth and (best is None or best.bits < bits * enough):
                best = _as_offer(opening, tool, wish, bits)
        return best

    def gains(self, wishes: Sequence[Sequence[Wish]]) -> list[Iterable[float]]:
        """Return what is wished for [bits], each worked out when it is looked at; see `gain`."""
        return [(self.gain(*each) for each in several) for several in wishes]

    def gain(
        self,
        feature: Feature,
        how: How,
        mass: Mapping[int, float],
        gauges: frozenset[Tool] = GAUGES,
        before: tuple[Reading, ...] = (),
        other_person: bool = False,
        known: tuple[str, str] | None = None,
    ) -> float:
        """Return the expected information of one measurement [bits].

        Only ends whose answers the tables can foresee count; the gain among them is scaled by their
        share of the probability.

        Args:
            feature: What would be measured.
            how: With what.
            mass: Probability of each trait of the feature, by its number.
            gauges: The pitch gauges in the bag.
            before: Readings of the feature so far, if it would be read again.
            other_person: Somebody else would read it again.
            known: Gender and thread of the part that it would be tried on.
        """
        kinds = {kind: weight for kind, weight in mass.items() if weight > TRIFLE}
        if known:
            answers = [self._tried(*known, kind) for kind in kinds]
        else:
            answers = self._expected(feature, how, gauges, before, other_person)(kinds)
        return information(zip(kinds.values(), answers, strict=True))

    def _known_parts(self, mass: Mapping[int, float]) -> list[tuple[str, str]]:
        """Return gender and thread of the parts on which a trial fit may tell most.

        Args:
            mass: Probability of each trait of a trial fit, by its number.
        """
        from identify.reasoning.weigh_trial import known_parts  # few have known ends

        traits = self.space.spread(Feature.TRIAL_FIT).traits
        leading = sorted(mass, key=mass.__getitem__, reverse=True)[:TRIALS]
        found = known_parts(self.space.catalogue, [traits[kind] for kind in leading])
        return [(gender, thread.designation) for gender, thread in found]

    def _try(self, gender: str, thread: str, kind: int) -> Answers | None:
        """Return the outcomes expected of a thread on a known part; see `answers_trial`."""
        from identify.reasoning.weigh_trial import answers_trial

        catalogue = self.space.catalogue
        trait = self.space.spread(Feature.TRIAL_FIT).traits[kind]
        known = gender, catalogue.threads[thread]
        return answers_trial(known, trait, self.space.model.trial, catalogue)

    def tells_apart(self, offer: Offer, one: int, others: Sequence[int]) -> list[bool]:
        """Tell of each of some hypotheses whether it should answer otherwise than `one`."""
        if offer.known:
            return [True] * len(others)
        feature, how, model = offer.text.feature, offer.how, self.space.model
        spread = self.space.spread(feature)
        first, *rest = map(spread.at, (one, *others))
        kinds = {spread.traits[kind]: kind for kind in (first, *rest)}
        expected = self._expected(feature, how, offer.gauges, offer.before, other_person=False)

        def told(trait: Trait) -> Answers | None:
            return expected((kinds[trait],))[0]

        apart = {
            kind: separated(feature, how, spread.traits[first], spread.traits[kind], model, told)
            for kind in dict.fromkeys(rest)
        }
        return [apart[kind] for kind in rest]

    def predicted(
        self,
        feature: Feature,
        how: How,
        kind: int,
        gauges: frozenset[Tool] = GAUGES,
        before: tuple[Reading, ...] = (),
        other_person: bool = False,
    ) -> Answers | None:
        """Return the answers expected of the ends with trait number `kind` of a feature."""
        return self._expected(feature, how, gauges, before, other_person)((kind,))[0]

    def _expected(
        self,
        feature: Feature,
        how: How,
        gauges: frozenset[Tool],
        before: tuple[Reading, ...],
        other_person: bool,
    ) -> Callable[[Collection[int]], list[Answers | None]]:
        """Return what tells the answers expected of traits of a feature, by their numbers."""
        if before:
            again = self._once_more(feature, how, gauges, before, other_person)
            traits = self.space.spread(feature).traits
            return lambda kinds: again.all([traits[kind] for kind in kinds])
        bag = gauges if feature is Feature.PITCH else GAUGES
        known = self._predicted.setdefault((feature, how, bag), {})

        def first(kinds: Collection[int]) -> list[Answers | None]:
            for kind in kinds:
                if kind not in known:
                    known[kind] = self._foreseen(feature, how, bag, kind)
            return [known[kind] for kind in kinds]

        return first

    def _foreseen(
        self, feature: Feature, how: How, gauges: frozenset[Tool], kind: int
    ) -> Answers | None:
        return (self.space.foreseen or self._expect)(feature, how, gauges, kind)

    def _expect(
        self, feature: Feature, how: How, gauges: frozenset[Tool], kind: int
    ) -> Answers | None:
        trait = self.space.spread(feature).traits[kind]
        if feature is Feature.ORIGIN:
            from identify.reasoning.weigh_origin import answers_origin  # laid out already

            return answers_origin(trait, self.space.model, self.priors)
        return answers(feature, trait, how, self.space.model, gauges)

    def _reread(
        self,
        feature: Feature,
        how: How,
        gauges: frozenset[Tool],
        before: tuple[Reading, ...],
        other_person: bool,
    ) -> CalledAgain | LengthAgain:
        model = self.space.model
        if FEATURES[feature].kind is Kind.LENGTH:
            return self._length_again(feature, how, before, other_person)
        from identify.reasoning.answers_again import Called, CalledAgain  # a short list needs none

        if (feature, how, gauges) not in self._called:
            self._called[feature, how, gauges] = Called(feature, how, model, gauges)
        called = self._called[feature, how, gauges]
        return CalledAgain(called, before, other_person=other_person)

    def _length_again(
        self, feature: Feature, how: How, before: tuple[Reading, ...], other_person: bool
    ) -> LengthAgain:
        from identify.reasoning.answers_again import LengthAgain

        return LengthAgain(feature, how, self.space.model, before, other_person=other_person)


def _as_offer(opening: Opening, tool: Tool, wish: Wish, bits: float) -> Offer:
    text, known = opening.text, f"{wish.known[1]} {wish.known[0]}" if wish.known else ""
    return Offer(
        text, tool, wish.how, bits, text.minutes[tool], known,
        opening.gauges, opening.before, opening.put_off,
    )  # fmt: skip


class _ByFeature(Mapping[Feature, QuestionText]):
    """Questions by what they ask for, each looked at when it is asked."""

    def __init__(self, questions: Sequence[QuestionText]) -> None:
        self._questions = questions
        self._places = {Feature(each): at for at, each in enumerate(column(questions, "feature"))}

    def __len__(self) -> int:
        return len(self._places)

    def __iter__(self) -> Iterator[Feature]:
        return iter(self._places)

    def __contains__(self, feature: object) -> bool:
        return feature in self._places

    def __getitem__(self, feature: Feature) -> QuestionText:
        return self._questions[self._places[feature]]


_ONCE = frozenset(CLUES) | {Feature.GENDER, Feature.TRIAL_FIT}
"""Features that are not offered a second time: a second look at a clue is still a clue."""


def _may_read(feature: Feature, before: Sequence[Reading], late: bool) -> bool:
    """Tell whether to ask for a feature, perhaps once more, perhaps `late` after it was put off."""
    if feature in _ONCE:
        return not before and not late
    return len(before) < OFFERED_READINGS
