"""How far each job was shown to have come, kept beside the jobs' file: a disk that loses a part of that is found out.

SQLite takes back, without a word, every save behind a damaged place of its log. The mark is a small file of its own, so
the program can say what is missing. It is written after the save that it speaks of, and nothing waits for it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import asdict
from pathlib import Path

from engine.base.records import dataclass


@dataclass(frozen=True, slots=True)
class Mark:
    """The newest entry of a job that was on the disk, its title, and where the job then stood."""

    seq: int
    title: str
    where: str


def path_of(journal: Path) -> Path:
    """Where the marks of a jobs' file are kept."""
    return journal.with_suffix(".mark")


def read(journal: Path) -> dict[int, Mark]:
    """The marks by job; none if there is no file, or one that cannot be read."""
    try:
        kept = json.loads(path_of(journal).read_text(encoding="utf-8"))
        return {int(job): Mark(**mark) for job, mark in kept.items()}
    except (OSError, ValueError, TypeError, AttributeError):
        return {}


def write(journal: Path, marks: Mapping[int, Mark]) -> None:
    """Keep the marks; a disk that refuses them loses no more than the mark."""
    path = path_of(journal)
    fresh = path.with_suffix(".mark.new")
    with suppress(OSError):
        fresh.write_text(json.dumps({job: asdict(mark) for job, mark in marks.items()}), encoding="utf-8")
        os.replace(fresh, path)


def missing(marks: Mapping[int, Mark], newest: Mapping[int, int]) -> str:
    """What the file has lost of what was shown, in a sentence; `newest` is each job's newest entry in the file.

    >>> missing({3: Mark(9, "Lock knob", "step 4, pass 2")}, {3: 7})
    'The disk has lost entries of the jobs. Lock knob had come to step 4, pass 2: check where it stands.'
    >>> missing({3: Mark(9, "Lock knob", "step 4, pass 2")}, {3: 9})
    ''
    """
    lost = [mark for job, mark in marks.items() if newest.get(job, 0) < mark.seq]
    if not lost:
        return ""
    words = "; ".join(f"{mark.title} had come to {mark.where}" for mark in lost[:3])
    more = f"; and {len(lost) - 3} more" if len(lost) > 3 else ""
    return f"The disk has lost entries of the jobs. {words}{more}: check where it stands."
