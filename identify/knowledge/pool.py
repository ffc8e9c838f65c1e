"""Values and bytes in numbered parts, each read and made when it is first looked at.

`Pool` gathers the parts while the `Codec` encodes a tree; `Made` reads them. What is handed out
looks like the tuple or the mapping that was encoded.
"""

from __future__ import annotations

from identify.frozen import TYPE_CHECKING
from identify.light import Iterable, Iterator, Mapping, Sequence
from identify.packing import pack, unpack

if TYPE_CHECKING:
    from typing import Any, Protocol

    from identify.knowledge.codec import Codec

    class Parts(Protocol):
        """Bytes by number."""

        def __getitem__(self, at: int, /) -> bytes:
            """Return one of them."""


class _Placed(Mapping[str, "Any"]):
    """What stands by name in the parts; the names are known without reading any."""

    _places: Mapping[str, Any]

    def __len__(self) -> int:
        return len(self._places)

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __contains__(self, name: object) -> bool:
        return name in self._places


class Columns(_Placed):
    """Fields of all values in a row, by their name, each read when it is first looked at."""

    def __init__(self, made: Made, places: dict[str, int]) -> None:
        self._made, self._places = made, places
        self._read: dict[str, tuple[Any, ...]] = {}

    def __getitem__(self, name: str) -> tuple[Any, ...]:
        if name not in self._read:
            self._read[name] = unpack(self._made.behind(self._places[name]))
        return self._read[name]


class Bundles(_Placed):
    """Bytes by name and number, each read when it is looked at."""

    def __init__(self, made: Made, places: dict[str, tuple[int, int]]) -> None:
        self._made, self._places = made, places

    def __getitem__(self, name: str) -> Bundle:
        return Bundle(self._made, *self._places[name])


class Bundle(Sequence[bytes]):
    """Bytes by number, each read when it is looked at."""

    def __init__(self, made: Made, first: int, number: int) -> None:
        self._made, self._first, self._number = made, first, number

    def __len__(self) -> int:
        return self._number

    def __getitem__(self, at: Any) -> Any:
        if isinstance(at, slice):
            return tuple([self[each] for each in range(*at.indices(self._number))])
        if not 0 <= at < self._number:
            raise IndexError(at)
        return self._made.behind(self._first + at)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Bundle | tuple) and tuple(self) == tuple(other)

    def __hash__(self) -> int:
        return hash(tuple(self))


class Rows(Sequence[object]):
    """Values of one class in a row, each made when it is first looked at.

    `columns` hold the fields that the class names in `COLUMNS`, of all values in a row.
    """

    def __init__(
        self, made: Made, cls: type, places: tuple[int, ...], columns: dict[str, int]
    ) -> None:
        self._made, self._cls, self._places = made, cls, places
        self.columns = Columns(made, columns)

    def __len__(self) -> int:
        return len(self._places)

    def __getitem__(self, at: Any) -> Any:
        made, cls = self._made, self._cls
        if isinstance(at, slice):
            return tuple([made.get(place, cls) for place in self._places[at]])
        place = self._places[at]
        return made.objects[place] or made.get(place, cls)

    def __iter__(self) -> Iterator[Any]:
        made, cls = self._made, self._cls
        for place in self._places:
            yield made.get(place, cls)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Rows | tuple) and tuple(self) == tuple(other)

    def __hash__(self) -> int:
        return hash(tuple(self))

    def __repr__(self) -> str:
        return repr(tuple(self))


class Table(_Placed):
    """Values of one class by name, each made when it is first looked at; `columns` as of `Rows`."""

    def __init__(
        self, made: Made, cls: type, places: dict[str, int], columns: dict[str, int]
    ) -> None:
        self._made, self._cls, self._places = made, cls, places
        self.columns = Columns(made, columns)

    def __getitem__(self, name: str) -> Any:
        return self._made.get(self._places[name], self._cls)

    def __or__(self, other: Mapping[str, Any]) -> dict[str, Any]:
        return {**self, **other}

    def __repr__(self) -> str:
        return repr(dict(self))


class Made:
    """The values of a pool that were looked at so far; of its parts `number` are values."""

    def __init__(self, codec: Codec, parts: Parts, number: int) -> None:
        self.codec, self._parts, self._number = codec, parts, number
        self.objects: list[Any] = [None] * number

    def get(self, at: int, cls: type) -> Any:
        """Return the value of a class by its place."""
        found = self.objects[at]
        if found is None:
            values = list(unpack(self._parts[at]))
            for place, _, decode in self.codec.plan(cls):
                values[place] = decode(values[place], self)
            found = self.objects[at] = cls(*values)
        return found

    def behind(self, at: int) -> bytes:
        """Return a part that is no value, by its place behind the values."""
        return self._parts[self._number + at]


class Pool:
    """Encoded values, each once."""

    def __init__(self, codec: Codec) -> None:
        self.codec = codec
        self.rows: list[bytes] = []
        self.behind: list[bytes] = []
        self.index: dict[tuple[type, bytes], int] = {}

    def put(self, cls: type, value: Any) -> int:
        """Put a value among the parts, unless it is there, and return its place.

        Raises:
            TypeError: It is of another class.
        """
        if type(value) is not cls:
            raise TypeError(f"a {type(value).__name__} stands where a {cls.__name__} belongs")
        row = [getattr(value, name) for name in field_names(cls)]
        for place, encode, _ in self.codec.plan(cls):
            row[place] = encode(row[place], self)
        blob = pack(row)
        key = cls, blob
        if key not in self.index:
            self.index[key] = len(self.rows)
            self.rows.append(blob)
        return self.index[key]

    def put_behind(self, parts: Iterable[bytes]) -> int:
        """Put parts behind the values and return the place of the first."""
        first = len(self.behind)
        self.behind.extend(parts)
        return first


def columns_of(cls: type, values: Iterable[Any], pool: Pool) -> dict[str, int]:
    """Return where the fields that a class names in `COLUMNS` stand, of all values in a row."""
    names: tuple[str, ...] = getattr(cls, "COLUMNS", ())
    return {name: pool.put_behind([pack([getattr(v, name) for v in values])]) for name in names}


def field_names(cls: Any) -> tuple[str, ...]:
    """Return the fields of a class of frozen values."""
    names: tuple[str, ...] = cls.__match_args__
    return names
