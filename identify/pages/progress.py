"""Progress of a trainee: the confusion table by pair, hit rate, minutes, what comes next."""

from collections.abc import Sequence
from csv import writer
from datetime import UTC, datetime
from io import StringIO

from identify.jobs.exchange import cell_of
from identify.pages.blocks import BLANK, Block, Picture, Rows, Tone
from identify.pages.html import division, document, figure
from identify.pages.progress_picture import confusion_svg
from identify.pages.words import minutes_words, several
from identify.practice.exercise import TITLES
from identify.practice.progress import RECENT, PairProgress, progress_of, share_right
from identify.practice.record import History
from identify.practice.room import Room
from identify.practice.schedule import next_pair

ProgressPage = list[Block | Picture | Rows]
_COLUMNS = (
    "trainee", "pair", "what lay there", "answers", "right", "wrong", "guessed or left open",
    "of the pair could injure", "of the pair minutes", "pair due again",
)  # fmt: skip
BAR = 24
CHOOSE = "pair "  # what the pick of a pair begins with
RIGHT, TAKEN, OPEN = "█", "▒", "·"
_LEGEND = f"By pair and what lay there: {RIGHT} right, {TAKEN} wrong, {OPEN} guessed or left open"
_STYLE = "body { max-width: 46em; margin: 2em auto; padding: 0 1em; }"
_LONGEST, _SIDE = 44, 34  # columns of a pair, and of one of the two


def progress_blocks(room: Room, history: History) -> ProgressPage:
    """Return how far a trainee is; of who has done nothing it says so."""
    head = _head(history)
    if not history.answers:
        return [*head, Block("Nothing answered yet.")]
    found = progress_of(room, history)
    rows = [Rows(rows) for rows in map(_rows, found)]
    return [*head, BLANK, Block(_LEGEND), *rows, BLANK, _next(room, history, found)]


def _head(history: History) -> ProgressPage:
    done, jobs = history.answers, len(history.real)
    blocks: ProgressPage = [Block(f"Progress of {history.name}", Tone.HEAD)]
    if done:
        minutes = round(sum(each.seconds for each in done) / 60, 1)
        lately = done[-RECENT:]
        words = (
            f"{several(len(done), 'answer')}{_of_jobs(jobs)}, {share_right(done):.0%} right; "
            f"of the last {len(lately)}, {share_right(lately):.0%}."
        )
        words += f" {minutes_words(minutes).capitalize()} of practice." if minutes else ""
        blocks.append(Block(words))
    return blocks


def _next(room: Room, history: History, found: Sequence[PairProgress]) -> Block:
    now = datetime.now(UTC)
    late = sum(1 for each in found if each.due and each.due <= now)
    pair = next_pair(room.pairs, history, now)
    return Block(f"What next: {pair.words}. {several(late, 'pair is', 'pairs are')} due now.")


def _of_jobs(count: int) -> str:
    return f" ({count} of them in real jobs)" if count else ""


def _rows(each: PairProgress) -> tuple[str, ...]:
    """Return one pair as a picture: for each of the two a bar of what was answered there."""
    words = each.words if len(each.words) <= _LONGEST else each.words[: _LONGEST - 1] + "…"
    due = f", again {each.due:%Y-%m-%d}" if each.due else ""
    grave = f", {each.dangerous} could injure" if each.dangerous else ""
    rows = [f"{words}: {each.right} of {each.tries}{grave}{due}"]
    sides = each.pair.sides if each.pair else ("", "")
    for side, cells in zip(sides, each.cells, strict=True):
        if whole := sum(cells):
            size = min(BAR, whole)
            right, taken = (round(size * count / whole) for count in cells[:2])
            bar = (RIGHT * right + TAKEN * min(taken, size - right)).ljust(size, OPEN)
            lay = side if len(side) <= _SIDE else side[: _SIDE - 1] + "…"
            rows.append(f"   {lay:<{_SIDE}} {bar}")
    return tuple(rows)


def pairs_blocks(room: Room, history: History, wanted: str) -> list[Block]:
    """Return the pairs whose words bear all that was typed, by kind, each to be picked.

    Within a kind the gravest stands first.
    """
    told = {
        each.key: f" ({each.right} of {each.tries} right)" for each in progress_of(room, history)
    }
    words = wanted.lower().split()
    blocks: list[Block] = []
    for kind, title in TITLES.items():
        found = [pair for pair in room.pairs if pair.kind is kind
                 and all(word in f"{title} {pair.words}".lower() for word in words)]  # fmt: skip
        picks = [
            Block(
                " or ".join(filter(None, pair.sides)) + told.get(pair.key, ""),
                pick=f"{CHOOSE}{pair.key}",
            )
            for pair in found
        ]
        blocks += [Block(title, Tone.HEAD), *picks] if picks else []
    return blocks or [Block("No pair bears these words.")]


def progress_page(room: Room, history: History) -> str:
    """Return how far a trainee is as a document, to be printed or kept."""
    parts: list[ProgressPage | str] = [progress_blocks(room, history)]
    if history.answers:
        found = progress_of(room, history)
        parts = [_head(history), figure(confusion_svg(found)), [_next(room, history, found)]]
    body = division("progress", *parts)
    return document(f"Practice of {history.name}", body, _STYLE)


def progress_table(room: Room, histories: Sequence[History], *, named: bool) -> str:
    """Return the progress of trainees as comma separated values, a line for each pair and side.

    Args:
        room: For the words of pairs.
        histories: Whose.
        named: Put names; else the trainees are numbered.
    """
    out = StringIO()
    table = writer(out, lineterminator="\n")
    table.writerow(_COLUMNS)
    for number, history in enumerate(histories, 1):
        name = history.name if named else f"trainee {number}"
        for each in progress_of(room, history):
            sides = each.pair.sides if each.pair else ("", "")
            due = f"{each.due:%Y-%m-%d}" if each.due else ""
            for side, cells in zip(sides, each.cells, strict=True):
                if sum(cells):
                    rest = *cells, each.dangerous, f"{each.minutes:.1f}", due
                    texts = map(cell_of, (name, each.words, side))
                    table.writerow([*texts, sum(cells), *rest])
    return out.getvalue()
