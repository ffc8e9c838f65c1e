"""The verdict on an answer that was foreseen is the one it would have had."""

from identify.interview.session import Equipped, Observed
from identify.jobs.course import Course
from identify.jobs.saving import Autosave
from identify.model.feature import Feature
from identify.model.rule import Tool
from identify.reading.parse import reading_from
from tests.shipped import shipped_engine


def test_what_was_foreseen_is_what_would_be_concluded() -> None:
    plain, ahead = (Course(shipped_engine(), Autosave(None)) for _ in range(2))
    bag = Equipped(frozenset({Tool.CALIPER, Tool.METRIC_GAUGE, Tool.SEAT_GAUGE}), "")
    asked = ahead.happen(ahead.begin(), bag)
    words = list(ahead.foresee(asked))
    assert words[:2] == ["male", "female"]
    known = dict(ahead._ahead)
    assert len(known) == len(words)
    for word in words:
        answer = Observed(reading_from(Feature.GENDER, word))
        found = ahead.happen(asked, answer)
        assert found.verdict in known.values(), "it was worked out anew"
        expected = plain.happen(plain.happen(plain.begin(), bag), answer)
        assert found.verdict == expected.verdict


def test_what_was_not_foreseen_is_concluded_and_the_old_is_forgotten() -> None:
    course = Course(shipped_engine(), Autosave(None))
    start = course.begin()
    list(course.foresee(start))
    size = Observed(reading_from(Feature.THREAD_OD, "20.9 mm"))
    male = course.happen(start, Observed(reading_from(Feature.GENDER, "male")))
    measured = course.happen(male, size)
    assert len(measured.verdict.readings) == 2
    assert list(course.foresee(measured)) or not course._ahead
