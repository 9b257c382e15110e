"""Which cautions have their harm at the moment of a kind of work: what paper has room for."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from engine.base.tables import rows


@cache
def _table() -> dict[str, tuple[str, ...]]:
    return {row["work"]: tuple(row["cautions"].split()) for row in rows("safety/belonging.csv")}


def belonging(work: Iterable[str]) -> tuple[str, ...] | None:
    """The ids that belong to the first of these kinds of work that is known; None where none is.

    work: a kind of a plan, an operation or a kind of work by hand, what says most first

    Source: engine/data/safety/belonging.csv

    >>> belonging(("knurl", "knurl-passes")), belonging(("measure",)), belonging(("no such work",))
    (('KNU-02',), (), None)
    """
    return next((_table()[one] for one in work if one in _table()), None)
