"""The slip that goes to the workshop with a hose: half a page, blanks for what is not known."""

from collections.abc import Iterable
from itertools import zip_longest

from identify.jobs.facts import SHAPES
from identify.model.feature import FEATURES, Feature
from identify.model.rule import Moment
from identify.model.rulebook import RuleBook
from identify.pages.blocks import BLANK, Block, Rows, Tone
from identify.pages.code import code_of
from identify.pages.handed import (
    LINE,
    Handed,
    HandedEnd,
    HandedHose,
    day_of,
    hose_facts,
)
from identify.pages.html import division, document, figure
from identify.pages.text import WIDTH, text_of

CODE_MM = 20.0
_NAMES = {Feature.GENDER: "kind of end", Feature.SEAT_SHAPE: "seat shape"}
_BETWEEN = " | "
LONGEST_FACT = 70  # characters of one fact; the report has all of it
FEW_ROWS = 15  # of an end; more are set smaller, so that a slip is half a sheet of A4 or Letter
_STYLE = """
@page { margin: 10mm 12mm; }
body { font-size: 8pt; line-height: 1.25; }
.slip { max-width: 186mm; margin: 0 auto; border-bottom: .3mm dashed #000; padding-bottom: 3mm;
  margin-bottom: 3mm; break-inside: avoid; }
.head { display: grid; grid-template-columns: 1fr auto; column-gap: 4mm; }
.head figure, .head h1 { margin: 0; } .facts { columns: 2; column-gap: 6mm; }
.ends { display: grid; grid-template-columns: 1fr 1fr; column-gap: 6mm; margin: 1mm 0; }
.ends > div { border: .3mm solid #000; padding: 1mm 2mm; } .ends h2 { margin: 0 0 .3mm; }
.ends p.mark { grid-template-columns: 28mm 1fr; border-bottom: .1mm solid #bbb; margin: 0; }
.dense p.mark { font-size: 7pt; line-height: 1.1; }
.facts .mark > :last-child { overflow: hidden; text-overflow: ellipsis; white-space: nowrap; }
.ends p.warn { font-size: 11pt; line-height: 1.2; margin-top: 1mm; }
.cautions { columns: 2; column-gap: 6mm; font-size: 7pt; }
.cautions p { break-inside: avoid; }
@media screen { body { padding: 4mm; } }
"""


def slip_blocks(sheet: Handed, book: RuleBook) -> list[Block]:
    """Return the slips of a job, one a hose, with the ends one under the other."""
    blocks: list[Block] = []
    for hose in sheet.hoses:
        blocks += [*_head(sheet, hose), *_facts(sheet, hose)]
        for end in hose.ends:
            blocks += [BLANK, *_end(end)]
        blocks += [BLANK, *_cautions(book), BLANK]
    return blocks[:-1]


