"""Every screen at three sizes, as text; looked at when it was filed.

After a wanted change run `python tests/tui/test_goldens.py`, look at the files, commit them.
"""

from collections.abc import Callable
from pathlib import Path

import pytest

from identify.drawing.style import Style
from identify.interview.session import Claimed, Observed
from identify.interview.snapshot import Snapshot
from identify.jobs.facts import FIRST, Fate, Field, Noted, Settled
from identify.jobs.job import job_of
from identify.jobs.journal import Kept, Saved
from identify.jobs.listing import Listed
from identify.model.feature import Feature
from identify.model.rule import Tool
from identify.model.verdict import Hazard
from identify.pages.reasons import WhyNot
from identify.reasoning.differences import Difference
from identify.reasoning.joint import Mating, Outcome
from identify.reasoning.lookalikes import Lookalike
from identify.reasoning.mating import Mates
from identify.sheets.desk import Desk
from identify.sheets.kept import KeptSheet
from identify.tui.screens.base import Face
from identify.tui.screens.choosing import AnswersScreen, ResumeScreen, ToolsScreen
from identify.tui.screens.drawings import OverlayScreen, PictureScreen
from identify.tui.screens.interview import InterviewScreen
from identify.tui.screens.jobs import JobScreen, JobsScreen
from identify.tui.screens.kept_sheets import KeptSheetsScreen
from identify.tui.screens.reading import (
    EndScreen,
    GuideScreen,
    HelpScreen,
    LookalikesScreen,
    VerdictScreen,
    WhyNotScreen,
    WhyScreen,
)
from identify.tui.screens.search import TablesScreen, WhyNotSearchScreen
from identify.tui.screens.sheet import DeskScreen, sheet_screen
from tests.sheets.known import GOOD as PATHS
from tests.sheets.known import desk_with
from tests.tui.stage import shown
from tests.tui.world import (
    CONE,
    ENGINE,
    FLARE,
    FLAT,
    GENDER,
    OD,
    RANKING,
    SNAPSHOTS,
    evidence,
)

FOLDER = Path(__file__).parent / "goldens"
SIZES = ((80, 24), (120, 40), (45, 30))
HALFWAY = SNAPSHOTS["halfway"]
MATES = Mates(
    (Mating(CONE.id, FLAT.id, Outcome.SEALS, Hazard.LOW, "They meet.", meant=True),),
    (),
    (Mating(CONE.id, FLARE.id, Outcome.BINDS, Hazard.HIGH, "The cones do not meet."),),
)
TELL = Difference(Feature.SEAT_SHAPE, "concave", "convex", "eye")
ALIKE = (
    Lookalike(CONE, FLARE, "same thread", TELL, Hazard.HIGH),
    Lookalike(CONE, FLAT, "same thread", None, Hazard.MEDIUM),
)
Make = Callable[[], Face]


def interview(name: str) -> Make:
    return lambda: InterviewScreen(ENGINE, SNAPSHOTS[name], Style.BRAILLE)


