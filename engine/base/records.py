"""Frozen dataclasses that cost little to declare: the first answer of the program waits for some fifty of them.

The standard decorator writes and compiles seven functions for each class, half the time of a start. Here comparing,
hashing and showing are shared, and `__init__` is written when the first record of a class is made. What is made is a
dataclass like any other: `fields`, `replace`, `asdict` and `match` work on it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(cls: type | None = None, /, **options: bool) -> Any:
        """As the standard decorator; a frozen class is made as this module says."""
        if cls is None:
            return lambda named: dataclass(named, **options)
        if not options.pop("frozen", False):
            return dataclasses.dataclass(cls, **options)
        return _frozen(cls, options)


def _frozen(cls: type, options: dict[str, bool]) -> type:
    own = vars(cls)
    said, cls.__doc__ = cls.__doc__, cls.__doc__ or cls.__name__  # else the signature is worked out for it
    made: type[Any] = dataclasses.dataclass(cls, init=False, repr=False, eq=False, **options)
    made.__doc__ = said
    fields = dataclasses.fields(made)
    names = tuple(field.name for field in fields)
    compared = _values(tuple(field.name for field in fields if field.compare))
    shared: dict[str, Callable[..., Any]] = {
        "__init__": _init_when_needed(made),
        "__eq__": _equal(compared),
        "__hash__": lambda self: hash(compared(self)),
        "__repr__": _shown(tuple(field.name for field in fields if field.repr)),
        "__setattr__": _refused,
        "__delattr__": _refused,
        "__getstate__": _state(names),
        "__setstate__": _restored(names),
    }
    for name, function in shared.items():
        if name not in own:
            setattr(made, name, function)
    return made


def _init_when_needed(made: type) -> Callable[..., None]:
    def __init__(self: object, *args: Any, **kwargs: Any) -> None:
        written = _written_init(made)
        made.__init__ = written  # type: ignore[misc]
        written(self, *args, **kwargs)

    return __init__


def _written_init(made: type) -> Callable[..., None]:
    """The one function that is compiled: it sets every field, and calls `__post_init__` if there is one."""
    asked: list[str] = []
    keywords: list[str] = []
    lines: list[str] = []
    known: dict[str, Any] = {"_set": object.__setattr__, "_missing": dataclasses.MISSING}
    for field in dataclasses.fields(made):
        name, default = field.name, ""
        value = name
        if field.default_factory is not dataclasses.MISSING:
            known[f"_{name}"] = field.default_factory
            default, value = "=_missing", f"_{name}() if {name} is _missing else {name}"
        elif field.default is not dataclasses.MISSING:
            known[f"_{name}"] = field.default
            default = f"=_{name}"
        (keywords if field.kw_only else asked).append(name + default)
        lines.append(f" _set(self, {name!r}, {value})")
    if hasattr(made, "__post_init__"):
        lines.append(" self.__post_init__()")
    head = ", ".join(["self", *asked, *(["*", *keywords] if keywords else [])])
    exec(f"def __init__({head}):\n" + "\n".join(lines or [" pass"]), known)
    written: Callable[..., None] = known["__init__"]
    written.__qualname__ = f"{made.__qualname__}.__init__"
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


def _shown(names: tuple[str, ...]) -> Callable[[object], str]:
    def __repr__(self: object) -> str:
        shown = ", ".join(f"{name}={getattr(self, name)!r}" for name in names)
        return f"{type(self).__qualname__}({shown})"

    return __repr__


def _state(names: tuple[str, ...]) -> Callable[[object], list[Any]]:
    return lambda self: [getattr(self, name) for name in names]


def _restored(names: tuple[str, ...]) -> Callable[[object, list[Any]], None]:
    def __setstate__(self: object, state: list[Any]) -> None:
        for name, value in zip(names, state, strict=True):
            object.__setattr__(self, name, value)

    return __setstate__


def _refused(self: object, name: str, value: object = None) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot change {name!r}: a record stays as it was made")
