"""Dataclasses that cost little to declare: the first answer of the program waits for more than a hundred of them.

The standard module loads a disassembler and a tokenizer, and writes and compiles up to seven functions for each class:
together more than half the time of a start. Here nothing of that is loaded, comparing, hashing and showing are shared,
and `__init__` is compiled only for a class of which many are made. What is made is a dataclass like any other: the
standard `fields`, `replace`, `asdict` and `match` work on it too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from operator import attrgetter
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

__all__ = ["asdict", "dataclass", "field", "fields", "replace"]

_NOTHING: Mapping[str, Any] = MappingProxyType({})
_PATIENCE = 150  # so many are made of a class before its `__init__` is compiled, which takes as long as making them
_MISSING: Any = object()


class _Field:
    """One field of a record, as declared."""

    __slots__ = ("compare", "default", "default_factory", "kw_only", "metadata", "name", "repr", "type")

    def __init__(
        self, *, default: Any = _MISSING, default_factory: Any = _MISSING, repr: bool = True, compare: bool = True,
        metadata: Mapping[str, Any] = _NOTHING, kw_only: bool = False,
    ) -> None:  # fmt: skip
        self.name, self.type = "", ""
        self.default, self.default_factory = default, default_factory
        self.repr, self.compare, self.metadata, self.kw_only = repr, compare, metadata, kw_only

    def standard(self) -> Any:
        """The same as the standard module declares it."""
        import dataclasses

        default = {"default": self.default} if self.default is not _MISSING else {}
        if self.default_factory is not _MISSING:
            default = {"default_factory": self.default_factory}
        return dataclasses.field(repr=self.repr, compare=self.compare, metadata=self.metadata, **default)


class _Standard:
    """`__dataclass_fields__` of a record, worked out when somebody else's code asks for it."""

    def __get__(self, record: object, owner: type) -> Any:
        import dataclasses

        declared = _declared(owner)
        names = {"__annotations__": {name: one.type for name, one in declared.items()}, "__doc__": "Fields alone."}
        body = {name: one.standard() for name, one in declared.items()}
        alike = type(owner.__name__, (), {**body, **names, "__module__": owner.__module__})
        made: Any = dataclasses.dataclass(alike, init=False, repr=False, eq=False, kw_only=True)  # in any order
        found = made.__dataclass_fields__
        for name, one in declared.items():
            found[name].kw_only = one.kw_only
        owner.__dataclass_fields__ = found  # type: ignore[attr-defined]
        return found


if TYPE_CHECKING:
    from dataclasses import asdict as asdict
    from dataclasses import dataclass as dataclass
    from dataclasses import field as field
    from dataclasses import fields as fields
    from dataclasses import replace as replace
else:
    field = _Field

    def dataclass(cls: type | None = None, /, **options: bool) -> Any:
        """As the standard decorator, with its options `frozen`, `slots`, `kw_only` and `eq`."""
        if cls is None:
            return lambda named: _made(named, **options)
        return _made(cls, **options)

    def fields(record: Any) -> tuple[Any, ...]:
        """The fields of a record or of its class, in their order."""
        return tuple(_declared(record if isinstance(record, type) else type(record)).values())

    def replace(record: Any, /, **changes: Any) -> Any:
        """The same record with some of its values changed."""
        kind = type(record)
        names = getattr(kind, "__record__", None) or [one.name for one in fields(record)]
        return kind(
            **{name: changes.pop(name) if name in changes else getattr(record, name) for name in names}, **changes
        )

    def asdict(record: Any) -> dict[str, Any]:
        """The values of a record by name, records within it too."""
        return {name: _plain(getattr(record, name)) for name in _declared(type(record))}


def _plain(value: Any) -> Any:
    kind = type(value)
    if hasattr(kind, "__record__"):
        return asdict(value)
    if kind in (list, tuple):
        return kind(_plain(one) for one in value)
    if kind is dict:
        return {_plain(key): _plain(one) for key, one in value.items()}
    if kind in (str, int, float, bool, type(None)):
        return value
    from copy import deepcopy

    return deepcopy(value)


def _declared(cls: type) -> dict[str, _Field]:
    """The fields of a class by name, in the order they are declared."""
    try:
        return cls.__record__  # type: ignore[attr-defined, no-any-return]
    except AttributeError:
        raise TypeError(f"{cls.__name__} is no record") from None


def _made(cls: type, frozen: bool = False, slots: bool = False, kw_only: bool = False, eq: bool = True) -> type:
    declared: dict[str, _Field] = {}
    for base in reversed(cls.__mro__[1:]):
        declared.update(base.__dict__.get("__record__", {}))
    for name, kind in cls.__annotations__.items():
        if not str(kind).startswith("ClassVar"):
            declared[name] = _own(cls, name, kind, kw_only)
    if slots:
        cls = _slotted(cls, declared)
    names = tuple(declared)
    compared = _values(tuple(name for name, one in declared.items() if one.compare))
    shared: dict[str, Any] = {"__init__": _init(cls, declared, frozen), "__repr__": _repr}
    if eq:
        shared |= {"__eq__": _equal(compared), "__hash__": (lambda self: hash(compared(self))) if frozen else None}
    if frozen:
        shared |= {"__setattr__": _refused, "__delattr__": _refused}
        if slots:
            shared |= {"__getstate__": _state, "__setstate__": _restored}
    shared["__match_args__"] = tuple(name for name in names if not declared[name].kw_only)
    for name, one in shared.items():
        if name not in cls.__dict__ or (name == "__hash__" and cls.__dict__[name] is None):
            setattr(cls, name, one)
    cls.__record__ = declared  # type: ignore[attr-defined]
    cls.__dataclass_fields__ = _Standard()  # type: ignore[attr-defined]
    return cls


