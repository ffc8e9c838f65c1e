"""What a start needs of `collections`, `contextlib`, `functools` and `types`, without these.

Together they take longer to import than a third of a bare start, for a few names each; so whatever
is on the way of an everyday ranking, or of the first question, takes them from here. `re` and
`json`, of which most starts have no use, are imported when something of them is. To a type checker
all are the standard library's own; `tests/test_light.py` holds what is written here against it.
"""

# ruff: noqa: F401 - to be taken from here

TYPE_CHECKING = False  # as in `typing`, which takes as long to import as a fifth of a bare start
if TYPE_CHECKING:
    import json as json
    import re as re
    from collections.abc import Callable as Callable
    from collections.abc import Collection as Collection
    from collections.abc import Iterable as Iterable
    from collections.abc import Iterator as Iterator
    from collections.abc import Mapping as Mapping
    from collections.abc import Sequence as Sequence
    from contextlib import suppress as suppress
    from functools import cache as cache
    from functools import cached_property as cached_property
    from functools import lru_cache as lru_cache
    from functools import partial as partial
    from operator import attrgetter as attrgetter
    from operator import itemgetter as itemgetter
    from operator import mul as mul
    from types import GenericAlias as GenericAlias
    from types import NoneType as NoneType
    from types import SimpleNamespace as SimpleNamespace
    from types import UnionType as UnionType
    from typing import Any

    def dumps(value: Any) -> str:
        """Return a value as JSON, as `json.dumps(value, ensure_ascii=False)` does."""
        return json.dumps(value, ensure_ascii=False)

else:
    import sys
    from _collections_abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence

    try:  # as `functools` and `operator` do themselves, before they go on to all else they hold
        from _functools import _lru_cache_wrapper, partial
        from _operator import attrgetter, itemgetter, mul
    except ImportError:  # a Python that has them elsewhere
        from functools import lru_cache, partial
        from operator import attrgetter, itemgetter, mul
    else:

        def lru_cache(maxsize):
            """Return a decorator that remembers results, as `functools.lru_cache` does."""
            return lambda work: _lru_cache_wrapper(work, maxsize, False, tuple)

    GenericAlias, UnionType, NoneType = type(list[int]), type(int | str), type(None)
    SimpleNamespace = type(sys.implementation)

    class _Later:
        """A module that is imported when something of it is first used."""

        def __init__(self, name):
            self._name = name

        def __getattr__(self, name):
            __import__(self._name)
            found = self.__dict__[name] = getattr(sys.modules[self._name], name)
            return found

    json, re = _Later("json"), _Later("re")

    def dumps(value):
        """Return a value as JSON, as `json.dumps(value, ensure_ascii=False)` does."""
        try:  # what it comes to, without all that reads JSON
            from _json import encode_basestring, make_encoder
        except ImportError:
            return json.dumps(value, ensure_ascii=False)
        return "".join(
            make_encoder({}, _no_json, encode_basestring, None, ": ", ", ", False, False, True)(
                value, 0
            )
        )

    def _no_json(value):
        raise TypeError(f"Object of type {type(value).__name__} is not JSON serializable")

    def cache(work):
        """Return a function that remembers every result, as `functools.cache` does."""
        return lru_cache(None)(work)

    class cached_property:  # noqa: N801 - as the standard library calls it
        """A property worked out once a value, as `functools.cached_property`."""

        def __init__(self, work):
            self.func, self.__doc__ = work, work.__doc__

        def __set_name__(self, owner, name):
            self.attrname = name

        def __get__(self, value, owner=None):
            if value is None:
                return self
            found = value.__dict__[self.attrname] = self.func(value)
            return found

    class suppress:  # noqa: N801 - as the standard library calls it
        """Pass over some exceptions, as `contextlib.suppress`."""

        def __init__(self, *kinds):
            self._kinds = kinds

        def __enter__(self):
            return None

        def __exit__(self, kind, error, trace):
            return kind is not None and issubclass(kind, self._kinds)
