"""The moment of an operation that does not say its moments itself yet: read off its inputs and figures by name.

It goes when the last operation fills its own.
"""

from __future__ import annotations

from typing import Any

from engine.base.answer import Answer
from engine.base.operation import Operation
from engine.shop.model import Shop
from engine.situation import Situation
from engine.trouble.facts import Facts


def moment_of(operation: Operation, inputs: Any, answer: Answer, shop: Shop | None) -> Situation:
    """One moment, from the names that figures and inputs have today."""
    figures = {figure.name: figure for figure in answer.figures}
    facts = Facts(inputs, figures, shop, {}, operation.id, "mm", answer)
    drilled, depth = facts.number("drill_depth"), facts.given("depth")
    lathe_work = facts.diameter is not None
    parted = facts.number("stick_out")
    if parted is not None and operation.id == "bar-plan":
        ends = (to for to in answer.table("cuts").column("to") if isinstance(to, float))
        parted -= min(ends, default=0.0)
    out = facts.number("length") if operation.id == "overhang" else facts.number("stick_out")
    support = facts.words("support")
    drilling = operation.id in ("hole-plan", "tap-drill", "ream")
    return Situation(
        machine=facts.machine,
        support="" if support in ("chuck", "collet") else support,
        held_by=support if support in ("collet",) else "",
        grip=facts.number("grip"),
        stick_out=out,
        rear=facts.number("rear"),
        material=facts.material,
        work_diameter=facts.diameter
        if lathe_work
        else facts.number("diameter")
        if facts.machine == "mill"
        else None,
        bore=facts.number("bore"),
        outside=facts.number("outside"),
        thread=facts.thread,
        part=facts.words("part"),
        hold=facts.words("hold"),
        temper=facts.number("temper"),
        bears=facts.number("limit"),
        ball=facts.number("ball"),
        spindle_speed=facts.speed,
        feed=facts.number("feed"),
        gap=facts.number("gap"),
        time_to_shoulder=facts.number("time_to_shoulder"),
        tool_diameter=facts.number(
            "cutter", "drill_diameter", "pre_drill", "hole", "width" if facts.machine == "mill" else "bore"
        ),
        pass_depth=facts.number("step"),
        cutter_deflection=facts.number("cutter_deflection"),
        hole="blind"
        if facts.words("hole") == "blind"
        else "through"
        if facts.words("hole") == "through"
        else "",
        depth=(drilled or facts.number("depth")) if drilling else None,
        spare=drilled - depth if drilled is not None and depth is not None else None,
        wall=facts.number("wall_left"),
        width=facts.number("width"),
        blade_width=facts.number("blade"),
        reach_needed=facts.number("blade_reach"),
        parted_at=parted if operation.id in ("bar-plan", "part-off") else None,
        alloy=facts.words("alloy"),
        liquidus=facts.number("liquidus"),
    )
