"""Frozen value trees <-> plain tuples, lists and texts, generated from the field types.

Every distinct value of a class is stored once, in a pool, as the tuple of its fields. Where it is
used stands its place in the pool, so equal values (a provenance, a band) come back as one object. A
value is made, and its bytes are read, when it is first looked at: a ranking looks at some ten rows
of a thousand. Bundles of bytes and columns follow behind the values of the pool. Classes
are found by walking the field types of the root, never by names in the data, so that data cannot
call anything.
"""

from __future__ import annotations

import sys

from identify.frozen import TYPE_CHECKING, StrEnum
from identify.knowledge.pool import Bundles, Made, Pool, Rows, Table, columns_of, field_names
from identify.light import (
    Callable,
    GenericAlias,
    Mapping,
    NoneType,
    Sequence,
    UnionType,
)

if TYPE_CHECKING:
    from typing import Any

    from identify.knowledge.pool import Parts

    Encode = Callable[[Any, Pool], Any]
    Decode = Callable[[Any, Made], Any]
    Pair = tuple[Encode, Decode]

_PLAIN = (str, int, float, bool, bytes, NoneType)


class Codec:
    """Encoder and decoder of one root type.

    A field may be text, bytes, a number, a flag, None, an enum, a frozen value, a tuple, a
    frozenset, a dict with text or enum keys, or a union of such types; a type may name itself in
    quotes. Values of a `Sequence` and of a `Mapping` with text keys are made when they are looked
    at, and so are bytes of a `Mapping[str, Sequence[bytes]]`; all others with the value that holds
    them.

    Raises:
        TypeError: A field has another type; names the class and the field.
    """

    def __init__(self, root: Any) -> None:
        self._plans: dict[type, list[tuple[int, Encode, Decode]]] = {}
        self.root = self._pair(root, "the root", None)

    def encode(self, value: Any) -> tuple[tuple[bytes, ...], Any]:
        """Return `value` as parts, and what hangs from them: texts, numbers and tuples of them."""
        pool = Pool(self)
        top = self.root[0](value, pool) if self.root else value
        return (*pool.rows, *pool.behind), (len(pool.rows), top)

    def decode(self, data: tuple[Parts, Any]) -> Any:
        """Return the value that `encode` was given.

        Damaged data provoke whatever they provoke, now or when a value is looked at.
        """
        parts, (number, top) = data
        made = Made(self, parts, number)
        return self.root[1](top, made) if self.root else top

    def plan(self, cls: type) -> list[tuple[int, Encode, Decode]]:
        """Return encoder and decoder of every field that needs them, with its place."""
        found = self._plans.get(cls)
        if found is None:
            found = self._plans[cls] = []  # before its fields, one of which may be of it
            kinds = cls.__annotations__
            for place, name in enumerate(field_names(cls)):
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
        if origin is Mapping and args == (str, Sequence[bytes]):
            return _BUNDLES
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

        def encode(value: Any, pool: Pool) -> Any:
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

        def decode(data: Any, made: Made) -> Any:
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
                columns_of(cls, values, pool),
            ),
            lambda data, made: Rows(made, cls, *data),
        )

    def _table(self, cls: type) -> Pair:
        return (
            lambda values, pool: (
                {key: pool.put(cls, each) for key, each in values.items()},
                columns_of(cls, values.values(), pool),
            ),
            lambda data, made: Table(made, cls, *data),
        )


def _keep(value: Any, _: Any) -> Any:
    return value


_SAME = (_keep, _keep)
_BUNDLES: Pair = (
    lambda values, pool: {k: (pool.put_behind(v), len(v)) for k, v in values.items()},
    lambda data, made: Bundles(made, data),
)


def _enum_pair(kind: type[StrEnum]) -> Pair:
    members = {member.value: member for member in kind}
    return lambda value, pool: value.value, lambda data, made: members[data]
