"""Finding an end by the words a person would use."""

import pytest

from identify.errors import UnknownEndError
from identify.knowledge.loading import load_knowledge
from identify.reading.names import one_end


@pytest.fixture(scope="module")
def catalogue():
    return load_knowledge().catalogue


def test_every_end_answers_to_its_id_and_to_its_parts(catalogue):
    for end in catalogue.ends:
        assert one_end(catalogue, end.id) is end
        assert one_end(catalogue, end.id.replace(":", " ")) is end, end.id


@pytest.mark.parametrize(
    ("words", "id_"),
    [
        ("bspp60 G1 1/4 male", "bspp60:G1-1/4:male"),
        ("r_taper 1/2 male", "r_taper:R1/2:male"),
        ("r_taper:1/2:male", "r_taper:R1/2:male"),
        ("male flare37 -6", "flare37:-6:male"),
        ("flare37 6 male", "flare37:-6:male"),
        ("BSPP60 g1/2 MALE", "bspp60:G1/2:male"),
    ],
)
def test_words_in_any_order(catalogue, words, id_):
    assert one_end(catalogue, words).id == id_


def test_part_of_a_size_is_no_name_of_it(catalogue):
    with pytest.raises(UnknownEndError, match="names no end"):
        one_end(catalogue, "r_taper 1/3 male")


def test_several_answers_are_listed(catalogue):
    with pytest.raises(UnknownEndError, match="Add a word to say which"):
        one_end(catalogue, "cone24_L 12L female")
