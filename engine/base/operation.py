"""An operation: declared once, reached through a pane, a line at the shell, or a step of a recipe."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from engine.base.answer import Answer
from engine.base.declare import read
from engine.base.refusals import OutOfRange
from engine.shop.model import Shop


@dataclass(frozen=True, slots=True)
class Operation:
    """One calculation of the bench.

    `work` gets the inputs model and the shop; it raises BadInput for what cannot be worked.
    `hazards` are the kinds of work whose cautions apply (the `operations` column of engine/safety).
    `example` are inputs that answer on the metric sample shop: help shows them, tests run them.
    """

    id: str
    inputs: type
    work: Callable[[Any, Shop], Answer]
    hazards: tuple[str, ...]
    example: Mapping[str, str]
    help: str = ""


@dataclass(frozen=True, slots=True)
class Done:
    """An operation worked out: what it was told and what it answered, cautions included."""

    operation: Operation
    inputs: Any
    answer: Answer
    told: Mapping[str, bool] = field(default_factory=dict)


def run(
    operation_id: str,
    given: Mapping[str, object],
    shop: Shop,
    *,
    unit: str = "mm",
    told: Mapping[str, bool] | None = None,
    shown_in: str | None = None,
) -> Done:
    """Work an operation out and put its cautions in.

    Parameters
    ----------
    operation_id : str
        Such as `tap-drill`.
    given : mapping
        Input name to text, or to a number in engine units.
    shop : Shop
        What this person owns.
    unit : str
        What a bare number in a text is in: `mm` or `inch`.
    told : mapping or None
        Answers given to questions that cautions asked: caution id to yes (True) or no.
    shown_in : str or None
        What lengths in notes and cautions are written in, where that is another unit than the inputs'.

    Returns
    -------
    done : Done
        The operation, its inputs as read, and its answer.

    Raises
    ------
    BadInput
        If an input cannot be used, or there is no such operation.

    Sources
    -------
    None: it calls the operation's own function.

    Examples
    --------
    >>> from engine.shop.file import sample
    >>> done = run("hand-dial", {"distance": "17.35", "per_turn": "2", "divisions": "100"}, sample("metric"))
    >>> done.answer.figure("turns").value, done.answer.figure("reading").value
    (8, 1.36)
    """
    from engine.base.register import load
    from engine.safety import cautions_for

    operation = load(operation_id)
    inputs: Any = read(operation.inputs, given, unit=unit, shop=shop)
    shown = shown_in or unit
    # Notes and workings are written in the unit on the screen, whatever unit the shop was described in.
    try:
        answer = operation.work(inputs, shop if shop.unit == shown else replace(shop, unit=shown))
    except OutOfRange as refusal:
        raise refusal.in_unit(shown) from None
    known = told or {}
    cautions = cautions_for(operation, inputs, answer, shop, known, shown)
    return Done(operation, inputs, answer.with_cautions(cautions), known)
