"""The counter, by the keys it takes: samples in a row, and last month's job."""

import asyncio
from pathlib import Path

import pytest

from identify.jobs.reference import reference_of
from identify.jobs.saving import Autosave
from identify.tui.app import Interview
from identify.tui.screens.jobs import JobScreen
from tests.counter.hand import KEY_NAMES, take
from tests.counter.samples import SAMPLES
from tests.jobs.many import lay
from tests.shipped import shipped_engine
from tests.tui.stage import settle

MOST_KEYS = 12  # from the first question to the verdict
MOST_KEYS_BACK = 8  # from the start to last month's job


def test_samples_in_a_row_are_named_in_few_keys_and_each_has_its_label_in_one(tmp_path: Path):
    """Two of those of `python -m tests.counter`."""
    few = [each for each in SAMPLES if each.end in ("orfs:-8:female", "flare37:-8:female")]
    morning = take(tmp_path, few)
    assert all(each.right and each.label.startswith("Written") for each in morning)
    assert max(len(each.keys) for each in morning) <= MOST_KEYS
    assert len(list(tmp_path.rglob("job-*.jsonl"))) == len(few)


@pytest.mark.parametrize(
    ("prepare", "keys"), [("", "j{reference}\n"), ("\n1", "jfor 39\n"), ("\n1", "jg3/4\n2")]
)
def test_last_months_job_is_on_the_screen_within_eight_keys(
    tmp_path: Path, prepare: str, keys: str
):
    """By its reference, by letters of the customer, by a thread and a number from the list."""
    lay(tmp_path, 60)
    reference = reference_of(7919 * 39)
    pressed = keys.format(reference=reference.replace("-", ""))
    assert len(pressed) <= MOST_KEYS_BACK
    app = Interview(shipped_engine(), Autosave(tmp_path))

    async def find() -> None:
        async with app.run_test(size=(80, 24)) as pilot:
            await settle(pilot)
            for key in prepare + pressed:
                await pilot.press(KEY_NAMES.get(key, key))
            await settle(pilot)
            assert isinstance(app.screen, JobScreen)
            if "{" in keys:
                assert app.screen.kept.job.reference == reference

    asyncio.run(find())
