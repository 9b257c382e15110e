"""What of an operation is counted by the pedal: its lines, holes, passes and pecks, the turns of a tap, the punches, and
the dry run before any of it.
"""

from __future__ import annotations

from typing import Any

from engine.base.answer import Answer
from engine.base.records import dataclass

DRY, STAMPS = "dry_run", "numbers"
_MOST = 1000  # rows that a step by hand may count
DRY_WORDS = (
    "The cutter clear of the work: nothing is cut. Make every move as it will be made.",
    "The last comes back to where the first began; if not, find out why first.",
)
STAMP_WORDS = ("The punch in its guide, solid metal under the blow; each figure once.",)


@dataclass(frozen=True, slots=True)
class Counted:
    """A step of an operation: what it adds to the title, its words, and the keys of a recipe that count it."""

    suffix: str
    title: str
    do: tuple[str, ...]
    keys: dict[str, Any]


def keys_of(answer: Answer) -> dict[str, Any]:
    """How the work of an answer itself is counted: a table by its rows, a tap by its turns; nothing where it is not.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> keys_of(run("tap-drill", {"size": "M10", "depth": "17"}, sample("metric")).answer)
    {'counts': {'noun': 'turn', 'rows': 14}}
    >>> keys_of(run("hole-circle", {"holes": "5", "diameter": "40"}, sample("metric")).answer)
    {'count': 'holes'}
    """
    tables = [table.name for table in answer.tables if table.count_noun and table.rows]
    own = [name for name in tables if name not in (DRY, STAMPS)]
    if "peck_depths" in own:
        return {"count": "peck_depths"}
    if own:
        return {"count": own[0]}
    turns = answer.figure("tap_turns").value if answer.has("tap_turns") else None
    if isinstance(turns, int) and 1 < turns <= _MOST:
        return {"counts": {"noun": "turn", "rows": turns}}
    return {}


def steps_of(answer: Answer) -> tuple[Counted, ...]:
    """The steps that an operation comes to in a job: dry first where it goes round, then the work, then the punches."""
    work = keys_of(answer)
    names = {table.name for table in answer.tables if table.rows}
    before = Counted("-dry", "Dry run: {title}", DRY_WORDS, {"count": DRY, "planning": True})
    after = Counted("-stamp", "Stamp: {title}", STAMP_WORDS, {"count": STAMPS, "hazards": ["graduating"]})
    found = [Counted("", "{title}", (), work)]
    if work.get("count") in names and DRY in names:
        found.insert(0, before)
    if work.get("count") in names and STAMPS in names:
        found.append(after)
    return tuple(found)
