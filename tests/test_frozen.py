"""Values of ours against the standard library's: the same in all that is done with them."""

import copy
import dataclasses
import enum
import json
import pickle
import sys
import typing
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from identify import frozen
from identify.model.feature import Feature

STANDARD = SimpleNamespace(
    dataclass=dataclasses.dataclass,
    field=dataclasses.field,
    replace=dataclasses.replace,
    NamedTuple=typing.NamedTuple,
    StrEnum=enum.StrEnum,
)
KINDS = pytest.mark.parametrize("kind", [frozen, STANDARD], ids=["ours", "standard"])
SLOTS = pytest.mark.parametrize("slots", [True, False], ids=["slots", "dict"])


def declared(kind: Any, *, slots: bool = True) -> Any:
    @kind.dataclass(frozen=True, slots=slots)
    class Size:
        """A size."""

        name: str
        mm: float = 1.0
        notes: dict[str, str] = kind.field(default_factory=dict, hash=False)
        marks: tuple[str, ...] = kind.field(default=("a",))

        def __post_init__(self) -> None:
            if self.mm < 0:
                raise ValueError("negative")

        @property
        def inch(self) -> float:
            return self.mm / 25.4

    return Size


TRIED: list[Callable[[Any], object]] = [
    lambda cls: cls("a"),
    lambda cls: cls("a", 2.0).inch,
    lambda cls: cls(name="a", mm=2.0, marks=()),
    lambda cls: cls("a") == cls("a", 1.0, {}, ("a",)),
    lambda cls: cls("a") != cls("b"),
    lambda cls: cls("a") == ("a", 1.0),
    lambda cls: hash(cls("a")) == hash(cls("a", notes={"x": "y"})),
    lambda cls: {cls("a"): 1}[cls("a")],
    lambda cls: cls("a").notes is cls("a").notes,
    lambda cls: copy.copy(cls("a", 3.0)),
    lambda cls: copy.deepcopy(cls("a", 3.0)),
    lambda cls: dataclasses.replace(cls("a"), mm=3.0),
    lambda cls: dataclasses.asdict(cls("a")),
    lambda cls: [(each.name, each.default) for each in dataclasses.fields(cls)][:2],
    lambda cls: dataclasses.is_dataclass(cls),
    lambda cls: (cls.__match_args__, cls.__doc__, cls.__module__, cls.__name__),
    lambda cls: {type(cls): "no"}.get(cls),
    lambda cls: hasattr(cls("a"), "__dict__"),
]


def outcome(tried: Callable[[Any], object], cls: Any) -> str:
    try:
        return repr(tried(cls))
    except Exception as error:
        return type(error).__name__


@SLOTS
@pytest.mark.parametrize("many", [False, True], ids=["few", "many"])
@pytest.mark.parametrize("tried", TRIED)
def test_both_kinds_do_the_same(tried: Callable[[Any], object], slots: bool, many: bool) -> None:
    ours, theirs = (declared(kind, slots=slots) for kind in (frozen, STANDARD))
    if many:  # from some number on a class has an `__init__` of its own
        assert len({ours(str(number)) for number in range(100)}) == 100
    assert outcome(tried, ours) == outcome(tried, theirs)


REFUSED: list[Callable[[Any], object]] = [
    lambda cls: cls(),
    lambda cls: cls("a", 1.0, {}, (), 5),
    lambda cls: cls("a", name="b"),
    lambda cls: cls("a", width=1),
    lambda cls: cls("a", -1.0),
]


@SLOTS
@KINDS
@pytest.mark.parametrize("refused", REFUSED)
def test_both_kinds_refuse_the_same(
    refused: Callable[[Any], object], kind: Any, slots: bool
) -> None:
    with pytest.raises((TypeError, ValueError)):
        refused(declared(kind, slots=slots))


@SLOTS
@KINDS
def test_no_field_changes(kind: Any, slots: bool) -> None:
    size = declared(kind, slots=slots)("a")
    with pytest.raises(AttributeError):
        size.mm = 2.0
    with pytest.raises(AttributeError):
        del size.mm
    assert size.mm == 1.0
    assert kind.replace(size, mm=2.0).mm == 2.0
    with pytest.raises(TypeError):
        kind.replace(size, width=2.0)
    with pytest.raises(ValueError, match="negative"):
        kind.replace(size, mm=-2.0)


def test_a_value_that_changes_is_not_ours() -> None:
    with pytest.raises(TypeError, match="frozen"):
        frozen.dataclass(frozen=False)  # type: ignore[call-overload]


