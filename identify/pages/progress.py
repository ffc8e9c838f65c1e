"""Progress of a trainee: the confusion table by pair, hit rate, minutes, what comes next."""

from datetime import UTC, datetime

from identify.pages.blocks import BLANK, Block, Picture, Rows, Tone
from identify.pages.words import minutes_words, several
from identify.practice.progress import RECENT, PairProgress, progress_of, share_right
from identify.practice.record import History
from identify.practice.room import Room
from identify.practice.schedule import next_pair

ProgressPage = list[Block | Picture | Rows]
BAR = 24
RIGHT, TAKEN, OPEN = "█", "▒", "·"
_WORDS = 46


def progress_blocks(room: Room, history: History) -> ProgressPage:
    """Return how far a trainee is; of who has done nothing it says so."""
    done = history.done
    blocks: ProgressPage = [Block(f"Progress of {history.name}", Tone.HEAD)]
    if not done:
        return [*blocks, Block("Nothing answered yet.")]
    minutes = round(sum(each.seconds for each in done) / 60, 1)
    blocks.append(
        Block(
            f"{several(len(done), 'answer')}, {share_right(done):.0%} right; of the last "
            f"{min(RECENT, len(done))}, {share_right(done[-RECENT:]):.0%}. "
            f"{minutes_words(minutes).capitalize()} at it."
        )
    )
    found = progress_of(room, history)
    blocks += [BLANK, Block(f"By pair: {RIGHT} told, {TAKEN} wrong, {OPEN} guessed, or not told")]
    blocks.append(Rows(tuple(row for each in found for row in _rows(each))))
    now = datetime.now(UTC)
    late = sum(1 for each in found if each.due and each.due <= now)
    pair = next_pair(room.pairs, history, now)
    words = f"What next: {pair.words}. {several(late, 'pair is', 'pairs are')} due now."
    return [*blocks, BLANK, Block(words)]


def _rows(each: PairProgress) -> tuple[str, ...]:
    """Return one pair as a picture: a bar of its answers in their order of worth."""
    right, taken = (each.cells[0][i] + each.cells[1][i] for i in range(2))
    whole = max(each.tries, 1)
    size = min(BAR, whole)
    a, b = round(size * right / whole), round(size * taken / whole)
    bar = (RIGHT * a + TAKEN * min(b, size - a)).ljust(size, OPEN)
    grave = f", {each.dangerous} could injure" if each.dangerous else ""
    words = each.words if len(each.words) <= _WORDS else each.words[: _WORDS - 1] + "…"
    return (
        f"{words:<{_WORDS}} {bar:<{BAR}} {right}/{each.tries}",
        *([f"   {grave[2:]}"] if grave else []),
    )
