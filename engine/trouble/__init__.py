"""What goes wrong with the open operation and what to check first, with the number that tells where one can be worked.

The rows are engine/data/trouble/troubles.csv; an operation's declaration names those that belong to it, each with the
function that says its number.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from engine.base.answer import Answer
from engine.base.records import dataclass
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
def _rows() -> dict[str, dict[str, str]]:
    return {row["id"]: row for row in rows(TABLE)}


def trouble_for(operation_id: str, answer: Answer, inputs: Any, shop: Shop | None) -> tuple[Trouble, ...]:
    """What goes wrong with an operation: faults of one symptom together, the causes that this answer can put a number to
    first.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> done = run("part-off", {"diameter": "20"}, shop)
    >>> trouble_for("part-off", done.answer, done.inputs, shop)[0].symptom
    'Chatter when parting'
    """
    from engine.base.register import load

    found = []
    for name, number in load(operation_id).troubles.items():
        row = _rows()[name]
        said = number(inputs, answer, shop) if number is not None and shop is not None else ""
        found.append(Trouble(name, row["symptom"], row["cause"], row["check_first"], said, row["source"]))
    symptoms = list(dict.fromkeys(trouble.symptom for trouble in found))
    return tuple(sorted(found, key=lambda t: (symptoms.index(t.symptom), not t.number)))
