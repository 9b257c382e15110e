"""What is worth saying of a planned hole: speeds, reach, walls, pilots, motor and zero of the dial."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Note, info, warning
from engine.base.setting import setting_text
from engine.base.words import Text, plain, say, shown
from engine.cutting.forces import share_of_motor
from engine.drilling import bench
from engine.drilling.bench import Machine
from engine.drilling.centres import british_centre_drill
from engine.drilling.holes import LED
from engine.drilling.plan import MOTOR_SHARE, HolePlan, ToolCut
from engine.drilling.reach import reamer_length
from engine.drilling.reach_notes import drill_notes
from engine.drilling.sizes import label
from engine.drilling.thrust import CHISEL
from engine.shop.model import Shop

_LEAST_WALL, _LEAST_WALL_SHARE = (0.5, 0.1)  # mm and of the hole: a thinner wall bulges (common practice, no source)
_NOISE = 1e-9  # mm: of floats
_TOO_DEEP = (
    "drill from both ends, or draw right out every half diameter with an extended drill, or make the part of two"
)
_GRABS = ("brass", "bronze")  # groups that pull a drill in


def notes(inputs: Any, machine: Machine, plan: HolePlan, shop: Shop) -> list[Note]:
    """Warnings and remarks in the order of the work: common practice, no source, save where one is named."""
    drills = [cut for cut in plan.cuts if cut.kind != "centre"]
    found = [note for cut in drills for note in bench.speed_notes(machine, cut.speed, _called(cut))]
    found += [*_reach_notes(inputs, plan, shop), *_wall_notes(inputs, plan), *_pilot_notes(inputs, plan)]
    found += _motor_notes(machine, plan)
    found += [warning(f"The shop has no {_called(cut)}.") for cut in plan.cuts if not cut.owned]
    found += _zero_notes(inputs, machine, plan)
    if plan.centre is not None and plan.centre.standard == "iso" and plan.centre.owned is None:
        spare = british_centre_drill(plan.centre.pilot)
        text = f"A {spare} centre drill does as well; sizes of centre drills are from memory, unconfirmed."
        found += [info(text)] if spare else []
    if plan.cuts[-1].kind == "reamer":
        found += _ream_notes(inputs, plan)
    if inputs.hole == "through":
        ease = say("Ease the feed over the last {point} while the point breaks through.", point=_near(plan.point))
        found.append(info(ease))
    if inputs.material.group in _GRABS:
        text = f"{inputs.material.label} pulls a sharp drill in: stone a small flat on its lips."
        found.append(info(text))
    return found


def _motor_notes(machine: Machine, plan: HolePlan) -> list[Note]:
    """What the motor cannot turn."""
    last = plan.last_drill
    if plan.bore_to:
        template = "No drill above {widest} is within this motor: drill to that, then bore to {size}, see bore-to-size."
        return [warning(template, widest=label(last.tool), size=plain(plan.bore_to))]
    if machine.motor is not None and share_of_motor(power=last.power, motor=machine.motor) > MOTOR_SHARE:
        return [warning("The last drill asks for most of the motor: feed more gently, or bore the hole.")]
    if last.slowed:
        eased = say("{speed} is slower than the {drill} could run: a faster step would ask more than the motor gives.",
            speed=shown(last.speed.chosen, "speed"), drill=_called(last))  # fmt: skip
        return [info(eased)]
    return []


def _ream_notes(inputs: Any, plan: HolePlan) -> list[Note]:
    reamer = plan.cuts[-1]
    flute = reamer_length(reamer.tool, "machine")
    notes = []
    if inputs.hole == "blind":
        text = "A reamer is full size only behind its lead: drill deeper by that where the whole depth must be reamed."
        notes.append(info(text))
    if flute is not None and reamer.depth > flute:
        buried = "The reamer's flutes, {flute} (DIN 212 or ASME B94.2, from memory), end in the hole: clear it often."
        notes.append(info(buried, flute=_near(flute)))
    return notes


def _near(length: float, decimals: int = 1) -> Text:
    return shown(length, decimals=decimals)


def _called(cut: ToolCut) -> str:
    """A tool as a sentence names it: `8.5 mm drill`."""
    what = {"pilot": "pilot drill", "step": "step drill", "reamer": "reamer"}.get(cut.kind, "drill")
    return f"{label(cut.tool)} {what}"


def _zero_notes(inputs: Any, machine: Machine, plan: HolePlan) -> list[Note]:
    """How to set the dial, since the tip of a drill that stands in its centre does not touch the face."""
    if plan.centre is None and inputs.start == "solid" and not inputs.existing:
        by_feel = "No centre drill is as small as this hole: mark it with a fine punch, or spot it, and start by feel."
        return [info(by_feel)]
    setting = bench.setting_on(machine, plan.point)
    if setting is None:
        return []
    where, there = setting_text(setting, wheel=False), "hole" if inputs.existing else "centre"
    text = (
        "To zero: bring the corners of the {drill} level with the face and set the dial to {where}, the length of its "
    )
    text += "point; the tip is hidden in the {there}."
    return [info(text, drill=_called(plan.last_drill), where=where, there=there)]


def _reach_notes(inputs: Any, plan: HolePlan, shop: Shop) -> list[Note]:
    """What to do when the drill's flutes do not clear its chips."""
    if inputs.flute is None:
        return drill_notes(plan.last_drill.tool.diameter, plan.travel, shop, otherwise=_TOO_DEEP)
    if plan.travel <= inputs.flute:
        return []
    text = "The tip goes in {travel}, more than the {flute} flute: chips cannot get out. Use a long drill and "
    return [warning(text + "clear it often.", flute=_near(inputs.flute), travel=_near(plan.travel))]


def _wall_notes(inputs: Any, plan: HolePlan) -> list[Note]:
    notes = []
    if inputs.outside is not None:
        wall = (inputs.outside - inputs.diameter) / 2
        if wall <= 0:
            notes.append(warning("The hole is as large as the part: no wall is left."))
        elif wall < max(_LEAST_WALL, _LEAST_WALL_SHARE * inputs.diameter) - _NOISE:
            text = "Only {wall} of wall is left: it may bulge. Drill before turning the outside."
            notes.append(warning(text, wall=_near(wall, 2)))
    if inputs.stock is not None and inputs.hole == "blind" and plan.travel >= inputs.stock:
        over = _near(plan.travel - inputs.stock, 2)
        notes.append(warning("The point comes out {over} on the far side: it is no blind hole.", over=over))
    return notes


def _pilot_notes(inputs: Any, plan: HolePlan) -> list[Note]:
    """One rule for a pilot that was asked for and for the plan's own drills."""
    notes = []
    least = CHISEL * plan.last_drill.tool.diameter
    if inputs.pilot is not None and inputs.pilot < least:
        text = "The pilot is smaller than the chisel edge, about {edge}: it relieves it little."
        notes.append(info(text, edge=_near(least)))
    for cut in plan.cuts:
        if cut.kind == "pilot" and cut.depth < plan.travel - 1e-9:
            text = "The {tool} goes only {depth} deep, to start the hole true: further in, so slender a drill wanders."
            notes.append(info(text, tool=_called(cut), depth=_near(cut.depth)))
    opens = [
        cut for cut in plan.cuts if cut.kind in ("pilot", "step", "drill") and cut.before > LED * cut.tool.diameter
    ]
    if opens:
        text = (
            f"The {_called(opens[0])} opens a hole of more than half its size: only its corners cut, nothing leads it. "
            "Lock what can be locked and feed it evenly."
        )
        notes.append(Note("warning" if inputs.material.group in _GRABS else "info", text))
    return notes
