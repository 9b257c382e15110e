"""What is worth saying about a planned hole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine.base.answer import Note
from engine.base.quantity import show
from engine.cutting.forces import share_of_motor
from engine.drilling import holes
from engine.drilling.bench import Machine, setting_on, speed_notes
from engine.drilling.centres import british_centre_drill
from engine.drilling.plan import MOTOR_SHARE, HolePlan, ToolCut
from engine.drilling.sizes import label

if TYPE_CHECKING:
    from engine.drilling.plan_operations import HolePlanInputs


def plan_notes(inputs: HolePlanInputs, machine: Machine, plan: HolePlan, unit: str) -> list[Note]:
    """What a planned hole's numbers made worth saying.

    Parameters
    ----------
    inputs : HolePlanInputs
        What the operation was told.
    machine : Machine
        Where it is drilled.
    plan : HolePlan
        The tools in order.
    unit : str
        `mm` or `inch`: what the notes speak in.

    Returns
    -------
    notes : list of Note
        Warnings and remarks, in the order of the work.

    Sources
    -------
    Common practice, no source, save the flute (DIN 338, from memory) and the centre drills (from memory).

    Examples
    --------
    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> deep = run("hole-plan", {"diameter": "2", "depth": "40"}, sample("metric")).answer
    >>> [note.text[:23] for note in deep.notes if note.level == "warning"]
    ['The tip goes in 40.6 mm']
    """
    last = plan.last_drill
    notes = [
        note
        for cut in plan.cuts
        if cut.kind != "centre"
        for note in speed_notes(machine, cut.speed, _called(cut))
    ]
    notes += _reach_notes(inputs, plan, unit)
    notes += _wall_notes(inputs, plan, unit)
    notes += _pilot_notes(inputs, last, unit)
    if machine.motor is not None and share_of_motor(power=last.power, motor=machine.motor) > MOTOR_SHARE:
        notes.append(
            Note(
                "warning",
                "The last drill asks for most of the motor: open the hole in more steps or feed more gently.",
            )
        )
    notes += [Note("warning", f"The shop has no {_called(cut)}.") for cut in plan.cuts if not cut.owned]
    notes += _zero_notes(machine, plan, unit)
    spare = british_centre_drill(plan.centre.pilot)
    if plan.centre.standard == "iso" and spare:
        notes.append(
            Note(
                "info",
                f"A {spare} centre drill does as well; sizes of centre drills are from memory, unconfirmed.",
            )
        )
    if plan.cuts[-1].kind == "reamer" and inputs.hole == "blind":
        text = "A reamer is full size only behind its lead: drill deeper by that where the whole depth must be reamed."
        notes.append(Note("info", text))
    if inputs.hole == "through":
        notes.append(
            Note(
                "info",
                f"Ease the feed over the last {_said(plan.point, unit)} while the point breaks through.",
            )
        )
    if inputs.material.group in ("brass", "bronze"):
        notes.append(
            Note("info", f"{inputs.material.label} pulls a sharp drill in: stone a small flat on its lips.")
        )
    return notes


def _called(cut: ToolCut) -> str:
    """A tool as a sentence names it: `8.5 mm drill`."""
    what = {"pilot": "pilot drill", "step": "step drill", "reamer": "reamer"}.get(cut.kind, "drill")
    return f"{label(cut.tool)} {what}"


def _zero_notes(machine: Machine, plan: HolePlan, unit: str) -> list[Note]:
    """How to set the dial, since the tip of a drill that stands in its centre does not touch the face."""
    if plan.cuts[0].kind != "centre":
        text = "No centre drill is as small as the first drill: mark the hole with a fine punch and start it by feel."
        return [Note("info", text)]
    setting = setting_on(machine, plan.point)
    if setting is None:
        return []
    where = show(setting.reading, "length", unit)
    if setting.turns:
        where = f"{setting.turns} turn{'' if setting.turns == 1 else 's'} and {where}"
    text = (
        "In its centre a tip goes past the face unseen. To zero, bring the corners of the "
        f"{_called(plan.last_drill)} level with the face and set the dial to {where}, the length of its point."
    )
    return [Note("info", text)]


def _reach_notes(inputs: HolePlanInputs, plan: HolePlan, unit: str) -> list[Note]:
    notes = []
    last = plan.last_drill
    jobber = holes.flute_length(last.tool.diameter)
    flute = inputs.flute if inputs.flute is not None else jobber
    whose = "" if inputs.flute is not None else " of a jobber drill (DIN 338, from memory)"
    if flute is not None and plan.travel > flute:
        notes.append(
            Note(
                "warning",
                f"The tip goes in {_said(plan.travel, unit)}, more than the {_said(flute, unit)} flute{whose}: "
                "chips cannot get out. Use a long drill and clear it often.",
            )
        )
    for cut in plan.cuts:
        if cut.kind in ("pilot", "step") and cut.depth < plan.travel - 1e-9:
            notes.append(
                Note(
                    "info",
                    f"The {_called(cut)} goes only {_said(cut.depth, unit)} deep, as far as its flute clears chips.",
                )
            )
    return notes


def _wall_notes(inputs: HolePlanInputs, plan: HolePlan, unit: str) -> list[Note]:
    notes = []
    if inputs.outside is not None:
        wall = (inputs.outside - inputs.diameter) / 2
        if wall <= 0:
            notes.append(Note("warning", "The hole is as large as the part: no wall is left."))
        elif wall < max(0.5, 0.1 * inputs.diameter):
            notes.append(
                Note(
                    "warning",
                    f"Only {_said(wall, unit, 2)} of wall is left: it may bulge. Drill before turning the outside.",
                )
            )
    if inputs.stock is not None and inputs.hole == "blind" and plan.travel >= inputs.stock:
        over = plan.travel - inputs.stock
        notes.append(
            Note(
                "warning", f"The point comes out {_said(over, unit, 2)} on the far side: it is no blind hole."
            )
        )
    return notes


def _pilot_notes(inputs: HolePlanInputs, last: ToolCut, unit: str) -> list[Note]:
    if inputs.pilot is None:
        return []
    share = inputs.pilot / last.tool.diameter
    low, high = holes.pilot_range(last.tool.diameter)
    if share > holes.PILOT_TOO_LARGE:
        text = (
            f"The pilot is larger than the drill's web asks ({_said(low, unit)} to {_said(high, unit)}): the "
            "corners alone cut, the drill may grab and wander."
        )
        return [Note("warning", text)]
    if inputs.pilot < low:
        return [
            Note(
                "info",
                f"The pilot is smaller than the drill's web, about {_said(low, unit)}: it relieves it little.",
            )
        ]
    return []


def _said(length: float, unit: str, decimals: int = 1) -> str:
    """A length as a note says it, in the shop's own unit."""
    return show(length, "length", unit, decimals=decimals)
