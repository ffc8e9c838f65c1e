"""What a person types -> length, pitch, angle, taper: forms, traps, properties, messages."""

import contextlib
import subprocess
import sys
import time
import timeit
from decimal import Decimal
from fractions import Fraction

import pint
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from identify.errors import SHOWN_CHARS, ReadingError, quoted
from identify.model.reading import Angle, Basis, Choice, Length, Pitch, Slope
from identify.pages.words import angle_words, length_words
from identify.reading.angles import parse_angle, parse_taper
from identify.reading.numbers import MAX_CHARS, parse_number
from identify.reading.units import UNIT_MM, parse_length, parse_pitch

PARSERS = (parse_length, parse_pitch, parse_angle, parse_taper)


# --- what pint 0.25 makes of it, and what it is (each line was seen to go wrong in pint) ---------


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("1 1/16 in", "26.9875"),  # pint: 0.0625 in
        ("1-1/16 in", "26.9875"),  # pint: an error of dimension
        ("20,4 mm", "20.4"),  # pint: 204 mm
        ("20 mil", "0.508"),  # pint: an angle
        ('0.805"', "20.447"),  # pint: a number without a unit
    ],
)
def test_forms_that_a_general_unit_parser_misreads(text: str, mm: str) -> None:
    assert parse_length(text) == Length(float(mm))


def test_threads_per_inch_which_pint_does_not_know() -> None:
    assert parse_pitch("12 tpi") == Pitch(float(Fraction("25.4") / 12), inch=True)


def test_degree_sign() -> None:
    assert parse_angle("37°") == Angle(37.0)


# --- constants -----------------------------------------------------------------------------------

PINT = pint.UnitRegistry(non_int_type=Fraction)
_PINT_NAME = {
    "um": "micrometer",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "in": "inch",
    '"': "inch",
    "ft": "foot",
    "mil": "thou",  # the length, not pint's angular mil
    "mils": "thou",
    "microns": "micron",
}


@pytest.mark.parametrize("name", UNIT_MM)
def test_our_exact_constants_are_pints(name: str) -> None:
    theirs = PINT(_PINT_NAME.get(name, name)).to("millimeter").magnitude
    assert Fraction(theirs) == UNIT_MM[name]


def test_a_unit_only_pint_knows() -> None:
    assert parse_length("0.02 yd") == Length(18.288)  # the yard is 0.9144 m exactly
    assert parse_length("0.02 yards") == Length(18.288)


def test_pint_is_imported_only_for_such_a_unit() -> None:
    script = (
        "import sys, identify.reading.parse as r\n"
        "r.parse_readings(['thread_od=20.9 mm', 'pitch=14 tpi', 'hex=1 1/16 in'])\n"
        "print([m for m in ('pint', 'textual', 'yaml', 'sqlite3', 'difflib') if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"


# --- lengths -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("20.9 mm", "20.9"),
        ("20.9mm", "20.9"),
        ("  20.9  MM ", "20.9"),
        (".805 in", "20.447"),
        ("0,805 in", "20.447"),
        ("13/16 in", "20.6375"),
        ("13/16 in.", "20.6375"),
        ("13/16″", "20.6375"),
        ("13⁄16”", "20.6375"),
        ("13/16 inches", "20.6375"),
        ('1-1/16"', "26.9875"),
        ("½ in", "12.7"),
        ("1½ in", "38.1"),
        ("1 ½ in", "38.1"),
        ('1-½"', "38.1"),
        ("⅞ in", "22.225"),
        ("1/2''", "12.7"),
        ("1' 2 1/2\"", "368.3"),
        ("1'-2½″", "368.3"),
        ("1 ft 2 1/2 in", "368.3"),
        ("805 thou", "20.447"),
        ("20900 µm", "20.9"),
        ("2,09 cm", "20.9"),
        ("0.0209 m", "20.9"),
        ("1234,567 mm", "1234.567"),
    ],
)
def test_lengths(text: str, mm: str) -> None:
    assert parse_length(text) == Length(float(mm))


