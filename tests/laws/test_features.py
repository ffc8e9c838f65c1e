"""What `model/feature.py` says of a feature is sound, and is said nowhere else."""

import ast
from collections import Counter
from dataclasses import fields
from pathlib import Path

import pytest

from identify.model.connection import EndConnection
from identify.model.feature import (
    FEATURES,
    SEEN,
    SHARES,
    SIZES,
    SPACINGS,
    STATED,
    VAGUE,
    Feature,
    agrees,
    gender_told,
    is_vague,
)

ROOT = Path(__file__).parent.parent.parent / "identify"
TABLE = ROOT / "model" / "feature.py"
MOST = 4  # the drawing, how two ends go together, a law of its own, and one more
THREAD = "of the thread, which the reasoning, the drawings and the simulation are about"
SEAT = "of the seat, which the reasoning, the drawings and the simulation are about"
NAMED_MORE = {
    Feature.GENDER: "every other feature depends on it",
    Feature.THREAD_OD: THREAD,
    Feature.THREAD_ID: THREAD,
    Feature.PITCH: THREAD,
    Feature.TAPER: THREAD,
    Feature.FLANK_ANGLE: THREAD,
    Feature.HAND: THREAD,
    Feature.SEAT_SHAPE: SEAT,
    Feature.SEAT_ANGLE: SEAT,
    Feature.O_RING: SEAT,
    Feature.TUBE_OD: "drawn in two pictures, goes into a seat, has a law and says which hose it is",
    Feature.TUBE_BORE: "drawn of a male, a nose and a pair, goes into a seat, has a law",
    Feature.PLUG_OD: "drawn of four kinds of end with other proportions, goes into a seat",
    Feature.FLANGE_HEAD_THICKNESS: "drawn from the side, cut and on a hose, meets clamps",
    Feature.HEX: "a row names several or none, and a maker may take another",
    Feature.HOSE_BORE: "of the hose, not of the end: steps of its own",
    Feature.ORIGIN: "weighs the prior, shows nothing",
    Feature.MARKING: "free text",
}


def naming(feature: Feature) -> list[str]:
    """Return the modules beside the table that name a feature."""
    return sorted(name for name, found in NAMED.items() if feature in found)


def _named(path: Path) -> set[Feature]:
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Attribute) and getattr(node.value, "id", "") == "Feature":
            found |= {Feature[node.attr]} if node.attr in Feature.__members__ else set()
        word = node.value if isinstance(node, ast.Constant) else ""
        word = word or (node.attr if isinstance(node, ast.Attribute) else "")
        if isinstance(word, str) and "_" in word and word in set(Feature):
            found.add(Feature(word))  # a field or a key of its own
    return found


NAMED = {
    path.relative_to(ROOT).as_posix(): _named(path) for path in ROOT.rglob("*.py") if path != TABLE
}


@pytest.mark.parametrize("feature", Feature)
def test_a_feature_is_named_in_few_modules(feature: Feature) -> None:
    where = naming(feature)
    if feature in NAMED_MORE:
        assert len(where) > MOST, "no exception any more: take it off the list"
    else:
        assert len(where) <= MOST, where


def test_every_feature_has_its_facts() -> None:
    assert tuple(FEATURES) == tuple(Feature)


def test_an_answer_of_gender_means_rows_of_one_gender() -> None:
    assert tuple(SEEN) == FEATURES[Feature.GENDER].choices
    assert {seen.gender for seen in SEEN.values()} <= set(SEEN)
    assert all(SEEN[seen.gender].gender == seen.gender for seen in SEEN.values())
    for word, seen in SEEN.items():
        assert agrees(word, word)
        assert agrees(seen.gender, word)
        assert is_vague(VAGUE, word) is (word not in ("male", "female", "flange", VAGUE))
        assert not any(agrees(other, word) for other in set(SEEN) - {word, seen.gender, VAGUE})
    assert gender_told(Feature.EYE_BORE) == "eye"
    assert gender_told(Feature.RING_ID) == "washer"
    assert gender_told(Feature.PLUG_OD) == gender_told(Feature.O_RING) == ""


@pytest.mark.parametrize("feature", Feature)
def test_other_words_lead_to_one_answer(feature: Feature) -> None:
    info = FEATURES[feature]
    words = [word for _, several in info.also for word in several.split()]
    assert {answer for answer, _ in info.also} <= set(info.choices)
    assert not set(words) & set(info.choices)
    assert set(Counter(words).values()) <= {1}


@pytest.mark.parametrize("feature", [each for each in Feature if FEATURES[each].shown])
def test_a_share_is_of_one_of_two_answers(feature: Feature) -> None:
    info = FEATURES[feature]
    assert len(info.choices) == 2
    assert set(info.shown_or_not) == set(info.choices)


@pytest.mark.parametrize("feature", SHARES)
def test_a_share_of_the_tables_is_told(feature: Feature) -> None:
    heading, sentence = FEATURES[feature].told
    assert heading
    assert sentence.format(share="70%").count("70%") == 1
    assert FEATURES[feature].shown


@pytest.mark.parametrize("feature", STATED)
def test_a_word_of_the_tables_is_a_field_of_a_row(feature: Feature) -> None:
    assert feature in {field.name for field in fields(EndConnection)}


@pytest.mark.parametrize("feature", SIZES)
def test_facts_of_a_size_agree_with_its_genders(feature: Feature) -> None:
    info = FEATURES[feature]
    own = [word for word in info.genders if word != SEEN[word].gender]
    assert set(info.genders) <= set(SEEN)
    assert (VAGUE in info.genders) is bool(own)  # of who cannot say what it is
    assert not info.plain or info.plain in own
    assert feature not in SPACINGS or info.genders == ("flange",)
