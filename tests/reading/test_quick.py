"""Readings in short: a token means one thing or is refused; every reading can be written."""

from contextlib import suppress
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from identify.entry import main
from identify.errors import ReadingError
from identify.model.feature import FEATURES, Kind, answers_named
from identify.model.reading import How
from identify.pages.short import forms_blocks
from identify.pages.words import IN_SHORT
from identify.reading.consistency import gathered
from identify.reading.parse import parse_reading
from identify.reading.quick import FORMS, read_line
from identify.reading.short import short_line
from identify.reading.tokens import LEAST_CUT
from tests.reading.test_parse import typed_readings
from tests.shipped import knowledge

THREADS = knowledge().catalogue.threads


def read(line: str, gender: str | None = None) -> list[str]:
    taken = read_line(line, THREADS, gender)
    return [f"{each.reading.feature}={each.reading.entered}" for each in taken]


@pytest.mark.parametrize(
    ("line", "readings"),
    [
        (
            "m 20.9 14t in 60i",
            [
                "gender=male",
                "thread_od=20.9 mm",
                "pitch=14 tpi",
                "seat_shape=concave",
                "seat_angle=60 deg included",
            ],
        ),
        ("f 18.6", ["gender=female", "thread_id=18.6 mm"]),
        ("20,9 m", ["thread_od=20,9 mm", "gender=male"]),
        ('m 13/16"', ["gender=male", "thread_od=13/16 in"]),
        ("m 0.823in out", ["gender=male", "thread_od=0.823 in", "seat_shape=convex"]),
        ("1.5p", ["pitch=1.5 mm"]),
        ("6g9.05", ["pitch=6 gaps over 9.05 mm"]),
        ("18..20t:eye", ["pitch=18..20 tpi by eye"]),
        ("37h 74d", ["seat_angle=37 deg half", "seat_angle=74 deg"]),
        ("flange bl52.4 bs26.2", [
            "gender=flange", "bolt_spacing_long=52.4 mm", "bolt_spacing_short=26.2 mm",
        ]),
        ("ta0.5/8 hx27:rule:else", [
            "taper=0.5 mm over 8 mm", "hex=27 mm by rule, by somebody else",
        ]),
        ("oface swi par lh", ["o_ring=face", "mount=swivel", "taper=parallel", "hand=left"]),
        ('mk"12 L" hex="27 mm"', ["marking=12 L", "hex=27 mm"]),
        ('tf"G 1/4 female: 3 turns then tight"', [
            "trial_fit=G 1/4 female: 3 turns then tight",
        ]),
        ("m, 20.9, 14t;", ["gender=male", "thread_od=20.9 mm", "pitch=14 tpi"]),
    ],
)  # fmt: skip
def test_a_line_in_short(line, readings):
    assert read(line) == readings


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("m 20.9 in", "can be read in two ways; write 20.9in for inches, or concave"),
        ("m od20.9 in", "can be read in two ways; write od20.9in for inches, or concave"),
        ("m 20.9 mm", "write it as 20.9mm"),
        ("m 20.9 14 t", "write it as 14t"),
        ("m 20.9 14", "say what it is: 14t threads per inch, 14p pitch in mm"),
        ("20.9", "male or female was not said; write m 20.9"),
        ("flange 20.9", "flange has no thread to measure"),
        ("none", "can be read in 3 ways; write genone or monone or senone"),
        ("con", "can be read in 2 ways; write seconvex or seconcave"),
        ("face", "needs letters before it; write oface"),
        ("m22x1.5", "is the name of a thread, not a measurement"),
        ("m 7/16-20", "is the name of a thread, not a measurement"),
        ("m 13/16", "has no unit; write 13/16 in"),
        ("m f", "gender is given twice"),
        ("m 900", "outside 3 to 180 mm"),
        ("hx27:x", "after the colon write"),
        ("hx27:c", "after the colon write :caliper, :counted, :combs"),
        ('m mk"12', "quotation mark that is not closed"),
        ("convx", "did you mean convex"),
        ("", "Nothing was typed"),
        ("m " + "14t " * 100, "longer than 400 characters"),
    ],
)
def test_what_is_not_plain_is_refused_with_the_remedy(line, sentence):
    with pytest.raises(ReadingError) as refused:
        read(line)
    assert sentence in str(refused.value)


def test_the_gender_may_be_known_before():
    assert read("20.9", "male") == ["thread_od=20.9 mm"]
    assert read("18.6", "female") == ["thread_id=18.6 mm"]


# ---- laws over the one table


def test_letters_are_of_one_feature_each():
    letters = [info.short for info in FEATURES.values()]
    assert all(each.isalpha() and each.islower() for each in letters)
    assert len(set(letters)) == len(FEATURES)


