"""Jobs on the full screen: from an interview to its job and back, with nothing lost."""

from pathlib import Path

from identify.interview.session import Observed
from identify.jobs.journal import read_job
from identify.jobs.shelf import Shelf, unfinished
from identify.reasoning.engine import Engine
from identify.tui.screens.choosing import ResumeScreen, ToolsScreen
from identify.tui.screens.interview import InterviewScreen
from identify.tui.screens.jobs import JobScreen, JobsScreen
from tests.tui.stage import text_of
from tests.tui.test_app import PREPARE, play, typed


def job_on_disk(folder: Path):
    (path,) = folder.rglob("*.jsonl")
    kept = read_job(path)
    assert kept is not None
    return kept


def number_of(page: str, words: str) -> str:
    """Return the digit that chooses a line."""
    (line,) = [line for line in page.splitlines() if words in line]
    return line.split()[0]


async def turned_to(app, press, words: str) -> str:
    """Turn pages until some words are shown; return the digit before them."""
    for _ in range(9):
        if words in text_of(app):
            return number_of(text_of(app), words)
        await press("n")
    raise AssertionError(f"{words} is on no page")


def test_an_interview_has_a_job_that_takes_facts(engine: Engine, tmp_path: Path) -> None:
    async def act(app, press) -> None:
        await press(*PREPARE, "1", "j")
        assert isinstance(app.screen, JobsScreen)
        reference = app.autosave.reference
        assert reference in text_of(app)
        await press(*typed(reference.lower()), "enter")
        assert isinstance(app.screen, JobScreen)
        assert f"Job {reference}" in text_of(app).splitlines()[0]
        await press(await turned_to(app, press, "Customer"))
        await press(*"Hill", "space", *"Farm", "enter")
        assert "Customer: Hill Farm" in text_of(app)
        await press(await turned_to(app, press, "Bag number"), "7", "enter")
        assert "Bag: 7" in text_of(app)
        await press("b", "escape")
        assert isinstance(app.screen, InterviewScreen)

    app = play(engine, tmp_path, act)
    job = job_on_disk(tmp_path).job
    assert (job.customer, job.bag) == ("Hill Farm", "7")
    assert job.end().events == app.snapshot.state.events


def test_a_fact_that_cannot_be_is_said_and_changes_nothing(engine: Engine, tmp_path: Path) -> None:
    async def act(app, press) -> None:
        await press(*PREPARE, "1", "j", "enter")
        await press(await turned_to(app, press, "Pieces of this hose"))
        await press(*"two", "enter")
        assert "is not a number of pieces" in " ".join(text_of(app).split())

    play(engine, tmp_path, act)
    assert job_on_disk(tmp_path).job.hoses[0].quantity == ""


def test_the_other_end_is_measured_in_the_same_job(engine: Engine, tmp_path: Path) -> None:
    async def act(app, press) -> None:
        await press(*PREPARE, "1", "j", "enter")
        await press(await turned_to(app, press, "Measure end B."))
        assert isinstance(app.screen, InterviewScreen)
        assert not app.snapshot.state.answers
        assert app.snapshot.state.tools
        await press("2")
        await press("j", "enter")
        await press(await turned_to(app, press, "Go on with end A."))
        assert app.snapshot.state.answers[0].entered == "male"

    play(engine, tmp_path, act)
    job = job_on_disk(tmp_path).job
    assert [
        [event.reading.entered for event in end.events if isinstance(event, Observed)]
        for _, end in job.ends
    ] == [["male"], ["female"]]


def test_an_offered_interview_can_be_discarded(engine: Engine, tmp_path: Path) -> None:
    async def answer(app, press) -> None:
        await press(*PREPARE, "1")

    async def begin_anew(app, press) -> None:
        await press("2", *PREPARE, "1")

    play(engine, tmp_path, answer)
    play(engine, tmp_path, begin_anew)
    assert len(unfinished(tmp_path)) == 2

    async def act(app, press) -> None:
        assert isinstance(app.screen, ResumeScreen)
        await press("4")
        assert isinstance(app.screen, JobsScreen)
        await press("escape")
        await press("3")
        assert isinstance(app.screen, ResumeScreen)
        assert len(unfinished(tmp_path)) == 1
        await press("3")
        assert isinstance(app.screen, ToolsScreen)

    play(engine, tmp_path, act)
    assert unfinished(tmp_path) == ()
    assert len(Shelf(tmp_path).index.every()) == 2


def test_a_job_is_discarded_from_its_screen_but_not_while_it_is_measured(
    engine: Engine, tmp_path: Path
) -> None:
    async def act(app, press) -> None:
        await press(*PREPARE, "1", "j", "enter")
        await press(await turned_to(app, press, "Discard this job"))
        assert "is the job that is measured now" in " ".join(text_of(app).split())
        await press("b", "escape", "n", "2", "j", "enter")
        assert isinstance(app.screen, JobScreen)
        await press(await turned_to(app, press, "Discard this job"))
        assert isinstance(app.screen, JobsScreen)
        assert "No job is kept yet." in text_of(app)

    play(engine, tmp_path, act)
    assert [each.discarded for each in Shelf(tmp_path).index.every()] == [True]


def test_one_key_writes_the_label(engine: Engine, tmp_path: Path) -> None:
    async def act(app, press) -> None:
        await press(*PREPARE, "v", "l")
        assert "measure something first" in " ".join(text_of(app).split())
        await press("b", "1", "v", "l")
        assert "Written" in text_of(app)
        await press("b", "j", "enter", "l")
        assert "Written" in text_of(app)

    app = play(engine, tmp_path, act)
    (page,) = (tmp_path / "handover").iterdir()
    assert page.name == f"{app.autosave.reference}-label.html"
    assert job_on_disk(tmp_path).job.end().verdict


def test_a_scanned_reference_opens_its_job_wherever_nothing_is_typed(
    engine: Engine, tmp_path: Path
) -> None:
    async def answer(app, press) -> None:
        await press(*PREPARE, "1")

    reference = play(engine, tmp_path, answer).autosave.reference
    scan = [*typed(f"JOB {reference}"), "enter"]

    async def on_the_start(app, press) -> None:
        assert isinstance(app.screen, ResumeScreen)
        await press(*scan)
        assert isinstance(app.screen, JobScreen)
        assert f"Job {reference}" in text_of(app).splitlines()[0]

    async def on_the_tools(app, press) -> None:
        await press("2")
        assert isinstance(app.screen, ToolsScreen)
        await press(*scan)
        assert isinstance(app.screen, JobScreen)

    async def wrong(app, press) -> None:
        last = "2" if reference[-1] != "2" else "3"
        await press("2", *PREPARE, *typed(f"JOB {reference[:-1]}{last}"))
        assert "a character is wrong" in " ".join(text_of(app).split())

    for act in (on_the_start, on_the_tools, wrong):
        play(engine, tmp_path, act)
