"""A part of the shop in one short line: a dial as `2 x 100`, end mills as `3 x 8; 6 x 13 x 4 carbide`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from engine.base.declare import asks, is_empty
from engine.base.kinds import Ask
from engine.base.refusals import BadInput
from engine.base.tables import rows

_TIMES = r"\s*(?<![a-z])[x×](?![a-z])\s*"


@cache
def _form(model: type) -> dict[str, str]:
    return next(row for row in rows("shop/lines.csv") if row["part"] == model.__name__)


def order(model: type) -> tuple[str, ...]:
    """The answers of a part that stand in its line.

    >>> from engine.shop.model import Blade
    >>> order(Blade)
    ('width', 'reach')
    """
    return tuple(_form(model)["order"].split())


def example(model: type, unit: str) -> str:
    """How a line of it is written on a bench in `mm` or `inch`."""
    return _form(model)["inch" if unit == "inch" else "metric"]


def written(part: Mapping[str, Any], model: type, as_typed: Any = str) -> str:
    """A part of a file as its line; what it does not say is left out at the end.

    >>> from engine.shop.model import EndMill
    >>> written({"diameter": 3, "flute_length": 8, "material": "carbide"}, EndMill)
    '3 x 8 carbide'
    """
    questions, between = asks(model), _form(model)["between"]
    words = [as_typed(part[n]) for n in order(model) if n in part and questions[n].choices]
    numbers = [as_typed(part[n]) if n in part else "" for n in order(model) if not questions[n].choices]
    while numbers and not numbers[-1]:
        numbers.pop()
    joined = (" x " if between == "x" else ": ").join(n or "?" for n in numbers)
    first = [n for n in order(model) if n in part or not questions[n].choices][:1]
    leads = bool(first) and bool(questions[first[0]].choices)
    return " ".join(filter(None, [*words, joined] if leads else [joined, *words]))


def understood(line: str, model: type, unit: str) -> dict[str, str]:
    """What one line says of a part, by name, each answer checked; BadInput says which cannot be.

    >>> from engine.shop.model import EndMill, Slide
    >>> understood("0.1 x 100", Slide, "inch")
    {'travel_per_turn': '0.1', 'divisions': '100'}
    >>> understood("6 x 13 x 4 carbide", EndMill, "mm")
    {'material': 'carbide', 'diameter': '6', 'flute_length': '13', 'flutes': '4'}
    """
    questions = {name: asks(model)[name] for name in order(model)}
    said: dict[str, str] = {}
    for name, ask in questions.items():
        for word in sorted(ask.choices, key=len, reverse=True):
            bare = re.sub(rf"(?i)(?<![\w-]){re.escape(word)}(?![\w-])", " x ", line, count=1)
            if bare != line:
                said[name], line = word, bare
                break
    plain = [name for name, ask in questions.items() if not ask.choices]
    pieces = [piece for piece in map(str.strip, re.split(_between(model, questions), line.strip())) if piece]
    if len(pieces) > len(plain):
        raise _not_so(line, model, unit, questions)
    for name, piece in zip(plain, pieces, strict=False):
        if piece != "?":
            _checked(questions[name], piece, unit)
            said[name] = piece
    for name, ask in questions.items():
        if ask.required and name not in said:
            raise _not_so(line, model, unit, questions)
    return said


def several(typed: str) -> list[str]:
    """The entries of a line of several parts."""
    return [entry.strip() for entry in typed.split(";") if not is_empty(entry)]


def _between(model: type, questions: Mapping[str, Ask]) -> str:
    """What parts the numbers of a line: a comma too, unless one of them is a list itself."""
    if _form(model)["between"] == ":":
        return r"\s*:\s*"
    kinds = {ask.kind for ask in questions.values()}
    if "thread" in kinds:  # M8x1 is one thread
        return r"\s+[x×]\s+|,\s+"
    return _TIMES if kinds & {"counts", "drills", "groups"} else _TIMES + r"|,\s+"


def _checked(ask: Ask, piece: str, unit: str) -> None:
    """Read an answer; a refusal names it by its label."""
    ask.read(ask.label.lower(), piece, unit)


def _not_so(line: str, model: type, unit: str, questions: Mapping[str, Ask]) -> BadInput:
    said = " x ".join(ask.label.lower() for ask in questions.values())
    shown = line.strip()[:40] or "nothing"
    what = f"{said}, such as {example(model, unit)}"
    return BadInput("line", shown, what, f"{shown} cannot be used; accepted: {what}.")
