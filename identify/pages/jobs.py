"""Jobs: a list of them, one with all that was said of it, what is said of it on leaving."""

from collections.abc import Iterable
from pathlib import Path

from identify.errors import ReadingError
from identify.interview.session import Claimed, replay
from identify.jobs.concluding import Rechecked
from identify.jobs.facts import (
    MOST_HOSES,
    OF_END,
    OF_HOSE,
    SHAPES,
    Concluded,
    Corrected,
    Field,
    Place,
    Settled,
)
from identify.jobs.job import End, Hose, Job
from identify.jobs.journal import Kept
from identify.jobs.listing import Listed
from identify.jobs.reference import meant_as_reference, reference_said
from identify.model.feature import FEATURES
from identify.model.rulebook import RuleBook
from identify.model.verdict import VerdictKind, percent
from identify.pages.blocks import BLANK, Block, Table, Tone, labelled
from identify.pages.words import said, several

_SHAPES = {"straight": "straight", "45": "bent 45 deg", "90": "bent 90 deg"}
_KINDS = {
    VerdictKind.IDENTIFIED: "identified",
    VerdictKind.SHORTLIST: "a shortlist",
    VerdictKind.ABSTAIN: "not decided",
}


def jobs_table(jobs: Iterable[Listed]) -> Table:
    """Return jobs one a row, as a command prints them."""
    return Table(
        ("Job", "Begun", "Customer", "Ends"),
        tuple((each.reference, _day(each), _whose(each), _what(each)) for each in jobs),
    )


def jobs_blocks(jobs: Iterable[Listed]) -> list[Block]:
    """Return jobs one a block, to be chosen."""
    blocks = []
    for each in jobs:
        head = "  ".join(filter(None, (each.reference, _day(each), _whose(each))))
        blocks.append(Block(head, pick=each.job, under=(_what(each),)))
    return blocks


def none_found(words: str) -> str:
    """Return that no job was found, and what is wrong with words meant as a reference."""
    if not meant_as_reference(words):
        return "No job found."
    try:
        return f"No job {reference_said(words)} is kept here."
    except ReadingError as error:
        return error.problem


def _day(job: Listed) -> str:
    return job.begun[:10]


def _whose(job: Listed) -> str:
    return job.customer or job.machine


def _what(job: Listed) -> str:
    ends = "; ".join(job.titles) or "no verdict kept yet"
    state = "discarded: " if job.discarded else "not finished: " if job.unfinished else ""
    return state + ends


def job_blocks(kept: Kept, book: RuleBook) -> list[Block]:
    """Return all that is kept of a job."""
    job = kept.job
    blocks = [Block(f"Job {job.reference}, begun {kept.begun.replace('T', ' at ')}", Tone.HEAD)]
    if job.discarded:
        blocks.append(Block("Discarded: it is not listed, and its file is kept.", Tone.WARN))
    if kept.unread:
        lines = several(kept.unread, "line")
        blocks.append(Block(f"{lines} of its file cannot be read by this version.", Tone.WARN))
    blocks += [*fact_blocks(job)]
    for number, hose in enumerate(job.hoses, 1):
        if len(job.hoses) > 1 or hose.quantity or hose.printed:
            blocks += [BLANK, Block(_hose(number, hose), Tone.HEAD)]
        for side, end in (("A", hose.a), ("B", hose.b)):
            if end != End():
                name = side if len(job.hoses) == 1 else f"{number}{side}"
                blocks += [BLANK, *end_record(name, end, book)]
    return blocks


def fact_blocks(job: Job) -> list[Block]:
    """Return what was said of a job as a whole; nothing of what was not said."""
    told = {
        "Customer": job.customer,
        "Machine": job.machine,
        "Bag": job.bag,
        "Measured by": job.measured_by,
        "Checked by": job.checked_by,
    }
    blocks = [Block(text, mark=f"{name}: ") for name, text in told.items() if text]
    return blocks + [Block(text, mark="Note: ") for text in job.notes]


def _hose(number: int, hose: Hose) -> str:
    pieces = "1 piece" if hose.quantity == "1" else f"{hose.quantity} pieces"
    told = [f"Hose {number}", pieces if hose.quantity else ""]
    told.append(f'printed on it: "{hose.printed}"' if hose.printed else "")
    return ", ".join(filter(None, told))


def end_record(name: str, end: End, book: RuleBook) -> Iterable[Block]:
    """Yield all that is kept of an end."""
    shape = f", {_SHAPES[end.shape]}" if end.shape else ""
    yield Block(f"End {name}{shape}", Tone.HEAD)
    for reading in replay(end.events).readings:
        words = said(reading, book.question(reading.feature))
        yield Block(f"{FEATURES[reading.feature].title}: {words}", mark="- ")
    if end.verdict:
        yield from _verdict_blocks(end.verdict, changed=end.changed)
    elif end.answered:
        yield Block("No verdict is kept yet.")
    yield from map(_claim, end.claims)
    yield from map(_correction, end.corrections)
    if end.outcome:
        yield _outcome(end.outcome)


