"""A plan as lines of text: what to lay out, the set-ups as strips, their steps, what decides, and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import groupby

from engine.base.quantity import INCH_MM
from engine.base.rounding import short
from engine.part.part import Part
from engine.part.plan import Plan
from engine.part.routes_spigot import SPIGOT
from engine.part.steps import SetUp, Step
from engine.part.tight import tight_lines
from engine.part.together import in_order, needs_together
from engine.part.words import spoken_of
from engine.turning.collets import collet_for


def as_text(plans: Sequence[Plan], *, why: bool = False) -> list[str]:
    """The plans of a file for reading at the shell, in one order; with `why`, each step's rules under it."""
    heads = [row for plan in plans for row in _head(plan)]
    if len(plans) > 1:
        heads.append(f"Together about {short(sum(plan.minutes for plan in plans), 0)} minutes")
    heads += _missing(plans)
    foot = [row for plan in plans for row in _foot(plan)]
    return [*heads, "", *_laid_out(plans), *_strips(plans, why), *_repeats(plans), "", *foot]


def _head(plan: Plan) -> Iterator[str]:
    part = plan.part
    yield f"{part.title}, {part.make} off" if part.make > 1 else part.title
    band = f"{short(plan.band[0], 0)} to {short(plan.band[1], 0)}"
    yield f"{plan.route.words}; about {short(plan.minutes, 0)} minutes ({band}), {plan.best}"


def _missing(plans: Sequence[Plan]) -> list[str]:
    """What is not owned, with what could stand in: said before anything is laid out."""
    words = [
        f"{one.what} ({one.instead})" if one.instead else one.what for one in needs_together(plans) if not one.owned
    ]
    return [f"NOT OWNED: {'; '.join(words)}"] if words else []


def _laid_out(plans: Sequence[Plan]) -> Iterator[str]:
    yield "Lay out"
    for need in needs_together(plans):
        missing = "" if need.owned else f"   NOT OWNED{f': {need.instead}' if need.instead else ''}"
        yield f"  {need.what}{missing}"


def _strips(plans: Sequence[Plan], why: bool) -> Iterator[str]:
    """The steps of one round under the set-up they are done in; what repeats is said and not listed again."""
    rows = [(part, step) for part, step in in_order(plans) if step.round == 1]
    holdings = groupby(rows, key=lambda row: (row[0], row[1].set_up))
    number = 0
    for place, ((part, set_up), steps) in enumerate(holdings, 1):
        plan = plans[part]
        yield ""
        yield f"{place}  {f'{plan.part.title}: ' if len(plans) > 1 else ''}{held(plan, plan.set_ups[set_up])}"
        for _, step in steps:
            number += 1
            yield from _step(number, step, why)
            for words in plan.gates_after(step):
                yield f"     DO NOT LET GO before {words}."


def _repeats(plans: Sequence[Plan]) -> Iterator[str]:
    rows = [(part, step.set_up) for part, step in in_order(plans) if step.round == 1]
    places = {row: place for place, (row, _) in enumerate(groupby(rows), 1)}
    for part, plan in enumerate(plans):
        if plan.rounds > 1:
            yield ""
            own = {set_up: place for (number, set_up), place in places.items() if number == part}
            whose = f"{plan.part.title}, the" if len(plans) > 1 else "The"
            yield f"{whose} same for the other {plan.rounds - 1}: {_rounds(plan, own)}"


def _rounds(plan: Plan, places: Mapping[int, int]) -> str:
    """In which order the pieces go through the set-ups, by the places these have in the list."""
    order: list[tuple[int, int]] = []
    for step in plan.steps:
        if not order or order[-1] != (step.round, step.set_up):
            order.append((step.round, step.set_up))
    first = [places[s] for r, s in order if r == 1]
    joined = [places[s] for r, s in order[: next((i for i, (r, _) in enumerate(order) if r == 2), len(order))]]
    rest = [s for s in first if s not in joined]
    group = ", ".join(str(s) for s in joined)
    then = f"; then {', '.join(str(s) for s in rest)}, each for all of them" if rest else ""
    return (
        f"set-ups {group} for each piece{then}." if len(joined) > 1 else f"set-up {group} for all of them first{then}."
    )


def held(plan: Plan, one: SetUp) -> str:
    """How the work is held, on one line."""
    if one.machine == "bench":
        return "Bench"
    shown = plan.bench.shown
    carried = ""
    if one.carried:
        over = one.driven_by and one.machine != "lathe"
        carried = f" (carried over with the {one.driven_by})" if over else " (carried back)"
    by: str = one.held_by
    if by == "collet" and one.grip_diameter:
        by = f"collet {collet_for(one.grip_diameter, plan.bench.shop)}".strip()
    words = [f"{one.machine.capitalize()}, {by}{carried}"]
    words.append(f"grips {shown(one.grip_length)} of {gripped(plan.part, one)}")
    if one.between:
        words.append(f"between: {one.between}")
    if one.stick_out is not None:
        words.append(f"stands out {shown(one.stick_out)}")
    if one.support != "none":
        words.append(f"support: {one.support}")
    if one.turned_round:
        words.append("turned round")
    if one.zero:
        words.append(f"zero on {one.zero}")
    limit = f", {shown(one.limit)} allowed" if one.limit is not None else ""
    words.append(f"run-out {shown(one.run_out)} {'measured' if one.measured else 'planned'}{limit}")
    return "; ".join(words)


def gripped(part: Part, one: SetUp) -> str:
    """What the holding grips, in words, with how thick it is there where that does not say it."""
    if one.grips == SPIGOT:
        return f"the spigot, {_shown(part, one.grip_diameter)}"
    carrier = one.held_by == "between centres"  # it may hold what is still rough
    if one.grips != "bar":
        thick = next((o.largest for o in part.outside if o.name == one.grips), one.grip_diameter)
        rough = carrier and thick < one.grip_diameter
        return spoken_of(part, one.grips) + (f", still {_shown(part, one.grip_diameter)}" if rough else "")
    section = {"round": "", "hex": "hexagon ", "square": "square "}[part.bar.section]
    return f"the bar, {section}{_shown(part, part.bar.size)}"


def _shown(part: Part, length: float) -> str:
    return f"{short(length / INCH_MM, 4)} in" if part.unit == "inch" else short(length, 3)


def _step(number: int, step: Step, why: bool) -> Iterator[str]:
    setting = ""
    if step.operation:
        setting = f"   [{step.operation} {' '.join(f'{k}={_quoted(v)}' for k, v in step.inputs)}]"
    yield f"  {number:>3}  {step.title}{setting}"
    for line in step.do:
        yield f"       {line}"
    for line in step.measure:
        yield f"       measure {line}"
    if why:
        for one in step.why:
            yield f"       why ({one.rule}): {one.text} [{one.source}]"


def _quoted(value: str) -> str:
    return f'"{value}"' if " " in value else value


def _foot(plan: Plan) -> Iterator[str]:
    yield from tight_lines(plan)
    other = plan.runner_up
    if other is not None:
        yield f"Next best: {other.route}, about {short(other.minutes, 0)} minutes; not taken: {other.why_not}."
    for one in plan.broken:
        yield f"Against a preference ({one.rule}): {one.text}."
