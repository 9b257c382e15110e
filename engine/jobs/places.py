"""The places of a job: its steps and their rows, and the way from one to the next."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.base.records import dataclass
from engine.base.refusals import BadInput


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


def place_words(plan: tuple[PlannedStep, ...], place: Place) -> str:
    """Return a place in words.

    >>> place_words((PlannedStep("lines", "Scale lines", 30, "line"),), Place(1, 4))
    'step 1 of 1, Scale lines, line 4 of 30'
    """
    if place.step > len(plan):
        return "the end, after the last step"
    step = plan[place.step - 1]
    row = f", {step.noun} {place.row} of {step.rows}" if step.rows else ""
    return f"step {place.step} of {len(plan)}, {step.title}{row}"


def first_place(plan: tuple[PlannedStep, ...]) -> Place:
    """Return where a job begins.

    >>> first_place((PlannedStep("lines", "Scale lines", 30, "line"),))
    Place(step=1, row=1)
    """
    return _entry(plan, 1)


def _entry(plan: tuple[PlannedStep, ...], step: int) -> Place:
    return Place(step, 1 if step <= len(plan) and plan[step - 1].rows else 0)


def after(plan: tuple[PlannedStep, ...], place: Place) -> Place:
    """Return the place that follows.

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

    >>> checked((PlannedStep("lines", "Scale lines", 30, "line"),), Place(1, 31))
    Traceback (most recent call last):
    engine.base.refusals.BadInput: line: 31 cannot be used; accepted: 1 to 30.
    """
    if not 1 <= place.step <= len(plan):
        raise BadInput("step", place.step, f"1 to {len(plan)}")
    step = plan[place.step - 1]
    if place.row == 0:
        return _entry(plan, place.step)
    if not 1 <= place.row <= step.rows:
        raise BadInput(step.noun or "row", place.row, f"1 to {step.rows}" if step.rows else "none: it has no rows")
    return place


def rows_of(plan: tuple[PlannedStep, ...]) -> list[list[object]]:
    """Return a plan as it is kept as JSON."""
    return [[step.id, step.title, step.rows, step.noun] for step in plan]


def plan_of(rows: Sequence[Sequence[Any]]) -> tuple[PlannedStep, ...]:
    """Return the plan that was kept as JSON.

    >>> plan_of([["off", "Part off", 0, ""]])[0].title
    'Part off'
    """
    return tuple(PlannedStep(*row) for row in rows)


def fitted(plan: tuple[PlannedStep, ...], place: Place) -> Place:
    """Return the place nearest to one that a plan no longer has.

    >>> fitted((PlannedStep("lines", "Scale lines", 24, "line"),), Place(1, 28))
    Place(step=1, row=24)
    """
    if place.step > len(plan):
        return Place(len(plan) + 1, 0)
    rows = plan[place.step - 1].rows
    return Place(place.step, min(max(place.row, 1), rows))
