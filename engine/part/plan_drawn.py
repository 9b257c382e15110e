"""The steps of a job drawn: from the part file that goes with its recipe, in the order the recipe has now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from engine.base.answer import Picture
from engine.base.refusals import BadInput
from engine.part.file import read
from engine.part.part import WorkState
from engine.part.plan import Plan, Step
from engine.part.plan_recipe import step_id
from engine.part.plan_states import states
from engine.part.together import plan_all
from engine.part.work import end_view, step_drawing
from engine.shop.model import Shop


def drawn(part_text: str, shop: Shop, ids: Iterable[str]) -> dict[str, WorkState]:
    """The moment of each step by its id, for the steps that the plan knows; BadInput if there is no plan here.

    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> text = head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"'
    >>> found = drawn(text, sample("metric"), ["own", "finish-outside-1"])
    >>> found["finish-outside-1"].making
    ('outside.1',)
    """
    wanted = list(ids)
    found: dict[str, WorkState] = {}
    for number, planned in enumerate(plan_all(read(part_text).parts, shop)):
        steps = list(_in_order(planned, number, wanted))
        moments = states(replace(planned, steps=tuple(step for _, step in steps)))
        found |= {name: moment for (name, _), moment in zip(steps, moments, strict=True)}
    return found


def pictures(part_text: str, shop: Shop, ids: Iterable[str]) -> dict[str, tuple[Picture, ...]]:
    """The drawings of each step for paper, head work also from its end.

    Nothing where there is no part file, or no plan of it in this shop.
    """
    try:
        found = drawn(part_text, shop, ids) if part_text else {}
    except BadInput:
        return {}
    return {name: views(moment) for name, moment in found.items()}


def views(moment: WorkState, *, columns: int = 0, rows: int = 0) -> tuple[Picture, ...]:
    """A step as it lies on the machine, and where it is head work the end view; for so many cells, else for paper."""
    end = end_view(moment) if moment.head_zero else None
    side = step_drawing(moment, columns=columns * 3 // 5 if end else columns, rows=rows)
    return (side, end) if end else (side,)


def _in_order(planned: Plan, number: int, wanted: list[str]) -> Iterator[tuple[str, Step]]:
    """The steps of one plan as the recipe has them: moved, left out, or done again (`name-again`)."""
    known = {step_id(step, number): step for step in planned.steps}
    for name in wanted:
        step = known.get(name) or known.get(name.split("-again")[0])
        if step is not None:
            yield name, step
