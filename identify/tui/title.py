"""The line at the top of every screen: what is known in a few words."""

from identify.interview.snapshot import Snapshot
from identify.model.verdict import Verdict, VerdictKind
from identify.pages.blocks import Line, Tone
from identify.pages.words import end_short
from identify.tui.lines import cut


def title_line(snapshot: Snapshot, width: int) -> tuple[Line, ...]:
    """Return the line at the top: what is known in a few words, which end, that it is saved."""
    verdict = snapshot.verdict
    left = f" whichend  {'what is it?' if snapshot.hidden else headline(verdict)}"
    right = f"{snapshot.saved} "
    if snapshot.where and len(left) + len(snapshot.where) + len(right) + 4 <= width:
        right = f"{snapshot.where}  {right}"
    room = width - len(right)
    return (Line(cut(left, room) + right, Tone.TITLE),)


def headline(verdict: Verdict) -> str:
    """Return the verdict in three words or so."""
    if not verdict.readings:
        return "nothing measured yet"
    if verdict.kind is VerdictKind.IDENTIFIED:
        return f"identified: {end_short(verdict.ranking[0].end)}"
    if verdict.kind is VerdictKind.SHORTLIST:
        return "not identified yet"
    return "nothing in the tables fits"
