"""Declaring what an operation (or the shop) is told, once; the form, the shell and the recipe all read it.

An inputs model is a frozen, keyword-only dataclass whose fields are made by the functions below:

    @dataclass(frozen=True, slots=True, kw_only=True)
    class HandDialInputs:
        distance: float = length("Distance to move", example="17.35")
        divisions: int = count("Lines on the dial", low=1, from_shop=lambda shop: shop.lathe.cross_slide.divisions)

`read` turns what was typed into the model; `engine.base.models` makes the same declaration a pydantic model, which
finds every mistake of a written file at once. Pydantic is not imported here: it would cost a tenth of a second
before the first number is on the screen.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from keyword import iskeyword
from types import MappingProxyType
from typing import Any, TypeVar

from engine.base import records
from engine.base.kinds import KINDS, Ask
from engine.base.refusals import BadInput

M = TypeVar("M")

_HELP = r"(?m)^ *(\w+): (.+(?:\n {8,}\S.*)*)"


def _field(kind: str, label: str, *, default: Any = None, required: bool | None = None, **more: Any) -> Any:
    if default is not None and default != ():
        more.setdefault("empty", KINDS[kind].default_words(default))
    known = more.get("from_shop") is not None or more.get("empty")
    must = required if required is not None else (default is None and not known)
    ask = Ask(label=label, kind=kind, required=must, **{"help": "", "example": "", **more})
    return records.field(default=default, metadata={"ask": ask})


def _asking(kind: str, says: str, **usual: Any) -> Callable[..., Any]:
    """What declares a question of a kind by its label. Keywords, here and below: default, help, example, low, high,
    from_shop (where an empty answer is taken from), empty (what an empty answer means), required."""

    def ask(label: str, **more: Any) -> Any:
        return _field(kind, label, **{**usual, **more})

    ask.__doc__ = says
    return ask


length = _asking("length", "Ask for a length in millimetres.", dimension="length", low=0.0, high=1e5)
diameter = _asking(
    "diameter", "Ask for a diameter: a length, or a drill's name (`#7`, `F`).", dimension="length", low=0.0, high=1e4
)
angle = _asking("angle", "Ask for an angle in degrees (`24d 30m`, `24.5`, `24° 30'`).", dimension="angle")
number = _asking("number", "Ask for a bare number.", dimension="ratio")
travel = _asking(
    "travel",
    "Ask for an exact travel per turn or lead, as a Fraction of a mm (`2`, `0.1in`, `8 tpi`).",
    dimension="length",
)
count = _asking("count", "Ask for a whole number.", dimension="count", low=0, high=100_000)
text = _asking("text", "Ask for a short line of words.")
flag = _asking("flag", "Ask yes or no.", choices=("yes", "no"))
# `coarse=True` where only the thread's size matters: 1/4 is enough
thread = _asking("thread", "Ask for a thread, in any writing that engine.threads.designation reads.")
material = _asking(
    "material", "Ask for a material by the words people use; gives an engine.cutting.materials.Material."
)
handwheel = _asking(
    "handwheel", "Ask for a handwheel: one of the shop's by name, or travel per turn / lines (`2/100`)."
)
moves = _asking("moves", "Ask for a chain of moves: lengths with commas between, one that goes back with a minus sign.")
pair = _asking("pair", "Ask for a diameter, and a length if it is known: `10 x 40`.", dimension="length")


def quantity(label: str, dimension: str, **more: Any) -> Any:
    """Ask for a number of any other dimension of engine.base.quantity (force, power, speed, temperature)."""
    return _field("quantity", label, **{"dimension": dimension, **more})


def choice(label: str, choices: tuple[str, ...], **more: Any) -> Any:
    """Ask for one of a few words."""
    return _field("choice", label, **{"choices": choices, **more})


def several(kind: str, label: str, **more: Any) -> Any:
    """Ask for a list: kind is counts, groups, lengths, drills, words or speeds (engine.base.lists)."""
    return _field(kind, label, **more)


def part(label: str, of: type, **more: Any) -> Any:
    """A nested model (a lathe in a shop); None when it is not owned."""
    return _field("part", label, **{"required": False, "part": of, **more})


def parts(label: str, of: type, **more: Any) -> Any:
    """Any number of nested models (knurl wheels in a shop)."""
    return _field("part", label, **{"default": (), "required": False, "part": of, "many": True, **more})


@cache
def asks(model: type) -> Mapping[str, Ask]:
    """The questions of a model by name, in the order they are asked; a name that Python keeps for itself is declared
    with an underscore behind it (`from_`), and asked without. What helps to answer one stands in the docstring."""
    helps = {name: text for cls in reversed(model.__mro__) for name, text in _helps(cls.__doc__ or "")}
    found = {
        name: ask if ask.help else records.replace(ask, help=helps.get(name, "")) for name, ask in _bare(model).items()
    }
    return MappingProxyType(found)


@cache
def _bare(model: type) -> dict[str, Ask]:
    """The same without what helps, which takes longer to find than a shop to read."""
    return {field.name.removesuffix("_"): field.metadata["ask"] for field in records.fields(model)}


def _helps(doc: str) -> Iterator[tuple[str, str]]:
    """The lines `name: what helps to answer it` of an inputs model's docstring, the indented lines after one with it."""
    for line in re.finditer(_HELP, doc):
        yield line[1], " ".join(line[2].split())


