"""A plan as the mapping that `tommybar part --json` prints."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.base.words import write
from engine.part.keys import keys_of
from engine.part.needs import needs
from engine.part.plan import Plan
from engine.part.steps import SetUp, Step, Why
from engine.part.tight import Tight, tight
from engine.part.together import in_order, needs_together


def as_json(plan: Plan) -> dict[str, Any]:
    """The plan as plain values: part, needs, set-ups, steps, minutes, how good it is and the runner-up.

    >>> from engine.part.file import read
    >>> from engine.part.plan import plan
    >>> from engine.shop.file import sample
    >>> head = 'part_version = 1\\ntitle = "Pin"\\nunit = "mm"\\nmaterial = "mild steel"\\nbar = "16"\\n'
    >>> pin = read(head + '[[outside]]\\nis = "diameter"\\nsize = "12"\\nlength = "20"').part
    >>> found = as_json(plan(pin, sample("metric")))
    >>> found["set_ups"][0]["held_by"], found["best"], found["steps"][0]["set_up"]
    ('three-jaw', 'best', 0)
    """
    return {
        "part": keys_of(plan.part),
        "needs": [{"what": n.what, "owned": n.owned, "instead": n.instead} for n in needs(plan)],
        "set_ups": [_set_up(one) for one in plan.set_ups],
        "steps": [_step(one) for one in plan.steps],
        "minutes": round(plan.minutes, 1),
        "minutes_low": round(plan.band[0], 1),
        "minutes_high": round(plan.band[1], 1),
        "rounds": plan.rounds,
        "route": plan.route.words,
        "best": plan.best,
        "runner_up": _runner_up(plan),
        "broken": [_why(one) for one in plan.broken],
        "hard_to_hold": [_hard(one) for one in tight(plan)],
    }


def together_json(plans: Sequence[Plan]) -> dict[str, Any]:
    """Several parts of one file: what they need together, their minutes, and the order of all their steps."""
    return {
        "needs": [{"what": n.what, "owned": n.owned, "instead": n.instead} for n in needs_together(plans)],
        "minutes": round(sum(plan.minutes for plan in plans), 1),
        "order": [{"part": number, "step": step.id, "round": step.round} for number, step in in_order(plans)],
    }


def _hard(one: Tight) -> dict[str, Any]:
    """A limit that this shop can hardly hold: allowed and good to, either way, in mm."""
    cause = write(one.cause)
    return {"feature": one.name, "what": one.what, "allowed": _length(one.allowed), "good_to": _length(one.good_to),
            "state": one.state, "most_from": cause}  # fmt: skip


def _runner_up(plan: Plan) -> dict[str, Any] | None:
    other = plan.runner_up
    if other is None:
        return None
    return {"route": other.route, "minutes": round(other.minutes, 1), "why_not": other.why_not}


def _length(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


def _set_up(one: SetUp) -> dict[str, Any]:
    return {
        "machine": one.machine,
        "held_by": one.held_by,
        "driven_by": one.driven_by,
        "carried_over": one.carried,
        "grips": one.grips,
        "grip_length": _length(one.grip_length),
        "grip_diameter": _length(one.grip_diameter),
        "between": one.between,
        "stick_out": _length(one.stick_out),
        "support": one.support,
        "turned_round": one.turned_round,
        "zero": one.zero,
        "run_out": {"planned": one.run_out, "measured": one.measured, "limit": one.limit},
        "do_not_let_go_before": list(one.gate_words),
    }


def _why(one: Why) -> dict[str, Any]:
    return {"rule": one.rule, "text": one.text, "source": one.source, "broken": one.broken}


def _step(one: Step) -> dict[str, Any]:
    return {
        "id": one.id,
        "title": one.title,
        "set_up": one.set_up,
        "round": one.round,
        "each": one.each,
        "operation": one.operation,
        "inputs": dict(one.inputs),
        "makes": list(one.makes),
        "do": list(one.do),
        "count": one.count or None,
        "counts": one.counts,
        "measure": list(one.measure),
        "minutes": round(one.minutes, 2),
        "why": [_why(why) for why in one.why],
    }
