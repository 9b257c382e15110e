"""Where a job stands, read from what happened to it. No file is touched here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from engine.errors import BadInput
from engine.shop.model import Shop

MOVES = ("started", "done", "back", "moved")


@dataclass(frozen=True, slots=True)
class Place:
    """A step, from 1, and the row in hand, from 1 (0: the step has no rows). One past the last step: finished."""

    step: int
    row: int


@dataclass(frozen=True, slots=True)
class PlannedStep:
    """What a job remembers of a step: its rows when the job began, and the word for one of them."""

    id: str
    title: str
    rows: int
    noun: str


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened; `at` is the time in UTC (ISO 8601), `step` and `row` where."""

    seq: int
    at: str
    kind: str
    step: int
    row: int
    data: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Reading:
    """A measurement as it stands now; `was` are the readings that were put right, oldest first.

    `reading` is in mm; `dial` is where the slide stood, in mm of slide travel from its zero, if it was told.
    """

    seq: int
    at: str
    step: int
    row: int
    what: str
    reading: float
    dial: float | None
    slide: str
    was: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Progress:
    """A job's state. `seq` is what a move has to name; `moved_at` is the last move's own."""

    job: int
    plan: tuple[PlannedStep, ...]
    seq: int
    moved_at: int
    place: Place
    state: str
    readings: tuple[Reading, ...]
    told: Mapping[str, bool]
    acknowledged: frozenset[tuple[int, str]]

    @property
    def finished(self) -> bool:
        """Whether every step is done."""
        return self.place.step > len(self.plan)


@dataclass(frozen=True, slots=True)
class Job:
    """A job with what it was started from."""

    id: int
    title: str
    recipe_name: str
    recipe_text: str
    shop: Shop
    part: int
    progress: Progress


@dataclass(frozen=True, slots=True)
class JobLine:
    """A job as it is listed; `state` is "under way", "left", "finished", "put away" or "cannot be read"."""

    id: int
    title: str
    part: int
    started: str
    last: str
    state: str
    where: str


class MovedOn(Exception):
    """Another program moved the job: nothing was written, `progress` is where it stands now."""

    def __init__(self, progress: Progress) -> None:
        self.progress = progress
        where = place_words(progress.plan, progress.place)
        super().__init__(f"The job has moved on to {where}. Nothing was changed from here.")


def place_words(plan: tuple[PlannedStep, ...], place: Place) -> str:
    """Return a place in words.

    Parameters
    ----------
    plan : tuple of PlannedStep
        The job's steps.
    place : Place
        Where.

    Returns
    -------
    words : str
        Such as `step 7 of 20, Scale lines, line 4 of 30`.

    Sources
    -------
    None: writing.

    Examples
    --------
    >>> place_words((PlannedStep("lines", "Scale lines", 30, "line"),), Place(1, 4))
    'step 1 of 1, Scale lines, line 4 of 30'
    """
    if place.step > len(plan):
        return "the end: every step is done"
    step = plan[place.step - 1]
    row = f", {step.noun} {place.row} of {step.rows}" if step.rows else ""
    return f"step {place.step} of {len(plan)}, {step.title}{row}"


def first_place(plan: tuple[PlannedStep, ...]) -> Place:
    """Return where a job begins.

    Parameters
    ----------
    plan : tuple of PlannedStep
        The job's steps.

    Returns
    -------
    place : Place
        The first step, at its first row if it has rows.

    Sources
    -------
    None: counting.

    Examples
    --------
    >>> first_place((PlannedStep("lines", "Scale lines", 30, "line"),))
    Place(step=1, row=1)
    """
    return _entry(plan, 1)


def _entry(plan: tuple[PlannedStep, ...], step: int) -> Place:
    return Place(step, 1 if step <= len(plan) and plan[step - 1].rows else 0)


def after(plan: tuple[PlannedStep, ...], place: Place) -> Place:
    """Return the place that follows.

    Parameters
    ----------
    plan : tuple of PlannedStep
        The job's steps.
    place : Place
        Where the job stands.

    Returns
    -------
    place : Place
        The next row, else the next step; the end stays the end.

    Sources
    -------
    None: counting.

    Examples
    --------
    >>> plan = (PlannedStep("lines", "Scale lines", 2, "line"), PlannedStep("off", "Part off", 0, ""))
    >>> after(plan, Place(1, 1)), after(plan, Place(1, 2)), after(plan, Place(2, 0))
    (Place(step=1, row=2), Place(step=2, row=0), Place(step=3, row=0))
    """
    if place.step > len(plan):
        return place
    if place.row < plan[place.step - 1].rows:
        return Place(place.step, place.row + 1)
    return _entry(plan, place.step + 1)