def slip_text(sheet: Handed, book: RuleBook) -> str:
    """Return the slips of a job as text of 80 columns, the ends of a hose side by side."""
    return "\n".join(
        text_of(
            [
                *_head(sheet, hose),
                _beside(facts[: (len(facts) + 1) // 2], facts[(len(facts) + 1) // 2 :]),
                BLANK,
                _beside(*map(_end, hose.ends)),
                BLANK,
                *_cautions(book),
            ]
        )
        for hose in sheet.hoses
        for facts in [_facts(sheet, hose)]
    )


def _beside(left: list[Block], right: list[Block]) -> Rows:
    """Return two columns of text as rows that stand as set."""
    wide = (WIDTH - len(_BETWEEN)) // 2
    columns = (text_of(blocks, wide).splitlines() for blocks in (left, right))
    pairs = zip_longest(*columns, fillvalue="")
    return Rows(tuple(f"{one.ljust(wide)}{_BETWEEN}{two}".rstrip(" ") for one, two in pairs))


def slip_page(sheet: Handed, book: RuleBook) -> str:
    """Return the slips of a job as a document; one takes half a sheet, long facts are cut."""
    slips = [
        division(
            "slip",
            division(
                "head",
                division("told", _head(sheet, hose), division("facts", _facts(sheet, hose))),
                figure(code_of(sheet.job.reference, CODE_MM)),
            ),
            division(
                "ends",
                *(
                    division("end dense" if len(told) > FEW_ROWS else "end", told)
                    for told in map(_end, hose.ends)
                ),
            ),
            division("cautions", _cautions(book)),
        )
        for hose in sheet.hoses
    ]
    return document(f"Workshop slip {sheet.job.reference}", "".join(slips), _STYLE)


def _head(sheet: Handed, hose: HandedHose) -> list[Block]:
    many = f", hose {hose.number} of {len(sheet.hoses)}" if len(sheet.hoses) > 1 else ""
    return [Block(f"Workshop slip, job {sheet.job.reference}{many}", Tone.TITLE)]


def _facts(sheet: Handed, hose: HandedHose) -> list[Block]:
    job = sheet.job
    told = (
        ("Customer", job.customer), ("Machine", job.machine), ("Bag", job.bag), *hose_facts(hose),
        ("Length", ""), ("Measured by", job.measured_by), ("Checked by", job.checked_by),
    )  # fmt: skip
    blocks = [Block(_short(text) or LINE, mark=f"{name}: ") for name, text in told]
    return blocks + [Block(_short(text), mark="Note: ") for text in job.notes[-1:]]


def _short(text: str) -> str:
    """Return a fact that leaves room for the others."""
    plain = " ".join(text.split())
    return plain if len(plain) <= LONGEST_FACT else f"{plain[: LONGEST_FACT - 3]}..."


def _end(end: HandedEnd) -> list[Block]:
    day = f", {day_of(end)}" if day_of(end) else ""
    told = {
        "What it is": end.line,
        "Thread": end.thread,
        "Seat": end.seat,
        "Bend": _shape_words(end.end.shape),
        "Pressure": end.pressure,
    }
    blocks = [Block(f"End {end.name}{day}", Tone.HEAD)]
    blocks += [Block(_short(text), mark=f"{name}: ") for name, text in told.items()]
    read: dict[str, list[str]] = {}
    clues: list[str] = []
    for feature, words in end.read:
        if FEATURES[feature].clue:
            clues.append(f"{FEATURES[feature].label} {words}")
        else:
            read.setdefault(_named(feature), []).append(words)
    for title, several in read.items():
        blocks.append(Block(_short("; ".join(several)), mark=f"{title}: "))
    if clues:
        blocks.append(Block(_short("; ".join(clues)), mark="Beside it: "))
    blocks += [Block(LINE, mark=f"{_named(each)}: ") for each in end.missing]
    return [*blocks, *_warnings(end)]


def _shape_words(shape: str) -> str:
    """Return the shape of an end, or what is to be ticked where nobody said it."""
    return {"": "  /  ".join(SHAPES), "45": "bent 45 deg", "90": "bent 90 deg"}.get(shape, shape)


def _named(feature: Feature) -> str:
    label = _NAMES.get(feature, FEATURES[feature].label)
    return label[:1].upper() + label[1:]


def _warnings(end: HandedEnd) -> Iterable[Block]:
    if end.row and end.row.refuse:
        yield Block("LEAVE IT ALONE. Do not make this hose.", Tone.WARN, mark="!!! ")
    elif not end.end.answered:
        yield Block("NOT MEASURED.", Tone.WARN, mark="!!! ")
        return
    elif not end.identified:
        yield Block("NOT IDENTIFIED: do not make this end yet.", Tone.WARN, mark="!!! ")
    if end.missing:
        yield Block(f"NOT MEASURED: {end.missing_words}.", Tone.WARN, mark="!!! ")


def _cautions(book: RuleBook) -> list[Block]:
    return [Block(each, mark="! ") for each in book.cautions_at(Moment.WORKSHOP)]
