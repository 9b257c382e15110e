"""The person's own order of a plan's steps: moved, dropped, repeated, put in; in every piece alike."""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.records import replace
from engine.part.plan import Plan
from engine.part.plan_edit import objections
from engine.part.steps import OWN, Step, Why

_LONGEST_ID = 32


def listed(plan: Plan) -> tuple[Step, ...]:
    """The steps of the first piece: what is shown and changed; the other pieces follow."""
    return tuple(step for step in plan.steps if step.round == 1)


def _in_round(plan: Plan, step: Step, round_: int) -> Step | None:
    """The same step of another piece: the one that does the same, and as many of its like before it."""
    alike = [one for one in listed(plan) if _does(one) == _does(step)]
    there = [one for one in plan.steps if one.round == round_ and _does(one) == _does(step)]
    place = next((i for i, one in enumerate(alike) if one.id == step.id), 0)
    return there[place] if place < len(there) else None


def _does(step: Step) -> tuple[str, str, str]:
    return step.kind, step.about, step.title if step.kind == OWN else ""


def dropped(plan: Plan, step: Step) -> Plan:
    """Without a step."""
    gone = {one.id for r in range(1, plan.rounds + 1) if (one := _in_round(plan, step, r))}
    return replace(plan, steps=tuple(one for one in plan.steps if one.id not in gone))


def repeated(plan: Plan, step: Step) -> Plan:
    """With a step done once more, after itself; it finishes nothing a second time."""
    steps = list(plan.steps)
    taken = {one.id for one in steps}
    for r in range(1, plan.rounds + 1):
        one = _in_round(plan, step, r)
        if one is not None:
            name = _fresh(f"{one.id[:_LONGEST_ID]}-again", taken)
            steps.insert(steps.index(one) + 1, replace(one, id=name, makes=()))
    return replace(plan, steps=tuple(steps))


def _fresh(name: str, taken: set[str]) -> str:
    number, found = 2, name
    while found in taken:
        found, number = f"{name}{number}", number + 1
    taken.add(found)
    return found


def moved(plan: Plan, step: Step, by: int) -> Plan:
    """With a step one place earlier (-1) or later (1); at the edge of its set-up it goes over into the next one."""
    row = [one.id for one in listed(plan)].index(step.id)
    if not 0 <= row + by < len(listed(plan)):
        return plan
    other = listed(plan)[row + by]
    steps = list(plan.steps)
    for r in range(1, plan.rounds + 1):
        one, beside = _in_round(plan, step, r), _in_round(plan, other, r)
        if one is None or beside is None:
            continue
        steps.remove(one)
        over = other.set_up != step.set_up
        place = steps.index(beside) + (1 if (by > 0) != over else 0)
        steps.insert(place, replace(one, set_up=beside.set_up))
    return replace(plan, steps=tuple(steps))


def put_in(
    plan: Plan, after: Step | None, title: str, operation: str | None = None, inputs: Mapping[str, str] | None = None
) -> Plan:
    """With a step of the person's own after another (None: before all): work by hand in plain words, or an operation."""
    steps = list(plan.steps)
    taken = {one.id for one in steps}
    first = listed(plan)[0]
    for r in range(1, plan.rounds + 1):
        beside = _in_round(plan, after or first, r)
        if beside is None:
            continue
        own = Step(
            id=_fresh(f"own-{r}", taken), title=title, set_up=beside.set_up, round=r, each="part", kind=OWN, about="",
            operation=operation, inputs=tuple((inputs or {}).items()), makes=(), why=(), now=beside.now,
        )  # fmt: skip
        steps.insert(steps.index(beside) + (1 if after else 0), own)
    return replace(plan, steps=tuple(steps))


def broken(plan: Plan) -> tuple[Why, ...]:
    """The hard rules that the steps break as they stand now."""
    planned = replace(plan, steps=tuple(step for step in plan.steps if step.kind != OWN and step.round == 1))
    return objections(planned, [step.id for step in planned.steps])
