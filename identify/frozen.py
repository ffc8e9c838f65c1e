"""Frozen values that cost little to declare: a start declares some sixty, and imports no `typing`.

To a type checker they are the standard library's own. At run time a class is given its methods
without writing and compiling source for each of them; only its `__init__` is compiled, and only if
many values are made of it. Words of a closed list are text with a name, found by their text.
`tests/test_frozen.py` holds both kinds against each other.
"""

TYPE_CHECKING = False  # as in `typing`, which takes as long to import as a fifth of a bare start
if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
    from dataclasses import field as field
    from dataclasses import replace as replace
    from enum import StrEnum as StrEnum
    from typing import NamedTuple as NamedTuple
else:
    from identify.light import attrgetter

    try:
        from _collections import _tuplegetter as _place  # what `collections.namedtuple` uses
    except ImportError:  # a Python that has it elsewhere
        from collections import _tuplegetter as _place

    _NOTHING = object()
    _FEW = 40  # values of a class, made one by one in the time that it takes to compile

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

        puts = [made.__dict__[name].__set__ for name in names] if slots else None
        after, left = getattr(made, "__post_init__", None), _FEW

        def __init__(self, *args, **named):  # noqa: N807 - it is one
            nonlocal left
            left -= 1
            values = _in_place(names, defaults, args, named) if left else None
            if values is None:  # many are made of this class, or something is wrong
                made.__init__ = _compiled(made, slots)
                made.__init__(self, *args, **named)
                return
            if puts is None:
                self.__dict__.update(zip(names, values, strict=True))
            else:
                for put, value in zip(puts, values, strict=True):
                    put(self, value)
            if after is not None:
                after(self)

        made.__init__ = __init__
        return made

    def _in_place(names, defaults, args, named):
        """Return the values of all fields, None where the arguments do not fit."""
        if len(args) == len(names) and not named:
            return args
        values, used = list(args), 0
        for name in names[len(args) :]:
            if name in named:
                values.append(named[name])
                used += 1
            elif name in defaults:
                default = defaults[name]
                values.append(default.factory() if isinstance(default, _Made) else default)
            else:
                return None
        return None if used != len(named) or len(values) != len(names) else values

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
        """Makes the tuple class that `collections.namedtuple` would, but for compiling anything."""

        def __new__(meta, name, bases, own):
            if not bases:
                return super().__new__(meta, name, bases, own)
            names = tuple(own.get("__annotations__", ()))
            defaults = {each: own[each] for each in names if each in own}
            places = {each: _place(at, f"Field {at}") for at, each in enumerate(names)}
            return type(
                name,
                (tuple,),
                {
                    "__slots__": (),
                    "_fields": names,
                    "_field_defaults": defaults,
                    "_left": _FEW,
                    "__match_args__": names,
                    "__new__": _first_new,
                    "__repr__": _repr,
                    "__getnewargs__": lambda self: tuple(self),
                    "_make": classmethod(tuple.__new__),
                    "_asdict": lambda self: dict(zip(names, self, strict=True)),
                    "_replace": _replaced,
                    **own,
                    **places,
                },
            )

    def _first_new(cls, /, *args, **named):
        """Make the first tuples of a class, and what makes the others."""
        names, defaults = cls._fields, cls._field_defaults
        cls._left -= 1
        values = _in_place(names, defaults, args, named) if cls._left else None
        if values is not None:
            return tuple.__new__(cls, values)
        known = {f"_default_{each}": default for each, default in defaults.items()}
        words = [f"{each}=_default_{each}" if each in defaults else each for each in names]
        whole = f"({', '.join(names)}{',' if names else ''})"
        known["_tuple"] = tuple.__new__
        exec(f"def __new__({', '.join(['_cls', *words])}):\n return _tuple(_cls, {whole})", known)
        cls.__new__ = known["__new__"]
        return cls(*args, **named)

    def _replaced(self, /, **changes):
        kept = [
            changes.pop(n) if n in changes else v for n, v in zip(self._fields, self, strict=True)
        ]
        if changes:
            raise ValueError(f"got unexpected field names: {list(changes)}")
        return self._make(kept)

    class NamedTuple(metaclass=_Named):
        """A tuple whose places have names, as `typing.NamedTuple`."""

    class _Words(type):
        """Makes a class of the words that its body names, as `enum.StrEnum` would."""

        def __new__(meta, name, bases, own):
            told = {k: v for k, v in own.items() if type(v) is str and not k.startswith("_")}
            kept = {k: v for k, v in own.items() if k not in told}
            made = super().__new__(meta, name, bases, kept)
            named, found = {}, {}
            for each, text in told.items():
                word = named[each] = found[text] = str.__new__(made, text)
                word.__dict__.update(name=each, value=text)
                type.__setattr__(made, each, word)
            type.__setattr__(made, "__members__", named)
            type.__setattr__(made, "_words", found)
            return made

        def __call__(cls, text):
            try:
                return cls._words[text]
            except (KeyError, TypeError):
                raise ValueError(f"{text!r} is not a valid {cls.__qualname__}") from None

        def __iter__(cls):
            return iter(cls._words.values())

        def __len__(cls):
            return len(cls._words)

        def __contains__(cls, word):
            return word in cls._words

        def __getitem__(cls, name):
            return cls.__members__[name]

        def __setattr__(cls, name, value):
            raise AttributeError(f"cannot change {name!r} of {cls.__name__}")

    class StrEnum(str, metaclass=_Words):
        """Text that is one of a closed list, as `enum.StrEnum`."""

        def __setattr__(self, name, value):
            raise AttributeError(f"cannot change {name!r} of a word")

        def __repr__(self):
            return f"<{type(self).__name__}.{self.name}: {self.value!r}>"

        def __reduce_ex__(self, _):
            return type(self), (self.value,)
