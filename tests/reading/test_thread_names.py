"""A thread's name given for a measurement: recognised however it is spaced, and explained."""

import re

import pytest

from identify.errors import ReadingError
from identify.model.reading import Length, Pitch
from identify.reading.parse import parse_reading
from identify.reading.thread_names import thread_name
from identify.reasoning.engine import Engine
from tests.shipped import knowledge

THREADS = knowledge().catalogue.threads
NAMED = re.compile(r'(thread_od|thread_id|pitch)="([^"]+)"')


def spellings(designation: str) -> set[str]:
    """Return a name as people type it: other spacing, a class, an inch mark, no letters."""
    ways = {designation, designation.lower(), designation.replace(" ", "")}
    if designation.startswith("M"):
        return {*ways, designation.replace("x", " x "), designation.replace("x", "×")} - {
            designation.replace(" ", "") if "keg" in designation else ""
        }
    if "-" in designation:
        size, _, rest = designation.partition("-")
        tpi, _, letters = rest.partition(" ")
        bare = f"{size}-{tpi}"
        return {
            designation, designation.lower(), bare, f"{bare} in", f"{size} - {tpi}",
            f"{size.replace(' ', '-')}-{tpi}", f'{size}"-{tpi} {letters}', f"{bare}{letters}",
        }  # fmt: skip
    letters, _, size = designation.partition(" ")
    return {designation, f"{letters}{size}", f"{letters.lower()} {size}", f'{size}" {letters}'}


def refused(text: str) -> str:
    with pytest.raises(ReadingError) as caught:
        parse_reading(text, THREADS)
    return caught.value.problem


@pytest.mark.parametrize("designation", THREADS)
def test_every_name_is_refused_with_what_such_a_thread_measures(designation: str) -> None:
    thread = THREADS[designation]
    for typed in spellings(designation):
        for feature in ("thread_od", "thread_id", "pitch", "hex"):
            problem = refused(f"{feature}={typed}")
            assert "is the name of a thread, not a measurement" in problem, typed
            pitches = [value for name, value in NAMED.findall(problem) if name == "pitch"]
            assert thread.pitch_words in pitches, (typed, problem)


@pytest.mark.parametrize("designation", THREADS)
def test_what_it_proposes_is_what_the_thread_measures(designation: str) -> None:
    thread = THREADS[designation]
    for feature, limits in (("thread_od", thread.external), ("thread_id", thread.internal)):
        if limits is None:
            continue
        problem = refused(f"{feature}={designation}")
        told = problem.partition(f"a {designation} reads ")[2].partition(";")[0]
        readings = dict(NAMED.findall(told))
        size = parse_reading(f"{feature}={readings[feature]}", THREADS).value
        pitch = parse_reading(f"pitch={readings['pitch']}", THREADS).value
        assert isinstance(size, Length)
        assert isinstance(pitch, Pitch)
        assert limits.crest.low_mm - 0.05 <= size.mm <= limits.crest.high_mm + 0.05
        assert pitch.mm == pytest.approx(thread.pitch_mm, abs=2e-3)


def test_the_case_that_turned_a_right_answer_wrong(engine: Engine) -> None:
    """Followed to the end, the message for 1 1/16-12 leads to an end with that thread."""
    problem = refused("thread_od=1 1/16-12")
    texts = ["gender=male", *(f"{name}={value}" for name, value in NAMED.findall(problem))]
    verdict = engine.conclude([parse_reading(text) for text in texts])
    assert verdict.ranking[0].end.thread == "1 1/16-12 UN"
    assert "is the name of a thread" in refused("thread_od=1 1/16-12 in")


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("1/2 BSP", 'a G 1/2 reads thread_od="20.8 mm" and pitch="14 tpi"'),
        ('1/2" bspp', 'a G 1/2 reads thread_od="20.8 mm" and pitch="14 tpi"'),
        ("npt 1/2", 'a 1/2-14 NPT reads thread_od="20.9 mm" and pitch="14 tpi"'),
        ("M22x1.5 6g", 'a M22x1.5 reads thread_od="21.9 mm" and pitch="1.5 mm"'),
        ("22 x 1,5", 'a M22x1.5 reads thread_od="21.9 mm" and pitch="1.5 mm"'),
        ("1-1/16 - 12 UN-2A", 'a 1 1/16-12 UN reads thread_od="26.8 mm" and pitch="12 tpi"'),
        ("G 1/2 male", 'a G 1/2 reads thread_od="20.8 mm" and pitch="14 tpi"'),
        ("5/8-11", "no thread of that name is in the tables"),
        ("M3x0.5", 'pitch="0.5 mm"'),
    ],
)
def test_names_as_people_write_them(typed: str, told: str) -> None:
    assert told in refused(f"thread_od={typed}")


@pytest.mark.parametrize(
    "typed",
    ["20.9 mm", "1 1/16 in", "3/4-7/8 in", "20-21 mm", "1-1/16 in", "0.8-0.85 in", "5-6 in", "1 m"],
)
def test_sizes_and_spans_are_no_names(typed: str) -> None:
    assert thread_name(typed) is None


def test_without_tables_the_name_is_still_refused() -> None:
    with pytest.raises(ReadingError, match="is the name of a thread") as caught:
        parse_reading("thread_od=7/16-20")
    assert 'pitch="20 tpi"' in caught.value.problem
