"""Plain tuples, texts, numbers and bytes <-> bytes, by `marshal`.

`json` and what it imports take longer to import than all that a start reads takes to read. Reading
runs no code and makes nothing but such values; but bytes made to do harm can stop the interpreter,
so only what nobody else could have written may be read (`knowledge/compiled.py` sees to that).
"""

from __future__ import annotations

from marshal import dumps, loads

from identify.frozen import TYPE_CHECKING

if TYPE_CHECKING:
    from typing import Any

_FORMAT = 2  # the last in which equal values have equal bytes; every Python reads it


def pack(value: Any) -> bytes:
    """Return a value as bytes; enums and named tuples become what they hold."""
    return dumps(_bare(value), _FORMAT)


def unpack(data: bytes | memoryview) -> Any:
    """Return the value that `pack` was given, lists as tuples.

    Raises:
        EOFError, ValueError, TypeError: It is none.
    """
    return loads(data)


def _bare(value: Any) -> Any:
    if isinstance(value, str):
        return str.__str__(value)
    if isinstance(value, tuple | list):
        return tuple([_bare(each) for each in value])
    if isinstance(value, dict):
        return {_bare(key): _bare(each) for key, each in value.items()}
    return value