def _verdict_blocks(verdict: Concluded, *, changed: bool) -> Iterable[Block]:
    yield labelled("Verdict", verdict.sentence)
    if verdict.ends:
        first = verdict.ends[0]
        yield labelled("", f"First: {first.title} ({first.id}), {percent(first.probability)}.")
    versions = f"tables {verdict.tables}, rules {verdict.rules}, whichend {verdict.program}"
    yield labelled("", f"Given {_moment(verdict.at)} with {versions}.", Tone.QUIET)
    if changed:
        yield labelled("", "Answers were given or taken back since.", Tone.WARN)


def _claim(claim: Claimed) -> Block:
    by = f", said {claim.by}" if claim.by else ""
    anyway = f" Ordered anyway: {claim.anyway}." if claim.anyway else ""
    return labelled("Claim", f'"{claim.words}"{by}.{anyway}')


def _correction(made: Corrected) -> Block:
    why = f" ({made.why})" if made.why else ""
    by = f", {made.by}" if made.by else ""
    before = f'"{made.before}"' if made.before else "nothing"
    return labelled("Corrected", f'{made.what}: {before} became "{made.after}"{why}{by}.')


def _outcome(settled: Settled) -> Block:
    why = f": {settled.why}" if settled.why else ""
    return labelled("Outcome", f"{settled.fate}{why}.")


def _moment(at: str) -> str:
    return f"{at[:10]} at {at[11:16]} UTC"


FIELD_WORDS = {
    Field.CUSTOMER: "Customer",
    Field.MACHINE: "Machine",
    Field.BAG: "Bag number",
    Field.QUANTITY: "Pieces of this hose",
    Field.PRINTED: "What is printed on the hose",
    Field.SHAPE: f"Shape ({', '.join(SHAPES)})",
    Field.NOTE: "A note",
    Field.MEASURED_BY: "Who measured",
    Field.CHECKED_BY: "Who checked",
}


HANDED = {
    "label": "Write the label of each end that was measured (key l).",
    "slip": "Write the slip for the workshop.",
    "report": "Write the report.",
}


def deed_blocks(job: Job) -> list[Block]:
    """Return what can be done to a job: go on with an end of it, say a fact, discard it."""
    blocks = [Block("What to do", Tone.HEAD)]
    for place, end in job.ends:
        name = place.side if len(job.hoses) == 1 else str(place)
        deed = "Go on with end" if end.answered else "Measure end"
        blocks.append(Block(f"{deed} {name}.", pick=f"take {place}"))
    following = Place(len(job.hoses) + 1)
    if following.hose <= MOST_HOSES:
        blocks.append(Block("Measure another hose of this job.", pick=f"take {following}"))
    for number in range(1, len(job.hoses) + 1):
        of = f"hose {number}" if len(job.hoses) > 1 else "its hose"
        words = f"The sheet of {of}: length, rating, making."
        blocks.append(Block(words, pick=f"sheet {number}"))
    blocks += [Block(words, pick=f"hand {what}") for what, words in HANDED.items()]
    blocks.append(Block("Discard this job: it is not listed, and its file stays.", pick="discard"))
    blocks += [BLANK, Block("What to say of it", Tone.HEAD)]
    for field, words in FIELD_WORDS.items():
        places = [Place()]
        if field in OF_HOSE and len(job.hoses) > 1:
            places = [Place(number) for number in range(1, len(job.hoses) + 1)]
        if field in OF_END:
            places = [place for place, _ in job.ends]
        for place in places:
            side = place.side if len(job.hoses) == 1 else str(place)
            of = f", end {side}" if field in OF_END else f", hose {place.hose}"
            more = of if len(places) > 1 else ""
            blocks.append(Block(f"{words}{more}", pick=f"say {field} {place}"))
    return blocks


def rechecked_words(name: str, found: Rechecked) -> str:
    """Return what reckoning an end again has changed, in a sentence.

    Args:
        name: The job, and its end.
        found: Before and now.
    """
    now = _short(found.now)
    if found.before is None:
        return f"{name}: had no verdict; now {now}."
    if found.differs:
        return f"{name}: was {_short(found.before)}; now {now}."
    return f"{name}: as before, {now}."


def _short(verdict: Concluded) -> str:
    if not verdict.ends:
        return _KINDS[verdict.kind]
    first = verdict.ends[0]
    chance = percent(first.probability)
    return f"{_KINDS[verdict.kind]}, first {first.title} ({first.id}), {chance}"


def where_kept(reference: str, path: Path | None) -> str:
    """Return where the job of an interview is kept, in a sentence; "" where nothing is."""
    return f"Job {reference} is kept in {path}" if path else ""


def how_to_make(reference: str) -> str:
    """Return how the sheet of a hose of a job is begun, in a sentence."""
    return f"To have its hose made: whichend sheet --job {reference}"