@pytest.mark.parametrize(
    "text",
    [
        "20.8..21.0 mm",
        "20.8 .. 21 mm",
        "20.8…21.0 mm",
        "20.8-21.0 mm",
        "20.8 – 21.0 mm",
        "20.8 mm - 21.0 mm",
        "20.8 to 21.0 mm",
        "from 20.8 to 21.0 mm",
        "between 20.8 and 21.0 mm",
        "21.0..20.8 mm",
        "20,8..21,0 mm",
        "2.08 cm..21 mm",
        "20.9 ± 0.1 mm",
        "20.9±0.1mm",
        "20.9 mm ± 0.1",
        "20.9 mm +/- 0.1 mm",
        "20.9 +- 0.1 mm",
    ],
)
def test_spans_of_length(text: str) -> None:
    assert parse_length(text) == Length(20.9, 0.1)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("3/4-7/8 in", "3/4", "7/8"),
        ("2-2 1/16 in", "2", "33/16"),
        ("15/16-1-1/16 in", "15/16", "17/16"),
        ("1-1/16-1-1/8 in", "17/16", "9/8"),
    ],
)
def test_a_hyphen_between_fractions_parts_them_in_the_only_possible_way(
    text: str, low: str, high: str
) -> None:
    length = parse_length(text)
    assert length.mm - length.spread_mm == pytest.approx(float(Fraction(low)) * 25.4)
    assert length.mm + length.spread_mm == pytest.approx(float(Fraction(high)) * 25.4)


def _decimal(value: Fraction) -> str:
    return f"{(Decimal(value.numerator) / Decimal(value.denominator)).normalize():f}"


def _mixed(value: Fraction, joint: str) -> str:
    whole, part = divmod(value, 1)
    fraction = f"{part.numerator}/{part.denominator}"
    return f"{whole}{joint}{fraction}" if whole and part else fraction if part else f"{whole}"


VULGAR = {Fraction(1, 2): "½", Fraction(1, 4): "¼", Fraction(3, 4): "¾", Fraction(3, 8): "⅜"}
SIXTYFOURTHS = st.integers(1, 64 * 20).map(lambda n: Fraction(n, 64))


@st.composite
def typed_forms(draw: st.DrawFn) -> tuple[Fraction, str]:
    """Return a length in inches and one way of typing it exactly."""
    inches = draw(SIXTYFOURTHS)
    mm = inches * Fraction("25.4")
    inch_mark = draw(st.sampled_from([" in", "in", '"', "″", " inch", " INCHES", " in."]))
    forms = [
        _decimal(inches) + inch_mark,
        _mixed(inches, " ") + inch_mark,
        _mixed(inches, "-") + inch_mark,
        f"{_decimal(inches * 1000)} thou",
        f"{_decimal(inches * 1000)} mil",
        f"{_decimal(mm)} mm",
        f"{_decimal(mm)}mm",
        f"{_decimal(mm / 10)} cm",
        f"{_decimal(mm / 1000)} m",
        f"{_decimal(mm * 1000)} µm",
        f"{inches // 12}' {_mixed(inches % 12, ' ') if inches % 12 else '0'}\"",
    ]
    if inches % 1 in VULGAR:
        forms.append(f"{inches // 1 or ''}{VULGAR[inches % 1]}{inch_mark}")
    text = draw(st.sampled_from(forms))
    if "." in text.rstrip(".") and draw(st.booleans()):
        comma = text.rstrip(".").replace(".", ",")
        tail = comma.partition(",")[2]
        digits = len(tail) - len(tail.lstrip("0123456789"))
        assume(digits != 3 or text.startswith("0"))  # "1,234" is refused, tested apart
        text = comma
    return inches, text


@settings(deadline=None)
@given(typed_forms())
def test_every_typed_form_of_a_length_gives_the_same_millimetres(
    case: tuple[Fraction, str],
) -> None:
    inches, text = case
    assert parse_length(text) == Length(float(inches * Fraction("25.4")))


@given(
    SIXTYFOURTHS.flatmap(lambda one: st.tuples(st.just(one), st.integers(0, int(one * 64 / 6)))),
    st.sampled_from(["{}..{} in", "{}...{} in", "{} to {} in", "between {} and {} in"]),
)
def test_a_span_is_its_two_ends(ends: tuple[Fraction, int], form: str) -> None:
    one, two = ends[0], ends[0] + Fraction(ends[1], 64)
    span = parse_length(form.format(_mixed(one, " "), _mixed(two, "-")))
    low, high = sorted((float(one) * 25.4, float(two) * 25.4))
    assert span.mm == pytest.approx((low + high) / 2)
    assert span.spread_mm == pytest.approx((high - low) / 2, abs=1e-9)


