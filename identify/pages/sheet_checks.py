"""Does it belong together? What forbids the hose, what is open, what to mind, what is missing."""

from collections.abc import Iterator

from identify.pages.blocks import Block, Tone, labelled
from identify.pages.words import sentence
from identify.sheets.conclusion import Conclusion, conclusion, not_checked, recalled
from identify.sheets.filling import still_missing
from identify.sheets.finding import Finding, Grade, in_a_row
from identify.sheets.working import Worked

MARKS = {Grade.FORBIDS: "!!! ", Grade.OPEN: "??  ", Grade.MIND: "!   "}
_SAID = {
    Conclusion.FORBIDDEN: "No. Do not make this hose before what is marked !!! is settled.",
    Conclusion.OPEN: "Not settled. Do not make this hose before {} is settled.",
    Conclusion.NOTHING_FOUND: "Nothing that was checked speaks against it. Entries were checked, "
    "not parts: the one who signs releases the hose.",
}


def check_blocks(worked: Worked, found: tuple[Finding, ...]) -> Iterator[Block]:
    """Yield the conclusion, then each finding with its remedy, then what could not be checked."""
    yield Block("Does it belong together?", Tone.HEAD)
    yield conclusion_block(worked, found)
    for each in found:
        yield finding_block(each)
    titles = [entry.title for entry in still_missing(worked.sheet)]
    if missing := [f"{title[:1].lower()}{title[1:]}" for title in titles]:
        yield labelled("Missing", sentence(", ".join(missing)))
    if names := list(recalled(worked)):
        yield labelled(
            "By memory", f"The tables have the figures of {in_a_row(names)} from memory: hold the "
            "parts against each other before you sign.",
        )  # fmt: skip
    if unchecked := list(not_checked(worked)):
        yield labelled("Unchecked", sentence(f"for want of entries: {'; '.join(unchecked)}"))


def conclusion_block(worked: Worked, found: tuple[Finding, ...]) -> Block:
    """Return the conclusion as one sentence that never sounds like a release."""
    reached = conclusion(worked, found)
    marked = any(each.grade is Grade.OPEN for each in found)
    missing = next(iter(still_missing(worked.sheet)), None)
    what = [*(["what is marked ??"] if marked else []), *(["what is missing"] if missing else [])]
    tone = Tone.PLAIN if reached is Conclusion.NOTHING_FOUND else Tone.WARN
    return Block(_SAID[reached].format(" and ".join(what)), tone)


def finding_block(each: Finding) -> Block:
    """Return one finding: what and why, and under it what to do and who says so."""
    return Block(
        f"{each.what} {each.why}".rstrip(),
        Tone.PLAIN if each.grade is Grade.MIND else Tone.WARN, mark=MARKS[each.grade],
        under=(f"Remedy: {each.remedy} ({each.source})",),
    )  # fmt: skip