def told(inputs: object, name: str) -> Any:
    """What a model was told under a question's name."""
    return getattr(inputs, name) if hasattr(inputs, name) else getattr(inputs, f"{name}_")


def _unknown(model: type, given: Mapping[str, object]) -> Iterator[BadInput]:
    known = _bare(model)
    for name in given:
        if name not in known:
            from difflib import get_close_matches

            near = get_close_matches(str(name), known, n=1)
            hint = f" Did you mean {near[0]!r}?" if near else ""
            text = f"{name}: there is no such input.{hint} There are: {', '.join(known)}."
            yield BadInput(str(name), given[name], f"one of {', '.join(known)}", text)


def as_typed(data: Any) -> Any:
    """The numbers of a written file as if typed, so that a bare one is in the file's unit, not the engine's."""
    if isinstance(data, Mapping):
        return {key: as_typed(value) for key, value in data.items()}
    if isinstance(data, list):
        return [as_typed(value) for value in data]
    return repr(data) if isinstance(data, int | float) and not isinstance(data, bool) else data


def is_empty(given: object) -> bool:
    """Whether an answer was left out: None, or text with nothing in it."""
    return given is None or (isinstance(given, str) and not given.strip())


def read(model: type[M], given: Mapping[str, object], *, unit: str = "mm", shop: object = None) -> M:
    """Read what was given into a model: text as typed, a number in engine units, for nested models a mapping or a list of
    them. A bare number in a text is in `unit`; an empty answer takes its default, the shop's value, or None. BadInput for
    the first answer that cannot be used, is missing, or that nobody asked for; `faults` finds them all.

    >>> from engine.indexing.hand_dial import HandDialInputs
    >>> read(HandDialInputs, {"distance": "3/8in", "per_turn": "2", "divisions": "100"}).distance
    9.525
    """
    values: dict[str, Any] = {}
    for fault in _read_into(values, model, given, unit, shop):
        raise fault
    return model(**values)


def faults(model: type, given: Mapping[str, object], *, unit: str = "mm", shop: object = None) -> tuple[BadInput, ...]:
    """Every answer that cannot be used, is missing, or that nobody asked for, in the order they are asked.

    >>> from engine.indexing.hand_dial import HandDialInputs
    >>> [fault.field for fault in faults(HandDialInputs, {"distance": "wide", "lines": "100", "divisions": "0"})]
    ['lines', 'distance', 'per_turn', 'divisions']
    """
    return tuple(_read_into({}, model, given, unit, shop))


def _read_into(
    values: dict[str, Any], model: type, given: Mapping[str, object], unit: str, shop: object
) -> Iterator[BadInput]:
    """Read one answer after the other; each that cannot be read is given back, the others go into `values`."""
    yield from _unknown(model, given)
    for name, ask in _bare(model).items():
        answer = given.get(name)
        try:
            if is_empty(answer):
                value = _when_empty(name, ask, shop)
            elif ask.part is not None:
                value = _read_part(name, ask, answer, unit)
            else:
                value = ask.read(name, answer, unit)
        except BadInput as fault:
            yield fault
            continue
        if value is not None:
            values[f"{name}_" if iskeyword(name) else name] = value


def _when_empty(name: str, ask: Ask, shop: object) -> Any:
    if ask.from_shop is not None and shop is not None:
        try:
            owned = ask.from_shop(shop)
        except AttributeError:  # a part of the shop that this person does not own
            owned = None
        if owned is not None:
            return owned
    if ask.required:
        hint = f" (such as {ask.example})" if ask.example else ""
        raise BadInput(name, "", ask.label.lower() + hint, f"{name}: {ask.label.lower()} is needed{hint}.")
    return None


def _read_part(name: str, ask: Ask, given: object, unit: str) -> Any:
    assert ask.part is not None
    if ask.many:
        if not isinstance(given, list | tuple):
            raise BadInput(name, given, f"a list of {ask.label.lower()}")
        return tuple(_read_one(f"{name} {i}", ask.part, one, unit) for i, one in enumerate(given, 1))
    return _read_one(name, ask.part, given, unit)


def _read_one(name: str, model: type, given: object, unit: str) -> Any:
    if not isinstance(given, Mapping):
        raise BadInput(name, given, "a table of " + ", ".join(_bare(model)))
    try:
        return read(model, given, unit=unit)
    except BadInput as refusal:
        raise BadInput(f"{name}.{refusal.field}", refusal.given, refusal.accepted, f"{name}.{refusal}") from None