def _own(cls: type, name: str, kind: object, kw_only: bool) -> _Field:
    """A field that the class itself declares; only a plain default stays in the class."""
    said = cls.__dict__.get(name, _MISSING)
    one = said if isinstance(said, _Field) else _Field(default=said)
    one.name, one.type, one.kw_only = name, str(kind), kw_only or one.kw_only
    if one is said:
        if one.default is _MISSING:
            delattr(cls, name)
        else:
            setattr(cls, name, one.default)
    return one


def _slotted(cls: type, declared: dict[str, _Field]) -> type:
    """The class again, with room for its fields and no more; what its bases have room for is not had twice."""
    had = {slot for base in cls.__mro__[1:] for slot in base.__dict__.get("__slots__", ())}
    body = {k: v for k, v in cls.__dict__.items() if k not in declared and k not in ("__dict__", "__weakref__")}
    body["__slots__"] = tuple(name for name in declared if name not in had)
    made = type(cls)(cls.__name__, cls.__bases__, body)
    made.__qualname__ = cls.__qualname__
    return made


def _init(cls: type, declared: dict[str, _Field], frozen: bool) -> Callable[..., None]:
    """Sets every field; a call that is not plain, or one of many, is left to the compiled function."""
    by_place = tuple(name for name, one in declared.items() if not one.kw_only)
    defaults = {name: one.default for name, one in declared.items() if one.default is not _MISSING}
    makers = {name: one.default_factory for name, one in declared.items() if one.default_factory is not _MISSING}
    after, left, put = hasattr(cls, "__post_init__"), [_PATIENCE], object.__setattr__

    def __init__(self: Any, *args: Any, **kwargs: Any) -> None:
        left[0] -= 1
        given = dict(zip(by_place, args, strict=False), **kwargs) if args else kwargs
        values = {**defaults, **given}
        for name, make in makers.items():
            if name not in values:
                values[name] = make()
        plain = len(given) == len(args) + len(kwargs) and values.keys() == declared.keys()
        if left[0] < 0 or not plain:
            written = _written_init(cls, declared, frozen)
            if cls.__init__ is __init__:  # type: ignore[misc]
                cls.__init__ = written  # type: ignore[misc]
            written(self, *args, **kwargs)
            return
        for name in declared:
            put(self, name, values[name])
        if after:
            self.__post_init__()

    return __init__


def _written_init(cls: type, declared: dict[str, _Field], frozen: bool) -> Callable[..., None]:
    """The one function that is compiled: it sets every field, and calls `__post_init__` if there is one."""
    asked: list[str] = []
    keywords: list[str] = []
    lines: list[str] = []
    known: dict[str, Any] = {"_set": object.__setattr__, "_missing": _MISSING}
    for name, one in declared.items():
        default, value = "", name
        if one.default_factory is not _MISSING:
            known[f"_{name}"] = one.default_factory
            default, value = "=_missing", f"_{name}() if {name} is _missing else {name}"
        elif one.default is not _MISSING:
            known[f"_{name}"] = one.default
            default = f"=_{name}"
        (keywords if one.kw_only else asked).append(name + default)
        lines.append(f" _set(self, {name!r}, {value})" if frozen else f" self.{name} = {value}")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    head = ", ".join(["self", *asked, *(["*", *keywords] if keywords else [])])
    exec(f"def __init__({head}):\n" + "\n".join(lines or [" pass"]), known)
    written: Callable[..., None] = known["__init__"]
    written.__qualname__ = f"{cls.__qualname__}.__init__"
    return written


def _values(names: tuple[str, ...]) -> Callable[[object], Any]:
    """What gives the values of some fields at once."""
    return attrgetter(*names) if names else lambda _: ()


def _equal(values: Callable[[object], Any]) -> Callable[[Any, object], Any]:
    def __eq__(self: Any, other: object) -> Any:
        if other.__class__ is not self.__class__:
            return NotImplemented
        return values(self) == values(other)

    return __eq__


def _repr(self: Any) -> str:
    shown = ", ".join(f"{name}={getattr(self, name)!r}" for name, one in _declared(type(self)).items() if one.repr)
    return f"{type(self).__qualname__}({shown})"


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in _declared(type(self))]


def _restored(self: Any, state: list[Any]) -> None:
    for name, value in zip(_declared(type(self)), state, strict=True):
        object.__setattr__(self, name, value)


def _refused(self: object, name: str, value: object = None) -> None:
    from dataclasses import FrozenInstanceError

    raise FrozenInstanceError(f"cannot change {name!r}: a record stays as it was made")