@given(st.integers(1, 999), st.integers(0, 999))
def test_one_comma_before_three_digits_is_always_asked_about(whole: int, tail: int) -> None:
    with pytest.raises(ReadingError, match="two ways"):
        parse_length(f"{whole},{tail:03} mm")


# --- pitches -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "printed_mm"),
    [  # pitches as JIS B 0202 / ISO 228-1 print them to four places, seen in open tables
        ("28 tpi", 0.9071),
        ("19 threads per inch", 1.3368),
        ("14 TPI", 1.8143),
        ("14 threads/inch", 1.8143),
        ("14 t.p.i.", 1.8143),
        ("14 per inch", 1.8143),
        ("14 threads to the inch", 1.8143),
        ("11 tpi", 2.3091),
    ],
)
def test_threads_per_inch(text: str, printed_mm: float) -> None:
    pitch = parse_pitch(text)
    assert pitch.mm == pytest.approx(printed_mm, abs=5e-5)
    assert pitch.inch
    assert pitch.pitches == 0


def test_half_threads_per_inch() -> None:
    assert parse_pitch("11 1/2 tpi") == parse_pitch("11.5 tpi") == parse_pitch("11½ tpi")
    assert parse_pitch("11.5 tpi").mm == pytest.approx(25.4 / 11.5)


@pytest.mark.parametrize("text", ["1.5 mm", "1,5 mm", "0.15 cm"])
def test_metric_pitch(text: str) -> None:
    assert parse_pitch(text) == Pitch(1.5)


@pytest.mark.parametrize(
    "text",
    [
        "18..20 tpi",
        "18-20 tpi",
        "18 to 20 tpi",
        "between 18 and 20 tpi",
        "20..18 tpi",
        "19 ± 1 tpi",
    ],
)
def test_span_of_tpi_keeps_both_ends(text: str) -> None:
    pitch = parse_pitch(text)
    assert pitch.mm - pitch.spread_mm == pytest.approx(1.27)  # 20 tpi
    assert pitch.mm + pitch.spread_mm == pytest.approx(25.4 / 18)
    assert pitch.inch


def test_two_leaves_that_both_seem_to_fit() -> None:
    pitch = parse_pitch("1.5 mm to 16 tpi")
    assert (pitch.mm, pitch.spread_mm) == pytest.approx((1.54375, 0.04375))
    assert not pitch.inch


@pytest.mark.parametrize(
    "text",
    [
        "10 pitches = 13.4 mm",
        "10 pitches=13,4mm",
        "10 pitches in 13.4 mm",
        "10 pitches over 1.34 cm",
        "10 threads in 13.4 mm",
        "13.4 mm over 10 pitches",
        "13.4 mm for 10 threads",
    ],
)
def test_counted_pitches(text: str) -> None:
    assert parse_pitch(text) == Pitch(1.34, pitches=10)


def test_counted_over_a_span() -> None:
    pitch = parse_pitch("10 pitches = 13.3..13.5 mm")
    assert (pitch.mm, pitch.spread_mm, pitch.pitches) == pytest.approx((1.34, 0.01, 10))


# --- angles and tapers ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "angle"),
    [
        ("37 deg half", Angle(37, Basis.HALF)),
        ("37 half", Angle(37, Basis.HALF)),
        ("37° half angle", Angle(37, Basis.HALF)),
        ("30° per side", Angle(30, Basis.HALF)),
        ("12 deg from the axis", Angle(12, Basis.HALF)),
        ("74° included", Angle(74, Basis.INCLUDED)),
        ("74 degrees, included angle", Angle(74, Basis.INCLUDED)),
        ("74 deg incl.", Angle(74, Basis.INCLUDED)),
        ("74 full", Angle(74, Basis.INCLUDED)),
        ("74º total", Angle(74, Basis.INCLUDED)),
        ("74 deg", Angle(74)),
        ("74", Angle(74)),
        ("37,5 deg", Angle(37.5)),
        ("37° 30' half", Angle(37.5, Basis.HALF)),
        ("180 included", Angle(180, Basis.INCLUDED)),
    ],
)
def test_angles(text: str, angle: Angle) -> None:
    assert parse_angle(text) == angle


