"""What is handed over with a hose: slip, label and report; nothing anybody typed is markup.

After a wanted change run `python tests/pages/test_handed.py`, read the files aloud, commit them.
"""

import re
import sys
from html import escape
from html.parser import HTMLParser
from pathlib import Path

import pytest

if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[2]))

from identify.errors import ReadingError
from identify.frozen import replace
from identify.interview.session import Claimed, Observed, conclude, replay
from identify.jobs.concluding import concluded
from identify.jobs.facts import Field, Named, Noted, Place
from identify.jobs.job import Job, job_of
from identify.jobs.journal import Kept
from identify.jobs.reference import reference_of, reference_said
from identify.model.connection import Rating
from identify.model.feature import Feature
from identify.model.source import Support
from identify.pages.blocks import Picture
from identify.pages.code import QUIET, code_of
from identify.pages.handed import LOOK_UP, Handed, handed
from identify.pages.handed_json import handed_json
from identify.pages.label import LabelSize, label_blocks, label_page, label_size, receipt
from identify.pages.markdown import markdown_of
from identify.pages.report import report_blocks, report_page
from identify.pages.slip import slip_blocks, slip_page, slip_text
from identify.pages.text import text_of
from identify.reading.parse import parse_reading
from identify.reasoning.engine import Engine
from identify.transliterate import inert
from tests.plain.talk import engine

AT = "2026-11-26T08:30:00Z"
REFERENCE = reference_of(1234567)
FLANGE = ("gender=flange", "flange_head_od=44.4 mm", "bolt_spacing_long=52.4 mm",
          "bolt_spacing_short=26.2 mm", "flange_head_thickness=8.1 mm")  # fmt: skip
HALF = ("gender=male", "thread_od=20.9 mm", "pitch=14 tpi")
JIC = ("gender=female", "mount=swivel", "thread_id=17.4 mm", "pitch=16 tpi",
       "seat_shape=concave", "seat_angle=37 deg half", "o_ring=none", "taper=parallel")  # fmt: skip
FACTS = {Field.CUSTOMER: "Hill Farm", Field.MACHINE: "Loader 3", Field.BAG: "12",
         Field.QUANTITY: "2", Field.PRINTED: "2SN DN 12", Field.NOTE: "urgent"}  # fmt: skip
EVIL = (
    "<script>alert(1)</script><img src=x onerror=a()> \x1b[2J\u202e\x9b31m | **b** "
    "[x](http://x.example) `c` & www.x.example"
)
FORMULA = "=HYPERLINK(1)"


def entries(ends: dict[str, tuple[str, ...]], facts: dict[Field, str]):
    made = [(Place(), Noted(field, value)) for field, value in facts.items()]
    made.append((Place(1, "A"), Noted(Field.SHAPE, "90")))
    known = engine()
    for side, typed in ends.items():
        events = [Observed(parse_reading(each)) for each in typed]
        place = Place(1, side)
        made += [(place, event) for event in events]
        verdict = replace(
            concluded(conclude(known, replay(events)), known.catalogue, None, AT),
            tables="0" * 12, rules="0" * 12, program="0",
        )  # fmt: skip
        made.append((place, verdict))
    return tuple(made)


def job(facts: dict[Field, str] = FACTS, **ends: tuple[str, ...]) -> Job:
    return job_of(REFERENCE, AT, entries(ends, facts))


def sheet_of(one: Job) -> Handed:
    return handed(one, engine(), None, AT)


def kept(one: Job) -> Kept:
    return Kept(Path("job"), "2026-11-26T09:30:00", one, ())


def written() -> dict[str, str]:
    """Return what the golden files hold."""
    known = engine()
    two, one = job(A=JIC, B=HALF), job({}, A=FLANGE)
    return {
        "slip-two-ends": slip_text(sheet_of(two), known.book),
        "slip-one-end": slip_text(sheet_of(one), known.book),
        "label-32": receipt(sheet_of(two), 32),
        "label-48": receipt(sheet_of(two), 48),
        "report": text_of(report_blocks(sheet_of(two), kept(two), known)),
        "report-markdown": markdown_of(report_blocks(sheet_of(one), kept(one), known)),
    }


FOLDER = Path(__file__).parent / "handed"
NAMES = ("slip-two-ends", "slip-one-end", "label-32", "label-48", "report", "report-markdown")


@pytest.mark.parametrize("name", NAMES)
def test_it_says_what_it_said(name: str) -> None:
    assert written()[name] == (FOLDER / f"{name}.txt").read_text("utf-8")


def test_a_receipt_keeps_to_its_paper_and_to_ascii() -> None:
    one = job({}, A=HALF)
    end = one.hoses[0].a
    assert end.verdict
    strange = replace(end.verdict.ends[0], id="gone:1:male", title="Ø 20 °漢" + "x" * 60)
    verdict = replace(end.verdict, ends=(strange,))
    one = replace(one, hoses=(replace(one.hoses[0], a=replace(end, verdict=verdict)),))
    for columns in (32, 48):
        text = receipt(sheet_of(one), columns)
        assert text.isascii()
        assert max(map(len, text.splitlines())) <= columns
        assert "x" * 10 in text


