"""Mending the jobs' file from its second record: what is lost is put back, what is changed is written as it was.

Nothing is mended in silence, and the file as it was found is kept beside it.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from pathlib import Path

from engine.base.records import dataclass
from engine.base.words import counted
from engine.jobs import ledger, store
from engine.jobs.ledger import Entry, Record
from engine.jobs.progress import DAMAGED

_CHANGED = -1  # no check sum is below 0
_EVENT = ", ".join(store.EVENT)


@dataclass(frozen=True, slots=True)
class Harm:
    """What is wrong with the file: entries and jobs that were changed, and what the second record knows beyond it."""

    entries: tuple[tuple[int, int], ...]
    jobs: tuple[int, ...]
    lost: tuple[Entry, ...]
    lost_jobs: tuple[int, ...]
    gaps: tuple[tuple[int, int], ...]

    @property
    def any(self) -> bool:
        """Whether there is anything wrong."""
        return bool(self.entries or self.jobs or self.lost or self.lost_jobs or self.gaps)


def mended(path: Path, database: sqlite3.Connection, *, copied: bool) -> str:
    """Mend the file; return what there was to mend, in words, or nothing. `copied`: it was set aside as it was found."""
    record = ledger.read(path)
    harm = _harm(database, record)
    if not harm.any:
        order = [row[0] for row in database.execute("SELECT id FROM job ORDER BY turn DESC, id DESC")]
        ledger.shortened(path, record, order)
        return ""
    kept = [] if copied else [f"The file as it was found is kept as {store.copied_aside(path)}."]
    with store.transaction(database), store.unlocked(database):
        said = [*_jobs_back(database, harm, record), *_entries_back(database, harm, record)]
    store.settled(database)
    return " ".join([*said, *kept])


def _harm(database: sqlite3.Connection, record: Record) -> Harm:
    entries, jobs, gaps = [], [], []
    newest: dict[int, int] = {}
    for row in database.execute(f"SELECT {_EVENT}, crc FROM event ORDER BY job, seq"):
        job, seq = row[0], row[1]
        gaps += [(job, between) for between in range(newest.get(job, 0) + 1, min(seq, newest.get(job, 0) + 1000))]
        newest[job] = seq
        if row[-1] != store.check_sum(tuple(row)[:-1]):
            entries.append((job, seq))
    known = set()
    for row in database.execute(f"SELECT {', '.join(store.KEPT)}, id, crc FROM job"):
        known.add(row["id"])
        # This sum stands for a job that was found changed before: it is told when it is taken up.
        if row["crc"] != _CHANGED and row["crc"] != store.check_sum(tuple(row)[:-2]):
            jobs.append(row["id"])
    shown = record.newest()
    lost = [one for job, one in shown.items() if one.seq > newest.get(job, 0) and (job in known or job in record.begun)]
    lost_jobs = [job for job in shown if job not in known]
    return Harm(tuple(entries), tuple(jobs), tuple(lost), tuple(lost_jobs), tuple(gaps))


def _jobs_back(database: sqlite3.Connection, harm: Harm, record: Record) -> Iterable[str]:
    """Jobs that are gone or changed, as they were begun."""
    names = ", ".join(store.KEPT)
    for job in (*harm.lost_jobs, *harm.jobs):
        if job not in record.begun:
            continue
        values = record.begun[job].values
        database.execute(
            f"INSERT INTO job (id, {names}, crc) VALUES ({', '.join('?' * (len(values) + 2))})"
            f" ON CONFLICT (id) DO UPDATE SET ({names}, crc) = ({', '.join('?' * (len(values) + 1))})",
            (job, *values, store.check_sum(values), *values, store.check_sum(values)),
        )
    unknown = [job for job in harm.jobs if job not in record.begun]
    database.executemany("UPDATE job SET crc = ? WHERE id = ?", [(_CHANGED, job) for job in unknown])
    back = len(harm.jobs) + len(harm.lost_jobs) - len(unknown)
    gone = [record.newest()[job].title for job in harm.lost_jobs if job not in record.begun]
    back -= len(gone)
    if back:
        yield f"The disk had changed or lost {counted(back, 'job')}: put back from the second record."
    if gone:
        yield f"The disk has lost the jobs {', '.join(gone[:3])}."
    if unknown:
        yield f"The disk has changed what was kept of {counted(len(unknown), 'job')}: it is said where it is taken up."


def _entries_back(database: sqlite3.Connection, harm: Harm, record: Record) -> Iterable[str]:
    """Entries that are gone or changed, as they were made; one of which nothing is known says that it was changed."""
    put, dark = 0, 0
    jobs = {row[0] for row in database.execute("SELECT id FROM job")}
    for job, seq in (*harm.entries, *harm.gaps):
        if job not in jobs:  # the disk has changed the number of its job
            database.execute("DELETE FROM event WHERE job = ? AND seq = ?", (job, seq))
            dark += 1
            continue
        known = record.entries.get((job, seq))
        row = (job, seq, known.at, known.kind, known.step, known.row, known.data) if known else (
            job, seq, "", DAMAGED, 0, 0, "{}")  # fmt: skip
        put, dark = put + bool(known), dark + (not known)
        database.execute(
            f"INSERT INTO event ({_EVENT}, crc) VALUES (?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (job, seq) DO UPDATE"
            " SET (at, kind, step, row, data, crc) = (?, ?, ?, ?, ?, ?)",
            (*row, store.check_sum(row), *row[2:], store.check_sum(row)),
        )
    if put:
        yield f"The disk had changed or lost {counted(put, 'entry', 'entries')} of the jobs: put right from the second record."
    if dark:
        yield f"The disk has changed or lost {counted(dark, 'entry', 'entries')} of the jobs: check where they stand."
    for newest in harm.lost:
        yield _put_back(database, newest, record)


def _put_back(database: sqlite3.Connection, newest: Entry, record: Record) -> str:
    """The entries of a job that the file has lost, as far as the record has every one of them."""
    job = newest.job
    last = database.execute("SELECT coalesce(max(seq), 0) FROM event WHERE job = ?", (job,)).fetchone()[0]
    missing = record.after(job, last)
    told = f"The file knew less than was shown: {newest.title} had come to {newest.where}"
    if not missing or missing[-1].seq != newest.seq:
        return f"{told}. Check where it stands."
    for one in missing:
        row = (one.job, one.seq, one.at, one.kind, one.step, one.row, one.data)
        store.put(database, "INSERT OR IGNORE INTO event", store.EVENT, row)
    return f"{told}; {counted(len(missing), 'entry', 'entries')} put back."
