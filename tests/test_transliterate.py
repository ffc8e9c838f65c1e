"""Outputs that cannot show every character get the nearest plain ones."""

import io

import pytest

from identify.transliterate import ERRORS, STAND_INS, plain, prepare, speaks_utf8, tolerate
from tests.plain.talk import engine


def written(text, encoding, environ=None):
    raw = io.BytesIO()
    stream = io.TextIOWrapper(raw, encoding=encoding)
    if environ is None:
        tolerate(stream)
    else:
        prepare(stream, environ)
    stream.write(text)
    stream.flush()
    return raw.getvalue()


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("· 24° Ø12 × 3…", b"- 24 deg dia 12 x 3..."),
        ("½ in", b"1/2 in"),
        ("1⁄2", b"1/2"),
        ("café", b"cafe"),
        ("直径", b"??"),
        ("plain", b"plain"),
        ("\ud800", b"?"),
    ],
)
def test_ascii_gets_the_nearest(text, shown):
    assert written(text, "ascii") == shown


def test_an_encoding_keeps_what_it_has():
    assert written("· 24° …", "latin-1") == "· 24° ...".encode("latin-1")
    assert written("· 24° …", "utf-8") == "· 24° …".encode()


@pytest.mark.parametrize(
    ("encoding", "environ", "utf8"),
    [
        ("utf-8", {}, True),
        ("UTF8", {"LC_ALL": "en_GB.UTF-8"}, True),
        ("utf-8", {"LC_ALL": "C"}, False),
        ("utf-8", {"LC_ALL": "POSIX"}, False),
        ("utf-8", {"LC_ALL": "C", "PYTHONIOENCODING": "utf-8"}, True),
        ("ascii", {}, False),
        ("latin-1", {}, False),
        (None, {}, False),
    ],
)
def test_what_shows_all_that_we_write(encoding, environ, utf8):
    assert speaks_utf8(encoding, environ) is utf8


def test_a_locale_of_ascii_is_believed():
    assert written("24°", "utf-8", {"LC_ALL": "C"}) == b"24 deg"
    assert written("24°", "utf-8", {}) == "24°".encode()


def test_a_stream_in_memory_is_left_alone():
    stream = io.StringIO()
    prepare(stream, {"LC_ALL": "C"})
    stream.write("24°")
    assert stream.getvalue() == "24°"


def test_decoding_is_not_its_business():
    with pytest.raises(UnicodeDecodeError):
        b"\xff".decode("ascii", ERRORS)


def test_every_character_of_the_rules_and_tables_has_a_stand_in():
    known = engine()
    texts = [repr(known.book), *(repr(end) for end in known.catalogue.ends)]
    strange = {character for text in texts for character in text if not character.isascii()}
    assert {character for character in strange if "?" in plain(character)} == set()
    assert all(stand_in.isascii() for stand_in in STAND_INS.values())
