"""How an answer ends that is no name yet: what is certain, what would tell, what to do now."""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.model.feature import FEATURES
from identify.model.rule import Tool
from identify.model.verdict import (
    Beyond,
    Certain,
    Hazard,
    Lack,
    Level,
    Verdict,
    VerdictKind,
    open_forms,
    percent,
)
from identify.pages.beware import standing_beside
from identify.pages.blocks import Block, Tone, dashed
from identify.pages.words import HAZARDS, said, sentence
from identify.reasoning.sentences import beside_name, lead_name

if TYPE_CHECKING:
    from identify.reasoning.engine import Engine

WANTED = {
    Tool.CALIPER: "a caliper",
    Tool.RULE: "a steel rule",
    Tool.METRIC_GAUGE: "a metric pitch gauge",
    Tool.INCH_GAUGE: "an inch pitch gauge",
    Tool.SEAT_GAUGE: "a seat gauge",
    Tool.PROTRACTOR: "a protractor",
    Tool.COMBS: 'the comb page that "whichend gauges" prints',
    Tool.KNOWN_ENDS: "a part of known thread",
    Tool.NONE: "a second look",
}
_MOST = 0.5  # of the doubt: what takes away so much settles the matter
_OTHER_THREAD = 0.2  # of the ends in no table, at most: the rest has the thread that leads
_UNLISTED = 0.03  # a chance of an end in no table below this is not worth a line


# ---- what would tell


def nothing_left(verdict: Verdict) -> str:
    """Return that no question is left, and what would still tell where there is no name yet."""
    if verdict.kind is VerdictKind.IDENTIFIED:
        return "No further measurement is needed."
    if verdict.beyond is None and verdict.suspects:
        name = FEATURES[verdict.suspects[0].reading.feature].words
        return (
            f"What is left is to take one reading again: the {name} does not agree with the others."
        )
    if verdict.beyond is None:
        return "To measure more would tell next to nothing."
    return f"No measurement with what is at hand would tell more. {beyond_words(verdict.beyond)}"


def beyond_words(beyond: Beyond) -> str:
    """Return what would still tell, what it would settle, and how much of the doubt."""
    question = beyond.question
    name = FEATURES[question.feature].words
    match beyond.lack:
        case Lack.TOOL if question.known:
            who = f"a known {question.known}, to try it on by hand,"
        case Lack.TOOL:
            who = WANTED[Tool(beyond.tool)]
        case Lack.ACCESS:
            who = "the end in the hand, undone,"
        case Lack.ANSWER if question.again:
            who = f"one more reading ({name})"
        case Lack.ANSWER:
            who = f"the {name}, if it can be told after all,"
    told = beyond.lack is Lack.ANSWER or bool(question.known)
    if beyond.values:
        does = "settle" if beyond.share >= _MOST else "help to tell"
        does = f"{does} {beyond.values[0]} against {beyond.values[1]}"
        does += "" if told else f" ({name})"
    else:
        does = "tell more" if told else f"tell more ({name})"
    return sentence(f"{who} would {does}; {_much(beyond.share)} of the doubt hangs on it")


def _much(share: float) -> str:
    return "nearly all" if share > 0.99 else f"about {max(share, 0.01):.0%}".replace("%", " %")


def now_blocks(verdict: Verdict) -> list[Block]:
    """Return what to do now with an end that has no name yet; nothing where it has one."""
    if verdict.kind is VerdictKind.IDENTIFIED or not verdict.readings:
        return []
    blocks = [] if verdict.question else [Block(nothing_left(verdict))]
    if verdict.question and verdict.beyond:
        blocks = [Block(f"Better: {beyond_words(verdict.beyond)}")]
    todo = ""
    if verdict.kind is VerdictKind.SHORTLIST:
        worst = _worst(verdict)
        harm = f": the wrong one {HAZARDS[worst][1]}" if worst else ""
        todo = f"Fit and order nothing on a guess{harm}. "
    if not verdict.question and (verdict.beyond is None or verdict.beyond.share < _MOST):
        todo += _SHOP
    return [*blocks, Block(todo.rstrip(), mark="Do now: ")] if todo else blocks


_SHOP = (
    "Take it, with what was read, to a shop that can hold it against known parts, or look for the "
    "mating part and the parts list of the machine."
)


def _worst(verdict: Verdict) -> Hazard | None:
    """Return the hazard of the worst mix-up of the answers that stand, None where but one does."""
    found = [each.hazard for each in standing_beside(verdict)]
    return max(found, key=lambda hazard: hazard.rank, default=None)


# ---- what is certain, and what to say of it


