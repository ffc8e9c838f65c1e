"""A sheet at work: its sections, the entries of one, the question of one entry, all sheets kept."""

from collections.abc import Iterator, Sequence

from identify.assembly import Convention, in_words
from identify.errors import WhichendError
from identify.model.verdict import VerdictKind
from identify.pages.blocks import BLANK, Block, Tone, labelled
from identify.pages.claim import named_blocks
from identify.pages.hose import reading_words
from identify.pages.sheet_checks import MARKS, conclusion_block, finding_block
from identify.pages.sheet_making import BLANK_FIELD
from identify.pages.words import sentence, several
from identify.sheets.answers import named_end
from identify.sheets.asking import SECTIONS, section_entries
from identify.sheets.desk import Draft
from identify.sheets.entries import Entry
from identify.sheets.filling import read_entry, still_missing
from identify.sheets.finding import Grade
from identify.sheets.kept import KeptSheet

SECTION = "section"
_MORE = {
    "checks": "What was found: {}.",
    "drawing": "Both ends on the hose, drawn.",
    "whole": "The whole sheet, to read.",
    "order": "The order, to read aloud on the telephone.",
    "write a4": "Write the page to print, A4.",
    "write letter": "Write the page to print, Letter.",
}


def desk_blocks(draft: Draft, since: int = 0) -> Iterator[Block]:
    """Yield how far the sheet is, then its sections, then what can be read, drawn or written.

    Args:
        draft: The sheet.
        since: How many things differ since it was kept.
    """
    yield conclusion_block(draft.worked, draft.found)
    yield BLANK
    sheet, entered = draft.filled.sheet, dict(draft.filled.sheet.entered)
    missing = {entry.path for entry in still_missing(sheet)}
    for key, title in SECTIONS.items():
        entries = list(section_entries(key, sheet, draft.known))
        done = sum(entry.path in entered for entry in entries)
        lacks = sum(entry.path in missing for entry in entries)
        needed = f", {lacks} still needed" if lacks else ""
        yield Block(f"{title}: {done} of {len(entries)}{needed}", pick=f"{SECTION} {key}")
    if since:
        yield Block(f"Since it was kept: {several(since, 'thing')} changed.", pick="since")
    for pick, words in _MORE.items():
        yield Block(words.format(tally(draft) or "nothing"), pick=pick)


def tally(draft: Draft) -> str:
    """Return how many findings there are of each grade, "" for none: "1 !!!, 2 ??"."""
    grades = [each.grade for each in draft.found]
    counts = [(grades.count(grade), MARKS[grade].strip()) for grade in Grade]
    return ", ".join(f"{count} {mark}" for count, mark in counts if count)


def section_blocks(draft: Draft, section: str) -> Iterator[Block]:
    """Yield the entries of a section with what stands there, each to be picked."""
    sheet, faults = draft.filled.sheet, dict(draft.filled.faults)
    missing = {entry.path for entry in still_missing(sheet)}
    for entry in section_entries(section, sheet, draft.known):
        text = _stands(draft, entry)
        needed = " (needed)" if entry.path in missing else ""
        fault = faults.get(entry.path, "")
        yield Block(
            f"{entry.title}: {text or BLANK_FIELD}{needed}", Tone.WARN if fault else Tone.PLAIN,
            pick=entry.path, under=(fault,) if fault else (),
        )  # fmt: skip


def _stands(draft: Draft, entry: Entry) -> str:
    """Return what stands at an entry: as it was typed, an end by its name."""
    text = draft.texts.get(entry.path, "")
    part, _, field = entry.path.partition(".")
    row = getattr(getattr(draft.filled.sheet, part), field) if entry.read is named_end else None
    if entry.path == "hose.new" and not text and draft.worked.hose:
        return f"{BLANK_FIELD} (as the old one: {draft.worked.hose.name})"
    return row.named if row else text


def findings_blocks(draft: Draft) -> Iterator[Block]:
    """Yield the conclusion and each finding."""
    yield conclusion_block(draft.worked, draft.found)
    yield from map(finding_block, draft.found)


def entry_blocks(entry: Entry, typed: str, draft: Draft) -> list[Block]:
    """Return the question of an entry, with all answers to pick, or what is typed is read as."""
    may = "" if entry.needed else " (may stay blank)"
    blocks = [Block(f"{entry.ask}{may}", Tone.HEAD)]
    if entry.choices:
        return [*blocks, *(_choice(entry, word) for word in entry.choices)]
    if not typed.strip():
        return [*blocks, Block(f"Such as: {entry.example}", Tone.QUIET)]
    if entry.read is named_end:
        blocks += named_blocks(draft.known.catalogue, typed)
    try:
        read_entry(entry.path, typed, draft.known)
    except WhichendError as error:
        return [*blocks, Block(str(error), Tone.WARN, mark="! ")]
    if entry.path == "hose.line":
        blocks += _read_as(Draft({entry.path: typed}, draft.known))
    return blocks


def _read_as(alone: Draft) -> Iterator[Block]:
    """Yield what a printed line is read as, so far."""
    verdict = alone.worked.verdict
    if verdict and verdict.refused:
        yield Block(f"{sentence(verdict.refused)}", Tone.WARN, mark="! ")
    elif verdict and verdict.readings:
        sure = verdict.kind is VerdictKind.IDENTIFIED
        first = reading_words(verdict.readings[0])
        yield Block(f"Read as: {first}" if sure else f"Not sure yet; the likeliest: {first}")


def _choice(entry: Entry, word: str) -> Block:
    if entry.path == "angle.convention":
        _, *words = in_words(0, Convention(word))
        return Block(word, pick=word, under=(" ".join(words),))
    return Block(f"{word} degrees" if word in ("45", "90") else word, pick=word)


def desk_key_blocks() -> Iterator[Block]:
    """Yield what the keys of the sheet do."""
    for key, words in (
        ("1-9", "choose a section, an entry, an answer"),
        ("Enter", "takes what is typed; on an empty line the entry stays, or becomes, blank"),
        ("0", "leaves a question with answers to pick blank"),
        ("Esc b", "back: to the list of the section, then to the sheet"),
        ("Space p", "next page, page before"),
        ("f", "what was found: !!! forbids the hose, ?? is open, ! is to be minded"),
        ("d", "both ends drawn on the hose"),
        ("r", "the whole sheet, to read"),
        ("o", "the order, to read aloud on the telephone"),
        ("w", "write the page to print, A4; Letter is in the list"),
        ("i c", "words and lessons; other colours"),
        ("q", "quit; each entry was kept as it was made"),
    ):
        yield labelled(key, words)


def kept_blocks(sheets: Sequence[KeptSheet]) -> Iterator[Block]:
    """Yield what can be gone on with: a new sheet, or one that is kept."""
    yield Block("A new sheet.", pick="new")
    for each in sheets:
        yield Block(f"{each.reference or 'No reference'}, {each.when}", pick=each.path.name)
