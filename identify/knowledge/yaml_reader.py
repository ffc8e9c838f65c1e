"""Read YAML so that nothing is guessed and every value knows its line.

PyYAML follows YAML 1.1: `1:16` becomes 76, `-04` becomes -4, `NO` becomes False, a repeated key
silently wins. Here a scalar is a decimal number, true, false, null, or the text as written, and a
repeated key is a fault.
"""

import re
from typing import Any, ClassVar

import yaml

from identify.errors import TableError


class Mapping(dict[str, Any]):
    """A YAML mapping; `line` is where it starts, `lines` where each key stands (from 1)."""

    line: int = 0
    lines: dict[str, int]


class Sequence(list[Any]):
    """A YAML sequence; `line` is where it starts, `lines[i]` where entry i stands (from 1)."""

    line: int = 0
    lines: list[int]


_Base: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _StrictLoader(_Base):  # type: ignore[misc]
    """Safe loader with plain decimal scalars only."""

    yaml_implicit_resolvers: ClassVar[dict[str, Any]] = {}


_TAG = "tag:yaml.org,2002:"
for _tag, _pattern, _first in (
    ("int", r"-?(?:0|[1-9][0-9]*)$", "-0123456789"),
    ("float", r"-?(?:0|[1-9][0-9]*)\.[0-9]+$", "-0123456789"),
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
                problem=f"key {key!r} is not text", problem_mark=key_node.start_mark
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


def read_yaml(text: str, name: str) -> Mapping:
    """Return the top mapping of a YAML text.

    Args:
        text: The document.
        name: File name for messages.

    Raises:
        TableError: Not YAML, a repeated key, or no mapping at the top; names file and line.
    """
    try:
        data = yaml.load(text, Loader=_StrictLoader)  # a SafeLoader subclass
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else 1
        raise TableError(f"{name}:{line}: {error.problem or error.context}.") from None
    except yaml.YAMLError as error:
        raise TableError(f"{name}:1: not readable as YAML ({error}).") from None
    if not isinstance(data, Mapping):
        raise TableError(f'{name}:1: a table file is a mapping; begin with "schema: …".')
    return data
