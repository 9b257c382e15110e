"""What goes wrong with the open operation and what to check first, with the number that tells where one can be worked.

The rows are engine/data/trouble/troubles.csv; a row's `number` names a function of engine/trouble/numbers.py.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer
from engine.base.tables import rows
from engine.base.words import Text

if TYPE_CHECKING:
    from engine.shop.model import Shop

TABLE = "trouble/troubles.csv"


@dataclass(frozen=True, slots=True)
class Trouble:
    """One fault: what is seen, a likely cause, what to check first, the number that tells, and who says so."""

    id: str
    symptom: str
    cause: str
    check_first: str
    number: Text
    source: str


@cache
def _by_operation() -> dict[str, tuple[dict[str, str], ...]]:
    found: dict[str, list[dict[str, str]]] = {}
    for row in rows(TABLE):
        for operation_id in row["operations"].split():
            found.setdefault(operation_id, []).append(row)
    return {operation_id: tuple(every) for operation_id, every in found.items()}


def trouble_for(
    operation_id: str, answer: Answer, inputs: Any, shop: Shop | None, unit: str = "mm"
) -> tuple[Trouble, ...]:
    """What goes wrong with an operation, the causes that this answer can put a number to first.

    Parameters
    ----------
    operation_id : str
        Such as `part-off`.
    answer : Answer
        Its figures.
    inputs : object
        Its inputs as read.
    shop : Shop or None
        What this person owns.
    unit : str
        `mm` or `inch`: what lengths in the numbers are written in.

    Returns
    -------
    troubles : tuple of Trouble
        Faults of one symptom stand together; empty for an operation that has none.

    Sources
    -------
    Each trouble carries its own.

    Examples
    --------
    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> done = run("part-off", {"diameter": "20"}, shop)
    >>> trouble_for("part-off", done.answer, done.inputs, shop)[0].symptom
    'Chatter when parting'
    """
    from engine.base.register import load
    from engine.trouble.facts import Facts
    from engine.trouble.numbers import NUMBERS

    declared = load(operation_id).troubles
    if declared:
        return _declared(declared, answer, inputs, shop)
    figures = {figure.name: figure for figure in answer.figures}
    facts = Facts(inputs, figures, shop, {}, operation_id, unit, answer)
    found = []
    for row in _by_operation().get(operation_id, ()):
        number = NUMBERS[row["number"]](facts) if row["number"] else ""
        found.append(
            Trouble(row["id"], row["symptom"], row["cause"], row["check_first"], number, row["source"])
        )
    return _in_order(found)


def _in_order(found: list[Trouble]) -> tuple[Trouble, ...]:
    symptoms = list(dict.fromkeys(trouble.symptom for trouble in found))
    return tuple(sorted(found, key=lambda t: (symptoms.index(t.symptom), not t.number)))


@cache
def _rows() -> dict[str, dict[str, str]]:
    return {row["id"]: row for row in rows(TABLE)}


def _declared(
    troubles: Mapping[str, Callable[[Any, Answer, Shop], Text] | None],
    answer: Answer,
    inputs: Any,
    shop: Shop | None,
) -> tuple[Trouble, ...]:
    """The rows that an operation declares, with the numbers that its own functions say."""
    found = []
    for name, number in troubles.items():
        row = _rows()[name]
        said = number(inputs, answer, shop) if number is not None and shop is not None else ""
        found.append(Trouble(name, row["symptom"], row["cause"], row["check_first"], said, row["source"]))
    return _in_order(found)
