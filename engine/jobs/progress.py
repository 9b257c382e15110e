"""Where a job stands, read from what happened to it. No file is touched here."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Set
from datetime import datetime
from typing import Any

from engine.base.records import dataclass, field, replace
from engine.jobs.aims import Aim
from engine.jobs.places import Place, PlannedStep, first_place, fitted, place_words, plan_of
from engine.jobs.trials import Trial
from engine.safety.told import Told
from engine.shop.model import Shop

MOVES = ("done", "back", "moved")
_CUTTING = (
    "cut",
    "pass",
)  # rows that change the size: a reading before the last of them is not what the next step gets
DAMAGED = "damaged"  # the kind of an entry that the disk has changed


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
class JobName:
    """What a job is called, and the recipe it is of."""

    id: int
    title: str
    recipe_name: str


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
class Noted:
    """Words of the person's own, with the row, the step (row 0) or the whole job (step 0) that they belong to."""

    at: str
    step: int
    row: int
    words: str


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
    told: Mapping[str, Told]
    acknowledged: frozenset[tuple[int, str]]
    held: Mapping[int, Mapping[str, Any]] = field(default_factory=dict)  # holding -> what was told of it
    notes: tuple[Noted, ...] = ()
    counted: Mapping[int, tuple[str, int]] = field(default_factory=dict)  # step -> what is counted there, how many
    aims: Mapping[int, Aim] = field(default_factory=dict)  # step -> what its last cut aims at
    trials: Mapping[int, tuple[Trial, ...]] = field(default_factory=dict)  # step -> its trials, the oldest first
    gates: Mapping[str, str] = field(default_factory=dict)  # gate (engine.jobs.holdings) -> what was found
    clocked: Mapping[int, float] = field(default_factory=dict)  # holding -> what the clock showed [mm]
    settled: Mapping[int, Mapping[int, float]] = field(default_factory=dict)  # step done -> its readings then
    cut_on: frozenset[int] = frozenset()  # steps behind that were cut on after their last reading
    ticked: frozenset[int] = frozenset()  # steps that were said to be done, not only gone past
    damaged: int = 0  # entries that the disk has changed; what they said is not known

    @property
    def finished(self) -> bool:
        """Whether every step is done."""
        return self.place.step > len(self.plan)

    @property
    def standing(self) -> dict[int, float]:
        """The newest reading of each step [mm], but none of a size that was cut on afterwards."""
        return _standing(self.readings, self.cut_on)

    @property
    def passed_over(self) -> tuple[int, ...]:
        """The steps behind that nobody has said are done: a move to a named place led past them."""
        return tuple(step for step in range(1, self.place.step) if step not in self.ticked)


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
    sound: bool = True  # whether the recipe and the shop are as they were kept; the disk may have changed them


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


def begun(job: int, plan: tuple[PlannedStep, ...]) -> Progress:
    """Return where a job stands before anything has happened to it.

    >>> begun(1, (PlannedStep("off", "Part off", 0, ""),)).place
    Place(step=1, row=0)
    """
    return Progress(job, plan, 0, 0, first_place(plan), "under way", (), {}, frozenset())


