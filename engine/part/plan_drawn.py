"""The steps of a job drawn: from the part file that goes with its recipe, in the order the recipe has now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from engine.base.answer import Picture
from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.part.file import read
from engine.part.part import WorkState
from engine.part.plan import Plan
from engine.part.plan_recipe import step_id
from engine.part.plan_states import states
from engine.part.steps import OWN, Step
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
    return {name: moment for name, _, moment in moments_of(plan_all(read(part_text).parts, shop), ids)}


def moments_of(plans: Sequence[Plan], ids: Iterable[str]) -> Iterator[tuple[str, Step, WorkState]]:
    """The steps of these ids, each with its step in the plan and its moment."""
    placed = list(_placed(plans, ids))
    for number, planned in enumerate(plans):
        steps = [(name, step) for name, place, step in placed if place == number]
        moments = states(replace(planned, steps=tuple(step for _, step in steps)))
        yield from ((name, step, moment) for (name, step), moment in zip(steps, moments, strict=True))


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


def _placed(plans: Sequence[Plan], ids: Iterable[str]) -> Iterator[tuple[str, int, Step]]:
    """Every step of the recipe with the number of its part: moved, left out, done again (`name-again`), or the person's
    own, which finds the work as the step before it left it."""
    known = {step_id(step, number): (number, step) for number, one in enumerate(plans) for step in one.steps}
    at = next(iter(known.values()))
    before = 0  # of the first step nothing is there yet
    for name in ids:
        found = known.get(name) or known.get(name.split("-again")[0])
        if found is not None:
            at = found
            yield name, *found
        else:
            before += 1
            yield name, at[0], replace(own_after(at[1]), id=f"{OWN}-{before}")


def own_after(step: Step) -> Step:
    """A step of the person's own behind another one: held alike, and nothing of the plan is made in it."""
    return replace(
        step,
        kind=OWN,
        about="",
        title="As the work lies",
        operation=None,
        inputs=(),
        makes=(),
        measure=(),
        do=(),
        tool="",
    )
