"""What the person changes in a plan: an order of their own is allowed, and what it breaks is said with its reason."""

from __future__ import annotations

from collections.abc import Sequence

from engine.part.plan import Plan
from engine.part.rules_conditions import holding_between
from engine.part.steps import Step, Why
from engine.part.tasks import Task


def objections(plan: Plan, order: Sequence[str]) -> tuple[Why, ...]:
    """The hard rules that steps would break in this order of their ids, each in one line; those left out are dropped.

    >>> from engine.part.file import read
    >>> from engine.part.plan import plan
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> pin = read(head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"').part
    >>> found = plan(pin, sample("metric"))
    >>> ids = [step.id for step in found.steps]
    >>> objections(found, ids)
    ()
    >>> print(objections(found, [*ids[1:], ids[0]])[0].text)
    Rough to 12.6 x 20 would stand before Face the front end, and it is facing the first end before roughing the outside:
    lengths are counted from the faced end
    """
    steps = {step.id: step for step in plan.steps}
    chosen = [(steps[name], task_of(plan, steps[name])) for name in order if name in steps]
    found: dict[tuple[str, str, str], Why] = {}
    for i, (earlier, first) in enumerate(chosen):
        for later, second in chosen[i + 1 :]:
            if earlier.round != later.round:
                continue
            for rule in holding_between(plan.route.setting, second, first):
                if rule.hard:
                    asked = rule.text(second.kind, first.kind)
                    text = f"{earlier.title} would stand before {later.title}, and it is {asked}"
                    key = rule.id, earlier.id, later.id
                    found.setdefault(key, Why(rule=rule.id, text=text, source=rule.source, step=earlier.id))
    return tuple(found.values())


def task_of(plan: Plan, step: Step) -> Task:
    """The task that a step came from; its title may have changed, as where several parts share a sawn piece."""
    alike = [task for task in plan.route.tasks if (task.kind, task.about) == (step.kind, step.about)]
    found = next((task for task in alike if task.title == step.title), None)
    return found or next(iter(alike), None) or next(task for task in plan.route.tasks if task.kind == step.kind)
