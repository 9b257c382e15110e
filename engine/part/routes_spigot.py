"""The last resort of a holding: a spigot left on the end that is made first, gripped while the second end is made.

Where nothing of the piece itself can be gripped turned round, its blank is sawn longer, a plain cylinder is turned on the
first end down to a square shoulder, and the piece stands on that in the chuck. It is sawn off and dressed at the bench.
"""

from __future__ import annotations

from math import floor

from engine.base.records import replace
from engine.part import tasks_ends
from engine.part.routes_holding import Hold, Side, jaws, three_jaw_run_out
from engine.part.routes_making import Making
from engine.part.rules import minutes
from engine.part.tasks import Bench, Task, operation_of

SPIGOT = "spigot"
_LEAST = 6.0  # mm: a thinner spigot bends before the cut does; common practice, no source
_SHORTEST = 8.0  # mm of it in the jaws; common practice, no source
_ROOM = 2.0  # mm between the jaws and its shoulder, for the tool to run out; common practice, no source
_LEDGE = 1.0  # mm of face left round it on the diameter: the shoulder that lengths are counted from
_PROUD = 0.5  # mm left to dress when it is sawn off; common practice, no source
_RISK = 25.0  # minutes: the end that it stood on is dressed by hand, as a filed end is


def spigot_hold(bench: Bench, side: Side) -> Hold | None:
    """The three-jaw on a spigot at the end made first; None where that end has no room for one.

    Its grip is one diameter, as any, and never longer than the jaws.
    """
    part, end = bench.part, side.first
    face = part.front if end == "front" else part.back
    opens = any(one.through or one.end == end for one in part.inside)
    if part.bar.blank is not None or opens or face.slot or face.figures or face.centre == "stays":
        return None
    first = side.order[0]
    edge = first.chamfer if end == "front" else first.chamfer_back
    across = float(floor(tasks_ends.end_size(part, end) - (2 * edge.depth if edge else 0.0) - _LEDGE))
    if across < _LEAST:
        return None
    long = min(max(across, _SHORTEST), jaws(bench.shop))
    grip_from, grip_to = side.span(-_ROOM - long, -_ROOM)
    run_out, measured = three_jaw_run_out(bench.shop)
    return Hold(
        held_by="three-jaw", grips=SPIGOT, grip_from=grip_from, grip_to=grip_to, grip_diameter=across, run_out=run_out,
        measured=measured, each=minutes("turn_round").typical, risk=_RISK,
        risk_why="the end that the spigot stood on is dressed by hand",
    )  # fmt: skip


def spigot_length(hold: Hold) -> float:
    """How far the spigot stands out of the end it is turned on. [mm]"""
    return hold.grip_length + _ROOM if hold.grips == SPIGOT else 0.0


def put_spigot(plan: Making, hold: Hold, out: float) -> None:
    """Saw the piece longer by it, turn it first of all, and take it off at the end; `out` is what stands out for that."""
    bench, side = plan.bench, plan.side
    long = spigot_length(hold)
    pull = f"The work stands out {bench.shown(out)} from the jaws: grip it so."
    sawn = tasks_ends.sawn(bench, bench.part.make, True, bench.part.overall + 2.0 + long)
    changed = {
        "saw": sawn.do,
        "face": (pull,),
        "face2": (f"The length is from the spigot's shoulder, the {side.first} face.",),
    }
    plan.tasks[:] = [
        (
            visit,
            replace(task, do=changed.get(task.kind, task.do), title=sawn.title if task.kind == "saw" else task.title),
        )
        for visit, task in plan.tasks
    ]
    plan.put("a", _turned(bench, side, hold))
    plan.put("z", _taken_off(bench, side))


def _turned(bench: Bench, side: Side, hold: Hold) -> Task:
    part, across, long = bench.part, hold.grip_diameter, spigot_length(hold)
    operation, inputs = operation_of(
        ("turn-to-size", {"from": bench.said(part.bar.corners), "to": bench.said(across), "length": bench.said(long),
                          "material": part.material}),
        ("turning-speed", {"diameter": bench.said(part.bar.corners), "material": part.material}),
    )  # fmt: skip
    place = tasks_ends.place_of(part, side.first)
    return Task(
        kind="spigot",
        title=f"Turn a spigot {bench.shown(across)} x {bench.shown(long)}",
        operation=operation,
        inputs=inputs,
        do=(f"Parallel, to a square shoulder: that is the {side.first} face, and the dial is zeroed on it anew.",),
        element="rough",
        start=place,
        stop=place,
        diameter=across,
        end=side.first,
    )


def _taken_off(bench: Bench, side: Side) -> Task:
    words = (
        f"Saw it off {bench.shown(_PROUD)} proud of the {side.first} face, the work in soft jaws with sheet round it.",
        "File it flush, card over the rest of the face; then rub the face down on fine cloth on a flat plate.",
    )
    return tasks_ends.by_hand(
        "spigot_off", "Take the spigot off", words, "spigot_off", end=side.first, hazards=("hand-work", "deburring")
    )
