"""The jobs' own file: what was done, measured and answered, in the order it happened. Nothing in it is ever changed.

Every function that writes returns only after the disk has it (SQLite, write-ahead log, full synchronisation). The
place of a job is read from its events. A program that has not seen the newest move is refused its own, so two
programs on one job neither lose a step nor double one.
"""

from __future__ import annotations

import json
import sqlite3
import threading
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import contextmanager, suppress
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar

from engine.base.records import asdict
from engine.jobs import ledger, store
from engine.jobs.aims import Aim
from engine.jobs.ledger import Begun, Entry
from engine.jobs.places import Place, PlannedStep, after, before, checked, place_words, plan_of, rows_of
from engine.jobs.progress import DAMAGED, Event, Job, JobLine, JobName, MovedOn, Noted, Progress, advanced, begun
from engine.jobs.run import Worked
from engine.jobs.snapshot import from_text, to_text
from engine.jobs.springs import FORGOTTEN, LEARNED, TOLD, Spring
from engine.jobs.store import JournalError, NotSaved
from engine.jobs.trials import Trial

T = TypeVar("T")
_OTHERS = 20  # jobs of the same recipe whose notes are looked at
_EVENT = ", ".join((*store.EVENT, "crc"))
_Way = Callable[[tuple[PlannedStep, ...], Place], Place]
__all__ = ["Journal", "JournalError", "MovedOn", "NotSaved"]


