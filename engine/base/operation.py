"""An operation: declared once, reached through a pane, a line at the shell, or a step of a recipe."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer, Caution
from engine.base.declare import read
from engine.base.records import dataclass, field
from engine.base.rounding import Side
from engine.base.words import Text, say, shown
from engine.shop.model import Shop
from engine.situation import Machine, Situation

if TYPE_CHECKING:
    from engine.safety.told import Told


@dataclass(frozen=True, slots=True)
class Operation:
    """One calculation of the bench, declared once, in a file of its own.

    `pane`, `place`, `title` and `words` list it (engine/base/register.py); `machine` is where it is done ("" where
    nothing turns), `hazards` are the kinds of work whose cautions apply (engine/safety/hazards.py).
    `tool` is what is taken in hand for it, with figures of the answer in braces; "" where that hangs on the work.
    `work` gets the inputs and the shop; it raises BadInput for what cannot be worked.
    `troubles` name the rows of engine/data/trouble/troubles.csv that belong to it, each with the function that says the
    number that tells: it gets inputs, answer and shop, and gives a Text ("" where it lacks what that takes), or None.
    `example` are inputs that answer on the metric sample shop: help shows them, tests run them.
    """

    id: str
    inputs: type
    work: Callable[[Any, Shop], Answer]
    hazards: tuple[str, ...]
    example: Mapping[str, str]
    help: str = ""
    pane: str = ""
    place: int = 0
    title: str = ""
    words: str = ""
    machine: Machine = ""
    tool: str = ""
    troubles: Mapping[str, Callable[[Any, Answer, Shop], Text] | None] = field(default_factory=dict)


def tells(template: str, *, decimals: int | None = None, side: Side = "nearest") -> Callable[[Any, Answer, Shop], Text]:
    """The number that tells of a trouble: a template with figures of the answer in its braces, "" where one is missing."""
    names = re.findall(r"{(\w+)}", template)

    def told(inputs: Any, answer: Answer, shop: Shop) -> Text:
        if not all(map(answer.has, names)):
            return ""
        found = {name: answer.figure(name) for name in names}
        parts = {name: shown(f.value or 0.0, f.dimension, decimals=decimals, side=side) for name, f in found.items()}
        return say(template, **parts)

    return told


@dataclass(frozen=True, slots=True)
class Done:
    """An operation worked out: what it was told and what it answered, cautions included."""

    operation: Operation
    inputs: Any
    answer: Answer
    told: Mapping[str, bool | Told] = field(default_factory=dict)
    moment: Situation = Situation()  # the first, with what the set-up says of it
    answered: tuple[tuple[Caution, bool], ...] = ()  # questions of the cautions, with the answers that hold
    unit: str = "mm"  # what it was asked in, and is shown in where nothing else is said

    def _repr_html_(self) -> str:
        """The answer as a notebook shows it."""
        from engine.base.notebook import as_html

        return as_html(self)


def run(
    operation_id: str, given: Mapping[str, object], shop: Shop, *, unit: str = "mm",
    told: Mapping[str, bool | Told] | None = None, known: Situation | None = None, set_up: str = "",
) -> Done:  # fmt: skip
    """Work an operation out and put its cautions in.

    `given` is input name to text, or to a number in engine units; `unit` what a bare number in a text is in. `told` are
    the answers given to questions that cautions asked, `known` what the set-up, the part and earlier steps say of the
    moment, `set_up` the holding that answers belong to. BadInput if an input cannot be used or there is no such
    operation.

    >>> from engine.shop.file import sample
    >>> done = run("hand-dial", {"distance": "17.35", "per_turn": "2", "divisions": "100"}, sample("metric"))
    >>> done.answer.figure("turns").value, done.answer.figure("reading").value
    (8, 1.36)
    """
    from engine.base.register import load
    from engine.safety import choose

    operation = load(operation_id)
    inputs: Any = read(operation.inputs, given, unit=unit, shop=shop)
    answer = operation.work(inputs, shop)
    answers = told or {}
    chosen = choose(operation, answer, shop, answers, known, set_up)
    with_cautions = answer.with_cautions(chosen.cautions)
    return Done(operation, inputs, with_cautions, answers, chosen.moment, chosen.answered, unit)