def ending_blocks(engine: Engine, verdict: Verdict) -> list[list[Block]]:
    """Return the parts that end a page without a name: counter, order, an end in no table."""
    if verdict.kind is VerdictKind.IDENTIFIED or not verdict.readings:
        return []
    lead = verdict.ranking[0] if verdict.ranking else None
    leads = lead is not None and lead.probability >= engine.book.limits.named
    if not leads and verdict.kind is not VerdictKind.ABSTAIN:
        return []  # one of many: there is nothing to say of it
    return [_counter(engine, verdict), _article(engine, verdict), _unlisted(verdict)]


def _sure(engine: Engine, verdict: Verdict) -> dict[Level, Certain]:
    least = engine.book.limits.identified
    return {each.level: each for each in verdict.certain if each.probability >= least}


def certain_words(engine: Engine, verdict: Verdict) -> str:
    """Return the level to which the end is certain, and what is open; empty if none is."""
    sure = _sure(engine, verdict)
    thread = sure.get(Level.THREAD)
    bears = f", thread {thread.value}" if thread else ""
    if found := sure.get(Level.SIZE):
        end = next(end for end in engine.catalogue.ends if end.id.startswith(f"{found.value}:"))
        return f"The family and the size are certain ({_chance(found)}): {end.title}{bears}."
    if found := sure.get(Level.FAMILY):
        family = engine.catalogue.families[found.value].name
        return f"The family is certain ({_chance(found)}): {family}{bears}. Its size is open."
    if not thread:
        return ""
    known = f"The thread is certain ({_chance(thread)}): {thread.value}."
    answers = verdict.ranking[: 1 + len(verdict.beside)]
    if len(answers) < 2:
        return known
    lead = answers[0]
    names = [
        lead_name(lead, (each.end for each in answers[1:])),
        *(beside_name(each.end, lead.end) for each in answers[1:]),
    ]
    seats = {(each.seat.shape, each.seat.half_angle_deg, each.seat.o_ring) for each in answers}
    what = "What seals on it" if len(seats) > 1 else "Which end it is"
    return f"{known} {what} is open: {'; or '.join(names)}."


def _threaded(verdict: Verdict) -> bool:
    return bool(verdict.ranking) and verdict.ranking[0].end.gender in ("male", "female")


def _chance(found: Certain) -> str:
    return percent(found.probability)


def _counter(engine: Engine, verdict: Verdict) -> list[Block]:
    read = "; ".join(
        f"{FEATURES[each.feature].label} {said(each, None)}" for each in verdict.readings
    )
    known = certain_words(engine, verdict)
    if not known and _threaded(verdict):
        known = "Not even the thread is certain."
    return [
        Block("What to say at the counter", Tone.HEAD),
        *([dashed(known)] if known else []),
        dashed(f"Read: {read}."),
    ]


def _article(engine: Engine, verdict: Verdict) -> list[Block]:
    """Return what to order where the size is certain and only the form is open."""
    found = _sure(engine, verdict).get(Level.SIZE)
    if found is None or not verdict.beside:
        return []
    size, lead = f"{found.value}:", verdict.ranking[0]
    if lead.end.refuse or not lead.end.id.startswith(size):
        return []
    from identify.pages.handover import HOSE_TOO, either, order_words  # few answers are so

    blocks = [dashed(f"The article is certain but for its form: {order_words(lead.end, '')}.")]
    blocks += [dashed(text) for text in either(open_forms(lead))]
    apart = [each.end for each in verdict.beside if each.end.id.startswith(size)]
    if apart:
        names = " or ".join([lead.end.form, *(end.form for end in apart)])
        blocks.append(
            dashed(f"Open is: {names}. They do not all take the same mates; settle that first.")
        )
    return [Block("What to order, in words", Tone.HEAD), *blocks, dashed(HOSE_TOO)]


def _unlisted(verdict: Verdict) -> list[Block]:
    """Return how an end that is in no table would look, and who knows it then."""
    none = verdict.none_of_these
    if none < _UNLISTED:
        return []
    thread = next((each for each in verdict.certain if each.level is Level.THREAD), None)
    if verdict.unlisted_size:
        looks = "it is most likely of a family of the tables, in a size that they do not hold"
    elif not _threaded(verdict):
        looks = "its form or its measures are in no table"
    elif thread and 1 - thread.probability <= none * _OTHER_THREAD:
        looks = (
            f"its thread is most likely {thread.value} all the same, and what seals on it is in "
            "no table"
        )
    else:
        looks = (
            "either its thread is a known one and what seals on it is in no table, or its thread "
            "is in no table"
        )
    return [
        Block(f"If the tables do not hold it ({percent(none)})", Tone.HEAD),
        Block(
            f"Then {looks}. Marks on the end, the mating part, the parts list of the machine or "
            "its maker tell what it is."
        ),
    ]
