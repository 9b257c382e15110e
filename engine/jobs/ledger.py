"""A second record beside the jobs' file: a line for each entry, with a check sum, on the disk before the screen says so.

What the disk loses or changes of the file itself is known by it, told, and put back from it. A line that is damaged says
nothing; a record that cannot be written loses no more than itself.
"""

from __future__ import annotations

import json
import os
import zlib
from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any

from engine.base.records import dataclass

LONGEST = 1_000_000  # bytes; a longer record is shortened when the file is opened and found whole
_KEPT_JOBS = 5  # of which a shortened record keeps every entry


@dataclass(frozen=True, slots=True)
class Entry:
    """One entry as the file has it, `data` as its text; `where` is the place of the job behind it in words, `title` the
    job's name."""

    job: int
    seq: int
    at: str
    kind: str
    step: int
    row: int
    data: str
    title: str
    where: str


@dataclass(frozen=True, slots=True)
class Begun:
    """A job as it was begun: its number, and what the file keeps of it, in the order of the file's columns."""

    job: int
    values: tuple[Any, ...]


@dataclass(frozen=True, slots=True)
class Record:
    """All that the record says: `entries` by job and number, `begun` by job."""

    entries: dict[tuple[int, int], Entry]
    begun: dict[int, Begun]

    def newest(self) -> dict[int, Entry]:
        """The newest entry of each job."""
        return {entry.job: entry for _, entry in sorted(self.entries.items())}

    def after(self, job: int, seq: int) -> tuple[Entry, ...]:
        """The entries of a job that follow one of its numbers, as far as none is missing."""
        found = []
        while (job, seq + 1) in self.entries:
            seq += 1
            found.append(self.entries[job, seq])
        return tuple(found)


def path_of(journal: Path) -> Path:
    """Where the second record of a jobs' file is kept.

    >>> path_of(Path("jobs.db")).name
    'jobs.mark'
    """
    return journal.with_suffix(".mark")


def line_of(one: Entry | Begun) -> bytes:
    """An entry, or the beginning of a job, as a line with its check sum.

    >>> line_of(Begun(1, ("Knob",)))
    b'ab418234 ["begun", 1, ["Knob"]]\\n'
    """
    if isinstance(one, Begun):
        said: list[Any] = ["begun", one.job, list(one.values)]
    else:
        said = ["entry", one.job, one.seq, one.at, one.kind, one.step, one.row, one.data, one.title, one.where]
    body = json.dumps(said).encode()
    return b"%08x %s\n" % (zlib.crc32(body), body)


def add(journal: Path, ones: Iterable[Entry | Begun]) -> None:
    """Add lines, on the disk when this returns."""
    path = path_of(journal)
    with suppress(OSError):
        fresh = not path.exists()
        handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o644)
        try:
            os.write(handle, b"\n" + b"".join(map(line_of, ones)))  # what a full disk cut short before ends here
            os.fsync(handle)
        finally:
            os.close(handle)
        if fresh:
            sync_folder(path.parent)


def read(journal: Path) -> Record:
    """What the record says; a line that is damaged or of an older program says nothing."""
    record = Record({}, {})
    try:
        raw = path_of(journal).read_bytes()
    except OSError:
        return record
    for line in raw.split(b"\n"):
        total, _, body = line.partition(b" ")
        if total == b"%08x" % zlib.crc32(body):
            with suppress(ValueError, TypeError, KeyError, IndexError):
                _take(record, json.loads(body))
    return record


def _take(record: Record, said: Sequence[Any]) -> None:
    if said[0] == "begun":
        record.begun[said[1]] = Begun(said[1], tuple(said[2]))
    elif said[0] == "entry":
        entry = Entry(*said[1:])
        record.entries[entry.job, entry.seq] = entry


def shortened(journal: Path, record: Record, working_on: Sequence[int]) -> None:
    """Leave out what lies far back, once a record has grown long: of the jobs worked on last (`working_on`, the newest
    first) every line stays, of the others the newest."""
    path = path_of(journal)
    with suppress(OSError):
        if path.stat().st_size <= LONGEST:
            return
        keep = set(working_on[:_KEPT_JOBS])
        lines: list[Entry | Begun] = [one for job, one in record.begun.items() if job in keep]
        lines += [one for one in record.entries.values() if one.job in keep]
        lines += [one for job, one in record.newest().items() if job not in keep]
        fresh = path.with_suffix(".mark.new")
        with open(fresh, "wb") as file:
            file.write(b"".join(map(line_of, lines)))
            file.flush()
            os.fsync(file.fileno())
        os.replace(fresh, path)
        sync_folder(path.parent)


def sync_folder(folder: Path) -> None:
    """Have the disk keep the names in a folder."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
