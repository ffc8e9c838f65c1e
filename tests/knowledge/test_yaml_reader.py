"""YAML 1.1 guesses at text of our kind; ours must not. Each trap says what YAML 1.1 reads."""

import pytest
import yaml

from identify.errors import TableError
from identify.knowledge.yaml_reader import read_yaml

TRAPS = [
    ("1:16", "1:16", 76),  # base 60
    ("-04", "-04", -4),  # octal
    ("-08", "-08", "-08"),
    ("010", "010", 8),
    ("0x1F", "0x1F", 31),
    ("0o17", "0o17", "0o17"),
    ("1_000", "1_000", 1000),
    ("NO", "NO", False),
    ("on", "on", True),
    ("Yes", "Yes", True),
    ("TRUE", "TRUE", True),
    (".5", ".5", 0.5),
    (".inf", ".inf", float("inf")),
    ("1.5e+3", "1.5e+3", 1500.0),
    ("1e-3", "1e-3", "1e-3"),
    ("+4", "+4", 4),
]
PLAIN = [
    ("-4", -4),
    ("0", 0),
    ("19", 19),
    ("20.955", 20.955),
    ("-0.25", -0.25),
    ("true", True),
    ("false", False),
    ("null", None),
    ("~", None),
    ("", None),
    ("M14x1.5", "M14x1.5"),
    ('"-4"', "-4"),
    ("1/4-18 NPT", "1/4-18 NPT"),
]


@pytest.mark.parametrize(("text", "ours", "theirs"), TRAPS, ids=[trap[0] for trap in TRAPS])
def test_text_that_yaml_1_1_guesses_at_stays_text(text: str, ours: str, theirs: object) -> None:
    assert read_yaml(f"x: {text}", "t.yaml")["x"] == ours
    assert yaml.safe_load(f"x: {text}")["x"] == theirs


def test_date_stays_text() -> None:
    assert read_yaml("x: 2024-01-05", "t.yaml")["x"] == "2024-01-05"


@pytest.mark.parametrize(("text", "value"), PLAIN)
def test_plain_decimals_flags_and_null_are_read(text: str, value: object) -> None:
    got = read_yaml(f"x: {text}", "t.yaml")["x"]
    assert got == value
    assert type(got) is type(value)


def test_key_that_yaml_1_1_makes_a_flag_stays_text() -> None:
    assert list(read_yaml("NO: 1\non: 2\n", "t.yaml")) == ["NO", "on"]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("a: 1\nb: 2\na: 3\n", 't.yaml:3: key "a" stands twice, first on line 1.'),
        ("a:\n  b: 1\n  b: 2\n", 't.yaml:3: key "b" stands twice, first on line 2.'),
        ("a: {b: 1, b: 2}\n", 't.yaml:1: key "b" stands twice, first on line 1.'),
        ("5: a\n", "t.yaml:1: key 5 is not text."),
        ("- a\n", 't.yaml:1: a table file is a mapping; begin with "schema: …".'),
        ("", 't.yaml:1: a table file is a mapping; begin with "schema: …".'),
        ("a:\n\t- b\n", "t.yaml:2: found character that cannot start any token."),
    ],
)
def test_what_is_no_table_is_refused_with_its_line(text: str, message: str) -> None:
    with pytest.raises(TableError) as error:
        read_yaml(text, "t.yaml")
    assert str(error.value) == message


def test_object_tags_are_refused() -> None:
    with pytest.raises(TableError, match=r"t\.yaml:1: could not determine a constructor"):
        read_yaml("a: !!python/object/apply:os.getcwd []\n", "t.yaml")


def test_lines_are_kept_for_keys_and_entries() -> None:
    top = read_yaml("a: 1\nb:\n  - x\n  - y: 1\n    z: 2\n", "t.yaml")
    assert top.lines == {"a": 1, "b": 2}
    assert top["b"].lines == [3, 4]
    assert top["b"][1].lines == {"y": 4, "z": 5}
