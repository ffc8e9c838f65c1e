"""The sheet on the full screen: entries are kept as they are made, findings follow at once."""

import asyncio
import json
from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest

from identify.jobs.saving import Autosave
from identify.sheets.desk import Desk
from identify.sheets.kept import SheetFile, kept_sheets, read_texts
from identify.tui.app import Interview
from identify.tui.screens.sheet import DeskScreen
from identify.tui.screens.sheet_section import SectionScreen
from identify.tui.sheet import SheetApp
from tests.sheets.known import KNOWN, desk_with
from tests.shipped import shipped_engine
from tests.tui.stage import settle, text_of
from tests.tui.test_app import PREPARE, acted, typed
from tests.tui.test_jobs import turned_to

Press = Callable[..., Awaitable[None]]
Act = Callable[[SheetApp, Press], Awaitable[None]]


def play(app: SheetApp, act: Act, size: tuple[int, int] = (80, 24)) -> SheetApp:
    """Work without a terminal; `act` gets the app and a way to press keys."""

    async def run() -> None:
        async with app.run_test(size=size) as pilot:

            async def press(*keys: str) -> None:
                await pilot.press(*keys)
                await settle(pilot)

            await settle(pilot)
            await act(app, press)

    asyncio.run(run())
    return app


def test_an_entry_is_on_the_disk_as_soon_as_it_is_made(tmp_path: Path) -> None:
    file = tmp_path / "sheets" / "one.json"

    async def act(app: SheetApp, press: Press) -> None:
        await press("1", "1")
        assert isinstance(app.screen, SectionScreen)
        await press(*"bench 3", "enter")
        kept = json.loads(file.read_text(encoding="utf-8"))
        assert kept["entered"] == {"job.reference": "bench 3"}
        await press("enter", *"x", "enter")  # the machine stays blank, no number of pieces
        assert '"x" is no number of pieces' in text_of(app)
        await press("backspace", "2", "ctrl+q")  # what stands on the line is taken

    app = play(SheetApp(Desk(KNOWN, {}, SheetFile(file))), act)
    assert app.return_code == 0
    assert read_texts(file).texts == {"job.reference": "bench 3", "job.quantity": "2"}
    assert [each.reference for each in kept_sheets(file.parent)] == ["bench 3"]


def test_a_kept_sheet_is_gone_on_with(tmp_path: Path) -> None:
    file = tmp_path / "one.json"
    SheetFile(file).keep(desk_with().object)

    def opened(sheet) -> Desk:
        return Desk(KNOWN, read_texts(sheet.path).texts, SheetFile(sheet.path))

    async def act(app: SheetApp, press: Press) -> None:
        await press("2")
        assert isinstance(app.screen, DeskScreen)
        assert "Sheet: invented scenario, yard 7" in text_of(app)

    play(SheetApp(Desk(KNOWN, {}, SheetFile(None)), kept_sheets(tmp_path), opened), act)


def test_findings_are_told_as_an_entry_brings_them() -> None:
    async def act(app: SheetApp, press: Press) -> None:
        assert "Nothing that was checked speaks against it" in text_of(app)
        await press("2", "2")
        assert "How is end A known" in text_of(app)
        await press("2")
        assert "?? End A was only claimed" in text_of(app)
        await press("escape", "b")
        assert "Not settled. Do not make this hose" in text_of(app)

    play(SheetApp(desk_with()), act)


def test_who_names_another_end_has_not_said_how_it_is_known() -> None:
    desk = desk_with()
    desk.tell("a.end", "orfs:-10:female")
    assert desk.draft.texts["a.known"] == "measured"
    desk.tell("a.end", "orfs:-8:female")
    assert "a.known" not in desk.draft.texts
    desk.tell("b.port", "")
    assert "b.port_known" not in desk.draft.texts


