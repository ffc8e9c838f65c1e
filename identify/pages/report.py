"""The report of a job: all that is kept of it, each leading end drawn, and what to mind."""

from collections.abc import Iterable

from identify.drawing.ends import half_section
from identify.drawing.svg import svg
from identify.jobs.journal import Kept
from identify.model.catalogue import Catalogue
from identify.model.connection import EndConnection
from identify.model.rule import Moment
from identify.model.rulebook import RuleBook
from identify.model.verdict import VerdictKind, percent
from identify.pages.blocks import BLANK, Block, Picture, Table, Tone, labelled
from identify.pages.code import code_of
from identify.pages.handed import Handed, HandedEnd, hose_facts
from identify.pages.html import division, document
from identify.pages.jobs import end_record, fact_blocks
from identify.pages.words import bolts_words, rating_words, seat_words, several, thread_words
from identify.reasoning.engine import Engine

CODE_MM = 24.0
Part = Block | Table | Picture
_STYLE = """
@page { margin: 15mm 15mm 17mm; @bottom-right { content: counter(page) " / " counter(pages); } }
body { max-width: 180mm; margin: 0 auto; }
.head { display: grid; grid-template-columns: 1fr auto; column-gap: 6mm; }
p.mark { grid-template-columns: minmax(24mm, auto) 1fr; }
.end { border-top: .3mm solid #000; padding-top: 2mm; margin-top: 4mm; }
.end figure { text-align: center; }
@media screen { body { padding: 6mm; } }
"""


def report_blocks(sheet: Handed, kept: Kept, engine: Engine) -> list[Part]:
    """Return the report as text and Markdown set it."""
    blocks = [*_head(sheet, kept)]
    for hose in sheet.hoses:
        for end in hose.ends:
            blocks += [BLANK, *_end(end, engine)]
    return [*blocks, BLANK, *_cautions(engine.book)]


def report_page(sheet: Handed, kept: Kept, engine: Engine) -> str:
    """Return the report as a document that prints on A4 and on Letter."""
    ends = [division("end", _end(end, engine)) for hose in sheet.hoses for end in hose.ends]
    code = [code_of(sheet.job.reference, CODE_MM)]
    head = division("head", division("told", _head(sheet, kept)), code)
    tail = division("end", _cautions(engine.book))
    return document(f"Report {sheet.job.reference}", head + "".join(ends) + tail, _STYLE)


def _head(sheet: Handed, kept: Kept) -> list[Part]:
    job = sheet.job
    blocks: list[Part] = [Block(f"Report on job {job.reference}", Tone.TITLE)]
    blocks.append(Block(f"Begun {kept.begun.replace('T', ' at ')}."))
    if kept.unread:
        lines = several(kept.unread, "line")
        blocks.append(Block(f"{lines} of its file cannot be read by this version.", Tone.WARN))
    blocks += fact_blocks(job)
    for hose in sheet.hoses:
        more = f" of hose {hose.number}" if len(sheet.hoses) > 1 else ""
        blocks += [Block(text, mark=f"{name}{more}: ") for name, text in hose_facts(hose) if text]
    return blocks


def _end(end: HandedEnd, engine: Engine) -> list[Part]:
    blocks: list[Part] = [*end_record(end.name, end.end, engine.book)]
    if len(blocks) == 1:
        return [*blocks, Block("Nothing was measured of it.")]
    if end.missing:
        blocks.append(Block(f"Not measured: {end.missing_words}.", Tone.WARN))
    verdict = end.verdict
    if verdict is None:
        return blocks
    if end.end.changed or end.end.verdict is None:
        blocks.append(labelled("Now", f"{verdict.sentence} (with the tables of today)"))
    if verdict.ends and verdict.kind is not VerdictKind.IDENTIFIED:
        rows = ((percent(e.probability), e.title, e.thread or "none") for e in verdict.ends)
        blocks += [BLANK, Table(("Chance", "End", "Thread"), tuple(rows))]
    if end.row:
        blocks += [BLANK, *_row(end.row, engine.catalogue, named=end.identified)]
    elif verdict.ends and verdict.kind is not VerdictKind.ABSTAIN:
        gone = f"The tables of today do not hold {verdict.ends[0].id}."
        blocks.append(Block(gone, Tone.WARN))
    return blocks


def _row(row: EndConnection, catalogue: Catalogue, *, named: bool) -> Iterable[Part]:
    """Yield a row of the tables with its drawing."""
    head = "From the tables" if named else "From the tables, if it is the first of these"
    yield Block(f"{head}: {row.named}", Tone.HEAD)
    if row.refuse:
        yield Block(f"Leave it alone. {row.refuse}", Tone.WARN, mark="!!! ")
    drawn = half_section(row, thread := catalogue.thread_of(row))
    yield Picture(svg(drawn, _scale(drawn.bounds())), drawn.described)
    told = {
        "Form": row.form,
        "Standards": ", ".join(row.standards) or "none named in the tables",
        "Thread": thread_words(thread) if thread else "none",
        "Seat": "; or ".join(map(seat_words, row.seats)),
        "Seal": row.seal,
        "O-ring": row.o_ring_size or "",
        "Bolts": bolts_words(row),
        "Pressure": rating_words(row.rating),
        "Doubt": row.provenance.caveat,
    }
    yield from (labelled(name, text) for name, text in told.items() if text)
    yield Block(f"The tables describe {row.id}, not the part in your hand.", Tone.QUIET)


def _scale(bounds: tuple[float, float, float, float]) -> float:
    """Return the largest usual scale at which a drawing leaves room for its labels on a page."""
    across = bounds[2] - bounds[0]
    return next((scale for scale in (2.0, 1.0, 0.5) if across * scale <= 75.0), 0.2)


def _cautions(book: RuleBook) -> list[Block]:
    told = book.cautions_at(Moment.VERDICT, Moment.REPLACEMENT)
    return [Block("Cautions", Tone.HEAD), *(Block(each, mark="! ") for each in told)]
