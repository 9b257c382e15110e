"""The machine that a hole is made on: its speeds, its limit, the handwheel that feeds the drill."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Column, Figure, Note, heads, info, to_set, warning
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.setting import Setting
from engine.base.words import counted, figures, general, put, say
from engine.cutting.materials import Material
from engine.cutting.speeds import SpeedRange, SpindleSpeed, chosen_step, ideal_speed, spindle_speed
from engine.indexing.dials import DialSetting, Towards, on_slide, own_unit, slide_setting
from engine.shop.model import Shop, Slide
from engine.situation import Machine as Kind
from engine.situation import Situation

MACHINES = ("lathe", "mill")


def by_standard(label: str = "Standard") -> Any:
    """Ask by which standard, the bench's own unless it is told."""
    return ask.choice(label, ("iso", "asme"), from_shop=lambda shop: shop.standard,
        empty="iso on a metric bench, asme on an inch one", example="iso")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Machine:
    """A lathe (drill in the tailstock) or a mill (drill in the spindle); `name` is "" for none that is known.

    `ceiling` is a speed never to be passed, in rev/min, and `mark` says where it is marked. `motor` is in W.
    """

    name: Kind
    speeds: Sequence[float]
    ceiling: float | None
    mark: str
    motor: float | None
    slide: Slide | None
    wheel: str


def machine_of(shop: Shop, wanted: str | None) -> Machine:
    """The machine that a hole is made on: the wanted one, else the lathe, else the mill, else any at any speed.

    >>> from engine.shop.file import sample
    >>> found = machine_of(sample("metric"), None)
    >>> found.name, found.ceiling, found.wheel
    ('lathe', 2000.0, 'Tailstock')
    """
    if wanted == "lathe" and shop.lathe is None:
        raise BadInput("machine", "lathe", "a machine of the shop", "machine: this shop has no lathe.")
    if wanted == "mill" and shop.mill is None:
        raise BadInput("machine", "mill", "a machine of the shop", "machine: this shop has no mill.")
    if shop.lathe is not None and wanted != "mill":
        mark = shop.lathe.chuck.marked_speed
        _check_mark(mark, shop.lathe.speeds)
        return Machine(
            "lathe", shop.lathe.speeds, mark, "the chuck", shop.lathe.motor, shop.lathe.tailstock, "Tailstock"
        )
    if shop.mill is not None:
        return Machine("mill", shop.mill.speeds, None, "", shop.mill.motor, shop.mill.z, "Quill")
    return Machine("", (), None, "", None, None, "Handwheel")


def _check_mark(mark: float | None, speeds: Sequence[float]) -> None:
    if mark is not None and speeds and mark < min(speeds):
        least = general(min(speeds))
        accepted = say("a marked speed of at least {least} rev/min, the lathe's lowest", least=least)
        template = "machine: the lathe's chuck is marked {mark} rev/min; accepted: {accepted}."
        text = say(template, mark=general(mark), accepted=accepted)
        raise BadInput("machine", "lathe", accepted, text)


def mill_first(shop: Shop, wanted: str | None) -> Machine:
    """The wanted machine, else the mill if there is one: where a seat is usually sunk."""
    return machine_of(shop, wanted or ("mill" if shop.mill else None))


def speed_on(machine: Machine, *, diameter: float, surface_speed: float, top: float | None = None) -> SpindleSpeed:
    """Spindle speed of a tool on a machine: one of its own steps, never above what is marked on it.

    With the `top` of a published range [m/min]: the lowest step inside the range, else the first slower.
    """
    return spindle_speed(
        diameter=diameter, surface_speed=surface_speed, steps=machine.speeds, ceiling=machine.ceiling, top=top
    )


def at_work(
    machine: Machine, material: Material, diameter: float, speed: SpindleSpeed, depth: float | None = None, **more: Any
) -> Situation:
    """A tool of a diameter at work on a machine, down to a depth. [mm]"""
    told = {"material": material.name, "tool_diameter": diameter, "spindle_speed": speed.chosen, "depth": depth, **more}
    return Situation(machine=machine.name, **told)


def speed_figure(
    machine: Machine, published: SpeedRange, speed: SpindleSpeed, *, diameter: float, share: float = 1.0, why: str = ""
) -> Figure:
    """The spindle speed of a tool, with the sum that it comes from.

    machine, published, speed: The machine, the published surface speed, and the speed chosen on the machine.
    diameter: Diameter of the tool, above 0. [mm]
    share: Share of the surface speed that a deep hole leaves. [-]
    why: Why the step is a slower one than the sum alone gives, "" where it is not.
    Returns: `rpm`. [rev/min]
    Source: n = 1000 v / (pi D), in inches 12 v / (pi D): any shop handbook.

    >>> from engine.base.words import write
    >>> from engine.cutting.materials import find
    >>> from engine.cutting.speeds import surface_speed
    >>> from engine.shop.file import sample
    >>> lathe = machine_of(sample("metric"), "lathe")
    >>> published = surface_speed(material=find("mild steel"), operation="drilling")
    >>> speed = speed_on(lathe, diameter=8.5, surface_speed=published.chosen)
    >>> write(speed_figure(lathe, published, speed, diameter=8.5).working)
    "1000 x 24.384 ÷ (3.14159 x 8.5) = 913; the lathe's step at or below it: 630"
    """
    less = say("{v} x {share} for the depth; ", v=put(published.chosen, "surface_speed"), share=general(share))
    step = say("; {step}", step=chosen_step(speed, machine.name, ceiling=machine.ceiling)) if machine.speeds else ""
    working = say("{less}{sum} = {ideal}{why}{step}", less=less if share < 1 else "", ideal=figures(speed.ideal),
        sum=ideal_speed(surface_speed=published.chosen * share, diameter=diameter), why=f"; {why}" if why else "",
        step=step)  # fmt: skip
    return Figure("rpm", "Set the spindle to", speed.chosen, "speed", published.source, working)


