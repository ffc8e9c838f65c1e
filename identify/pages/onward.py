"""What comes after an end: the next one of the job, the next job, or the same answers again."""

from identify.jobs.facts import Place
from identify.pages.blocks import BLANK, Block, Tone
from identify.pages.words import several

END, JOB, SAME, HOSE, STAY = "end", "job", "same", "hose", "stay"


def onward_blocks(answers: int, here: Place, end: Place | None, hose: Place | None) -> list[Block]:
    """Return what can come next, each with its pick; the two that are wanted most always first.

    Args:
        answers: How many were given on the present end.
        here: The present end.
        end: The next of the job, None where the job can have no more.
        hose: The first end of the next hose, None likewise.
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
    if hose and hose != end:
        blocks.append(Block(f"The next hose of this job: {place_words(hose)}.", pick=HOSE))
    blocks.append(Block("Stay with this end.", pick=STAY))
    return blocks


def place_words(place: Place) -> str:
    """Return an end of a job in words."""
    return f"end {place.side} of hose {place.hose}"
