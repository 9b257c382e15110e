"""The job that was in hand when the program stopped: what the first screen says of it. No Textual here.

It is looked for in a thread once the first picture stands, and only where jobs have been kept: a start without one loads
nothing for it.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from engine.shop.file import data_folder

if TYPE_CHECKING:
    from engine.jobs.progress import JobLine

_COUNT = re.compile(r", (\S+(?: \S+)? \d+ of \d+)$")
_STEP = re.compile(r"^step \d+ of \d+")


def newest() -> JobLine | None:
    """The job last worked on, if it is not finished and was not put away; it may wait for the disk."""
    return look()[0]


def look() -> tuple[JobLine | None, str]:
    """The same, and what there is to say of the jobs' file: the program that opens it first is the one that is told."""
    if not (data_folder() / "jobs.db").exists():
        return None, ""
    from engine.jobs.journal import Journal
    from engine.jobs.store import JournalError

    try:
        journal = Journal()
        first = next(iter(journal.jobs()), None)
    except JournalError:  # the jobs' own screen says what is wrong with the file
        return None, ""
    return first if first is not None and first.state in ("under way", "left") else None, journal.notice


def says(title: str, part: int, where: str) -> str:
    """What the first screen says.

    >>> says("Height-adjuster nut", 1, "step 12 of 17, Scale lines, line 19 of 30")
    'Under way: Height-adjuster nut, line 19 of 30. Enter goes on.'
    >>> says("Lock knob", 2, "step 3 of 9, Part off")
    'Under way: Lock knob, part 2, step 3 of 9. Enter goes on.'
    """
    count = _COUNT.search(where)
    step = _STEP.match(where)
    place = count[1] if count else step[0] if step else where
    name = f"{title}, part {part}" if part > 1 else title
    return f"Under way: {name}, {place}. Enter goes on."