def speed_notes(machine: Machine, speed: SpindleSpeed, tool: str) -> list[Note]:
    """What the machine's speeds made worth saying about a tool, as a sentence names it (common practice, no source)."""
    chosen, ideal = general(speed.chosen), figures(speed.ideal)
    named = {"machine": machine.name, "chosen": chosen, "ideal": ideal, "tool": tool}
    if speed.too_fast:
        text = "The {machine}'s lowest speed, {chosen} rev/min, is above the {ideal} that the {tool} wants: "
        return [warning(text + "use plenty of oil and go gently.", **named)]
    if speed.held_by_ceiling and machine.ceiling is not None:
        marked = general(machine.ceiling)
        return [info("Held back by the {n} rev/min marked on {where}.", n=marked, where=machine.mark)]
    if machine.speeds and speed.chosen == max(machine.speeds) and speed.ideal > 1.5 * speed.chosen:
        text = "The {tool} would run at {ideal} rev/min; {chosen} is the most the {machine} has. "
        return [info(text + "Feed it more slowly to match.", **named)]
    return []


def stands_at(machine: Machine, depth: float, *, towards: Towards = "short") -> DialSetting | None:
    """Where the handwheel stands for a depth from the dial's zero; None where the machine has no such dial."""
    return None if machine.slide is None else slide_setting(machine.slide, depth, towards=towards)


def setting_on(machine: Machine, depth: float, *, towards: Towards = "short") -> Setting | None:
    """The same as the hand sets it: `short` never goes past the depth.

    >>> from engine.shop.file import sample
    >>> setting_on(machine_of(sample("metric"), "lathe"), 23.004).turns
    11
    """
    stands, slide = stands_at(machine, depth, towards=towards), machine.slide
    if stands is None or slide is None:
        return None
    return on_slide(machine.wheel, slide, stands, _way(machine), depth)


def _way(machine: Machine) -> str:
    """Which way the handwheel feeds a tool."""
    return "in" if machine.name == "lathe" else "down"


def _decimals(slide: Slide) -> int:
    """The decimals of a reading in mm that is no finer than the dial's line; an inch shows one more."""
    unit, decimals = own_unit(slide.travel_per_turn / slide.divisions * (2 if slide.reads_diameter else 1))
    return decimals if unit == "mm" else decimals - 1


def wheel_columns(machine: Machine) -> tuple[Column, ...]:
    """The columns of a table that say where the handwheel stands: its turns, its dial, and both as the hand sets them.

    >>> from engine.shop.file import sample
    >>> [(one.label, one.decimals) for one in wheel_columns(machine_of(sample("metric"), "lathe"))]
    [('Tailstock turns', None), ('Dial', 2), ('Tailstock in', None)]
    """
    dial = Column("reading", "Dial", "length", None if machine.slide is None else _decimals(machine.slide))
    turns, to_set = heads(turns=(f"{machine.wheel} turns", "count"), set=f"{machine.wheel} {_way(machine)}")
    return turns, dial, to_set


def dial_figures(
    machine: Machine, depth: float, *, reading: str = "dial", label: str = "", never_deeper: bool = True
) -> list[Figure]:
    """The setting of the handwheel that feeds a tool to a depth, its turns and its reading; none without a dial.

    `reading` names the last figure; a depth that is never to be passed is rounded short of it, others to the nearest
    line.
    """
    towards: Towards = "short" if never_deeper else "nearest"
    stands, setting = stands_at(machine, depth, towards=towards), setting_on(machine, depth, towards=towards)
    if stands is None or setting is None or machine.slide is None:
        return []
    travel = machine.slide.travel_per_turn
    lines, line = counted(stands.lines, "line"), put(travel / machine.slide.divisions)
    text = "{depth} ÷ {travel} a turn: {turns} whole, then {lines} of {line}"
    working = say(text, depth=put(depth), travel=put(travel), turns=stands.turns, lines=lines, line=line)
    source = f"the {machine.name}'s own dial; rounded once" + (", never too deep" if never_deeper else "")
    name, places = f"{machine.wheel} dial", _decimals(machine.slide)
    return [
        to_set("setting", label or "Feed to", setting, source, working),
        Figure("turns", f"{machine.wheel} turns", stands.turns, "count", source, working),
        Figure(reading, name, stands.reading, "length", source, working, decimals=places),
    ]
