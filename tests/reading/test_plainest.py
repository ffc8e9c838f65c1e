"""What is typed plainly is read without the grammar as the grammar reads it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.model.feature import FEATURES, Feature
from identify.reading.grammar import made_reading
from identify.reading.plainest import plain_reading

UNITS = ("", " mm", "mm", " in", " tpi", " deg", " half", " deg half", " included", " deg included")
NUMBERS = st.one_of(
    st.decimals(0, 300, places=3).map(str),
    st.decimals(0, 99, places=1).map(str),
    st.integers(0, 300).map(str),
    st.sampled_from(
        ("0", "0.0", ".5", "5.", "00.5", "05", "1e2", "²", "٣", "1_0", "1,5", "1/2", "")
    ),
)


@settings(max_examples=600)
@given(st.sampled_from(tuple(Feature)), NUMBERS, st.sampled_from(UNITS))
def test_numbers(feature: Feature, number: str, unit: str) -> None:
    found = plain_reading(feature, f"{number}{unit}")
    if found is not None:
        assert found == made_reading(feature, f"{number}{unit}", "", {})


@pytest.mark.parametrize("feature", Feature)
def test_words(feature: Feature) -> None:
    for word in {word for info in FEATURES.values() for word in info.choices}:
        found = plain_reading(feature, word)
        if FEATURES[feature].choices:
            assert (found is None) == (word not in FEATURES[feature].choices)
        if found is not None:
            assert found == made_reading(feature, word, "", {})


@pytest.mark.parametrize(
    ("name", "text"),
    [("thread_od", "20.9 mm"), ("pitch", "14 tpi"), ("pitch", "1.5 mm"), ("hose_bore", "0.5 in"),
     ("seat_angle", "60 deg included"), ("seat_angle", "37 deg"), ("gender", "male"),
     ("taper", "parallel"), ("flank_angle", "60")],
)  # fmt: skip
def test_what_is_read_plainly(name: str, text: str) -> None:
    assert plain_reading(name, text)


@pytest.mark.parametrize(
    ("name", "text"),
    [("thread_od", "20.9"), ("thread_od", " 20.9 mm"), ("thread_od", "20.9  mm"),
     ("thread_od", "2000 mm"), ("pitch", "0 tpi"), ("seat_angle", "120 half"), ("size", "20 mm"),
     ("Gender", "male"), ("marking", "20 mm"), ("trial_fit", "20 mm")],
)  # fmt: skip
def test_what_is_left_to_the_grammar(name: str, text: str) -> None:
    assert plain_reading(name, text) is None
