"""The few of the standard library that are written again, against the standard library's own."""

import contextlib
import functools
import json
import subprocess
import sys
import types

import pytest
from hypothesis import given
from hypothesis import strategies as st

from identify import light
from identify.frozen import StrEnum


@pytest.mark.parametrize("module", [light, functools])
def test_a_cached_property_is_worked_out_once_a_value(module: types.ModuleType) -> None:
    worked: list[str] = []

    class Value:
        @module.cached_property
        def twice(self) -> list[str]:
            """Say what it is."""
            worked.append("out")
            return worked

    one, other = Value(), Value()
    assert one.twice is one.twice
    assert worked == ["out"]
    assert other.twice == ["out", "out"]
    assert one.__dict__ == {"twice": worked}
    assert Value.twice.__doc__ == "Say what it is."
    one.twice = ["put"]  # as the standard library's, which a frozen value refuses on its own
    assert one.twice == ["put"]
    del one.twice
    assert one.twice is worked


@pytest.mark.parametrize("module", [light, functools])
def test_a_cache_keeps_what_was_worked_out_and_forgets_the_oldest(module: types.ModuleType) -> None:
    asked: list[object] = []

    def work(*given: object) -> object:
        asked.append(given)
        return given

    every, few = module.cache(work), module.lru_cache(maxsize=2)(work)
    for kept in (every, few):
        asked.clear()
        assert [kept(each) for each in (1, 2, 1, 3, 2)] == [(1,), (2,), (1,), (3,), (2,)]
        assert asked == [(1,), (2,), (3,), *([(2,)] if kept is few else [])]
    with pytest.raises(TypeError, match="unhashable"):
        every([])
    every.cache_clear()
    asked.clear()
    assert every(1) == (1,)
    assert asked == [(1,)]


@pytest.mark.parametrize("module", [light, contextlib])
def test_exceptions_are_passed_over_if_they_are_of_the_kinds(module: types.ModuleType) -> None:
    with module.suppress(OSError, ValueError):
        raise FileNotFoundError
    with pytest.raises(KeyError), module.suppress(OSError, ValueError):
        raise KeyError
    with module.suppress(OSError):
        pass


def test_types_are_the_standard_library_s() -> None:
    for name in ("GenericAlias", "NoneType", "SimpleNamespace", "UnionType"):
        assert getattr(light, name) is getattr(types, name)


def test_a_module_is_imported_when_something_of_it_is_used() -> None:
    script = (
        "import sys; from identify.light import json, re; "
        "print('re' in sys.modules, 'json' in sys.modules); "
        "print(re.sub('a', 'b', json.loads('[\"aa\"]')[0]), 'json' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )
    assert done.stdout == "False False\nbb True\n"


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(),
    lambda inner: st.lists(inner) | st.dictionaries(st.text(), inner) | st.tuples(inner),
)


@given(VALUES)
def test_json_is_as_the_standard_library_writes_it(value: object) -> None:
    assert light.dumps(value) == json.dumps(value, ensure_ascii=False)


def test_what_is_no_json_is_refused_as_the_standard_library_does() -> None:
    loop: list[object] = []
    loop.append(loop)
    for value in ({1}, {"a": [b"x"]}, {(1, 2): 3}, loop):
        refused = []
        for write in (light.dumps, json.dumps):
            with pytest.raises((TypeError, ValueError)) as caught:
                write(value)
            refused.append((caught.type, str(caught.value)))
        assert refused[0] == refused[1]
    assert (
        light.dumps({Word.ONE: Word.ONE, 1: True, None: 0.1})
        == '{"one": "one", "1": true, "null": 0.1}'
    )


class Word(StrEnum):
    ONE = "one"
