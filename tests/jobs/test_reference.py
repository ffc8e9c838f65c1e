"""A reference is read out, typed and scanned; every slip of one character is noticed."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify.errors import ReadingError
from identify.jobs.reference import (
    ALPHABET,
    DRAWN,
    meant_as_reference,
    reference_of,
    reference_said,
    scanned,
)

numbers = st.integers(0, 2**64)


def test_the_alphabet_has_no_character_that_is_taken_for_another() -> None:
    assert not set("01ILO") & set(ALPHABET)
    assert len(set(ALPHABET)) == len(ALPHABET) == 31


@given(numbers)
def test_a_reference_comes_back_however_it_is_typed(number: int) -> None:
    reference = reference_of(number)
    for typed in (reference, reference.lower(), reference.replace("-", ""), " ".join(reference)):
        assert reference_said(typed) == reference


@given(numbers, st.integers(0, DRAWN), st.sampled_from(ALPHABET))
def test_one_wrong_character_is_noticed(number: int, at: int, wrong: str) -> None:
    plain = reference_of(number).replace("-", "")
    slip = plain[:at] + wrong + plain[at + 1 :]
    if slip != plain:
        with pytest.raises(ReadingError):
            reference_said(slip)


@given(numbers, st.integers(0, DRAWN), st.integers(0, DRAWN))
def test_two_characters_that_changed_places_are_noticed(number: int, one: int, two: int) -> None:
    characters = list(reference_of(number).replace("-", ""))
    characters[one], characters[two] = characters[two], characters[one]
    slip = "".join(characters)
    if slip != reference_of(number).replace("-", ""):
        with pytest.raises(ReadingError):
            reference_said(slip)


def test_different_numbers_have_different_references() -> None:
    assert len({reference_of(number) for number in range(20_000)}) == 20_000
    assert reference_of(31**DRAWN) == reference_of(0)


@pytest.mark.parametrize(
    "text", ["", "K7M", "K7M-3P40", "K0M-3P4", "Ж7M-3P4", "\x1b[2J", "K7M-3PI"]
)
def test_what_is_no_reference_is_said_to_be_none(text: str) -> None:
    with pytest.raises(ReadingError, match="is no reference"):
        reference_said(text)


def test_a_scanned_code_is_its_reference() -> None:
    for number in (0, 99, 1234567):
        assert reference_said(scanned(reference_of(number))) == reference_of(number)


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("K7M-3P4", True), ("k7m-3p4", True), ("K7M3P4", True), ("JOB K7M-3P4", True),
        ("job k7m3p4", True), ("JOB K7M-3P5", True), ("JOBK7M3P4", True), ("k7m3p4", False),
        ("farmer", False), ("FARMER", False), ("20.9 mm", False), ("1/2-14", False), ("", False),
        ("JOB", False), ("job 12", False), ("M22X1.5", False), ("half inch", False),
    ],
)  # fmt: skip
def test_what_is_meant_as_a_reference(text: str, meant: bool) -> None:
    assert meant_as_reference(text) is meant
