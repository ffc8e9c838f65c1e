"""What comes after an end: the next one of the job, the next job, or the same answers again."""

from identify.jobs.facts import Place
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.words import several

END, JOB, SAME, HOSE, STAY, SHEET = "end", "job", "same", "hose", "stay", "sheet"


def onward_blocks(
    answers: int, here: Place, end: Place | None, hose: Place | None, *, sheet: bool = False
) -> list[Block]:
    """Return what can come next, each with its pick.

    What is there at one end alone stands last, so that the others keep their numbers.

    Args:
        answers: How many were given on the present end.
        here: The present end.
        end: The next of the job, None where the job can have no more.
        hose: The first end of the next hose, None likewise.
        sheet: Offer the sheet of the hose too.
    """
    kept = several(answers, "answer")
    name = place_words(here)
    told = f"{name[:1].upper()}{name[1:]}: {kept}, kept in the job. What comes next?"
    blocks = [Block(told, Tone.HEAD), BLANK]
    if end:
        blocks.append(Block(f"The next end of this job: {place_words(end)}.", pick=END))
    blocks.append(Block("The next job, with the same tools.", pick=JOB))
    if end:
        same = f"The same again: {place_words(end)}, with these answers; change what differs."
        blocks.append(Block(same, pick=SAME))
    blocks.append(Block("Stay with this end.", pick=STAY))
    if sheet:
        blocks.append(Block("The sheet of this hose: length, rating, making.", pick=SHEET))
    if hose and hose != end:
        blocks.append(Block(f"The next hose of this job: {place_words(hose)}.", pick=HOSE))
    return blocks


def place_words(place: Place) -> str:
    """Return an end of a job in words."""
    return f"end {place.side} of hose {place.hose}"
