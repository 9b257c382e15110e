"""The SQLite file under the journal: opening it, setting a damaged one aside, and saying what a disk refuses."""

from __future__ import annotations

import fcntl
import json
import os
import shutil
import sqlite3
import tempfile
import time
import zlib
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path
from typing import Any

from engine.base.files import private_folder
from engine.jobs.ledger import sync_folder
from engine.shop.file import data_folder

VERSION = 3
# What is kept of a job when it is started, and never changed.
KEPT = ("title", "recipe_name", "recipe", "shop", "plan", "series", "part", "started")
EVENT = ("job", "seq", "at", "kind", "step", "row", "data")
_TAILS = ("", "-wal", "-shm")  # the file, its log, and the log's index
_WAIT = 5.0  # seconds to wait for another program's save; one takes milliseconds, or a slow card's tenth of a second

# `turn` orders the jobs by when they were worked on, whatever the clock said; `crc` tells what the disk has changed
# since.
_SINCE_2 = (
    "ALTER TABLE job ADD COLUMN turn INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE event ADD COLUMN crc INTEGER",
    "ALTER TABLE job ADD COLUMN crc INTEGER",
)
TRIGGERS = (
    """CREATE TRIGGER event_stays BEFORE UPDATE ON event
    BEGIN SELECT raise(ABORT, 'an event is never changed'); END""",
    """CREATE TRIGGER event_kept BEFORE DELETE ON event
    BEGIN SELECT raise(ABORT, 'an event is never removed'); END""",
)
_TABLES = (
    """CREATE TABLE job (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    title TEXT NOT NULL, recipe_name TEXT NOT NULL, recipe TEXT NOT NULL, shop TEXT NOT NULL,
    plan TEXT NOT NULL, series INTEGER, part INTEGER NOT NULL, started TEXT NOT NULL)""",
    """CREATE TABLE event (
    job INTEGER NOT NULL REFERENCES job (id), seq INTEGER NOT NULL, at TEXT NOT NULL, kind TEXT NOT NULL,
    step INTEGER NOT NULL, row INTEGER NOT NULL, data TEXT NOT NULL,
    PRIMARY KEY (job, seq)) WITHOUT ROWID""",
    *_SINCE_2,
    *TRIGGERS,
)
# Before there were turns, only the clock told which job was worked on last.
_TURNS_BY_TIME = """UPDATE job SET turn = (SELECT count(*) FROM job AS other WHERE
    (SELECT max(at) FROM event WHERE job = other.id) <= (SELECT max(at) FROM event WHERE job = job.id))"""


def check_sum(row: Sequence[object]) -> int:
    """The check sum of a row, to tell what the disk has changed of it.

    >>> check_sum((1, "done")) == check_sum([1, "done"])
    True
    """
    return zlib.crc32(json.dumps(row).encode())


def put(database: sqlite3.Connection, into: str, names: Sequence[str], values: Sequence[object]) -> sqlite3.Cursor:
    """Write a row with its check sum; `into` is the SQL as far as the table's name."""
    marks = ", ".join("?" * (len(names) + 1))
    return database.execute(f"{into} ({', '.join(names)}, crc) VALUES ({marks})", (*values, check_sum(values)))


class JournalError(Exception):
    """The jobs' file cannot be used as asked; `str()` is one sentence, fit to be shown."""


class _Damaged(Exception):
    """A file was damaged and has been set aside, as `aside`; `str()` says so."""

    def __init__(self, aside: Path) -> None:
        self.aside = aside
        super().__init__(f"The file of jobs was damaged. It was set aside as {aside}, and a new one was begun.")


