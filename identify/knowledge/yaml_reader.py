"""Read YAML so that nothing is guessed and every value knows its line.

PyYAML follows YAML 1.1: `1:16` becomes 76, `-04` becomes -4, `NO` becomes False, a repeated key
silently wins. Here a scalar is a decimal number, true, false, null, or the text as written, and a
repeated key is a fault.
"""

import re
from reprlib import Repr
from typing import Any, ClassVar

import yaml

from identify.errors import TableError

MOST_NODES = 200_000  # entries of one file with its aliases written out; ours have 12,000


class Mapping(dict[str, Any]):
    """A YAML mapping; `line` is where it starts, `lines` where each key stands (from 1)."""

    line: int = 0
    lines: dict[str, int]


class Sequence(list[Any]):
    """A YAML sequence; `line` is where it starts, `lines[i]` where entry i stands (from 1)."""

    line: int = 0
    lines: list[int]


class _Short(Repr):
    """Knows our two collections, which it would else write out to the end before it cuts."""

    repr_Mapping, repr_Sequence = Repr.repr_dict, Repr.repr_list  # noqa: N815 - named for types


_SHORT = _Short()
_SHORT.maxlevel, _SHORT.maxlist, _SHORT.maxdict, _SHORT.maxstring = 2, 3, 3, 60


def short(value: Any) -> str:
    """Return a value as it may stand in a message: cut short, however often it holds itself."""
    return _SHORT.repr(value)


_Base: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _StrictLoader(_Base):  # type: ignore[misc]
    """Safe loader with plain decimal scalars only."""

    yaml_implicit_resolvers: ClassVar[dict[str, Any]] = {}


_TAG = "tag:yaml.org,2002:"
for _tag, _pattern, _first in (
    ("int", r"-?(?:0|[1-9][0-9]{0,17})$", "-0123456789"),  # longer is text, so a fault where read
    ("float", r"-?(?:0|[1-9][0-9]{0,17})\.[0-9]{1,40}$", "-0123456789"),
    ("bool", r"(?:true|false)$", "tf"),
    ("null", r"(?:null|~|)$", "n~"),
):
    _StrictLoader.add_implicit_resolver(_TAG + _tag, re.compile(_pattern), list(_first))
_StrictLoader.yaml_implicit_resolvers.setdefault("", []).append((_TAG + "null", re.compile(r"$")))


def _mapping(loader: Any, node: Any) -> Mapping:
    out = Mapping()
    out.line = node.start_mark.line + 1
    out.lines = {}
    for key_node, value_node in node.value:
        key = loader.construct_object(key_node, deep=True)
        line = key_node.start_mark.line + 1
        if not isinstance(key, str):
            raise yaml.MarkedYAMLError(
                problem=f"key {short(key)} is not text", problem_mark=key_node.start_mark
            )
        if key in out:
            raise yaml.MarkedYAMLError(
                problem=f'key "{key}" stands twice, first on line {out.lines[key]}',
                problem_mark=key_node.start_mark,
            )
        out[key] = loader.construct_object(value_node, deep=True)
        out.lines[key] = line
    return out


def _sequence(loader: Any, node: Any) -> Sequence:
    out = Sequence(loader.construct_object(child, deep=True) for child in node.value)
    out.line = node.start_mark.line + 1
    out.lines = [child.start_mark.line + 1 for child in node.value]
    return out


_StrictLoader.add_constructor(_TAG + "map", _mapping)
_StrictLoader.add_constructor(_TAG + "seq", _sequence)


def _expanded(text: str) -> int:
    """Return the entries of a text with every alias written out; without writing them out."""
    sizes: dict[str, int] = {}
    open_: list[tuple[str | None, int]] = [(None, 0)]  # anchor and entries so far, innermost last
    for event in yaml.parse(text, Loader=_Base):
        if isinstance(event, yaml.AliasEvent):
            open_[-1] = open_[-1][0], open_[-1][1] + sizes.get(str(event.anchor), 1)
        elif isinstance(event, yaml.CollectionStartEvent):
            open_.append((event.anchor, 1))
        elif isinstance(event, yaml.ScalarEvent):
            open_[-1] = open_[-1][0], open_[-1][1] + 1
        elif isinstance(event, yaml.CollectionEndEvent):
            anchor, size = open_.pop()
            if anchor:
                sizes[anchor] = size
            open_[-1] = open_[-1][0], open_[-1][1] + size
    return open_[0][1]


def read_yaml(text: str, name: str) -> Mapping:
    """Return the top mapping of a YAML text.

    Args:
        text: The document.
        name: File name for messages.

    Raises:
        TableError: Not YAML, a repeated key, or no mapping at the top; names file and line.
    """
    try:
        if "*" in text and _expanded(text) > MOST_NODES:
            raise TableError(f"{name}:1: its aliases stand for more than {MOST_NODES} entries.")
        data = yaml.load(text, Loader=_StrictLoader)  # a SafeLoader subclass
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else 1
        raise TableError(f"{name}:{line}: {error.problem or error.context}.") from None
    except yaml.YAMLError as error:
        raise TableError(f"{name}:1: not readable as YAML ({error}).") from None
    except RecursionError:
        raise TableError(f"{name}:1: is nested too deep for any table.") from None
    if not isinstance(data, Mapping):
        raise TableError(f'{name}:1: a table file is a mapping; begin with "schema: …".')
    return data
