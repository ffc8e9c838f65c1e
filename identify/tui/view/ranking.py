"""The ranking pane and the short lines about it: what leads, what warns, what is suspect."""

from identify.interview.snapshot import Reference, Snapshot
from identify.model.verdict import Danger, Hazard, Verdict, VerdictKind
from identify.model.words import percent
from identify.pages.words import HAZARDS, bar, end_short, likely_words, retake_words
from identify.tui.view.lines import Line, Tone, caption, wrap

SHOWN_FROM = 0.005  # candidates below this are counted, not listed


def ranking_lines(
    snapshot: Snapshot, reference: Reference, width: int, height: int
) -> tuple[Line, ...]:
    """Return the ranking pane: as many candidates as there is room for, each in two rows."""
    verdict = snapshot.verdict
    if not verdict.readings:
        lines = [caption("Ranking", width)]
        count = len(reference.catalogue.ends)
        lines += wrap(f"Nothing measured yet. {count} ends in the tables still stand.", width)
        return tuple(lines[:height])
    shown = [each for each in verdict.ranking if each.probability >= SHOWN_FROM]
    lines = [caption(f"Ranking: none of these {percent(verdict.none_of_these)}", width)]
    room = max((height - 1) // 2, 1)
    for number, each in enumerate(shown[:room], 1):
        lines.append(_bar_line(str(number), each.probability, width))
        more = f" +{len(each.twins)} alike" if each.twins else ""
        lines.append(Line(_cut(end_short(each.end), width - 3 - len(more), "   ") + more))
    left = len(shown) - room
    if left > 0 and len(lines) < height:
        lines.append(Line(f"   and {left} more", Tone.QUIET))
    return tuple(lines[:height])


def _bar_line(number: str, probability: float, width: int) -> Line:
    words = likely_words(probability)
    length = max(width - 11 - len(words), 4)
    text = f"{number}  {percent(probability):>5} {bar(probability, length)} {words}"
    return Line(text[:width])


def _cut(text: str, width: int, head: str = "") -> str:
    return head + (text if len(text) <= width else text[: max(width - 1, 1)] + "…")


def notice_lines(snapshot: Snapshot, width: int, height: int) -> tuple[Line, ...]:
    """Return the lines that must not be missed: suspect reading, dangers that stand, warnings.

    What does not fit is counted and found on the verdict screen.
    """
    verdict = snapshot.verdict
    found: list[tuple[Line, ...]] = []
    if snapshot.trouble:
        found.append(wrap(snapshot.trouble, width, Tone.WARN, "! "))
    for suspect in verdict.suspects:
        found.append(wrap(retake_words(suspect), width, Tone.WARN, "! "))
    for danger in verdict.dangers:
        if danger.hazard is Hazard.HIGH:
            found.append(wrap(danger_words(danger), width, Tone.WARN, "!!! "))
    for warning in verdict.warnings if verdict.readings else ():
        mark = HAZARDS[warning.hazard][0]
        found.append(wrap(warning.sentence, width, Tone.WARN, f"{mark} "))
    lines: list[Line] = []
    for number, each in enumerate(found):
        if lines and len(lines) + len(each) > height:
            return _ended(lines[:height], len(found) - number, width)
        lines += each
    if len(lines) > height:
        return _ended(lines[:height], len(found) - 1, width)
    return tuple(lines)


def danger_words(danger: Danger) -> str:
    """Return a lookalike that still stands, with the one observation that separates it."""
    tell = danger.tell[:1].upper() + danger.tell[1:].rstrip(".")
    apart = f" {tell}." if tell else " No measurement of the end separates it."
    return f"Still standing: {end_short(danger.end)} ({percent(danger.probability)}).{apart}"


def _ended(lines: list[Line], left: int, width: int) -> tuple[Line, ...]:
    """Return lines whose last says how many warnings are not shown."""
    end = f" … {left} more: v" if left else " … v: all of it"
    text = lines[-1].text
    if len(text) + len(end) > width:
        text = text[: width - len(end) + 1].rpartition(" ")[0] or text[: width - len(end)]
    return (*lines[:-1], Line(text + end, lines[-1].tone))


def title_line(snapshot: Snapshot, width: int) -> tuple[Line, ...]:
    """Return the line at the top: what is known in a few words, and that it is saved."""
    verdict = snapshot.verdict
    left = f" whichend  {headline(verdict)}"
    right = f"{snapshot.saved} "
    room = width - len(right)
    return (Line(_cut(left, room).ljust(room) + right, Tone.TITLE),)


def headline(verdict: Verdict) -> str:
    """Return the verdict in three words or so."""
    if not verdict.readings:
        return "nothing measured yet"
    if verdict.kind is VerdictKind.IDENTIFIED:
        return f"identified: {end_short(verdict.ranking[0].end)}"
    if verdict.kind is VerdictKind.SHORTLIST:
        return "not identified yet"
    return "nothing in the tables fits"