def matrix_of(svg: str) -> list[list[bool]]:
    """Return the modules of a code as a scanner sees them, from its SVG alone."""
    side = int(re.search(r'viewBox="0 0 (\d+) \1"', svg).group(1))  # type: ignore[union-attr]
    modules = [[False] * side for _ in range(side)]
    path = re.search(r'<path fill="#000" d="([^"]*)"', svg).group(1)  # type: ignore[union-attr]
    for x, y, wide in re.findall(r"M(\d+) (\d+)h(\d+)v1h-\d+z", path):
        for at in range(int(x), int(x) + int(wide)):
            modules[int(y)][at] = True
    return modules


def scan(svg: str) -> str:
    import zxingcpp

    grey = [bytes(0 if dark else 255 for dark in row for _ in range(6)) for row in matrix_of(svg)]
    rows = [row for row in grey for _ in range(6)]
    image = memoryview(b"".join(rows)).cast("B", (len(rows), len(rows[0])))
    (found,) = zxingcpp.read_barcodes(image)
    assert found.format == zxingcpp.BarcodeFormat.QRCode
    return str(found.text)


@pytest.mark.parametrize("number", [0, 1, 1234567, 31**5 - 1])
def test_a_decoder_reads_the_code_back(number: int) -> None:
    reference = reference_of(number)
    svg = code_of(reference, 20.0)
    assert scan(svg) == f"JOB {reference}"
    assert reference_said(scan(svg)) == reference
    modules = matrix_of(svg)
    border = [row[i] for row in modules for i in (*range(QUIET), *range(-QUIET, 0))]
    assert not any(border + [dark for row in modules[:QUIET] + modules[-QUIET:] for dark in row])


def test_each_page_holds_a_code_of_its_job() -> None:
    one, known = job(A=JIC), engine()
    for page in (
        label_page(sheet_of(one)), slip_page(sheet_of(one), known.book),
        report_page(sheet_of(one), kept(one), known),
    ):  # fmt: skip
        (svg,) = re.findall(r'<svg[^>]*class="code".*?</svg>', page, re.S)
        assert reference_said(scan(svg)) == REFERENCE


