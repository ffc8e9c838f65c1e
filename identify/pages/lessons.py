"""Short lessons: one on each family, one on each trap of lookalikes; pictures and sources computed.

All that is said comes from the tables, the rules and the mating computation.
"""

from collections.abc import Iterator
from typing import Any

from identify.drawing.bench import Look
from identify.drawing.ends import bench_view, named_section
from identify.drawing.seat_detail import seat_detail
from identify.errors import WhichendError
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection, Family
from identify.model.rule import LookalikeNote
from identify.model.rulebook import RuleBook
from identify.model.source import Source
from identify.pages.blocks import BLANK, Block, Picture, Tone, labelled
from identify.pages.glossary import TRAP, Page, source_words
from identify.pages.pair import difference_words, pair_of
from identify.pages.tables import rows_of
from identify.pages.words import HAZARDS, end_words


def family_lesson(catalogue: Catalogue, book: RuleBook, family: Family) -> Page:
    """Return a lesson on a family: what it is, how each form looks and is known, its traps.

    A trap can be picked.
    """
    blocks: Page = [Block(family.title, Tone.HEAD)]
    if family.refuse:
        blocks.append(Block(f"Do not handle this as a hydraulic end: {family.refuse}", Tone.WARN))
    blocks += [Block(family.about)] if family.about else []
    if family.also_called:
        blocks.append(labelled("Also", ", ".join(family.also_called)))
    ends = middle_of_each_form(rows_of(catalogue, family))
    for end in ends:
        thread = catalogue.thread_of(end)
        blocks += [
            BLANK,
            Block(f"{end.form}, for example {end.size}", Tone.HEAD),
            Picture(bench_view(end, thread, Look.BENCH)),
            *([labelled("Know it by", end.tell_by)] if end.tell_by else []),
            labelled("Seals by", end.seal),
            Picture(named_section(end, thread)),
        ]
    traps = traps_of(book, family.key)
    if traps:
        blocks += [BLANK, Block("What it is confused with", Tone.HEAD)]
        blocks += [
            Block(
                f"{pair_title(catalogue, note.a, note.b)}. {note.tell_apart}",
                pick=pair_pick(note.a, note.b),
            )
            for note in traps
        ]
    blocks += [BLANK, Block("Sources", Tone.HEAD)]
    blocks += [Block(f"Standard: {', '.join(family.standards)}")] if family.standards else []
    cited = {(end.provenance.source, end.provenance.basis) for end in ends}
    cited |= {(note.source, note.basis) for note in traps}
    sources = _sources(catalogue, book)
    return [*blocks, *(Block(source_words(sources, *each)) for each in sorted(cited))]


BESIDE_WORDS = 13  # rows of a picture that shares a page with what is said of it


def pair_lesson(catalogue: Catalogue, book: RuleBook, first: str, second: str) -> Page:
    """Return a lesson on two ends that are confused: both as they lie there, one over the other.

    What experience says of them where it says anything; what measures the difference, and what
    happens on a machine, worked out.

    Args:
        catalogue: The tables.
        book: The rules.
        first: The one: a family, a family with its size, or the id of an end.
        second: The other.

    Raises:
        WhichendError: Both are the same.
    """
    if first == second:
        raise WhichendError(f'A lesson on two needs two; both of these are "{first}".')
    note = note_on(catalogue, book, first, second)
    one, other = example_of(catalogue, first, second)
    pair = pair_of(catalogue, book, one, other)
    blocks: Page = [Block(pair_title(catalogue, first, second), Tone.HEAD)]
    if note:
        blocks.append(labelled("Tell apart", note.tell_apart))
        blocks.append(labelled("Goes wrong", note.what_goes_wrong))
    for end in (one, other):
        sheet = bench_view(end, catalogue.thread_of(end), Look.BENCH)
        blocks += [BLANK, Block(end_words(end), Tone.HEAD), Picture(sheet, BESIDE_WORDS)]
    over = seat_detail(one, catalogue.thread_of(one), other, catalogue.thread_of(other))
    blocks += [BLANK, Block(over.words[0], Tone.HEAD), Picture(over)]
    if pair.apart:
        blocks += [BLANK, Block("What measures the difference", Tone.HEAD)]
        blocks += [Block(difference_words(each), mark="- ") for each in pair.apart if each.resolved]
    meetings = [each for each in (pair.together, pair.b_for_a, pair.a_for_b) if each]
    if meetings:
        blocks += [BLANK, Block("What happens when one takes the other's place", Tone.HEAD)]
        for each in meetings:
            mark, words = HAZARDS.get(each.hazard, ("", "does no harm"))
            told = f"{each.a} on {each.b}: {each.words}; it {words}. {each.reason}"
            blocks.append(Block(f"{mark} {told}".strip(), mark="- "))
    sources = _sources(catalogue, book)
    cited = {(each.provenance.source, each.provenance.basis): 0 for each in (one, other)}
    cited = {(note.source, note.basis): 0} if note else cited
    return [*blocks, BLANK, *(labelled("Source", source_words(sources, *each)) for each in cited)]