SCREENS: dict[str, tuple[Make, tuple[str, ...]]] = {
    **{f"interview-{name}": (interview(name), ()) for name in SNAPSHOTS},
    "interview-typing": (interview("halfway"), tuple("18.1")),
    "interview-marked": (interview("tool"), ("down",)),
    "tools": (lambda: ToolsScreen(ENGINE, HALFWAY, frozenset({Tool.CALIPER}), ""), ("5",)),
    "access": (lambda: ToolsScreen(ENGINE, HALFWAY, frozenset(), ""), ("enter",)),
    "answers": (lambda: AnswersScreen(ENGINE, SNAPSHOTS["suspect"]), ()),
    "answers-one": (lambda: AnswersScreen(ENGINE, SNAPSHOTS["suspect"]), ("2",)),
    "answers-given-up": (lambda: AnswersScreen(ENGINE, SNAPSHOTS["given-up"]), ()),
    "help": (lambda: HelpScreen(ENGINE, HALFWAY), ()),
    "help-keys": (lambda: HelpScreen(ENGINE, SNAPSHOTS["identified"]), ()),
    "why": (lambda: WhyScreen(ENGINE, HALFWAY), ()),
    "why-not": (
        lambda: WhyNotScreen(ENGINE, HALFWAY, WhyNot(FLAT, 0.01, evidence(0.8, -2.5), RANKING[0])),
        (),
    ),
    "why-not-search": (lambda: WhyNotSearchScreen(ENGINE, HALFWAY), tuple("flare")),
    "tables": (lambda: TablesScreen(ENGINE, HALFWAY), ()),
    "tables-found": (lambda: TablesScreen(ENGINE, HALFWAY), (*"1/2", "enter")),
    "tables-nothing": (lambda: TablesScreen(ENGINE, HALFWAY), tuple("xyz")),
    "end": (lambda: EndScreen(ENGINE, HALFWAY, CONE, MATES), ()),
    "verdict": (lambda: VerdictScreen(ENGINE, SNAPSHOTS["identified"], MATES), ()),
    "verdict-shortlist": (lambda: VerdictScreen(ENGINE, SNAPSHOTS["suspect"], MATES), ()),
    "verdict-nothing-fits": (lambda: VerdictScreen(ENGINE, SNAPSHOTS["nothing-fits"], None), ()),
    "lookalikes": (lambda: LookalikesScreen(ENGINE, HALFWAY, CONE, ALIKE), ()),
    "overlay": (
        lambda: OverlayScreen(ENGINE, HALFWAY, CONE.id, FLARE.id, Style.BRAILLE),
        (),
    ),
    "picture": (lambda: PictureScreen(ENGINE, HALFWAY, CONE, Style.BLOCKS), ()),
    "guide": (
        lambda: GuideScreen(ENGINE, HALFWAY, (SNAPSHOTS["start"].verdict, *[HALFWAY.verdict] * 6)),
        ("n",),
    ),
    "resume": (
        lambda: ResumeScreen(
            ENGINE,
            HALFWAY,
            Saved(Path("none"), "2025-03-01T08:30:00", (Observed(GENDER), Observed(OD))),
        ),
        (),
    ),
}
KEPT = Kept(
    Path("none"),
    "2025-03-01T08:30:00",
    job_of(
        "K7M-3P4",
        "2025-03-01T08:30:00Z",
        (
            (FIRST, Noted(Field.CUSTOMER, "Hill Farm")),
            (FIRST, Noted(Field.QUANTITY, "2")),
            (FIRST, Noted(Field.PRINTED, "2SN DN 12")),
            (FIRST, Noted(Field.SHAPE, "90")),
            (FIRST, Observed(GENDER)),
            (FIRST, Observed(OD)),
            (FIRST, Claimed("half inch", "the driver", "2025-03-01T08:30:00Z")),
            (FIRST, Settled(Fate.CAME_BACK, "it leaked", "2025-03-02T08:30:00Z")),
        ),
    ),
    (),
)
LISTED = [
    Listed(
        f"2025-03/job-{number}.jsonl", f"K7M-3P{number}", "Hill Farm" * number, "digger",
        (CONE.id,), (CONE.named,), "2025-03-01T08:30:00", "", number == 1, discarded=False,
    )
    for number in range(3)
]  # fmt: skip
SCREENS |= {
    "jobs": (lambda: JobsScreen(ENGINE, HALFWAY, lambda _: LISTED), ()),
    "jobs-none": (lambda: JobsScreen(ENGINE, HALFWAY, lambda _: ()), tuple("zz")),
    "job": (lambda: JobScreen(ENGINE, HALFWAY, KEPT), ()),
    "job-deeds": (lambda: JobScreen(ENGINE, HALFWAY, KEPT), ("n",)),
}
SHEET_SCREENS: dict[str, tuple[Callable[[], Desk], str, tuple[str, ...]]] = {
    "sheet-blank": (lambda: desk_with(**dict.fromkeys(PATHS, "")), "", ()),
    "sheet": (lambda: desk_with(a__known="claimed", use__peaks="300 bar"), "", ()),
    "sheet-section": (lambda: desk_with(a__known="claimed"), "section a", ()),
    "sheet-entry": (lambda: desk_with(a__end=""), "section a", ("1", *"jic 8")),
    "sheet-choice": (lambda: desk_with(a__port=""), "section a", ("2",)),
    "sheet-told": (lambda: desk_with(use__peaks=""), "section use", ("4", *"300 bar", "enter")),
    "sheet-checks": (lambda: desk_with(a__port="orfs:-12:male", use__peaks=""), "checks", ()),
    "sheet-drawing": (desk_with, "drawing", ()),
    "sheet-whole": (desk_with, "whole", ("n", "n")),
    "sheet-order": (lambda: desk_with(a__known="claimed"), "order", ()),
    "sheet-keys": (desk_with, "keys", ()),
}


def of_sheet(make: Callable[[], Desk], pick: str) -> Make:
    def page() -> Face:
        desk, plain = make(), (ENGINE, Snapshot(), Style.BRAILLE)
        found = sheet_screen(desk, *plain, pick) if pick else DeskScreen(desk, *plain)
        assert found
        return found

    return page


SCREENS |= {
    name: (of_sheet(make, pick), keys) for name, (make, pick, keys) in SHEET_SCREENS.items()
}
KEPT_SHEETS = [
    KeptSheet(Path(f"{number}.json"), reference, "2025-03-01 at 08:30 UTC")
    for number, reference in enumerate(("bench 3", "", "yard 7"))
]
SCREENS["sheets-kept"] = (lambda: KeptSheetsScreen(ENGINE, Snapshot(), KEPT_SHEETS), ())
FRAMES = [(name, size) for name in SCREENS for size in SIZES]


def file_of(name: str, size: tuple[int, int]) -> Path:
    return FOLDER / f"{name}-{size[0]}x{size[1]}.txt"


@pytest.mark.parametrize(("name", "size"), FRAMES, ids=lambda each: str(each))
def test_the_screen_is_the_one_on_file(name: str, size: tuple[int, int]) -> None:
    make, keys = SCREENS[name]
    assert shown(make, size, *keys) == file_of(name, size).read_text(encoding="utf-8")


def test_every_screen_on_file_is_still_shown() -> None:
    assert set(FOLDER.iterdir()) == {file_of(*frame) for frame in FRAMES}


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.iterdir():
        old.unlink()
    for name, size in FRAMES:
        make, keys = SCREENS[name]
        file_of(name, size).write_text(shown(make, size, *keys), encoding="utf-8")
