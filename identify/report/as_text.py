"""A verdict as text of 80 columns for a terminal, a screen reader or a file."""

import textwrap

from identify.model.verdict import Effect, Hazard, Ranked, Verdict, VerdictKind
from identify.model.words import percent

WIDTH = 80
SHOWN_WARNINGS = 4
SHOWN_LOOKALIKES = 3
SHOWN_FROM = 0.005  # candidates below this are counted, not listed, after the first


def verdict_text(verdict: Verdict, *, whole: bool = False) -> str:
    """Return verdict, ranking with reasons, warnings, next question and cautions.

    Args:
        verdict: What was concluded.
        whole: List every lookalike and warning instead of the gravest.
    """
    parts = [wrap(verdict.sentence)]
    if verdict.readings:
        parts.append(_ranking(verdict))
    if verdict.suspects:
        parts.append("\n".join(wrap(f"? {each.sentence}") for each in verdict.suspects))
    if verdict.dangers or (verdict.kind is VerdictKind.IDENTIFIED and verdict.lookalikes):
        parts.append(_lookalikes(verdict, whole))
    if verdict.warnings:
        parts.append(_warnings(verdict, whole))
    parts.append(_question(verdict))
    if verdict.cautions:
        parts.append("Cautions\n" + "\n".join(wrap(each, "- ") for each in verdict.cautions))
    return "\n\n".join(parts) + "\n"


def wrap(text: str, head: str = "", indent: str = "") -> str:
    """Return text wrapped to the width, `head` before the first line."""
    return textwrap.fill(
        text,
        WIDTH,
        initial_indent=indent + head,
        subsequent_indent=indent + " " * len(head),
        break_long_words=False,
        break_on_hyphens=False,
    )


def _ranking(verdict: Verdict) -> str:
    lines = []
    for number, ranked in enumerate(verdict.ranking, 1):
        if number > 1 and ranked.probability < SHOWN_FROM:
            left = len(verdict.ranking) - number + 1
            lines.append(f"    and {left} less likely than 1 in 200")
            break
        lines += _entry(number, ranked, reasons=number <= 3)
    lines.append(f"    {percent(verdict.none_of_these):>6}  none of these")
    return "\n".join(lines)


def _entry(number: int, ranked: Ranked, *, reasons: bool) -> list[str]:
    end = ranked.end
    head = f"{number:>2}. {percent(ranked.probability):>6}  "
    lines = [
        wrap(f"{end.title}, {end.gender}: {end.form}", head),
        wrap(f"{' / '.join(end.standards)}; thread {ranked.seat.thread or end.thread or 'none'}; "
             f"{end.id}", indent=" " * 12),
    ]  # fmt: skip
    if ranked.twins:
        names = ", ".join(f"{twin.family_name} {twin.size}" for twin in ranked.twins[:4])
        more = f" and {len(ranked.twins) - 4} more" if len(ranked.twins) > 4 else ""
        lines.append(wrap(f"cannot be told from {names}{more}", indent=" " * 12))
    if reasons:
        lines += [wrap(each.sentence, "· ", " " * 12) for each in ranked.evidence]
        rating = end.rating
        known = f"{rating.bar:g} bar at most ({rating.basis})" if rating.bar else "unknown"
        note = f"; {rating.note}" if rating.note else ""
        lines.append(wrap(f"rating: {known}{note}", indent=" " * 12))
        if end.provenance.caveat:
            lines.append(wrap(f"doubt: {end.provenance.caveat}", indent=" " * 12))
        if end.refuse:
            lines.append(wrap(f"REFUSE: {end.refuse}", indent=" " * 12))
    return lines


MARK = {Hazard.HIGH: "!!!", Hazard.MEDIUM: "!! ", Hazard.LOW: "!  "}


_GRAVEST = (Hazard.HIGH, Hazard.MEDIUM, Hazard.LOW)


def _warnings(verdict: Verdict, whole: bool) -> str:
    lines = ["Beware (!!! can injure, !! may hold a test and weep later, ! shows at once)"]
    ordered = sorted(
        verdict.warnings, key=lambda w: (w.effect is not Effect.REFUSE, _GRAVEST.index(w.hazard))
    )
    shown = len(ordered) if whole else SHOWN_WARNINGS
    for warning in ordered[:shown]:
        lines.append(wrap(warning.sentence, f"{MARK[warning.hazard]} "))
        lines.append(wrap(f"{warning.because} [{warning.basis}]", indent="    "))
    if len(ordered) > shown:
        lines.append(f"    and {len(ordered) - shown} less grave; --json prints all")
    return "\n".join(lines)


def _lookalikes(verdict: Verdict, whole: bool) -> str:
    """Return what is dangerous to mistake for the leading end, standing ones first."""
    standing = {danger.end.id for danger in verdict.dangers}
    others = [each for each in verdict.lookalikes if each.end.id not in standing]
    lines = [f"Easily mistaken for {verdict.ranking[0].end.title}"]
    every = [*verdict.dangers, *others]
    shown = len(every) if whole else SHOWN_LOOKALIKES
    for danger in every[:shown]:
        chance = f", still standing at {percent(danger.probability)}" if danger.probability else ""
        tell = f"; {danger.tell}" if danger.tell else "; no measurement of the end tells them apart"
        lines.append(wrap(f"{danger.end.title}{chance}{tell}", f"{MARK[danger.hazard]} "))
        if danger.goes_wrong:
            lines.append(wrap(danger.goes_wrong, indent="    "))
    if len(every) > shown:
        lines.append(f"    and {len(every) - shown} more; --json prints all")
    return "\n".join(lines)


def _question(verdict: Verdict) -> str:
    question = verdict.question
    if question is None:
        done = verdict.kind is VerdictKind.IDENTIFIED
        return wrap(
            "Next: nothing more would tell much."
            if done
            else "Next: no further measurement with these tools would tell more."
        )
    tool = "by eye" if question.how == "none" else f"with {question.how.replace('_', ' ')}"
    return "\n".join(
        [
            wrap(f"Next: {question.text}"),
            wrap(
                f"{question.feature}, {tool}, about {question.minutes:g} min. {question.why} "
                f"{question.separates}",
                indent="    ",
            ),
        ]
    )