@pytest.mark.parametrize(
    ("text", "taper"),
    [
        ("parallel", Choice("parallel")),
        ("Straight", Choice("parallel")),
        ("tapered", Choice("tapered")),
        ("0.5 mm over 8 mm", Slope(0.5, 8)),
        ("0.5 mm per 0.8 cm", Slope(0.5, 8)),
        ("0.02 in over 0.3 in", Slope(0.508, 7.62)),
        ("20.45 and 20.95 mm, 8 mm apart", Slope(0.5, 8)),
        ("20,95 and 20,45 mm, 8 mm apart", Slope(0.5, 8)),
        ("0 mm over 8 mm", Slope(0, 8)),
    ],
)
def test_tapers(text: str, taper: Choice | Slope) -> None:
    assert parse_taper(text) == taper


# --- back to words -------------------------------------------------------------------------------


def test_words() -> None:
    assert length_words(20.9, 1) == "20.9 mm (0.823 in)"
    assert length_words(20.955) == "20.95 mm (0.8250 in)"
    assert angle_words(Angle(37, Basis.HALF)) == "37 deg half (74 included)"
    assert angle_words(Angle(74, Basis.INCLUDED)) == "74 deg included (37 half)"
    assert angle_words(Angle(60)) == "60 deg"


@given(st.floats(0.5, 300), st.integers(1, 4))
def test_words_of_a_length_read_back_to_the_last_place_shown(mm: float, decimals: int) -> None:
    in_mm, _, in_inch = length_words(mm, decimals).rstrip(")").partition(" (")
    assert abs(parse_length(in_mm).mm - mm) <= 0.5001 * 10**-decimals
    assert abs(parse_length(in_inch).mm - mm) <= 0.5001 * 25.4 * 10 ** -(decimals + 2)


@given(st.integers(1, 9000).map(lambda n: n / 100), st.sampled_from([None, *Basis]))
def test_words_of_an_angle_read_back(deg: float, basis: Basis | None) -> None:
    angle = Angle(deg, basis)
    assert parse_angle(angle_words(angle).partition(" (")[0]) == angle


# --- what is refused -----------------------------------------------------------------------------

LENGTH_FORMS = "write it as 20.9 mm, 20,9 mm, 0.823 in, 13/16 in or 20.8..21.0 mm."
PITCH_FORMS = "write it as 1.5 mm, 14 tpi, 18..20 tpi or 10 pitches = 13.4 mm."
ANGLE_FORMS = (
    "write it as 37 deg half, 74 deg included, or 74 deg; or two diameters of the cone and how far "
    "apart they are: 10.2 and 14.7 mm, 3 mm apart."
)
TAPER_FORMS = (
    "write parallel, tapered, 0.5 mm over 8 mm, or two crest diameters and how far apart they are: "
    "20.45 and 20.95 mm, 8 mm apart."
)
UNCLEAR = "its numbers can be read in more than one way"

