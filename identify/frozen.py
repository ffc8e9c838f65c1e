"""Frozen values that cost little to declare: a start declares some sixty, and imports no `typing`.

To a type checker they are the standard library's own. At run time a class is given its methods
without writing and compiling source for each of them; only its `__init__` is compiled, when the
first value is made. `tests/test_frozen.py` holds both kinds against each other.
"""

TYPE_CHECKING = False  # as in `typing`, which takes as long to import as a fifth of a bare start
if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
    from dataclasses import field as field
    from dataclasses import replace as replace
    from typing import NamedTuple as NamedTuple
else:
    from collections import namedtuple
    from operator import attrgetter

    _NOTHING = object()

    class _Made:
        """A default that is made anew for every value; `hashed` is false where it has no hash."""

        def __init__(self, factory, hashed):
            self.factory, self.hashed = factory, hashed

    def field(*, default=_NOTHING, default_factory=None, hash=True):
        """Return a default of a field, as `dataclasses.field` does."""
        return _Made(default_factory, hash) if default_factory else default

    def dataclass(*, frozen, slots=False):
        """Return a decorator like `dataclasses.dataclass`, for frozen classes without a base."""
        if not frozen:
            raise TypeError("these values are frozen; a class that changes is a dataclass")
        return lambda cls: _value_class(cls, slots)

    def replace(value, /, **changes):
        """Return a value with some fields changed, as `dataclasses.replace` does."""
        cls = type(value)
        names = cls.__match_args__
        return cls(
            *[changes.pop(n) if n in changes else getattr(value, n) for n in names], **changes
        )

    def _value_class(cls, slots):
        own = dict(cls.__dict__)
        names = tuple(own.get("__annotations__", ()))
        defaults = {name: own.pop(name) for name in names if name in own}
        taken = _fields_taker(names)
        own.update(
            __qualname__=cls.__qualname__,
            __match_args__=names,
            __defaults__=defaults,
            __dataclass_fields__=_Fields(),
            __setattr__=_refuse,
            __delattr__=_refuse,
            __reduce__=lambda self: (type(self), taken(self)),
        )
        own.setdefault("__repr__", _repr)
        if "__eq__" not in own:
            own["__eq__"] = lambda self, other: (
                taken(self) == taken(other) if other.__class__ is self.__class__ else NotImplemented
            )
            hashed = _fields_taker([n for n in names if getattr(defaults.get(n), "hashed", True)])
            own.setdefault("__hash__", lambda self: hash(hashed(self)))
        own.pop("__dict__", None)
        own.pop("__weakref__", None)
        if slots:
            own["__slots__"] = names
        else:
            own.update({n: d for n, d in defaults.items() if not isinstance(d, _Made)})
        made = type(cls)(cls.__name__, cls.__bases__, own)

        def __init__(self, *args, **named):  # noqa: N807 - it is one
            made.__init__ = _compiled(made, slots)
            made.__init__(self, *args, **named)

        made.__init__ = __init__
        return made

    def _fields_taker(names):
        """Return what takes all fields of a value as a tuple."""
        if len(names) > 1:
            return attrgetter(*names)
        return lambda value: tuple([getattr(value, name) for name in names])

    def _refuse(self, name, value=None):
        raise AttributeError(f"cannot change field {name!r}: {type(self).__name__} is frozen")

    def _repr(self):
        inner = ", ".join([f"{name}={getattr(self, name)!r}" for name in self.__match_args__])
        return f"{type(self).__qualname__}({inner})"

    def _compiled(cls, slots):
        """Return the `__init__` of a class: every field put in its place, then `__post_init__`."""
        names, defaults = cls.__match_args__, cls.__defaults__
        known = {f"_default_{name}": default for name, default in defaults.items()}
        words, puts = [], []
        for name in names:
            words.append(f"{name}=_default_{name}" if name in defaults else name)
            value = name
            if isinstance(defaults.get(name), _Made):
                known[f"_made_{name}"] = defaults[name].factory
                value = f"_made_{name}() if {name} is _default_{name} else {name}"
            if slots:
                known[f"_put_{name}"] = cls.__dict__[name].__set__
                puts.append(f"_put_{name}(_self, {value})")
            else:
                puts.append(f"_self.__dict__[{name!r}] = {value}")
        if hasattr(cls, "__post_init__"):
            puts.append("_self.__post_init__()")
        head = f"def __init__({', '.join(['_self', *words])}):"
        exec("\n ".join([head, *(puts or ["pass"])]), known)
        return known["__init__"]

    class _Fields:
        """`__dataclass_fields__` of a class, made by the standard library when it is asked for."""

        def __get__(self, _, cls):
            import dataclasses

            told = [
                (
                    name,
                    cls.__annotations__[name],
                    _told(dataclasses, cls.__defaults__.get(name, _NOTHING)),
                )
                for name in cls.__match_args__
            ]
            found = dataclasses.make_dataclass(cls.__name__, told, eq=False).__dataclass_fields__
            cls.__dataclass_fields__ = found
            return found

    def _told(dataclasses, default):
        if default is _NOTHING:
            return dataclasses.field()
        if isinstance(default, _Made):
            return dataclasses.field(
                default_factory=default.factory, hash=None if default.hashed else False
            )
        return dataclasses.field(default=default)

    class _Named(type):
        def __new__(meta, name, bases, own):
            if not bases:
                return super().__new__(meta, name, bases, own)
            names = own.get("__annotations__", {})
            defaults = [own[each] for each in names if each in own]
            made = namedtuple(name, names, defaults=defaults, module=own["__module__"])
            for key, value in own.items():
                if key not in names and key not in ("__module__", "__qualname__"):
                    setattr(made, key, value)
            return made

    class NamedTuple(metaclass=_Named):
        """A tuple whose places have names, as `typing.NamedTuple`."""