class Page(HTMLParser):
    """Elements, attributes and text of a page; each element must be closed."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.seen: set[str] = set()
        self.attributes: list[tuple[str, str | None]] = []
        self.text, self.open = "", []
        self.feed(page)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        self.attributes += attrs
        if tag != "meta":
            self.open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.seen.add(tag)
        self.attributes += attrs

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.text += data


def hostile() -> Job:
    one = job(dict.fromkeys((*Field,), EVIL) | {Field.QUANTITY: "2", Field.SHAPE: ""}, A=HALF)
    end, hose = one.hoses[0].a, one.hoses[0]
    assert end.verdict
    first = Named(EVIL, FORMULA + EVIL, EVIL, 0.5)
    verdict = replace(end.verdict, sentence=EVIL, ends=(first, *end.verdict.ends))
    printable = "".join(c for c in EVIL if c.isprintable())
    marked = Observed(parse_reading(f"marking={printable}"))
    claim = Claimed(EVIL, EVIL, AT, (), EVIL)
    end = replace(end, verdict=verdict, events=(*end.events, marked, claim))
    return replace(one, hoses=(replace(hose, a=end),))


def pages() -> dict[str, str]:
    one, known = hostile(), engine()
    sheet = sheet_of(one)
    return {
        "label": label_page(sheet, LabelSize(100, 50)),
        "slip": slip_page(sheet, known.book),
        "report": report_page(sheet, kept(one), known),
    }


@pytest.mark.parametrize("name", ["label", "slip", "report"])
def test_nothing_typed_is_markup_of_a_page(name: str) -> None:
    text = pages()[name]
    page = Page(text)
    assert page.open == []
    assert not page.seen & {"script", "img", "a", "link", "iframe", "object", "form"}
    assert not [key for key, _ in page.attributes if key.startswith("on") or key in ("href", "src")]
    assert "<script>alert(1)</script>" in page.text
    assert inert(text) == text
    assert "default-src 'none'" in text
    assert not re.search(r"url\(|@import", text)


def test_the_report_draws_the_end_that_leads_and_tells_it_in_words() -> None:
    one, known = job({}, A=FLANGE), engine()
    sheet = sheet_of(one)
    (picture,) = [each for each in report_blocks(sheet, kept(one), known) if type(each) is Picture]
    page = report_page(sheet, kept(one), known)
    assert re.findall(r"<desc>(.*?)</desc>", page, re.S) == [escape(picture.sheet.described)]
    for told in (text_of, markdown_of):
        assert "four bolt holes" in " ".join(told([picture]).lower().split())


def test_no_cell_is_a_formula() -> None:
    one = hostile()
    blocks = report_blocks(sheet_of(one), kept(one), engine())
    page = report_page(sheet_of(one), kept(one), engine())
    cells = re.findall(r"<td>(.*?)</td>", page)
    cells += [c.strip() for row in markdown_of(blocks).splitlines() if row.startswith("| ")
              for c in re.split(r"(?<!\\)\|", row)[1:-1]]  # fmt: skip
    assert [cell for cell in cells if FORMULA in cell.replace("\\", "")]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "@", "\\="))]


def test_nothing_typed_is_markup_of_markdown() -> None:
    one = hostile()
    known = engine()
    for blocks in (
        report_blocks(sheet_of(one), kept(one), known),
        [*slip_blocks(sheet_of(one), known.book)],
        [*label_blocks(sheet_of(one))],
    ):
        text = markdown_of(blocks)
        assert inert(text) == text
        for raw in ("<", "`", r"\*\*b", r"\](?=\()", "&(?!#)"):
            assert not re.search(rf"(?<!\\){raw}", text), raw
        assert not re.search(r"://|www\.", text)
        tables = [row for row in text.splitlines() if row.startswith("| ")]
        assert {len(re.findall(r"(?<!\\)\|", row)) for row in tables} <= {4}


def test_a_pressure_from_memory_is_never_a_value_on_slip_and_label(engine: Engine) -> None:
    for typed in (JIC, FLANGE):
        sheet = sheet_of(job(A=typed))
        (end,) = sheet.measured
        assert end.identified
        assert end.row
        assert end.row.rating.basis is Support.FROM_MEMORY
        assert end.pressure == LOOK_UP
        for text in (slip_page(sheet, engine.book), label_page(sheet), receipt(sheet, 32)):
            assert LOOK_UP in text
            assert not re.search(r"\d bar", text)


def test_a_pressure_that_somebody_printed_is_told(engine: Engine) -> None:
    one = job(A=JIC)
    known = sheet_of(one).measured[0].row
    assert known
    row = replace(known, rating=Rating(250.0, Support.PRINTED))
    ends = tuple(row if each.id == row.id else each for each in engine.catalogue.ends)
    other = Engine(replace(engine.catalogue, ends=ends), engine.book)
    (end,) = handed(one, other, None, AT).measured
    assert end.pressure == "250 bar at most (printed)"


def test_what_was_not_measured_is_a_blank_and_is_named() -> None:
    sheet = sheet_of(job(A=HALF))
    first, second = sheet.hoses[0].ends
    assert {Feature.SEAT_SHAPE, Feature.SEAT_ANGLE, Feature.TAPER} <= set(first.missing)
    assert not {each for each, _ in first.read} & set(first.missing)
    text = " ".join(slip_text(sheet, engine().book).split())
    assert "NOT IDENTIFIED: do not make this" in text
    assert "Taper: ________" in text
    assert second.line == "not measured"
    assert sheet.measured == (first,)


def test_an_answer_after_the_verdict_is_reckoned_with() -> None:
    one = job(A=JIC[:3])
    end = one.hoses[0].a
    events = (*end.events, *(Observed(parse_reading(each)) for each in JIC[3:]))
    one = replace(one, hoses=(replace(one.hoses[0], a=replace(end, events=events, changed=True)),))
    assert not sheet_of(job(A=JIC[:3])).measured[0].identified
    assert sheet_of(one).measured[0].line == "JIC -8 female"


def test_json_says_the_same() -> None:
    sheet = sheet_of(job(A=JIC))
    told = handed_json(sheet, ["one"])
    assert list(told)[:3] == ["format", "reference", "begun"]
    first, second = told["hoses"][0]["ends"]
    assert (first["line"], first["pressure"]) == ("JIC -8 female", LOOK_UP)
    assert first["read"]["pitch"] == "16 tpi, by gauge"
    assert second["verdict"] is None
    assert told["hoses"][0]["quantity"] == 2


@pytest.mark.parametrize("text", ["62x29", "57 X 32", "100.5×50"])
def test_stock_is_read(text: str) -> None:
    assert all(each > 0 for each in label_size(text))


@pytest.mark.parametrize("text", ["", "62", "62x", "0x0", "5x29", "999x29", "1e2x29", "-62x29"])
def test_no_stock_is_told(text: str) -> None:
    with pytest.raises(ReadingError, match="size of a label"):
        label_size(text)


def test_a_label_holds_its_code_and_all_of_thread_and_pressure_or_is_refused() -> None:
    sheet = sheet_of(job(A=HALF))
    for size in (LabelSize(57, 32), LabelSize(62, 29), LabelSize(89, 36), LabelSize(100, 50)):
        page = label_page(sheet, size)
        assert f"size: {size.width:g}mm {size.height:g}mm" in page
        assert "G 1/2 or R 1/2 or another" in page
        assert LOOK_UP in page
        side = float(re.search(r'class="code" width="([\d.]+)mm"', page).group(1))  # type: ignore[union-attr]
        assert side / 29 >= 0.33
        assert side <= size.height
    with pytest.raises(ReadingError, match="too small for a code"):
        label_page(sheet, LabelSize(25, 10))


def test_a_job_without_a_reading_has_no_label() -> None:
    with pytest.raises(ReadingError, match="Nothing was measured"):
        label_page(sheet_of(job()))


if __name__ == "__main__":
    for each, text in written().items():
        (FOLDER / f"{each}.txt").write_text(text, encoding="utf-8")