LENGTH_REFUSALS = {
    "20.9": '"20.9" has no unit; write 20.9 mm (0.823 in) or 20.9 in (530.9 mm), '
    "whichever was read.",
    "13/16": '"13/16" has no unit; write 13/16 in (20.6 mm).',
    "20..21": '"20..21" has no unit; write mm or in after the number.',
    "1,234 mm": '"1,234" can be read in two ways: write 1.234 or 1234, whichever is meant.',
    "1,234.5 mm": f'"1,234.5 mm" is not a length; {LENGTH_FORMS}',
    "20,4.5 mm": f'"20,4.5 mm" is not a length; {LENGTH_FORMS}',
    "1.1/16 in": '"1.1/16 in" is not a length: it mixes a decimal point with a fraction; '
    f"{LENGTH_FORMS}",
    "1 - 1/16 in": f'"1 - 1/16 in" is not a length: {UNCLEAR}; {LENGTH_FORMS}',
    "1 234 mm": f'"1 234 mm" is not a length: {UNCLEAR}; {LENGTH_FORMS}',
    "21-20 mm": f'"21-20 mm" is not a length: {UNCLEAR}; {LENGTH_FORMS}',
    "1 17/16 in": '"1 17/16" is not a fraction; write it as 13/16 or 1 1/16, the part after the '
    "whole number below 1.",
    "3/0 in": '"3/0" is not a fraction; write it as 13/16 or 1 1/16, the part after the whole '
    "number below 1.",
    "about 20 mm": '"about 20 mm" is not a length: nobody can tell how near that is; write the '
    "span you are sure of, 20.5..21.0 mm.",
    "1/2 BSP": '"1/2 BSP" is a trade size, not a measured length; write what the caliper or rule '
    "reads, such as 20.9 mm or 0.823 in.",
    "M14": f'"M14" is not a length; {LENGTH_FORMS}',
    "20 foo": f'"20 foo" is not a length: "foo" is no unit of length; {LENGTH_FORMS}',
    "20 kg": f'"20 kg" is not a length: "kg" is no unit of length; {LENGTH_FORMS}',
    "20.9 mm (0.8 in)": f'"20.9 mm (0.8 in)" is not a length; {LENGTH_FORMS}',
    "0 mm": '"0 mm" reaches 0 mm or less; a size is above 0.',
    "1 ± 2 mm": '"1 ± 2 mm" reaches 0 mm or less; a size is above 0.',
    "-3 mm": f'"-3 mm" is not a length; {LENGTH_FORMS}',
    "20.9 mm ± 0.1 in": f'"20.9 mm ± 0.1 in" is not a length; {LENGTH_FORMS}',
    "５ mm": f'"５ mm" is not a length; {LENGTH_FORMS}',
    "": '"" is empty; write a value, such as 20.9 mm.',
    "2\x000 mm": '"2\\x000 mm" holds a character that cannot be printed; type it again without it.',
    "20\udc80 mm": '"20\\udc80 mm" holds a character that cannot be printed; type it again '
    "without it.",
    "2\n0 mm": '"2\\n0 mm" holds a character that cannot be printed; type it again without it.',
    "\x1b[31m": '"\\x1b[31m" holds a character that cannot be printed; type it again without it.',
    "9" * 201: f'"{"9" * 60}…" is 201 characters long; a reading has at most 200.',
}
PITCH_REFUSALS = {
    "14": '"14" has no unit; write 14 tpi.',
    "1.5": '"1.5" has no unit; write 1.5 mm.',
    "5": '"5" has no unit; write mm or tpi after it.',
    "fine": f'"fine" is not a pitch; {PITCH_FORMS}',
    "0 tpi": f'"0 tpi" is not a pitch: it must be above 0; {PITCH_FORMS}',
    "about 14 tpi": '"about 14 tpi" is not a pitch: nobody can tell how near that is; write the '
    "span you are sure of, 18..20 tpi.",
    "0 threads in 3 mm": '"0" is not a number above 0; write it as 3, 2.5 or 2 1/2.',
    "11 crests over 13.4 mm": '"11 crests over 13.4 mm" counts crests, and from the first crest '
    "to the eleventh are ten pitches; write 10 pitches = 13.4 mm.",
    "10 pitches = 13.4": '"13.4" has no unit; write 13.4 mm (0.528 in) or 13.4 in (340.4 mm), '
    "whichever was read.",
}
ANGLE_REFUSALS = {
    "steep": f'"steep" is not a seat angle; {ANGLE_FORMS}',
    "36..38 deg": f'"36..38 deg" is not a seat angle; {ANGLE_FORMS}',
    "1.2 rad": f'"1.2 rad" is not a seat angle; {ANGLE_FORMS}',
    "100 deg half": '"100 deg half" is not a seat angle: it must be above 0 and at most 90 deg '
    f"from the axis; {ANGLE_FORMS}",
    "181 deg": f'"181 deg" is not a seat angle: it must be above 0 and at most 180 deg; '
    f"{ANGLE_FORMS}",
    "0": f'"0" is not a seat angle: it must be above 0 and at most 180 deg; {ANGLE_FORMS}',
}
TAPER_REFUSALS = {
    "conical": f'"conical" is not a taper; {TAPER_FORMS}',
    "1:16": f'"1:16" is what a standard prints, not what a caliper reads; {TAPER_FORMS}',
    "1 in 16": f'"1 in 16" is what a standard prints, not what a caliper reads; {TAPER_FORMS}',
    "8 mm over 0.5 mm": '"8 mm over 0.5 mm" is steeper than 1 in 4, which is taken as a slip: the '
    "growth in diameter comes first, then the distance along the thread, such as 0.5 mm over 8 mm.",
    "1 mm over 0 mm": '"1 mm over 0 mm" is steeper than 1 in 4, which is taken as a slip: the '
    "growth in diameter comes first, then the distance along the thread, such as 0.5 mm over 8 mm.",
    "a and b, c apart": f'"a and b, c apart" is not a taper; {TAPER_FORMS}',
    "0.5 over 8 mm": '"0.5 over 8 mm" has no unit; write mm or in after the number.',
}


