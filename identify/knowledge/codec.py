"""Frozen value trees <-> plain tuples, lists and texts, generated from the field types.

Every distinct value of a class is stored once, in a pool, as the tuple of its fields. Where it is
used stands its place in the pool, so equal values (a provenance, a band) come back as one object. A
value is made when it is first looked at: a ranking looks at some ten rows of a thousand. Classes
are found by walking the field types of the root, never by names in the data, so that data cannot
call anything.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from types import GenericAlias, NoneType, UnionType

from identify.frozen import TYPE_CHECKING, StrEnum
from identify.packing import pack, unpack

if TYPE_CHECKING:
    from typing import Any

    Encode = Callable[[Any, "_Pool"], Any]
    Decode = Callable[[Any, "_Made"], Any]
    Pair = tuple[Encode, Decode]

_PLAIN = (str, int, float, bool, bytes, NoneType)


class Codec:
    """Encoder and decoder of one root type.

    A field may be text, bytes, a number, a flag, None, an enum, a frozen value, a tuple, a
    frozenset, a dict with text or enum keys, or a union of such types; a type may name itself in
    quotes. Values of a `Sequence` and of a `Mapping` with text keys are made when they are looked
    at, all others with the value that holds them.

    Raises:
        TypeError: A field has another type; names the class and the field.
    """

    def __init__(self, root: Any) -> None:
        self._plans: dict[type, list[tuple[int, Encode, Decode]]] = {}
        self.root = self._pair(root, "the root", None)

    def encode(self, value: Any) -> tuple[tuple[bytes, ...], Any]:
        """Return `value` as bytes, texts, numbers and tuples of them."""
        pool = _Pool(self)
        top = self.root[0](value, pool) if self.root else value
        return tuple(pool.rows), top

    def decode(self, data: tuple[tuple[bytes, ...], Any]) -> Any:
        """Return the value that `encode` was given.

        Damaged data provoke whatever they provoke, now or when a value is looked at.
        """
        rows, top = data
        made = _Made(self, rows)
        return self.root[1](top, made) if self.root else top

    def plan(self, cls: type) -> list[tuple[int, Encode, Decode]]:
        """Return encoder and decoder of every field that needs them, with its place."""
        found = self._plans.get(cls)
        if found is None:
            found = self._plans[cls] = []  # before its fields, one of which may be of it
            kinds = cls.__annotations__
            for place, name in enumerate(_names(cls)):
                pair = self._pair(kinds[name], f"{cls.__name__}.{name}", cls)
                if pair:
                    found.append((place, *pair))
        return found

    def _pair(self, kind: Any, name: str, owner: type | None) -> Pair | None:
        """Return encoder and decoder of a type, None where it is stored as it stands."""
        if isinstance(kind, str) and owner:
            kind = vars(sys.modules[owner.__module__])[kind]
        if kind in _PLAIN or kind is object:
            return None
        if isinstance(kind, type) and not isinstance(kind, GenericAlias):
            if issubclass(kind, StrEnum):
                return _enum_pair(kind)
            if hasattr(kind, "__match_args__"):
                return lambda value, pool: pool.put(kind, value), lambda at, made: made.get(
                    at, kind
                )
        origin: Any = getattr(kind, "__origin__", None)
        args: tuple[Any, ...] = getattr(kind, "__args__", ())
        if isinstance(kind, UnionType):
            return self._union(kind.__args__, name, owner)
        if origin in (tuple, frozenset) and args:
            return self._several(origin, args, name, owner)
        if origin is Sequence and owner:
            inner = args[0]
            if isinstance(inner, str):
                inner = vars(sys.modules[owner.__module__])[inner]
            return self._rows(inner)
        if origin is Mapping and args[0] is str and hasattr(args[1], "__match_args__"):
            return self._table(args[1])
        if origin in (dict, Mapping):
            return self._dict(args, name, owner)
        raise TypeError(f"{name}: the codec does not know the type {kind}")

    def _union(self, args: Any, name: str, owner: Any) -> Pair | None:
        members = [arg for arg in args if arg is not NoneType]
        pairs = [self._pair(arg, name, owner) for arg in members]
        if not any(pairs):
            return None
        if len(members) == 1 and pairs[0]:
            to, back = pairs[0]
            return (
                lambda value, pool: None if value is None else to(value, pool),
                lambda data, made: None if data is None else back(data, made),
            )
        if not all(isinstance(member, type) for member in members):
            raise TypeError(f"{name}: a union of containers cannot be told apart")

        def encode(value: Any, pool: _Pool) -> Any:
            if value is None:
                return None
            number = next(
                (i for i, member in enumerate(members) if type(value) is member),
                None,
            )
            if number is None:
                raise TypeError(f"{name}: {type(value).__name__} is not in its type")
            pair = pairs[number]
            return [number, pair[0](value, pool) if pair else value]

        def decode(data: Any, made: _Made) -> Any:
            if data is None:
                return None
            number, inner = data
            pair = pairs[number]
            return pair[1](inner, made) if pair else inner

        return encode, decode

    def _several(self, origin: Any, args: Any, name: str, owner: Any) -> Pair:
        if origin is tuple and args[-1] is not Ellipsis:
            each = [self._pair(arg, name, owner) for arg in args]
            return (
                lambda values, pool: [
                    p[0](v, pool) if p else v for p, v in zip(each, values, strict=True)
                ],
                lambda data, made: tuple(
                    p[1](v, made) if p else v for p, v in zip(each, data, strict=True)
                ),
            )
        pair = self._pair(args[0], name, owner)
        order: Any = sorted if origin is frozenset else list
        if not pair:
            return lambda values, pool: order(values), lambda data, made: origin(data)
        to, back = pair
        return (
            lambda values, pool: [to(value, pool) for value in order(values)],
            lambda data, made: origin([back(item, made) for item in data] if data else ()),
        )

    def _dict(self, args: Any, name: str, owner: Any) -> Pair:
        key, value = (self._pair(arg, name, owner) for arg in args)
        key_to, key_back = key or _SAME
        to, back = value or _SAME
        return (
            lambda values, pool: [[key_to(k, pool), to(v, pool)] for k, v in values.items()],
            lambda data, made: {key_back(k, made): back(v, made) for k, v in data},
        )

    def _rows(self, cls: type) -> Pair:
        return (
            lambda values, pool: (
                tuple(pool.put(cls, each) for each in values),
                _columns(cls, tuple(values)),
            ),
            lambda data, made: Rows(made, cls, *data),
        )

    def _table(self, cls: type) -> Pair:
        return (
            lambda values, pool: (
                {key: pool.put(cls, each) for key, each in values.items()},
                _columns(cls, tuple(values.values())),
            ),
            lambda data, made: Table(made, cls, *data),
        )


def _columns(cls: type, values: tuple[Any, ...]) -> dict[str, tuple[Any, ...]]:
    """Return the fields that a class names in `COLUMNS`, of all values in a row."""
    names: tuple[str, ...] = getattr(cls, "COLUMNS", ())
    return {name: tuple(getattr(each, name) for each in values) for name in names}


class Rows(Sequence[object]):
    """Values of one class in a row, each made when it is first looked at.

    `columns` hold the fields that the class names in `COLUMNS`, of all values in a row.
    """

    def __init__(
        self, made: _Made, cls: type, places: tuple[int, ...], columns: dict[str, Any]
    ) -> None:
        self._made, self._cls, self._places, self.columns = made, cls, places, columns

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


class Table(Mapping[str, object]):
    """Values of one class by name, each made when it is first looked at; `columns` as of `Rows`."""

    def __init__(
        self, made: _Made, cls: type, places: dict[str, int], columns: dict[str, Any]
    ) -> None:
        self._made, self._cls, self._places, self.columns = made, cls, places, columns

    def __len__(self) -> int:
        return len(self._places)

    def __iter__(self) -> Iterator[str]:
        return iter(self._places)

    def __contains__(self, name: object) -> bool:
        return name in self._places

    def __getitem__(self, name: str) -> Any:
        return self._made.get(self._places[name], self._cls)

    def __or__(self, other: Mapping[str, Any]) -> dict[str, Any]:
        return {**self, **other}

    def __repr__(self) -> str:
        return repr(dict(self))


class _Made:
    """The values of a pool that were looked at so far."""

    def __init__(self, codec: Codec, rows: tuple[bytes, ...]) -> None:
        self.codec, self.rows = codec, rows
        self.objects: list[Any] = [None] * len(rows)

    def get(self, at: int, cls: type) -> Any:
        found = self.objects[at]
        if found is None:
            values = list(unpack(self.rows[at]))
            for place, _, decode in self.codec.plan(cls):
                values[place] = decode(values[place], self)
            found = self.objects[at] = cls(*values)
        return found


class _Pool:
    """Encoded values, each once."""

    def __init__(self, codec: Codec) -> None:
        self.codec = codec
        self.rows: list[bytes] = []
        self.index: dict[tuple[type, bytes], int] = {}

    def put(self, cls: type, value: Any) -> int:
        if type(value) is not cls:
            raise TypeError(f"a {type(value).__name__} stands where a {cls.__name__} belongs")
        row = [getattr(value, name) for name in _names(cls)]
        for place, encode, _ in self.codec.plan(cls):
            row[place] = encode(row[place], self)
        blob = pack(row)
        key = cls, blob
        if key not in self.index:
            self.index[key] = len(self.rows)
            self.rows.append(blob)
        return self.index[key]


def _names(cls: Any) -> tuple[str, ...]:
    """Return the fields of a class of frozen values."""
    names: tuple[str, ...] = cls.__match_args__
    return names


def _keep(value: Any, _: Any) -> Any:
    return value


_SAME = (_keep, _keep)


def _enum_pair(kind: type[StrEnum]) -> Pair:
    members = {member.value: member for member in kind}
    return lambda value, pool: value.value, lambda data, made: members[data]
