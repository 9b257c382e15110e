"""The SQLite file under the journal: opening it, setting a damaged one aside, and saying what a disk refuses."""

from __future__ import annotations

import fcntl
import os
import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from engine.shop.file import data_folder

VERSION = 2
_TAILS = ("", "-wal", "-shm")  # the file, its log, and the log's index
_WAIT = 5.0  # seconds to wait for another program's save; one takes milliseconds, or a slow card's tenth of a second

# `turn` orders the jobs by when they were worked on, whatever the clock said; `crc` tells what the disk has changed
# since.
_SINCE_2 = (
    "ALTER TABLE job ADD COLUMN turn INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE event ADD COLUMN crc INTEGER",
    "ALTER TABLE job ADD COLUMN crc INTEGER",
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
    """CREATE TRIGGER event_stays BEFORE UPDATE ON event
    BEGIN SELECT raise(ABORT, 'an event is never changed'); END""",
    """CREATE TRIGGER event_kept BEFORE DELETE ON event
    BEGIN SELECT raise(ABORT, 'an event is never removed'); END""",
)
# Before there were turns, only the clock told which job was worked on last.
_TURNS_BY_TIME = """UPDATE job SET turn = (SELECT count(*) FROM job AS other WHERE
    (SELECT max(at) FROM event WHERE job = other.id) <= (SELECT max(at) FROM event WHERE job = job.id))"""


class JournalError(Exception):
    """The jobs' file cannot be used as asked; `str()` is one sentence, fit to be shown."""


class _Damaged(Exception):
    """A file was damaged and has been set aside; `str()` says so."""


class NotSaved(JournalError):
    """Nothing was saved: the disk is full, read-only, or not there. `path` is the file, `reason` why."""

    def __init__(self, path: Path, reason: str) -> None:
        self.path, self.reason = path, reason
        super().__init__(f"NOT SAVED: {path}: {reason}.")


def default_path() -> Path:
    """Return where the jobs of this user are kept.

    Returns: `jobs.db` in the data folder.
    Source: XDG Base Directory Specification 0.8.

    >>> default_path().name
    'jobs.db'
    """
    return data_folder() / "jobs.db"


def identity(path: Path) -> tuple[int, int] | None:
    """Return which file stands at a path, to notice when it is replaced under an open database.

    path: The file.
    Returns: Device and inode; None if there is no file.
    Source: POSIX.1-2017: stat().

    >>> identity(Path("/no/such/file")) is None
    True
    """
    try:
        found = os.stat(path)
    except OSError:
        return None
    return found.st_dev, found.st_ino


def opened(path: Path) -> tuple[sqlite3.Connection, str]:
    """Open the jobs' file, or begin a new one; a damaged one is set aside under another name.

    path: The file.
    Returns: In write-ahead mode with full synchronisation.; What to tell the person, if a damaged file was set aside.
    Raises: NotSaved if the file cannot be made, opened or written.
    Raises: JournalError if a newer program wrote it.
    Source: SQLite: WAL keeps each commit whole, synchronous=FULL makes it last through a power cut.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     opened(Path(folder, "jobs.db"))[1]
    ''
    """
    with refusals(path, saving=True):
        path.parent.mkdir(parents=True, exist_ok=True)
        with _alone(path):
            fresh = not path.exists()
            try:
                database, notice = _connected(path), ""
            except _Damaged as damaged:
                notice, fresh = str(damaged), True
                database = _connected(path)
            if fresh:
                _sync_folder(path.parent)
    return database, notice


@contextmanager
def _alone(path: Path) -> Iterator[None]:
    """One program at a time opens the file, so that two never set the same one aside."""
    with open(path.with_name(path.name + ".lock"), "w") as lock:
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
        aside = _copied_aside(path)  # before SQLite, closing, writes its log into the file
        database.close()
        for tail in _TAILS:
            path.with_name(path.name + tail).unlink(missing_ok=True)
        raise _Damaged(f"The file of jobs was damaged. It was set aside as {aside}, and a new one was begun.") from None
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
        raise JournalError(
            f"{path} was written by a newer program (version {version}; this one reads up to {VERSION}). "
            "It was left as it is."
        )
    if version < VERSION:
        _renew(database)


def _renew(database: sqlite3.Connection) -> None:
    """Make the tables, or bring those of an older program up to this one, unless another program was first."""
    database.execute("BEGIN IMMEDIATE")
    try:
        version = database.execute("PRAGMA user_version").fetchone()[0]
        for statement in {0: _TABLES, 1: (*_SINCE_2, _TURNS_BY_TIME)}.get(version, ()):
            database.execute(statement)
        database.execute(f"PRAGMA user_version = {VERSION}")
        database.execute("COMMIT")
    except BaseException:
        if database.in_transaction:
            database.execute("ROLLBACK")
        raise


def _copied_aside(path: Path) -> Path:
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


def _sync_folder(folder: Path) -> None:
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


@contextmanager
def refusals(path: Path, *, saving: bool) -> Iterator[None]:
    """Turn what SQLite and the disk refuse into one sentence.

    path: The jobs' file.
    saving: Whether something was to be saved.
    Returns: To use the file in.
    Raises: NotSaved if something was to be saved.
    Raises: JournalError if it was only to be read.
    Source: SQLite result codes.

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
