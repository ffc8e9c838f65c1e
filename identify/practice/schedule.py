"""When a pair comes again and how hard the next exercise is, worked out from what was done.

The library `fsrs` (FSRS, a public spaced repetition algorithm) spaces the pairs; it is imported
when practice starts. Nobody is asked how easy it was: the grade comes from answer, hints and time.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from statistics import median

from identify.frozen import TYPE_CHECKING
from identify.model.verdict import Hazard
from identify.practice.exercise import Kind, Pair
from identify.practice.judging import Mark
from identify.practice.record import Done, History
from identify.practice.room import HARDEST

if TYPE_CHECKING:
    from fsrs import Card

AGAIN, HARD, GOOD, EASY = 1, 2, 3, 4  # grades, as the library numbers them
USUAL_S = {Kind.PART: 180.0}  # time for an answer before the trainee's own is known; judgement
_SHORT_S = 30.0
_SLOW, _QUICK = 2.0, 0.5  # times the usual time
FAILED = (Mark.WRONG, Mark.DANGEROUS, Mark.EARLY)
_LATEST = 20  # own times that count
_OWN = 5  # answers of a kind from which the trainee's own time counts
RISE = 3  # unaided right answers in a row after which a kind becomes harder
_WEIGHT = {Hazard.HIGH: 4.0, Hazard.MEDIUM: 2.0, Hazard.LOW: 1.0}
_SHORT_FIRST = 2  # pairs of each short kind that are met before the first whole part


def kind_of(done: Done) -> Kind:
    """Return the kind of an exercise that was done."""
    return Kind(done.put.pair.split("/", 1)[0])


def grade(done: Done, usual_s: float) -> int:
    """Return the grade of an answer, of a trainee who usually takes so long [s]."""
    if done.mark in FAILED:
        return AGAIN
    if done.mark is not Mark.RIGHT or done.hints or done.seconds > _SLOW * usual_s:
        return HARD
    return EASY if done.seconds < _QUICK * usual_s and done.put.level else GOOD


def usual_seconds(kind: Kind, own: Sequence[float]) -> float:
    """Return how long a right answer of a kind takes, by the latest times of a trainee [s]."""
    return median(own[-_LATEST:]) if len(own) >= _OWN else USUAL_S.get(kind, _SHORT_S)


def level_of(history: History, kind: Kind) -> int:
    """Return how hard the next exercise of a kind is: up after some right, down after a wrong."""
    level = run = 0
    for done in history.done:
        if kind_of(done) is not kind:
            continue
        if done.mark is Mark.RIGHT and not done.hints:
            run += 1
            if run == RISE:
                level, run = min(level + 1, HARDEST), 0
        else:
            level, run = max(level - (done.mark in FAILED), 0), 0
    return level


def cards_of(history: History) -> dict[str, Card]:
    """Return the card of every pair that was met, by its key, as all answers leave it."""
    from fsrs import Card, Rating, Scheduler  # needed only where somebody practises

    scheduler = Scheduler(enable_fuzzing=False)
    cards: dict[str, Card] = {}
    times: dict[Kind, list[float]] = {kind: [] for kind in Kind}
    for place, done in enumerate(history.answers):
        key = done.put.pair
        card = cards.get(key) or Card(card_id=place, due=done.when)
        own = times[kind_of(done)]
        rating = Rating(grade(done, usual_seconds(kind_of(done), own)))
        if done.mark is Mark.RIGHT and done.seconds:  # of a real job it is not known
            own.append(done.seconds)
        when = done.when.astimezone(UTC)
        cards[key], _ = scheduler.review_card(card, rating, review_datetime=when)
    return cards


def next_pair(pairs: Sequence[Pair], history: History, now: datetime) -> Pair:
    """Return the pair that comes next: what is due, the gravest first, then one not yet met.

    The last pair does not come twice running where there is another.
    """
    cards = cards_of(history)
    last = history.done[-1].put.pair if history.done else ""
    met = [pair for pair in pairs if pair.key in cards and pair.key != last]
    due = [pair for pair in met if cards[pair.key].due <= now]
    if due:
        return max(due, key=lambda pair: _WEIGHT[pair.hazard] * _late(cards[pair.key], now))
    if fresh := _unmet(pairs, cards):
        return fresh
    return min(met or pairs, key=lambda pair: cards[pair.key].due if met else now)


def _late(card: Card, now: datetime) -> float:
    """Return how late a card is, in lengths of its memory."""
    return 1.0 + (now - card.due).total_seconds() / 86_400 / max(card.stability or 0.0, 0.1)


def _unmet(pairs: Sequence[Pair], cards: dict[str, Card]) -> Pair | None:
    """Return the gravest pair not yet met, of the kind of which fewest were; whole parts later."""
    counts = dict.fromkeys(Kind, 0)
    for pair in pairs:
        counts[pair.kind] += pair.key in cards
    fresh = [pair for pair in pairs if pair.key not in cards]
    short = [pair for pair in fresh if pair.kind is not Kind.PART]
    early = [pair for pair in short if counts[pair.kind] < _SHORT_FIRST]
    order = list(Kind)
    return min(early or fresh, key=lambda pair: (counts[pair.kind], order.index(pair.kind)),
               default=None)  # fmt: skip