@KINDS
def test_a_pattern_takes_the_fields_in_turn(kind: Any) -> None:
    size_class = declared(kind)
    match size_class("a", 2.0):
        case size_class(name, mm):
            assert (name, mm) == ("a", 2.0)
        case _:
            pytest.fail("does not match")


class Leaf(frozen.NamedTuple):
    mm: float


@KINDS
def test_a_tuple_has_names_defaults_and_methods(kind: Any) -> None:
    class Span(kind.NamedTuple):  # type: ignore[misc, name-defined]
        """A span."""

        low: float
        high: float = 2.0

        @property
        def width(self) -> float:
            return self.high - self.low

    span = Span(0.5)
    assert (span, span.width, span._fields) == ((0.5, 2.0), 1.5, ("low", "high"))
    assert repr(span).endswith("Span(low=0.5, high=2.0)")
    assert Span.__doc__ == "A span."
    assert span._replace(low=1.0) == (1.0, 2.0)
    assert repr(span._replace(low=1.0)).endswith("Span(low=1.0, high=2.0)")
    assert Span(high=1.0, low=0.0) == (0.0, 1.0)
    assert Span._make((3, 4)).width == 1
    assert span._asdict() == {"low": 0.5, "high": 2.0}
    assert pickle.loads(pickle.dumps(Leaf(1))) == copy.deepcopy(Leaf(1)) == Leaf(1)
    assert hash(span) == hash((0.5, 2.0))
    match span:
        case Span(low, high):
            assert (low, high) == span
    for wrong in (lambda: Span(), lambda: Span(1, 2, 3), lambda: Span(1, width=2)):
        with pytest.raises(TypeError):
            wrong()
    with pytest.raises(ValueError, match="width"):
        span._replace(width=1)
    with pytest.raises(AttributeError):
        span.low = 2


def test_a_value_goes_to_another_process() -> None:
    from identify.model.thread import Band

    assert pickle.loads(pickle.dumps(Band(1.0, 2.0))) == Band(1.0, 2.0)


def test_values_are_declared_in_one_way() -> None:
    """Where a class is not frozen the standard library's is taken, and nowhere else."""
    root = Path(sys.modules["identify"].__path__[0])
    for path in root.rglob("*.py"):
        text = path.read_text(encoding="utf-8")
        if path.name != "frozen.py" and "from dataclasses import dataclass" in text:
            assert "@dataclass(frozen=True" not in text, f"{path}: take identify.frozen"


def listed(kind: Any) -> Any:
    class Colour(kind.StrEnum):  # type: ignore[misc, name-defined]
        """A colour."""

        RED = "red"
        DEEP_BLUE = "deep blue"  # a sea

        @property
        def loud(self) -> str:
            return self.upper()

    return Colour


@pytest.mark.parametrize(
    "work",
    [
        lambda words: list(words),
        lambda words: [repr(each) for each in words],
        lambda words: [(each.name, each.value, str(each), f"{each:>9}") for each in words],
        lambda words: [type(str(each)) for each in words],
        lambda words: words.RED.loud,
        lambda words: words("deep blue") is words.DEEP_BLUE,
        lambda words: words(words.RED) is words.RED,
        lambda words: words["RED"],
        lambda words: list(words.__members__),
        lambda words: len(words),
        lambda words: words.RED in words,
        lambda words: (words.RED == "red", {words.RED: 1}["red"], hash(words.RED) == hash("red")),
        lambda words: sorted(words),
        lambda words: json.dumps({words.RED: [words.RED]}),
        lambda words: copy.copy(words.RED) is words.RED,
        lambda words: copy.deepcopy([words.RED])[0] is words.RED,
        lambda words: (isinstance(words.RED, words), isinstance("red", words)),
        lambda words: words.__doc__,
        lambda words: words("green"),
        lambda words: words([]),
        lambda words: words["GREEN"],
        lambda words: setattr(words, "RED", "x"),
        lambda words: setattr(words.RED, "name", "x"),
    ],
)
def test_words_of_a_closed_list_are_as_the_standard_library_has_them(
    work: Callable[[Any], object],
) -> None:
    ours, standard = (_result(work, listed(kind)) for kind in (frozen, STANDARD))
    assert ours == standard


def _result(work: Callable[[Any], object], words: Any) -> object:
    try:
        return work(words)
    except (ValueError, KeyError, AttributeError) as error:
        return type(error)


def test_a_word_is_the_same_after_a_journey() -> None:
    for each in Feature:
        assert pickle.loads(pickle.dumps(each)) is each
