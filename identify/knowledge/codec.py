"""Frozen dataclass trees <-> plain JSON values, generated from the field types.

Every distinct dataclass value is stored once, in a pool: `[number of its class, field, field, …]`.
Where it is used stands its index in the pool, so equal values (a provenance, a band) come back as
one object. Classes are found by walking the field types of the root, never by names in the data,
so that data cannot call anything else.
"""

import dataclasses
import gc
import json
import sys
from collections.abc import Callable, Mapping
from enum import Enum
from types import GenericAlias, NoneType, UnionType
from typing import Any

Encode = Callable[[Any, "_Pool"], Any]
Decode = Callable[[Any, list[Any]], Any]
_PLAIN = (str, int, float, bool, NoneType)


class Codec:
    """Encoder and decoder of one root type.

    A field may be text, a number, a flag, None, an enum, a dataclass, a tuple, a frozenset, a
    dict with text or enum keys, or a union of such types; a type may name itself in quotes.

    Raises:
        TypeError: A field has another type; names the class and the field.
    """

    def __init__(self, root: Any) -> None:
        self.classes: list[type] = []
        self.plans: list[list[tuple[int, Encode, Decode]]] = []
        self.root = self._pair(root, "the root", None)

    @property
    def shape(self) -> str:
        """Name every class with its fields, so that data of another shape can be told."""
        return ";".join(
            f"{cls.__qualname__}({','.join(f'{f.name}:{f.type}' for f in dataclasses.fields(cls))})"
            for cls in self.classes
        )

    def encode(self, value: Any) -> list[Any]:
        """Return `value` as lists, texts and numbers that JSON can hold."""
        pool = _Pool(self)
        top = self.root[0](value, pool) if self.root else value
        return [pool.rows, top]

    def decode(self, data: list[Any]) -> Any:
        """Return the value that `encode` was given; raises whatever damaged data provoke."""
        rows, top = data
        objects: list[Any] = []
        classes, plans = self.classes, self.plans
        collecting = gc.isenabled()
        gc.disable()  # nothing made here is garbage; looking for it takes a quarter of the time
        try:
            for row in rows:
                number = row[0]
                values = row[1:]
                for index, _, decode in plans[number]:
                    values[index] = decode(values[index], objects)
                objects.append(classes[number](*values))
            return self.root[1](top, objects) if self.root else top
        finally:
            if collecting:
                gc.enable()

    def _number(self, cls: type) -> int:
        if cls not in self.classes:
            self.classes.append(cls)
            self.plans.append([])
            number = len(self.classes) - 1
            for index, field in enumerate(dataclasses.fields(cls)):
                pair = self._pair(field.type, f"{cls.__name__}.{field.name}", cls)
                if pair:
                    self.plans[number].append((index, *pair))
        return self.classes.index(cls)

    def _pair(self, kind: Any, name: str, owner: type | None) -> tuple[Encode, Decode] | None:
        """Return encoder and decoder of a type, None where JSON holds it as it stands."""
        if isinstance(kind, str) and owner:
            kind = vars(sys.modules[owner.__module__])[kind]
        if kind in _PLAIN or kind is Any:
            return None
        if isinstance(kind, type) and not isinstance(kind, GenericAlias):
            if issubclass(kind, Enum):
                return _enum_pair(kind)
            if dataclasses.is_dataclass(kind):
                number = self._number(kind)
                return lambda value, pool: pool.put(number, value), lambda at, done: done[at]
        origin, args = getattr(kind, "__origin__", None), getattr(kind, "__args__", ())
        if isinstance(kind, UnionType):
            return self._union(args, name, owner)
        if origin in (tuple, frozenset) and args:
            return self._several(origin, args, name, owner)
        if origin in (dict, Mapping):
            return self._dict(args, name, owner)
        raise TypeError(f"{name}: the codec does not know the type {kind}")

    def _union(self, args: Any, name: str, owner: Any) -> tuple[Encode, Decode] | None:
        members = [arg for arg in args if arg is not NoneType]
        pairs = [self._pair(arg, name, owner) for arg in members]
        if not any(pairs):
            return None
        if len(members) == 1 and pairs[0]:
            to, back = pairs[0]
            return (
                lambda value, pool: None if value is None else to(value, pool),
                lambda data, done: None if data is None else back(data, done),
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

        def decode(data: Any, done: list[Any]) -> Any:
            if data is None:
                return None
            number, inner = data
            pair = pairs[number]
            return pair[1](inner, done) if pair else inner

        return encode, decode

    def _several(self, origin: Any, args: Any, name: str, owner: Any) -> tuple[Encode, Decode]:
        if origin is tuple and args[-1] is not Ellipsis:
            each = [self._pair(arg, name, owner) for arg in args]
            return (
                lambda values, pool: [
                    p[0](v, pool) if p else v for p, v in zip(each, values, strict=True)
                ],
                lambda data, done: tuple(
                    p[1](v, done) if p else v for p, v in zip(each, data, strict=True)
                ),
            )
        pair = self._pair(args[0], name, owner)
        order: Any = sorted if origin is frozenset else list
        if not pair:
            return lambda values, pool: order(values), lambda data, done: origin(data)
        to, back = pair
        return (
            lambda values, pool: [to(value, pool) for value in order(values)],
            lambda data, done: origin([back(item, done) for item in data] if data else ()),
        )

    def _dict(self, args: Any, name: str, owner: Any) -> tuple[Encode, Decode]:
        key, value = (self._pair(arg, name, owner) for arg in args)
        key_to, key_back = key or _SAME
        to, back = value or _SAME
        return (
            lambda values, pool: [[key_to(k, pool), to(v, pool)] for k, v in values.items()],
            lambda data, done: {key_back(k, done): back(v, done) for k, v in data},
        )


class _Pool:
    """Encoded dataclass values, each once."""

    def __init__(self, codec: Codec) -> None:
        self.codec = codec
        self.rows: list[list[Any]] = []
        self.index: dict[str, int] = {}

    def put(self, number: int, value: Any) -> int:
        cls = self.codec.classes[number]
        if type(value) is not cls:
            raise TypeError(f"a {type(value).__name__} stands where a {cls.__name__} belongs")
        row = [number, *(getattr(value, field.name) for field in dataclasses.fields(cls))]
        for index, encode, _ in self.codec.plans[number]:
            row[index + 1] = encode(row[index + 1], self)
        text = json.dumps(row)
        if text not in self.index:
            self.index[text] = len(self.rows)
            self.rows.append(row)
        return self.index[text]


def _keep(value: Any, _: Any) -> Any:
    return value


_SAME: tuple[Encode, Decode] = (_keep, _keep)


def _enum_pair(kind: type[Enum]) -> tuple[Encode, Decode]:
    members = {member.value: member for member in kind}
    return lambda value, pool: value.value, lambda data, done: members[data]
