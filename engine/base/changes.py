"""Figures that moved between versions, by how much, and why: a machinist who noted a number must be able to find out."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.tables import rows

TABLE = "changes.csv"


@dataclass(frozen=True, slots=True)
class Change:
    """One figure of one operation: what it was, what it is, and the reason, since a version."""

    version: str
    operation: str
    figure: str
    before: str
    after: str
    why: str


def changes(operation: str = "") -> tuple[Change, ...]:
    """Every change, or those of one operation; in the order of operations, as they were written down.

    >>> changes("three-wires")[0].figure
    'over_wires_basic of M10, wire 0.895'
    """
    found = [Change(*row.values()) for row in rows(TABLE)]
    order = list(dict.fromkeys(one.operation for one in found))
    found.sort(key=lambda one: (one.version, order.index(one.operation)))
    return tuple(one for one in found if operation in ("", one.operation))