def advanced(progress: Progress, events: tuple[Event, ...]) -> Progress:
    """Return where a job stands after more has happened to it.

    >>> done = Event(2, "2031-05-04T10:00:00+00:00", "done", 1, 0, {"to": [2, 0]})
    >>> advanced(begun(1, (PlannedStep("off", "Part off", 0, ""),)), (done,)).finished
    True
    """
    plan, place, moved_at, state = progress.plan, progress.place, progress.moved_at, progress.state
    readings = {reading.seq: reading for reading in progress.readings}
    told, acknowledged, held = dict(progress.told), set(progress.acknowledged), dict(progress.held)
    notes, counted = list(progress.notes), dict(progress.counted)
    aims, trials, ticked = dict(progress.aims), dict(progress.trials), set(progress.ticked)
    gates, clocked, settled = dict(progress.gates), dict(progress.clocked), dict(progress.settled)
    cut_on = set(progress.cut_on)
    for event in events:
        if event.kind == "replanned":
            plan, moved_at = plan_of(event.data["plan"]), event.seq
            place = fitted(plan, place)
        elif event.kind in MOVES:
            place, moved_at = Place(*event.data["to"]), event.seq
            settled = {step: known for step, known in settled.items() if step < place.step}
            cut_on = {step for step in cut_on if step < place.step}
            if event.kind == "done" and place.step > event.step:
                if _was_cut_on(plan, event, readings.values()):
                    cut_on.add(event.step)
                settled[event.step] = _standing(readings.values(), cut_on)
                ticked.add(event.step)
            elif event.kind == "back":
                ticked = {step for step in ticked if step < place.step}
        elif event.kind == "measured":
            readings[event.seq] = _reading(event)
        elif event.kind == "corrected" and event.data["of"] in readings:
            readings[event.data["of"]] = _put_right(readings[event.data["of"]], event)
        elif event.kind == "answered" and event.data["yes"] is None:
            told.pop(event.data["caution"], None)
        elif event.kind == "counting":
            counted[event.step] = (event.data["noun"], event.data["rows"])
        elif event.kind == "noted":
            notes.append(Noted(event.at, event.step, event.row, event.data["words"]))
        elif event.kind == "held":
            held[event.data["holding"]] = event.data["told"]
        elif event.kind == "answered":
            said = event.data
            told.pop(said["caution"], None)  # the newest stands last
            told[said["caution"]] = Told(said["yes"], said.get("question", ""), said.get("set_up", ""))
        elif event.kind == "aimed":
            aims[event.step] = Aim(**event.data)
        elif event.kind == "tried":
            trials[event.step] = (*trials.get(event.step, ()), Trial(**event.data))
        elif event.kind == "gate":
            gates[event.data["gate"]] = event.data["found"]
        elif event.kind == "clocked":
            clocked[event.data["holding"]] = event.data["reading"]
        elif event.kind == "acknowledged":
            acknowledged.add((event.step, event.data["caution"]))
        state = event.kind if event.kind in ("left", "put away") else "under way"
    if place.step > len(plan) and state != "put away":
        state = "finished"
    seq = events[-1].seq if events else progress.seq
    kept = tuple(readings.values())
    damaged = progress.damaged + sum(event.kind == DAMAGED for event in events)
    return replace(progress, plan=plan, seq=seq, moved_at=moved_at, place=place, state=state, readings=kept, told=told,
        acknowledged=frozenset(acknowledged), held=held, notes=tuple(notes), counted=counted, aims=aims, trials=trials,
        gates=gates, clocked=clocked, settled=settled, cut_on=frozenset(cut_on),
        ticked=frozenset(ticked), damaged=damaged)  # fmt: skip


def _standing(readings: Iterable[Reading], cut_on: Set[int]) -> dict[int, float]:
    return {reading.step: reading.reading for reading in readings if reading.step not in cut_on}


def _was_cut_on(plan: tuple[PlannedStep, ...], left: Event, readings: Iterable[Reading]) -> bool:
    """Whether the step that was done had more rows cut after its newest reading."""
    rows = [reading.row for reading in readings if reading.step == left.step]
    return plan[left.step - 1].noun in _CUTTING and bool(rows) and rows[-1] < left.row


def _reading(event: Event) -> Reading:
    said = (event.data[key] for key in ("what", "reading", "dial", "slide"))
    return Reading(event.seq, event.at, event.step, event.row, *said)


def _put_right(old: Reading, event: Event) -> Reading:
    return replace(old, reading=event.data["reading"], dial=event.data["dial"], was=(*old.was, old.reading))


def when(moment: str) -> str:
    """Return a moment of the journal as this computer's clock and calendar show it.

    >>> when("some time")
    'some time'
    """
    try:
        return datetime.fromisoformat(moment).astimezone().strftime("%d %b %Y %H:%M")
    except (ValueError, OverflowError):
        return moment
