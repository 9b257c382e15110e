"""The moment of each step: what the piece is by then, how it is held, where the tool stands; for its drawing."""

from __future__ import annotations

from typing import Literal

from engine.part.meets import mm_of
from engine.part.part import End, Part, WorkState
from engine.part.plan import Plan, is_up
from engine.part.routes_spigot import SPIGOT, spigot_length
from engine.part.rules import vocabulary
from engine.part.steps import OWN, SetUp, Step

_LEFT_SAWN, _LEFT_PARTED = 1.0, 0.3  # mm left on an end until it is faced
_INSIDE = ("drill", "bore", "bore_finish", "ream", "counterbore", "countersink", "tap", "thread_inside", "taper_bore",
           "groove_inside", "centre", "centre2")  # fmt: skip
_FACES = ("face", "face2")
_SPIGOT = ("spigot", "spigot_off")
_INWARDS = ("face", "face2", "groove", "relief", "part_groove", "part_off", "knurl", "chamfer_back")

Side = Literal["outside", "inside", "face", "across", "none"]
Feed = Literal["to the headstock", "to the tailstock", "inwards", "none"]


def states(plan: Plan) -> list[WorkState]:
    """The state of every step, in the order of the plan."""
    made: dict[int, set[str]] = {}
    found = []
    for step in plan.steps:
        there = made.setdefault(step.round, set())
        found.append(_state(plan, step, frozenset(there)))
        there |= set(step.makes)
        if step.kind in _FACES:
            there.add(step.about)
        if step.kind in _SPIGOT:
            there.add(step.kind)
    return found


def _state(plan: Plan, step: Step, made: frozenset[str]) -> WorkState:
    set_up, part = plan.set_ups[step.set_up], plan.part
    bar_from, bar_to = _bar(plan, made, step)
    held = set_up.machine != "bench"
    reached = set_up.reached or plan.route.side.first
    side = _side(step, set_up)
    at = _tool_at(part, step, reached) if side != "none" else None
    gripped = _gripped(part, set_up, step, reached)
    return WorkState(
        part=part,
        title=step.title,
        made=made,
        making=_making(part, step),
        machine=set_up.machine,  # type: ignore[arg-type]
        holding=set_up.held_by,
        driven_by=set_up.driven_by,
        grip_from=gripped[0] if held else None,
        grip_to=gripped[1] if held else None,
        grip_diameter=set_up.grip_diameter if held else None,
        between=set_up.between,
        support=set_up.support if _supported(plan, step) else "none",  # type: ignore[arg-type]
        stick_out=set_up.stick_out if step.out is None else step.out,
        turned_round=reached == "back",
        earlier_end=f"the {plan.route.side.first} end" if set_up.turned_round else "",
        zero=_face(part, reached) if set_up.reached else None,
        bar_from=bar_from,
        bar_to=bar_to,
        spigot=_spigot(plan, made, step),
        now=step.now,
        finishes=bool(set(step.makes) & {feature.name for feature in part.features()}) or not _making(part, step),
        leaves=_leaves(plan, step),
        reach=_reach(plan, step),
        tool=step.tool,
        tool_side=side,
        tool_at=at,
        feed=_feed(step, side),
        room=_room(set_up, gripped, at) if held and at is not None and set_up.machine == "lathe" else None,
        measure=step.measure,
        head_zero=step.about if step.kind in ("lines", "flats", "holes", "cross_drill") else "",
    )


def _gripped(part: Part, set_up: SetUp, step: Step, reached: End) -> tuple[float, float]:
    """Where it is held: nearer to the end that is worked on while the bar is pushed back."""
    if step.out is None:
        return set_up.grip_from, set_up.grip_to
    near, far = step.out, step.out + set_up.grip_length
    return (near, far) if reached == "front" else (part.overall - far, part.overall - near)


def _face(part: Part, end: End) -> float:
    return 0.0 if end == "front" else part.overall


def _making(part: Part, step: Step) -> tuple[str, ...]:
    """What is heavy in the drawing: what the step finishes, else the feature it works on."""
    names = {feature.name for feature in part.features()}
    finished = tuple(name for name in step.makes if name in names)
    return finished or ((step.about,) if step.about in names else ())


def _leaves(plan: Plan, step: Step) -> float | None:
    """The diameter that a step leaves on what a later one finishes. [mm]"""
    given, left = dict(step.inputs), dict(step.now)
    if step.kind == "drill":
        return step.diameter
    if step.operation == "bore-to-size" and "to" in given:
        return mm_of(given["to"])
    return left.get(step.about)


def _reach(plan: Plan, step: Step) -> float | None:
    """How far a drill or the parting blade goes from the zero face. [mm]"""
    if step.kind == "part_off":
        return plan.part.overall + _LEFT_PARTED
    depth = dict(step.inputs).get("depth") if step.kind == "drill" else None
    return mm_of(depth) if depth else None


def _bar(plan: Plan, made: frozenset[str], step: Step) -> tuple[float, float]:
    """Where the raw bar or the piece begins and ends, before the front face and behind the back face."""
    side, overall = plan.route.side, plan.part.overall
    left = _LEFT_SAWN if plan.route.free != "bar" else _LEFT_PARTED
    long = max(spigot_length(visit.hold) for visit in plan.route.visits)
    on = long > 0 and "spigot_off" not in (*made, step.kind)
    first = -long if on else 0.0 if side.first in made else -_LEFT_SAWN
    if side.second in made:
        last = overall
    elif plan.route.free == "bar" and "part" not in made:
        grip = plan.set_ups[0]
        last = max(abs(grip.grip_to - _face(plan.part, side.first)), abs(grip.grip_from - _face(plan.part, side.first)))
    else:
        last = overall + left
    return (first, last) if side.first == "front" else (overall - last, overall - first)


def _spigot(plan: Plan, made: frozenset[str], step: Step) -> float | None:
    """How thick the spigot is that stands before the end made first; None where there is none now. [mm]"""
    if "spigot" not in (*made, step.kind) or "spigot_off" in (*made, step.kind):
        return None
    return next((one.grip_diameter for one in plan.set_ups if one.grips == SPIGOT), None)


def _supported(plan: Plan, step: Step) -> bool:
    """Whether the support is up at this step: between bringing it up and taking it away."""
    return is_up([one for one in plan.steps if (one.set_up, one.round) == (step.set_up, step.round)], step)


def _side(step: Step, set_up: SetUp) -> Side:
    station = vocabulary()[step.kind].station if step.kind != OWN else "none"
    if step.kind in _FACES:
        return "face"
    if step.kind in _INSIDE:
        return "inside"
    if station == "mill":
        return "across"
    return "outside" if station == "tool post" and step.kind != "stub" else "none"


def _tool_at(part: Part, step: Step, reached: End) -> float:
    """Where the cut ends: away from the end that stands at the tailstock."""
    if step.kind in _FACES:
        return _face(part, reached)
    return step.stop if reached == "front" else step.start


def _feed(step: Step, side: Side) -> Feed:
    if side == "none":
        return "none"
    return "inwards" if step.kind in _INWARDS or side == "across" else "to the headstock"


def _room(set_up: SetUp, gripped: tuple[float, float], at: float) -> float | None:
    """From the end of the cut to the jaws; None where the grip lies inside the work. [mm]"""
    if set_up.held_by in ("arbor", "threaded stub", "between centres"):
        return None
    edges = [abs(at - place) for place in gripped]
    inside = gripped[0] < at < gripped[1]
    return None if inside else min(edges)