class NotSaved(JournalError):
    """Nothing was saved: the disk is full, read-only, or not there. `path` is the file, `reason` why."""

    def __init__(self, path: Path, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(f"NOT SAVED: {path}: {reason}.")


def default_path() -> Path:
    """Where the jobs of this user are kept, in the data folder (XDG Base Directory Specification 0.8).

    >>> default_path().name
    'jobs.db'
    """
    return data_folder() / "jobs.db"


def identity(path: Path) -> tuple[int, int] | None:
    """Which file stands at a path, by device and inode: to notice when it is replaced under an open database.

    >>> identity(Path("/no/such/file")) is None
    True
    """
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def size(path: Path) -> int:
    """How long a file is; 0 where there is none.

    >>> size(Path("/no/such/file"))
    0
    """
    try:
        return os.stat(path).st_size
    except OSError:
        return 0


def opened(path: Path) -> tuple[sqlite3.Connection, str]:
    """Open the jobs' file, or begin a new one; a damaged one is set aside under another name, and a sentence says so.

    SQLite's write-ahead log keeps each commit whole, full synchronisation makes it last through a power cut. NotSaved if
    the file cannot be made, opened or written; JournalError if a newer program wrote it.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     opened(Path(folder, "jobs.db"))[1]
    ''
    """
    with refusals(path, saving=True):
        private_folder(path.parent)
        with _alone(path):
            fresh = not path.exists()
            try:
                database, notice = _connected(path), ""
            except _Damaged as damaged:
                database = _connected(path)
                notice, fresh = f"{damaged} {_taken_over(damaged.aside, database)}".strip(), True
            if fresh:
                sync_folder(path.parent)
    return database, notice


@contextmanager
def _alone(path: Path) -> Iterator[None]:
    """One program at a time opens the file, so that two never set the same one aside."""
    handle = os.open(path.with_name(path.name + ".lock"), os.O_WRONLY | os.O_CREAT, 0o644)
    with open(handle, "w") as lock:
        late = time.monotonic() + _WAIT
        while True:
            try:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except BlockingIOError:
                if time.monotonic() > late:
                    raise sqlite3.OperationalError("locked") from None
                time.sleep(0.02)
        yield


def _connected(path: Path) -> sqlite3.Connection:
    database = sqlite3.connect(path, timeout=_WAIT, isolation_level=None, check_same_thread=False)
    database.row_factory = sqlite3.Row
    # A byte that is no UTF-8 spoils the text it stands in, not every list that this text is read for.
    database.text_factory = lambda raw: raw.decode("utf-8", "replace")
    try:
        _check(database, path)
    except sqlite3.OperationalError:
        database.close()
        raise  # locked, full, read-only: the file itself may be sound
    except (sqlite3.DatabaseError, UnicodeDecodeError):
        aside = copied_aside(path)  # before SQLite, closing, writes its log into the file
        database.close()
        for tail in _TAILS:
            path.with_name(path.name + tail).unlink(missing_ok=True)
        raise _Damaged(aside) from None
    except BaseException:
        database.close()
        raise
    return database


def _check(database: sqlite3.Connection, path: Path) -> None:
    """Set the database up; sqlite3.DatabaseError if it is damaged."""
    database.execute("PRAGMA journal_mode = WAL")
    database.execute("PRAGMA synchronous = FULL")
    database.execute("PRAGMA foreign_keys = ON")
    if database.execute("PRAGMA quick_check(1)").fetchone()[0] != "ok":
        raise sqlite3.DatabaseError("quick_check")
    version = database.execute("PRAGMA user_version").fetchone()[0]
    if version > VERSION:
        newer = f"{path} was written by a newer program (version {version}; this one reads up to {VERSION})."
        raise JournalError(f"{newer} It was left as it is.")
    try:
        if version < VERSION:
            _renew(database)
        database.execute(f"SELECT id, {', '.join(KEPT)}, turn, crc FROM job LIMIT 0")
        database.execute("SELECT job, seq, at, kind, step, row, data, crc FROM event LIMIT 0")
    except sqlite3.OperationalError as error:
        if any(words in str(error) for words in ("no such", "already exists", "duplicate")):
            raise sqlite3.DatabaseError(str(error)) from None  # its version, or the names of its columns, are damaged
        raise


def _renew(database: sqlite3.Connection) -> None:
    """Make the tables, or bring those of an older program up to this one, unless another program was first."""
    with transaction(database):
        version = database.execute("PRAGMA user_version").fetchone()[0]
        for statement in {0: _TABLES, 1: (*_SINCE_2, _TURNS_BY_TIME)}.get(version, ()):
            database.execute(statement)
        if version in (1, 2):
            with unlocked(database):
                _sum_up(database)
        database.execute(f"PRAGMA user_version = {VERSION}")


@contextmanager
def transaction(database: sqlite3.Connection) -> Iterator[None]:
    """One transaction; whatever goes wrong, none of it is kept."""
    database.execute("BEGIN IMMEDIATE")
    try:
        yield
        database.execute("COMMIT")
    except BaseException:
        if database.in_transaction:
            database.execute("ROLLBACK")
        raise


@contextmanager
def unlocked(database: sqlite3.Connection) -> Iterator[None]:
    """Let entries be changed, inside a transaction: only to mend them."""
    for name in ("event_stays", "event_kept"):
        database.execute(f"DROP TRIGGER IF EXISTS {name}")
    yield
    for trigger in TRIGGERS:
        database.execute(trigger)


def _sum_up(database: sqlite3.Connection) -> None:
    """Give rows of older programs their check sums: from now on one that has none was changed."""
    events = f"SELECT {', '.join(EVENT)} FROM event WHERE crc IS NULL"
    for row in database.execute(events).fetchall():
        database.execute("UPDATE event SET crc = ? WHERE job = ? AND seq = ?", (check_sum(tuple(row)), row[0], row[1]))
    jobs = f"SELECT {', '.join(KEPT)}, id FROM job WHERE crc IS NULL"
    for *row, job in database.execute(jobs).fetchall():
        database.execute("UPDATE job SET crc = ? WHERE id = ?", (check_sum(row), job))


def settled(database: sqlite3.Connection) -> None:
    """Bring what was just saved from the log into the file itself: damage to the log then loses nothing.

    Another program that reads at that moment puts it off to the next save.
    """
    with suppress(sqlite3.Error):
        database.execute("PRAGMA wal_checkpoint(PASSIVE)")


def copied_aside(path: Path) -> Path:
    """Copy a damaged file with its log, byte for byte, so that nothing of it is lost; return where to."""
    stamp = datetime.now().strftime("%Y-%m-%d-%H%M%S")
    aside = path.with_name(f"{path.stem}.damaged-{stamp}{path.suffix}")
    number = 1
    while aside.exists():
        number += 1
        aside = path.with_name(f"{path.stem}.damaged-{stamp}-{number}{path.suffix}")
    shutil.copyfile(path, aside)
    log = path.with_name(path.name + "-wal")
    if log.exists() and log.stat().st_size:
        shutil.copyfile(log, aside.with_name(aside.name + "-wal"))
    return aside


def _taken_over(aside: Path, database: sqlite3.Connection) -> str:
    """Take what can still be read of a damaged file into the new one; say how many jobs."""
    with tempfile.TemporaryDirectory() as folder:  # SQLite would change the copy that was set aside
        old = Path(folder, "old.db")
        shutil.copyfile(aside, old)
        log = aside.with_name(aside.name + "-wal")
        if log.exists():
            shutil.copyfile(log, old.with_name("old.db-wal"))
        source = sqlite3.connect(old)
        source.text_factory = lambda raw: raw.decode("utf-8", "replace")
        database.execute("BEGIN IMMEDIATE")
        every = _whole(source, "job", ("id", *KEPT, "turn", "crc"))
        jobs = [one for one in every if one[-1] == check_sum(one[1:-2]) and isinstance(one[-2], int)]
        known = {job[0] for job in jobs}
        events = [one for one in _whole(source, "event", (*EVENT, "crc")) if one[0] in known]
        for table, names, rows in (("job", ("id", *KEPT, "turn", "crc"), jobs), ("event", (*EVENT, "crc"), events)):
            marks = ", ".join("?" * len(names))
            database.executemany(f"INSERT OR IGNORE INTO {table} ({', '.join(names)}) VALUES ({marks})", rows)
        database.execute("COMMIT")
        source.close()
    count = len(jobs)
    return f"{count} {'job was' if count == 1 else 'jobs were'} taken over from it." if count else ""


def _whole(source: sqlite3.Connection, table: str, columns: Sequence[str]) -> list[tuple[Any, ...]]:
    """The rows of a damaged file as far as they can be read, from either end."""
    found: dict[tuple[Any, ...], None] = {}
    key = ", ".join(columns[: 1 if table == "job" else 2])
    for way in ("", " DESC"):
        order = ", ".join(f"{name}{way}" for name in key.split(", "))
        with suppress(sqlite3.Error, UnicodeDecodeError):
            for row in source.execute(f"SELECT {', '.join(columns)} FROM {table} ORDER BY {order}"):
                found[tuple(row)] = None
    keys = 1 if table == "job" else 2
    sound = [row for row in found if all(isinstance(one, int) for one in row[:keys])]
    return sorted(sound, key=lambda row: row[:keys])


@contextmanager
def legible(job: int) -> Iterator[None]:
    """Whatever is kept of a job may have been changed by the disk: JournalError where it makes no sense."""
    try:
        yield
    except (ValueError, KeyError, TypeError, IndexError, AttributeError) as error:
        raise JournalError(f"job {job}: what was kept of it cannot be read: {error}.") from None


@contextmanager
def refusals(path: Path, *, saving: bool) -> Iterator[None]:
    """Turn what SQLite and the disk refuse into one sentence: NotSaved where something was to be saved, else JournalError.

    >>> with refusals(Path("jobs.db"), saving=True):
    ...     raise sqlite3.OperationalError("database or disk is full")
    Traceback (most recent call last):
    engine.jobs.store.NotSaved: NOT SAVED: jobs.db: the disk is full.
    """
    try:
        yield
    except (sqlite3.Error, OSError, UnicodeDecodeError) as error:
        reason = _reason(error)
        if saving:
            raise NotSaved(path, reason) from error
        raise JournalError(f"{path} cannot be read: {reason}.") from error


_REASONS = {
    "disk is full": "the disk is full",
    "readonly": "the disk or the file is read-only",
    "unable to open": "the file cannot be opened or made there",
    "locked": "another program is saving and does not finish",
    "disk I/O": "the disk reports a fault or has no room",
    "malformed": "the file is damaged; start the program again and it is set aside",
    "not a database": "the file is damaged; start the program again and it is set aside",
}


def _reason(error: Exception) -> str:
    if isinstance(error, OSError):
        return error.strerror or type(error).__name__
    words = str(error)
    return next((plain for part, plain in _REASONS.items() if part in words), words)