def test_every_answer_with_its_letters_means_that_answer_and_no_other():
    for feature, info in FEATURES.items():
        if info.kind in (Kind.CHOICE, Kind.TAPER):
            for word, answer in answers_named(feature).items():
                (taken,) = read_line(f"{info.short}{word}", THREADS)
                assert (taken.reading.feature, taken.reading.value.word) == (feature, answer)


def test_a_bare_word_means_one_answer_or_is_refused():
    words = {
        word: [each for each in FEATURES if word in answers_named(each)]
        for feature in FEATURES
        for word in answers_named(feature)
        if word[0].isalpha()
    }
    for word, features in words.items():
        open_to = [each for each in features if not FEATURES[each].spelt]
        if len(open_to) == 1:
            assert read_line(word, THREADS)[0].reading.feature is open_to[0], word
        else:
            with pytest.raises(ReadingError):
                read_line(word, THREADS)


def test_a_cut_word_is_the_beginning_of_one_answer_only():
    for word in ("convex", "swivel", "tapered", "stainless", "parallel", "washer", "female"):
        for length in range(LEAST_CUT, len(word)):
            try:
                (taken,) = read_line(word[:length], THREADS)
            except ReadingError:
                continue
            assert taken.reading.value.word == word


def test_the_letters_of_every_size_take_a_number():
    for feature, info in FEATURES.items():
        if info.kind is Kind.LENGTH:
            middle = round((info.low + info.high) / 2, 1)
            assert read(f"{info.short}{middle}") == [f"{feature}={middle} mm"]


def test_every_form_that_the_help_names_is_read():
    for form, _ in FORMS:
        for token in form.split(", "):
            if not token.startswith(":"):
                assert read(token, "male"), token
    assert read(IN_SHORT)
    told = " ".join(block.text for block in forms_blocks())
    assert all(f"{info.short} {info.label}" in told for info in FEATURES.values())


# ---- round trips


def same_but_words(one, other):
    return replace(one, entered="") == replace(other, entered="")


@settings(deadline=None, max_examples=300)
@given(st.lists(typed_readings(), min_size=1, max_size=8), st.booleans())
def test_every_reading_can_be_written_in_short_and_is_read_back_equal(texts, somebody_else):
    readings = []
    for text in texts:
        try:
            more = parse_reading(f"{text}, by somebody else" if somebody_else else text)
            readings = list(gathered((*readings, more)))
        except ReadingError:
            continue
    for each in readings:  # alone
        (taken,) = read_line(short_line([each]), THREADS)
        assert same_but_words(taken.reading, each)
    line = short_line(readings)
    if readings and len(line) <= 400:
        taken = read_line(line, THREADS)
        assert all(
            same_but_words(one.reading, other) for one, other in zip(taken, readings, strict=True)
        )


@pytest.mark.parametrize("how", list(How))
def test_every_way_of_measuring_can_be_written(how):
    text = {How.COUNTED: "pitch=14 tpi counted", How.COMBS: "pitch=14 tpi by comb page"}.get(
        how, f"seat_angle=37 deg half by {how}" if how is How.PROTRACTOR else f"hex=27 mm by {how}"
    )
    reading = parse_reading(text)
    (taken,) = read_line(short_line([reading]), THREADS)
    assert same_but_words(taken.reading, reading)


@settings(deadline=None, max_examples=300)
@given(st.text(alphabet="mf0123456789.,/\"'=: tphidgxo±-°in\n\té", max_size=40))
def test_anything_typed_is_read_or_refused(line):
    with suppress(ReadingError):
        taken = read_line(line, THREADS)
        assert all(each.reading.entered.isprintable() for each in taken)


def test_what_is_typed_in_short_is_what_is_typed_in_full():
    short = read_line("m 20.9 14t in 60i", THREADS)
    full = [parse_reading(text) for text in read("m 20.9 14t in 60i")]
    assert [each.reading for each in short] == full


# ---- the command


def test_rank_takes_both_and_tells_each_token(capsys):
    assert main(["rank", "m", "20.9", "14t"]) == 0
    told = capsys.readouterr().out
    assert told.startswith("m = Kind of end: ")
    assert "20.9 = Thread outside diameter: 20.9 mm" in told
    assert "14t = Thread pitch: 14 tpi" in told
    assert main(["rank", "gender=male", "thread_od=20.9 mm", "pitch=14 tpi"]) == 0
    assert told.endswith(capsys.readouterr().out)
    assert main(["rank", "thread_od=20.9 mm", "14t", "--json"]) == 0
    assert '"taken": [{"token": "14t", "reading": "pitch"' in capsys.readouterr().out


def test_rank_says_what_it_does_not_understand(capsys):
    assert main(["rank", "m", "20.9", "14"]) == 2
    assert "14t threads per inch" in capsys.readouterr().err


def test_no_two_letters_are_easily_taken_for_a_word_of_another():
    for one, other in combinations(FEATURES, 2):
        for word in answers_named(other):
            assert word != FEATURES[one].short