def test_a_sheet_that_cannot_be_kept_says_so_and_goes_on() -> None:
    async def act(app: SheetApp, press: Press) -> None:
        await press("1", "1", *"bench 3", "enter")
        assert "this sheet is not kept" in text_of(app)
        assert app.desk.draft.texts == {"job.reference": "bench 3"}

    play(SheetApp(Desk(KNOWN, {}, SheetFile(None))), act)


def test_the_page_is_written_beside_the_sheet(tmp_path: Path) -> None:
    file = tmp_path / "one.json"

    async def act(app: SheetApp, press: Press) -> None:
        await press("w")
        assert "Written, to be printed from a browser" in " ".join(text_of(app).split())
        await press("d")
        assert "overall 914.4 mm" in text_of(app)
        await press("b", "r", "n", "b", "o", "b", "f", "b", "question_mark")
        assert "both ends drawn on the hose" in text_of(app)
        await press("b", "c", "i", "b", "b")
        assert isinstance(app.screen, DeskScreen)

    play(SheetApp(Desk(KNOWN, desk_with().draft.texts, SheetFile(file))), act)
    assert "To order by telephone" in file.with_suffix(".html").read_text(encoding="utf-8")


@pytest.mark.parametrize("size", [(30, 10), (45, 30), (120, 40)])
def test_other_windows(size: tuple[int, int]) -> None:
    async def act(app: SheetApp, press: Press) -> None:
        await press("1", "1", "x")
        assert ("window" in text_of(app)) is (size == (30, 10))

    play(SheetApp(desk_with()), act, size)


def test_a_printed_line_is_read_as_it_is_typed() -> None:
    async def act(app: SheetApp, press: Press) -> None:
        await press("4", "1", *"EN 853/2S")
        assert "Not sure yet; the likeliest" in text_of(app)
        await press(*"N/DN 12")
        assert "Read as: EN 853 2SN, DN 12" in text_of(app)
        await press(*([*["backspace"] * 30]), *"FUEL J30", "enter", "escape")
        assert "(as the old one" not in text_of(app)
        await press("1", *["backspace"] * 30, *"EN 853/2SN/DN 12", "enter", "escape")
        assert "New hose: ____ (as the old one: 2SN DN 12)" in text_of(app)

    play(SheetApp(Desk(KNOWN, {}, SheetFile(None))), act)


# ---- from an interview

JIC = "f moswivel 17.4 16t:g in 37h:g onone taparallel"


def test_the_sheet_opens_after_the_verdict_with_what_was_measured(tmp_path: Path) -> None:
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "o", *typed(JIC), "enter", "n")
        assert "The sheet of this hose" in text_of(app)
        await press(await turned_to(app, press, "The sheet of this hose"))
        assert isinstance(app.screen, DeskScreen)
        await press("2")
        assert "How end A is known: measured" in text_of(app)
        await press("3", "1", "b", "b", "w")
        assert "Written, to be printed from a browser" in " ".join(text_of(app).split())
        await press("b", "b")
        assert not isinstance(app.screen, DeskScreen)

    app = acted(Interview(shipped_engine(), Autosave(tmp_path)), act, (80, 24))
    kept = read_texts(tmp_path / "handover" / f"{app.autosave.reference}-sheet.json").texts
    assert kept["a.end"] == "flare37:-8:female"
    assert kept["a.shape"] == "straight"
    assert (tmp_path / "handover" / f"{app.autosave.reference}-sheet.html").exists()


def test_the_sheet_opens_from_its_job(tmp_path: Path) -> None:
    async def act(app: Interview, press: Press) -> None:
        await press(*PREPARE, "h", *typed("jic 8 female by the driver"), "enter", "escape")
        await press("j", "enter")
        await press(await turned_to(app, press, "The sheet of its hose"))
        assert isinstance(app.screen, DeskScreen)
        await press("f")
        assert "End A was only claimed, never measured" in " ".join(text_of(app).split())
        await press("question_mark")
        assert "Keys of the sheet" in text_of(app)

    acted(Interview(shipped_engine(), Autosave(tmp_path)), act, (80, 24))