class Journal:
    """The file of all jobs.

    `notice` is a sentence to show once, when a damaged file was set aside and a new one begun; else it is empty.

    path: The file; None: `jobs.db` in the user's data folder.
    Raises: NotSaved if the file cannot be made or opened.
    Raises: JournalError if a newer program wrote it.

    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     Journal(Path(folder, "jobs.db")).jobs()
    ()
    """

    def __init__(self, path: Path | None = None) -> None:
        self.path = path or store.default_path()
        self._lock = threading.RLock()
        self._database, self.notice = store.opened(self.path)
        self._file = store.identity(self.path)
        # What the disk has: events are never changed, so only newer ones have to be read to know a job's place.
        self._known: dict[int, Progress] = {}
        self._added: list[tuple[int, int, str, str, int, int, str]] = []  # the entries of the transaction in hand
        self._look_over()
        self._size = store.size(self.path)  # it only grows

    def close(self) -> None:
        """Let go of the file. Nothing is waiting to be written."""
        with self._lock:
            self._database.close()

    def _look_over(self) -> None:
        """Compare the file with its second record: put back what is lost, mend what is changed, and say so, once."""
        from engine.jobs.mending import mended

        with self._lock, store.refusals(self.path, saving=True):
            said = mended(self.path, self._database, copied=bool(self.notice))
        self.notice = f"{self.notice} {said}".strip()

    # Reading

    def jobs(self) -> tuple[JobLine, ...]:
        """Every job, the one last worked on first, by the order of the work: a clock may be wrong."""
        with self._reading() as database:
            rows = database.execute(
                "SELECT id, title, plan, part, started, (SELECT max(at) FROM event WHERE job = id) AS last"
                " FROM job ORDER BY turn DESC, id DESC"
            ).fetchall()
            return tuple(self._line(database, row) for row in rows)

    def open(self, job: int) -> Job:
        """A job as it was started: the recipe's text and the shop of that day, and where it stands.

        Raises JournalError if there is no such job.
        """
        with self._reading() as database:
            row = self._row(database, job)
            progress = self._progress(database, row)
        try:
            shop = from_text(row["shop"])
        except ValueError as error:
            raise JournalError(f"job {job}: the shop kept with it cannot be read: {error}.") from None
        sound = row["crc"] == store.check_sum([row[name] for name in store.KEPT])
        return Job(job, row["title"], row["recipe_name"], row["recipe"], shop, row["part"], progress, sound)

    def progress(self, job: int) -> Progress:
        """Where a job stands now."""
        with self._reading() as database:
            progress = self._progress(database, self._row(database, job))
        self._known[job] = progress
        return progress

    def earlier_notes(self, job: int) -> tuple[tuple[str, Noted], ...]:
        """What was noted in other jobs of the same recipe, the newest job first, each with the id of its step.

        A job that cannot be read is passed over: its own screen says so.
        """
        found: list[tuple[str, Noted]] = []
        with self._reading() as database:
            name = self._row(database, job)["recipe_name"]
            query = "SELECT * FROM job WHERE recipe_name = ? AND id <> ? ORDER BY turn DESC LIMIT ?"
            for row in database.execute(query, (name, job, _OTHERS)).fetchall():
                with suppress(JournalError):
                    progress = self._progress(database, row)
                    ids = ["", *(step.id for step in progress.plan)]
                    found += [(ids[one.step], one) for one in progress.notes if one.step < len(ids)]
        return tuple(found)

    def history(self, job: int) -> tuple[Event, ...]:
        """Everything that happened to a job, oldest first."""
        with self._reading() as database, store.legible(job):
            self._row(database, job)
            return self._events(database, job)

    # Writing

    def start(self, worked: Worked, recipe_text: str, recipe_name: str) -> Job:
        """Start a job of a recipe worked out for the shop; `recipe_name` is where the recipe came from."""
        plan = json.dumps(rows_of(worked.plan), ensure_ascii=False)
        return self._start(worked.recipe.title, recipe_name, recipe_text, to_text(worked.shop), plan)

    def repeat(self, job: int) -> Job:
        """Start the same again for the next part: same recipe, same shop, from the first step."""
        with self._reading() as database:
            row = self._row(database, job)
        with store.legible(job):
            plan_of(json.loads(row["plan"]))
        return self._start(*(row[name] for name in store.KEPT[:5]), series=row["series"] or job)

    def done(self, job: int, since: int) -> Progress:
        """The row or step in hand is done. `since` is the `seq` of the progress last seen.

        Raises MovedOn if the job was moved since then; nothing is written.
        """
        return self._move(job, since, "done", after)

    def back(self, job: int, since: int) -> Progress:
        """Go back by one row or step. As `done`."""
        return self._move(job, since, "back", before)

    def move(self, job: int, since: int, to: Place) -> Progress:
        """Go to a named place: "I am at line 12". As `done`. Raises BadInput if there is no such place."""
        return self._move(job, since, "moved", lambda plan, place: checked(plan, to))

    def replanned(self, job: int, worked: Worked) -> Progress:
        """Keep that the steps now have other rows than when the job began, as after the program was renewed.

        Writes nothing when they have the same. A row that is no longer there becomes the step's last one.
        """
        plan = worked.plan
        known = self.progress(job)
        if known.plan == plan:
            return known

        def write(database: sqlite3.Connection, row: sqlite3.Row) -> None:
            now = self._progress(database, row)
            if now.plan != plan:
                self._append(database, job, "replanned", now.place, {"plan": rows_of(plan)})

        return self._written(job, write)

    def measured(
        self,
        job: int,
        step: int,
        reading: float,
        *,
        row: int = 0,
        dial: float | None = None,
        slide: str = "",
        what: str = "",
        about: Mapping[str, Any] | None = None,
    ) -> Progress:
        """Keep a reading [mm], with where the slide's dial stood [mm of slide travel] if it is known; `about` is what other
        jobs read of it: see engine.jobs.known."""
        data = {"reading": reading, "dial": dial, "slide": slide, "what": what, **(about or {})}
        return self._note(job, "measured", step, row, data)

    def corrected(self, job: int, reading_seq: int, reading: float, *, dial: float | None = None) -> Progress:
        """Put a reading right; the old one stays in the history. `reading_seq` is that of the reading."""

        def write(database: sqlite3.Connection, row: sqlite3.Row) -> None:
            old = [r for r in self._progress(database, row).readings if r.seq == reading_seq]
            if not old:
                raise JournalError(f"job {job} has no reading number {reading_seq}.")
            data = {"of": reading_seq, "reading": reading, "dial": old[0].dial if dial is None else dial}
            self._append(database, job, "corrected", Place(old[0].step, old[0].row), data)

        return self._written(job, write)

    def answered(self, job: int, caution: str, yes: bool, question: str = "", set_up: str = "") -> Progress:
        """Keep the answer to a caution's question, with the words and the set-up it was asked in."""
        about = {"caution": caution, "yes": yes, "question": question, "set_up": set_up}
        return self._note(job, "answered", 0, 0, about)

    def taken_back(self, job: int, caution: str) -> Progress:
        """The answer to a caution's question is taken back: it is asked again."""
        return self._note(job, "answered", 0, 0, {"caution": caution, "yes": None})

    def held(self, job: int, holding: int, told: Mapping[str, str | float | bool]) -> Progress:
        """Keep how the work is held in one of the job's holdings, lengths in mm."""
        return self._note(job, "held", 0, 0, {"holding": holding, "told": dict(told)})

    def acknowledged(self, job: int, step: int, caution: str) -> Progress:
        """The person has said that a caution of this step is read."""
        return self._note(job, "acknowledged", step, 0, {"caution": caution})

    def noted(self, job: int, step: int, row: int, words: str) -> Progress:
        """Keep words of the person's own with a row, a step (row 0) or the whole job (step 0)."""
        return self._note(job, "noted", step, row, {"words": words})

    def counting(self, job: int, step: int, noun: str, rows: int) -> Progress:
        """So many of something are counted in this step from now on."""
        return self._note(job, "counting", step, 0, {"noun": noun, "rows": rows})

    def aimed(self, job: int, step: int, aim: Aim) -> Progress:
        """Keep what the last cut of a step aims at."""
        return self._note(job, "aimed", step, 0, asdict(aim))

    def tried(self, job: int, step: int, trial: Trial) -> Progress:
        """Keep a trial with the mate."""
        return self._note(job, "tried", step, 0, asdict(trial))

    def found_at_gate(self, job: int, gate: str, found: str) -> Progress:
        """Keep what was found out before the work is let go; `gate` as engine.jobs.holdings names it."""
        return self._note(job, "gate", 0, 0, {"gate": gate, "found": found})

    def clocked(self, job: int, step: int, holding: int, reading: float) -> Progress:
        """Keep what the clock showed in a holding [mm]."""
        return self._note(job, "clocked", step, 0, {"holding": holding, "reading": reading})

    def learned(self, job: int, step: int, spring: Mapping[str, Any]) -> Progress:
        """Keep what a slide's tool was found to take, unless that is known of this step."""
        data = {**spring, "step": step}

        def write(database: sqlite3.Connection, row: sqlite3.Row) -> None:
            known = [e.data for e in self._events(database, job) if e.kind == LEARNED and e.data["step"] == step]
            if not known or known[-1] != data:
                self._append(database, job, LEARNED, Place(step, 0), data)

        return self._written(job, write)

    def spring_told(self, spring: Spring, share: float) -> Progress:
        """Put right what a slide's tool takes."""
        return self._note(spring.job, TOLD, 0, 0, {"of": [spring.job, spring.seq], "share": share})

    def spring_forgotten(self, spring: Spring) -> Progress:
        """Forget what a slide's tool took."""
        return self._note(spring.job, FORGOTTEN, 0, 0, {"of": [spring.job, spring.seq]})

    def everywhere(self, kinds: Collection[str]) -> tuple[tuple[Event, JobName], ...]:
        """The entries of these kinds of all jobs, each with its job's name, those of the job last worked on last."""
        marks = ", ".join("?" * len(kinds))
        with self._reading() as database:
            jobs = database.execute("SELECT id, title, recipe_name FROM job ORDER BY turn, id").fetchall()
            found = []
            for row in jobs:
                query = f"SELECT {_EVENT} FROM event WHERE job = ? AND kind IN ({marks}) ORDER BY seq"
                name = JobName(row["id"], row["title"], row["recipe_name"])
                for kept in database.execute(query, (row["id"], *kinds)):
                    with suppress(ValueError):  # a row of an older program that cannot be read hides no other
                        event = _event(kept)
                        found += [(event, name)] if event.kind in kinds else []
        return tuple(found)

    def left(self, job: int) -> Progress:
        """The job was left, to be gone on with later."""
        return self._note(job, "left", 0, 0, {})

    def resumed(self, job: int) -> Progress:
        """The job was taken up again."""
        return self._note(job, "resumed", 0, 0, {})

    def put_away(self, job: int) -> Progress:
        """The job will not be gone on with; it stays in the list of those put away until it is resumed."""
        return self._note(job, "put away", 0, 0, {})

    # How it is done

    def _start(self, *kept: str, series: int | None = None) -> Job:
        """`kept` as store.KEPT begins: title, recipe's name, recipe, shop, plan."""
        self._added = []
        with self._writing() as database:
            query = "SELECT coalesce(max(part), 0) FROM job WHERE id = ? OR series = ?"
            part = 1 + database.execute(query, (series, series)).fetchone()[0]
            values = (*kept, series, part, _now())
            job = int(store.put(database, "INSERT INTO job", store.KEPT, values).lastrowid or 0)
            self._append(database, job, "started", Place(1, 0), {})
        opened = self.open(job)
        ledger.add(self.path, [Begun(job, values), *self._entries(opened.title, opened.progress)])
        return opened

    def _move(self, job: int, since: int, kind: str, where: _Way) -> Progress:
        def write(database: sqlite3.Connection, row: sqlite3.Row) -> None:
            now = self._progress(database, row)
            if now.moved_at > since:
                raise MovedOn(now)
            to = where(now.plan, now.place)
            if to != now.place:
                self._append(database, job, kind, now.place, {"to": [to.step, to.row]})

        return self._written(job, write)

    def _note(self, job: int, kind: str, step: int, row: int, data: dict[str, Any]) -> Progress:
        return self._written(job, lambda database, _: self._append(database, job, kind, Place(step, row), data))

    def _written(self, job: int, write: Callable[[sqlite3.Connection, sqlite3.Row], None]) -> Progress:
        self._added = []
        with self._writing() as database:
            row = self._row(database, job)
            write(database, row)
            progress = self._progress(database, row)
        self._known[job] = progress  # only now is it on the disk
        if self._added:
            ledger.add(self.path, self._entries(row["title"], progress))
        return progress

    def _entries(self, title: str, progress: Progress) -> list[Entry]:
        """What was added, for the second record."""
        where = place_words(progress.plan, progress.place)
        return [Entry(*row, title, where) for row in self._added]

    def _append(self, database: sqlite3.Connection, job: int, kind: str, place: Place, data: dict[str, Any]) -> None:
        last = database.execute("SELECT coalesce(max(seq), 0) FROM event WHERE job = ?", (job,)).fetchone()[0]
        row = (job, last + 1, _now(), kind, place.step, place.row, json.dumps(data, ensure_ascii=False))
        store.put(database, "INSERT INTO event", store.EVENT, row)
        self._added.append(row)
        database.execute("UPDATE job SET turn = (SELECT max(turn) FROM job) + 1 WHERE id = ?", (job,))

    def _row(self, database: sqlite3.Connection, job: int) -> sqlite3.Row:
        row: sqlite3.Row | None = database.execute("SELECT * FROM job WHERE id = ?", (job,)).fetchone()
        if row is None:
            raise JournalError(f"there is no job {job}.")
        return row

    def _events(self, database: sqlite3.Connection, job: int, since: int = 0) -> tuple[Event, ...]:
        rows = database.execute(f"SELECT {_EVENT} FROM event WHERE job = ? AND seq > ? ORDER BY seq", (job, since))
        return tuple(map(_event, rows))

    def _progress(self, database: sqlite3.Connection, row: sqlite3.Row) -> Progress:
        with store.legible(row["id"]):
            known = self._known.get(row["id"]) or begun(row["id"], plan_of(json.loads(row["plan"])))
            return advanced(known, self._events(database, row["id"], known.seq))

    def _line(self, database: sqlite3.Connection, row: sqlite3.Row) -> JobLine:
        try:
            progress = self._progress(database, row)
            where, state = place_words(progress.plan, progress.place), progress.state
        except JournalError as error:  # one spoiled job must not hide the others
            where, state = str(error), "cannot be read"
        last = row["last"] or row["started"]
        return JobLine(row["id"], row["title"], row["part"], row["started"], last, state, where)

    @contextmanager
    def _reading(self) -> Iterator[sqlite3.Connection]:
        with self._lock, store.refusals(self.path, saving=False):
            yield self._database

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        """One transaction, on the disk when this returns; whatever goes wrong, none of it is kept."""
        with self._lock, store.refusals(self.path, saving=True):
            if store.identity(self.path) != self._file:
                raise NotSaved(self.path, "the file was moved away or replaced while it was open")
            if store.size(self.path) < self._size:
                raise NotSaved(self.path, "the file was cut short while it was open; start the program again")
            with store.transaction(self._database):
                yield self._database
            store.settled(self._database)
            self._size = store.size(self.path)


def _event(row: sqlite3.Row) -> Event:
    """An entry as it was written; one that the disk has changed is known by its sum and says nothing."""
    *kept, crc = row
    if crc != store.check_sum(kept):
        return Event(row["seq"], str(row["at"]), DAMAGED, 0, 0, {})
    return Event(row["seq"], row["at"], row["kind"], row["step"], row["row"], json.loads(row["data"]))


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="seconds")