def _sources(catalogue: Catalogue, book: RuleBook) -> dict[str, Source]:
    return {**catalogue.sources, **{source.key: source for source in book.sources}}


def middle_of_each_form(ends: list[EndConnection]) -> list[EndConnection]:
    """Return one end of every form, of a middle size."""
    forms: dict[str, list[EndConnection]] = {}
    for end in ends:
        forms.setdefault(end.form_key, []).append(end)
    return [each[len(each) // 2] for each in forms.values()]


def traps_of(book: RuleBook, family: str) -> list[LookalikeNote]:
    """Return what experience says of a family and what is taken for it."""
    return [note for note in book.lookalikes
            if family in (note.a.split(":")[0], note.b.split(":")[0])]  # fmt: skip


def pair_title(catalogue: Catalogue, first: str, second: str) -> str:
    """Return two that are confused, in words; each a family, or an end or size of one."""
    return " or ".join(_name(catalogue, each) for each in (first, second))


def pair_pick(first: str, second: str) -> str:
    """Return what the lesson on two is picked by."""
    return f"{TRAP} {first} {second}"


def note_on(catalogue: Catalogue, book: RuleBook, first: str, second: str) -> LookalikeNote | None:
    """Return what experience says of two, in either order, None if it says nothing."""
    for note in book.lookalikes:
        if {note.a, note.b} == {first, second}:
            return note
    ends = catalogue.by_id
    if first not in ends or second not in ends:
        return None
    return next(book.notes_on(ends[first], ends[second]), None)


def example_of(
    catalogue: Catalogue, first: str, second: str
) -> tuple[EndConnection, EndConnection]:
    """Return an end of each of two that are confused: of one gender and thread if there are such.

    Each is the id of an end, or a family, or a family with its size.
    """
    pairs = [(one, other) for one in _ends(catalogue, first) for other in _ends(catalogue, second)]

    def unlike(pair: tuple[EndConnection, EndConnection]) -> tuple[bool, bool, float]:
        one, other = (catalogue.thread_of(end) for end in pair)
        far = abs(one.major_mm - other.major_mm) if one and other else 0.0
        return pair[0].gender != pair[1].gender, far > 0.5, far

    best = min(map(unlike, pairs))
    alike = [pair for pair in pairs if unlike(pair) == best]
    return alike[len(alike) // 2]


def _ends(catalogue: Catalogue, name: str) -> Iterator[EndConnection]:
    return (end for end in catalogue.ends if end.id == name or end.id.startswith(f"{name}:"))


def _name(catalogue: Catalogue, name: str) -> str:
    if name in catalogue.by_id:
        return end_words(catalogue.by_id[name])
    family, _, size = name.partition(":")
    title = catalogue.families[family].title
    return f"{title}, {size}" if size else title


def lesson_json(blocks: Page) -> list[dict[str, Any]]:
    """Return a lesson as plain values: its paragraphs, and its pictures in words."""
    return [
        {"picture": block.sheet.described}
        if isinstance(block, Picture)
        else {"label": block.mark.strip(), "text": block.text, "pick": block.pick}
        for block in blocks
        if block != BLANK
    ]
