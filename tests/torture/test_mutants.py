"""A sample of `python -m tests.torture mutants`, and the second reader against the first."""

import random
from itertools import islice

from identify.reading.parse import parse_reading
from tests.torture.mutants import READERS, SEEDS, every, meaning, misread


def test_both_readers_agree_on_every_text_before_it_is_changed() -> None:
    for feature, texts in SEEDS.items():
        for text in texts:
            assert len(READERS[feature](text)) == 1, text
            assert misread(feature, text) is None
            assert meaning(parse_reading(f"{feature}={text}").value) is not None


def test_a_slip_is_refused_or_read_as_it_stands() -> None:
    sample = random.Random(7).sample(list(every(4000, random.Random(7))), 8000)
    assert [wrong for feature, text in sample if (wrong := misread(feature, text))] == []


def test_the_second_reader_finds_what_the_first_once_misread() -> None:
    """So that the test above can fail: these were accepted with another meaning."""
    for feature, text in (("thread_od", '2½4 "'), ("thread_od", "13/6 in"), ("seat_angle", "74'")):
        assert READERS[feature](text) == set()
    assert list(islice(READERS["thread_od"]("20...21 mm"), 2)) == [("length", (20, 21))]
