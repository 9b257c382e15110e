"""A plan written as a recipe, which the person can then edit and step through."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from engine.base.refusals import BadInput
from engine.jobs.schema import MOST_STEPS, SCHEMA_VERSION
from engine.part.needs import needs
from engine.part.plan import Plan, SetUp, Step

_LONGEST_LINE = 290
_MOST_LINES = 19


def as_recipe(plans: Sequence[Plan]) -> str:
    """The text of a recipe that does these plans one after the other.

    Examples
    --------
    >>> from pathlib import Path
    >>> from engine.jobs.recipe import read
    >>> from engine.part.file import read as read_part
    >>> from engine.part.plan import plan
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> pin = read_part(head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"').part
    >>> read(as_recipe([plan(pin, sample("metric"))]), Path("pin.toml")).title
    'Pin'
    """
    import tomlkit

    first = plans[0]
    steps = [step for number, plan in enumerate(plans) for step in _steps(plan, number)]
    if len(steps) > MOST_STEPS:
        raise BadInput(
            "make",
            first.part.make,
            "fewer pieces",
            f"make: {len(steps)} steps are more than the {MOST_STEPS} of a recipe; fewer pieces at a time would do.",
        )
    document = tomlkit.document()
    document.update(
        {
            "schema_version": SCHEMA_VERSION,
            "title": first.part.title[:80],
            "part": _line(f"{first.part.title}, {first.part.make} off"),
            "stock": _line(needs(first)[0].what),
            "about": f"Planned: {first.route.words}; about {first.minutes:.0f} minutes.",
            "unit": "mm",
            "steps": steps,
        }
    )
    return tomlkit.dumps(document)


def _line(text: str) -> str:
    """A line of a recipe; braces would name a figure there."""
    return (
        "".join(c if c.isprintable() else " " for c in text)
        .replace("{", "(")
        .replace("}", ")")[:_LONGEST_LINE]
        .strip()
    )


def _steps(plan: Plan, number: int) -> Iterator[dict[str, Any]]:
    seen: tuple[int, int] | None = None
    last = {(step.round, step.set_up): step.id for step in plan.steps}
    for step in plan.steps:
        here = (step.round, step.set_up)
        lines = list(_set_up(plan, plan.set_ups[step.set_up], step.round)) if here != seen else []
        seen = here
        yield _step(plan, step, number, lines, last[here] == step.id)


def _set_up(plan: Plan, one: SetUp, round_: int) -> Iterator[str]:
    from engine.part.plan_text import held

    if plan.rounds > 1:
        yield f"Piece {round_} of {plan.rounds}."
    yield f"Set-up: {held(plan, one)}."


def _step(plan: Plan, step: Step, number: int, lines: list[str], closes: bool) -> dict[str, Any]:
    words = [*lines, *step.do, *(f"Measure {line}." for line in step.measure)]
    if step.counts > 1 and not step.count:
        words.append(f"{step.counts} times.")
    if closes:
        words += [f"Do not let go before {gate}." for gate in plan.set_ups[step.set_up].gate_words]
    table: dict[str, Any] = {
        "id": f"{step.id}-p{number + 1}" if number else step.id,
        "title": _line(step.title),
        "do": [_line(word) for word in words[:_MOST_LINES]],
    }
    if step.operation:
        table |= {"operation": step.operation, "inputs": dict(step.inputs)}
    if step.count and _countable(plan, step):
        table["count"] = step.count
    if step.hazards:
        table["hazards"] = list(step.hazards)
    return table


def _countable(plan: Plan, step: Step) -> bool:
    """Whether the operation's answer in this shop has the table that is counted."""
    from engine.base.operation import run

    if step.operation is None:
        return False
    try:
        answer = run(step.operation, dict(step.inputs), plan.bench.shop).answer
    except BadInput:
        return False
    return any(table.name == step.count for table in answer.tables)