def before(plan: tuple[PlannedStep, ...], place: Place) -> Place:
    """Return the place that came before.

    Parameters
    ----------
    plan : tuple of PlannedStep
        The job's steps.
    place : Place
        Where the job stands.

    Returns
    -------
    place : Place
        The row or step before; the beginning stays the beginning.

    Sources
    -------
    None: counting.

    Examples
    --------
    >>> plan = (PlannedStep("lines", "Scale lines", 2, "line"), PlannedStep("off", "Part off", 0, ""))
    >>> before(plan, Place(2, 0)), before(plan, Place(1, 1))
    (Place(step=1, row=2), Place(step=1, row=1))
    """
    if place.row > 1:
        return Place(place.step, place.row - 1)
    if place.step <= 1:
        return first_place(plan)
    return Place(place.step - 1, plan[place.step - 2].rows)


def checked(plan: tuple[PlannedStep, ...], place: Place) -> Place:
    """Return a place that exists, refuse any other.

    Parameters
    ----------
    plan : tuple of PlannedStep
        The job's steps.
    place : Place
        Where the person says the job is; a step alone (row 0) means its first row.

    Returns
    -------
    place : Place
        The same, with its row.

    Raises
    ------
    BadInput
        If the job has no such step or row.

    Sources
    -------
    None: counting.

    Examples
    --------
    >>> checked((PlannedStep("lines", "Scale lines", 30, "line"),), Place(1, 31))
    Traceback (most recent call last):
    engine.errors.BadInput: line: 31 cannot be used; accepted: 1 to 30.
    """
    if not 1 <= place.step <= len(plan):
        raise BadInput("step", place.step, f"1 to {len(plan)}")
    step = plan[place.step - 1]
    if place.row == 0:
        return _entry(plan, place.step)
    if not 1 <= place.row <= step.rows:
        raise BadInput(
            step.noun or "row", place.row, f"1 to {step.rows}" if step.rows else "none: it has no rows"
        )
    return place


def progress_of(job: int, plan: tuple[PlannedStep, ...], events: tuple[Event, ...]) -> Progress:
    """Return where a job stands after all that happened.

    Parameters
    ----------
    job : int
        Its number.
    plan : tuple of PlannedStep
        Its steps.
    events : tuple of Event
        All of its events, oldest first.

    Returns
    -------
    progress : Progress
        Place, readings as they stand, answers and acknowledgements.

    Sources
    -------
    None: counting.

    Examples
    --------
    >>> begun = Event(1, "2031-05-04T10:00:00+00:00", "started", 1, 0, {})
    >>> progress_of(1, (PlannedStep("off", "Part off", 0, ""),), (begun,)).place
    Place(step=1, row=0)
    """
    place, moved_at, state = first_place(plan), 0, "under way"
    readings: dict[int, Reading] = {}
    told: dict[str, bool] = {}
    acknowledged: set[tuple[int, str]] = set()
    for event in events:
        if event.kind in MOVES:
            place = Place(*event.data["to"]) if "to" in event.data else first_place(plan)
            moved_at = event.seq
        elif event.kind == "measured":
            readings[event.seq] = _reading(event)
        elif event.kind == "corrected":
            readings[event.data["of"]] = _put_right(readings[event.data["of"]], event)
        elif event.kind == "answered":
            told[event.data["caution"]] = event.data["yes"]
        elif event.kind == "acknowledged":
            acknowledged.add((event.step, event.data["caution"]))
        state = event.kind if event.kind in ("left", "put away") else "under way"
    if place.step > len(plan) and state != "put away":
        state = "finished"
    seq = events[-1].seq if events else 0
    return Progress(
        job, plan, seq, moved_at, place, state, tuple(readings.values()), told, frozenset(acknowledged)
    )


def _reading(event: Event) -> Reading:
    data = event.data
    return Reading(
        event.seq, event.at, event.step, event.row, data["what"], data["reading"], data["dial"], data["slide"]
    )


def _put_right(old: Reading, event: Event) -> Reading:
    new, dial = event.data["reading"], event.data["dial"]
    return Reading(
        old.seq, old.at, old.step, old.row, old.what, new, dial, old.slide, (*old.was, old.reading)
    )
