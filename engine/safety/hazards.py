"""The kinds of work that cautions belong to. An operation names its own in `Operation.hazards`, the most particular
first; a look-up, where nothing is done, names none."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from engine.base.tables import rows


@cache
def every_hazard() -> dict[str, str]:
    """Every kind of work by its tag, and what it is."""
    return {row["tag"]: row["what"] for row in rows("safety/hazards.csv")}


# A piece held one way is not held the others: kinds of work that belong to a way of holding, and how it is named.
BY_HOLD = {"soldering": ("solder",), "adhesive": ("retain", "glue"), "pressing": ("press", "stake")}


def done_here(tags: Iterable[str], hold: str = "", *, tight: bool = True) -> tuple[str, ...]:
    """The kinds of work that are really done, each once: those of another way to hold the piece fall away, and pressing
    where nothing can be tight.

    >>> done_here(("pressing", "soldering", "drilling"), "press stake")
    ('pressing', 'drilling')
    """
    known = dict.fromkeys(tag for tag in tags if tag in every_hazard() and (tight or tag != "pressing"))
    return tuple(tag for tag in known if not hold or any(way in hold for way in BY_HOLD.get(tag, (hold,))))
