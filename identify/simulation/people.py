"""Simulated people: how far off their instruments are, and what their eyes make of a thing."""

from identify.frozen import dataclass
from identify.model.feature import Feature, Kind, agrees
from identify.model.observation import Instrument
from identify.model.observer import Observer
from identify.model.reading import How
from identify.model.rule import Tool
from identify.model.rulebook import RuleBook

COARSE_MM = {How.RULE: 0.5, How.COMBS: 1.0, How.EYE: 1.0}  # where not the caliper's own step
SAID_BY = {How.RULE: " by rule", How.COMBS: " by comb page", How.EYE: " by eye"}
Leaf = tuple[float, str]  # pitch [mm] and name of a gauge leaf


@dataclass(frozen=True)
class Person:
    """An observer with the book of instruments and habits."""

    observer: Observer
    book: RuleBook

    def tool(self, kind: Kind, how: How) -> Instrument:
        """Return the error that the rules give a way of measuring, before the observer's factor."""
        table = self.book.observation.instruments[kind]
        return table.get(how, table["eye"])

    def gross(self, kind: Kind, how: How) -> float:
        """Return the chance of a plain mistake."""
        return min(0.5, self.tool(kind, how).gross * self.observer.gross)

    def sigma(self, kind: Kind, how: How) -> float:
        """Return the spread of a reading [mm, deg]."""
        return self.tool(kind, how).sigma * self.observer.errors

    def answers(self, feature: Feature) -> float:
        """Return the chance of an answer where there is something to see."""
        if feature is Feature.GENDER:
            return 1.0  # nothing can be asked before it
        usual = self.book.observation.answered.get(feature, 1.0)
        return usual * (1 - self.observer.missing)

    def leaves(self) -> list[Leaf]:
        """Return pitch [mm] and name of every gauge leaf in the bag, gauge by gauge, by pitch."""
        model, tools = self.book.observation, self.observer.tools
        metric = [(mm, f"{mm:g} mm") for mm in sorted(model.leaves_mm)]
        inch = [(25.4 / tpi, f"{tpi:g} tpi") for tpi in sorted(model.leaves_tpi, reverse=True)]
        both = Tool.COMBS in tools
        return (metric if both or Tool.METRIC_GAUGE in tools else []) + (
            inch if both or Tool.INCH_GAUGE in tools else []
        )

    def report(self, feature: Feature, truth: str) -> dict[str, float]:
        """Return what this person says when `truth` is there: word -> chance.

        Rare answers of the usual table are mistakes, made as often more as the observer's eye is
        worse; the other answers share what is left.
        """
        usual = self.book.observation.reports[feature][truth]
        rare = {
            word: share
            for word, share in usual.items()
            if share <= self.book.observation.rare_report
            and not (feature is Feature.GENDER and agrees(word, truth))
        }
        wrong = sum(rare.values())
        factor = min(self.observer.eye, 0.6 / wrong) if wrong else 1.0
        scale = (1 - wrong * factor) / (1 - wrong)
        return {word: share * (factor if word in rare else scale) for word, share in usual.items()}
