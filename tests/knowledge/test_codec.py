"""The codec brings back what it was given, once for each distinct value, and trusts no name."""

import pytest

from identify.frozen import StrEnum, dataclass, replace
from identify.knowledge.build import build_catalogue
from identify.knowledge.codec import Codec
from identify.knowledge.table_files import data_dir
from identify.model.catalogue import Catalogue
from identify.model.feature import Feature
from identify.model.reading import Angle, Basis, Choice, How, Length, Reading, Slope
from identify.model.rulebook import RuleBook
from identify.model.thread import Band
from identify.packing import pack, unpack
from tests.shipped import knowledge


class Colour(StrEnum):
    RED = "red"


@dataclass(frozen=True, slots=True)
class Leaf:
    name: str
    weight: float | None = None


@dataclass(frozen=True, slots=True)
class Tree:
    leaves: tuple[Leaf, ...] = ()
    pair: tuple[Leaf, int] | None = None
    by_name: dict[str, Leaf] | None = None
    by_colour: dict[Colour, tuple[float, ...]] | None = None
    either: Leaf | Colour | int | None = None
    words: frozenset[str] = frozenset()
    branches: tuple["Tree", ...] = ()


TREES = [
    Tree(),
    Tree(leaves=(Leaf("a"), Leaf("a"), Leaf("b", 1.5))),
    Tree(pair=(Leaf("a"), 3), words=frozenset({"x", "y"})),
    Tree(by_name={"k": Leaf("a", 0.1)}, by_colour={Colour.RED: (1.0, 2.0)}),
    Tree(either=Leaf("a")),
    Tree(either=Colour.RED),
    Tree(either=7),
    Tree(branches=(Tree(branches=(Tree(leaves=(Leaf("deep"),)),)), Tree())),
]


def brought_back(kind: object, value: object) -> object:
    return Codec(kind).decode(unpack(pack(Codec(kind).encode(value))))


@pytest.mark.parametrize("tree", TREES, ids=range(len(TREES)))
def test_value_comes_back_equal_and_of_its_types(tree: Tree) -> None:
    assert repr(brought_back(Tree, tree)) == repr(tree)


def test_equal_values_come_back_as_one_object() -> None:
    back = brought_back(Tree, Tree(leaves=(Leaf("a"), Leaf("a"))))
    assert isinstance(back, Tree)
    assert back.leaves[0] is back.leaves[1]


def test_one_and_one_point_nought_stay_apart() -> None:
    assert repr(brought_back(Tree, Tree(leaves=(Leaf("a", 1), Leaf("a", 1.0))))) == repr(
        Tree(leaves=(Leaf("a", 1), Leaf("a", 1.0)))
    )


def test_union_of_values_is_told_apart() -> None:
    for value in (Length(20.9), Angle(37, Basis.HALF), Choice("yes"), Slope(0.5, 8)):
        reading = Reading(Feature.THREAD_OD, value, How.CALIPER, "as typed")
        assert brought_back(Reading, reading) == reading


def test_plain_values_go_through() -> None:
    assert brought_back(object, {"a": (1, 2.5, None)}) == {"a": (1, 2.5, None)}


def test_shipped_catalogue_comes_back_equal() -> None:
    catalogue = build_catalogue([data_dir("thread_tables")])
    back = brought_back(Catalogue, catalogue)
    assert back == catalogue
    assert repr(back) == repr(catalogue)


def test_rule_book_comes_back_equal() -> None:
    book = knowledge().book
    assert brought_back(RuleBook, book) == book


def test_rows_are_made_when_they_are_looked_at(monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[type] = []
    catalogue = build_catalogue([data_dir("thread_tables")])
    monkeypatch.setattr(Band, "__post_init__", lambda self: made.append(Band))
    back = brought_back(Catalogue, catalogue)
    assert back.ids == tuple(end.id for end in catalogue.ends)
    assert made == []
    assert back.by_id[catalogue.ends[5].id] == catalogue.ends[5]
    assert back.ends[5] is back.ends[5]
    assert back.ends[3:5] == tuple(catalogue.ends[3:5])
    assert made == []
    assert back.threads["M14x1.5"] == catalogue.threads["M14x1.5"]
    assert 0 < len(made) < 10
    assert "M14x1.5" in back.threads
    assert len(back.threads) == len(catalogue.threads)


def test_decoding_obeys_the_checks_of_the_model() -> None:
    (row,), top = Codec(Band).encode(Band(1, 2))
    spoilt = pack((3, *unpack(row)[1:]))
    with pytest.raises(ValueError, match="limits reversed"):
        Codec(Band).decode(((spoilt,), top))


def test_value_of_another_class_is_refused() -> None:
    with pytest.raises(TypeError, match="a str stands where a Leaf belongs"):
        Codec(Tree).encode(replace(Tree(), leaves=("a",)))  # type: ignore[arg-type]
    with pytest.raises(TypeError, match=r"Tree\.either: float is not in its type"):
        Codec(Tree).encode(replace(Tree(), either=1.5))  # type: ignore[arg-type]


def test_field_of_unknown_type_is_named() -> None:
    @dataclass(frozen=True)
    class Bad:
        lines: set[str]

    with pytest.raises(TypeError, match=r"Bad\.lines: the codec does not know the type set"):
        Codec(Bad).encode(Bad(set()))