@pytest.mark.parametrize(
    ("parse", "text", "message"),
    [
        (parse, text, message)
        for parse, refusals in zip(
            PARSERS, (LENGTH_REFUSALS, PITCH_REFUSALS, ANGLE_REFUSALS, TAPER_REFUSALS), strict=True
        )
        for text, message in refusals.items()
    ],
)
def test_messages(parse, text: str, message: str) -> None:
    with pytest.raises(ReadingError) as caught:
        parse(text)
    assert str(caught.value) == message


@given(st.text())
def test_quoted_text_is_short_and_printable(text: str) -> None:
    shown = quoted(text)
    assert shown.isprintable()
    assert shown.startswith('"')
    assert shown.endswith('"')
    assert quoted(text + "x" * (SHOWN_CHARS + 1)).endswith('…"')


def test_plain_numbers() -> None:
    assert parse_number("2 1/2") == parse_number("2,5") == parse_number("2½") == Fraction(5, 2)
    for bad in ("0", "x", "-1", "1 2"):
        with pytest.raises(ReadingError, match="is not a number above 0"):
            parse_number(bad)


WORDS = (
    ".. | to | and |between | over | apart|mm|in|tpi|ft|thou|pitches|threads per inch|deg|half|"
    "included|\x00"
)
PIECES = st.sampled_from([*"0123456789 .,/-'\"°±½⅞:=", *WORDS.split("|")])
GARBAGE = st.one_of(st.text(max_size=220), st.lists(PIECES, max_size=30).map("".join))


@pytest.mark.parametrize("parse", PARSERS)
@settings(deadline=None, max_examples=300)
@given(text=GARBAGE)
def test_garbage_is_refused_in_one_printable_sentence_or_read(parse, text: str) -> None:
    try:
        value = parse(text)
    except ReadingError as error:
        message = str(error)
        assert message.isprintable()
        assert message[-1] in ".?"
        assert len(message) < 500
    else:
        assert isinstance(value, Length | Pitch | Angle | Choice | Slope)


@settings(deadline=None)
@given(st.text(alphabet="abcdefghijklmnopqrstuvwxyz", min_size=1, max_size=22))
def test_any_unit_word_is_a_length_or_refused(word: str) -> None:
    try:
        length = parse_length(f"2 {word}")
    except ReadingError as error:
        message = str(error)
        assert word[:10] in message
    else:
        assert length.mm > 0


def _seconds(parse, text: str) -> float:
    def attempt() -> None:
        with contextlib.suppress(ReadingError):
            parse(text)

    return min(timeit.repeat(attempt, timer=time.process_time, number=20, repeat=7))


@pytest.mark.parametrize("parse", PARSERS)
@pytest.mark.parametrize("piece", ["9", " ", "1-", "1/", "1 to ", "..", "½", "1'", "pitches"])
def test_time_is_bounded_whatever_is_typed(parse, piece: str) -> None:
    """Relative to reading one span, so that a slow machine does not matter."""
    usual = _seconds(parse_length, "between 20.8 and 21.0 mm")
    longest = (piece * MAX_CHARS)[:MAX_CHARS]
    assert _seconds(parse, longest) < 60 * usual  # measured: below 15
    assert _seconds(parse, piece * 1_000_000) < 10 * usual  # measured: below 1
