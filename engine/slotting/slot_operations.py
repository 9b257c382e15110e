"""The operation `slot`: a slot milled in a round bar, pass by pass."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.quantity import show, worked
from engine.base.refusals import BadInput, OutOfRange
from engine.cutting.feeds import feed
from engine.cutting.forces import specific_force
from engine.cutting.materials import of_shop
from engine.cutting.speeds import (
    SpeedRange,
    SpindleSpeed,
    Tool,
    ideal_text,
    spindle_speed,
    step_text,
    surface_speed,
)
from engine.shop.model import Shop
from engine.slotting import slot
from engine.slotting.cutters import Cutter, choose
from engine.slotting.slot_picture import draw
from engine.slotting.slot_tables import Cuts, passes_table

_THIN = 1.0  # mm: a wall thinner than this bends or breaks out; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotInputs:
    """What `slot` is told."""

    width: float = ask.length("Width of the slot", low=0.1, high=60, example="2", help="Finished width.")
    depth: float = ask.length(
        "Depth", low=0.02, high=300, example="2", help="From the top of the round, or from the end face."
    )
    length: float = ask.length("Length of the slot", low=0.1, high=2000, example="8", help="Overall length.")
    diameter: float = ask.length(
        "Diameter of the bar", low=0.5, high=500, example="8", help="Of the round bar."
    )
    material: Any = ask.material(
        "Material", from_shop=of_shop, example="mild steel", empty="the shop's first", help="What is slotted."
    )
    cutter: float | None = ask.diameter(
        "Cutter",
        low=0.1,
        high=60,
        required=False,
        example="1.5",
        empty="the widest owned one that goes in",
        help="Diameter of the end mill, no wider than the slot.",
    )
    step: float | None = ask.length(
        "Deepest pass",
        low=0.005,
        high=60,
        required=False,
        example="0.3",
        empty="what material and cutter bear",
        help="The depth is split into equal passes no deeper than this.",
    )
    place: str = ask.choice(
        "Slot is in",
        ("side", "end"),
        default="side",
        example="side",
        help="Side: along the bar, like a keyway. End: across its end face, like a screwdriver's slot.",
    )
    bore: float = ask.length(
        "Bore", default=0.0, low=-1e-9, high=500, example="3", help="Hole along the bar; 0 if it is solid."
    )
    made_of: str | None = ask.choice(
        "Cutter made of",
        ("hss", "carbide"),
        required=False,
        example="carbide",
        empty="as the owned one, else hss",
        help="High-speed steel or carbide: decides speed and bending.",
    )
    flute_length: float | None = ask.length(
        "Cutter bends over",
        low=0.2,
        high=200,
        required=False,
        example="4.5",
        empty="the owned one's flute, else three diameters",
        help="Length of flute, or how far a slender cutter stands out.",
    )


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything the answer is made of."""

    cutter: Cutter
    feed_tooth: float
    feed_source: str
    pace: SpindleSpeed
    published: SpeedRange
    step: float
    step_words: str
    bend: float
    cuts: Cuts


def _check(inputs: SlotInputs) -> None:
    d = inputs.diameter
    if inputs.width >= d:
        raise OutOfRange("width", inputs.width, None, d, "mm", "narrower than the bar")
    if inputs.bore >= d:
        raise OutOfRange("bore", inputs.bore, None, d, "mm", "smaller than the bar")
    if inputs.place == "side" and inputs.depth >= (d - inputs.bore) / 2 + (d / 2 if not inputs.bore else 0):
        through = d if not inputs.bore else (d - inputs.bore) / 2
        raise OutOfRange("depth", inputs.depth, None, through, "mm", "deeper cuts through the wall")
    if inputs.place == "side" and inputs.depth <= slot.crown(diameter=d, width=inputs.width):
        drop = slot.crown(diameter=d, width=inputs.width)
        raise OutOfRange(
            "depth", inputs.depth, round(drop, 3), None, "mm", "the edges lie that far below the top"
        )


def _plan(inputs: SlotInputs, shop: Shop) -> _Plan:
    cutter = choose(
        width=inputs.width,
        depth=inputs.depth,
        owned=shop.end_mills,
        diameter=inputs.cutter,
        made_of=inputs.made_of,
        flute_length=inputs.flute_length,
    )
    tool: Tool = "carbide" if cutter.made_of == "carbide" else "hss"
    unit = shop.unit
    tooth = feed(kind="slotting", diameter=cutter.diameter, tool=tool)
    published = surface_speed(material=inputs.material, operation="milling", tool=tool)
    pace = spindle_speed(
        diameter=cutter.diameter, surface_speed=published.chosen, steps=shop.mill.speeds if shop.mill else ()
    )
    step, words = _step(inputs, cutter, tooth.chosen, unit)
    depths = _depths(inputs, cutter, step, unit)
    side = max((inputs.width - cutter.diameter) / 2, 0.0)
    bend = _bend(inputs, cutter, tooth.chosen, cutter.diameter, depths[0])
    at_once = _bend(inputs, cutter, tooth.chosen, side, inputs.depth) if side else 0.0
    side_step = inputs.depth * min(1.0, slot.BEND_ALLOWED / at_once) if at_once else inputs.depth
    sides = _depths(inputs, cutter, side_step, unit) if side else ()
    return _Plan(cutter, tooth.chosen, tooth.source, pace, published, step, words, bend, Cuts(depths, sides))


def _depths(inputs: SlotInputs, cutter: Cutter, step: float, unit: str) -> tuple[float, ...]:
    """Equal passes; too many of them are laid at the door of the cutter, unless the step was asked for."""
    if inputs.step is None and inputs.depth > slot.MOST_PASSES * step:
        raise BadInput(
            "cutter",
            show(cutter.diameter, "length", unit),
            f"a stiffer cutter: this one wants more than {slot.MOST_PASSES} passes of {show(step, 'length', unit)}",
        )
    return slot.pass_depths(depth=inputs.depth, step=step)


def _bend(inputs: SlotInputs, cutter: Cutter, tooth: float, width: float, depth: float) -> float:
    return slot.tip_deflection(
        material=inputs.material,
        cutter=cutter.diameter,
        width=min(width, cutter.diameter),
        depth=depth,
        feed=tooth,
        teeth=cutter.flutes,
        flute_length=cutter.flute_length,
        made_of=cutter.made_of,
    )


def _step(inputs: SlotInputs, cutter: Cutter, tooth: float, unit: str) -> tuple[float, str]:
    if inputs.step is not None:
        return min(inputs.step, inputs.depth), f"{worked(inputs.step, unit)} as given"
    share = slot.depth_share(inputs.material)
    deepest = share * cutter.diameter
    bent = _bend(inputs, cutter, tooth, cutter.diameter, deepest)
    step = slot.step_for(share_depth=deepest, bend_at_share=bent)
    why = f"{share:g} x cutter {worked(cutter.diameter, unit)}"
    if step < deepest:
        why += f", less so that the tip bends no more than {show(slot.BEND_ALLOWED, 'length', unit)}"
    return min(step, inputs.depth), f"{worked(step, unit)}: {why}"


def _wall(inputs: SlotInputs, unit: str) -> tuple[float, str, str]:
    """What is left beside or under the slot, the words of its label and its working."""
    d, bore = inputs.diameter, max(inputs.bore, 0.0)
    bar, width, depth = (worked(size, unit) for size in (d, inputs.width, inputs.depth))
    if inputs.place == "end":
        return (d - inputs.width) / 2, "Wall left each side", f"({bar} - {width}) ÷ 2"
    if bore:
        wall = (d - bore) / 2 - inputs.depth
        return wall, "Wall left over the bore", f"({bar} - {worked(bore, unit)}) ÷ 2 - {depth}"
    return d - inputs.depth, "Wall left under the slot", f"{bar} - {depth}"


def _work(inputs: SlotInputs, shop: Shop) -> Answer:
    _check(inputs)
    plan = _plan(inputs, shop)
    wall = _wall(inputs, shop.unit)
    return Answer(
        figures=(*_speed_figures(inputs, plan, shop.unit), *_size_figures(inputs, plan, wall, shop.unit)),
        tables=(passes_table(plan.cuts, width=inputs.width, cutter=plan.cutter.diameter, mill=shop.mill),),
        pictures=(
            draw(
                diameter=inputs.diameter,
                bore=inputs.bore,
                width=inputs.width,
                depth=inputs.depth,
                place=inputs.place,
                unit=shop.unit,
            ),
        ),
        notes=tuple(_notes(inputs, shop, plan, wall[0])),
    )


def _speed_figures(inputs: SlotInputs, plan: _Plan, unit: str) -> tuple[Figure, ...]:
    cutter, pace = plan.cutter, plan.pace
    rate = plan.feed_tooth * cutter.flutes * pace.chosen
    ideal = ideal_text(surface_speed=plan.published.chosen, diameter=cutter.diameter, unit=unit)
    long = show(cutter.flute_length, "length", unit)
    if inputs.cutter is not None:
        source = "as given" if cutter.owned else "as given; not among the owned end mills"
    else:
        source = "the widest owned end mill that goes in" if cutter.owned else "no owned end mill goes in"
    return (
        Figure(
            "rpm",
            "Set the mill to",
            pace.chosen,
            "speed",
            plan.published.source,
            f"{ideal}; {step_text(pace, 'mill')}",
        ),
        Figure(
            "feed",
            "Feed",
            rate,
            "feed_rate",
            plan.feed_source,
            f"{worked(plan.feed_tooth, unit)} a tooth x {cutter.flutes} teeth x {pace.chosen:.6g} rev/min",
        ),
        Figure(
            "cutter",
            "Cutter",
            cutter.diameter,
            "length",
            source,
            f"{cutter.flutes} flutes, {cutter.made_of}, bends over {long}",
        ),
    )


def _size_figures(
    inputs: SlotInputs, plan: _Plan, wall: tuple[float, str, str], unit: str
) -> tuple[Figure, ...]:
    left, wall_label, wall_words = wall
    depth, passes = worked(inputs.depth, unit), len(plan.cuts.middle)
    step_source = (
        "as given" if inputs.step is not None else "a college's design tables; common practice, no source"
    )
    bends = "Kienzle's law for one tooth, beam theory on 0.8 of the diameter (common practice, no source)"
    figures = [
        Figure(
            "step",
            "Each pass goes down",
            inputs.depth / passes,
            "length",
            step_source,
            f"{depth} ÷ {passes}; deepest pass {plan.step_words}",
        ),
        Figure("wall_left", wall_label, left, "length", "geometry", wall_words, decimals=2, side="down"),
        Figure(
            "cutter_deflection",
            "Tip of the cutter bends by",
            plan.bend,
            "length",
            bends,
            _bend_words(inputs, plan, unit),
            decimals=4,
        ),
    ]
    if inputs.place == "side":
        drop = slot.crown(diameter=inputs.diameter, width=inputs.width)
        figures.append(
            Figure(
                "edge_depth",
                "Depth at the edges of the slot",
                inputs.depth - drop,
                "length",
                "geometry",
                f"{depth} - {worked(drop, unit)}, as the round falls away",
            )
        )
        if inputs.length > plan.cutter.diameter:
            figures.append(
                Figure(
                    "travel",
                    "Table travel, both ends closed",
                    inputs.length - plan.cutter.diameter,
                    "length",
                    "geometry",
                    f"{worked(inputs.length, unit)} - cutter {worked(plan.cutter.diameter, unit)}",
                )
            )
    return tuple(figures)


def _bend_words(inputs: SlotInputs, plan: _Plan, unit: str) -> str:
    """The sum behind the bend of the tip, in mm and N as Kienzle's constants are."""
    cutter, stuff, depth = plan.cutter, inputs.material, plan.cuts.middle[0]
    force = specific_force(stuff, plan.feed_tooth) * depth * plan.feed_tooth
    bar = f"3.14159 x ({slot.EFFECTIVE:g} x {cutter.diameter:.6g}) to the 4th ÷ 64"
    words = (
        f"tooth force {stuff.kc11:g} x {plan.feed_tooth:.5g}^-{stuff.mc:g} x {depth:.5g} mm deep x "
        f"{plan.feed_tooth:.5g} mm = {force:.5g} N; {force:.5g} N x {cutter.flute_length:.6g} mm cubed ÷ "
        f"(3 x {slot.MODULUS[cutter.made_of]:g} MPa x {bar}) = {show(plan.bend, 'length', decimals=5)}"
    )
    return words + (f" = {show(plan.bend, 'length', unit, decimals=4)}" if unit == "inch" else "")


def _notes(inputs: SlotInputs, shop: Shop, plan: _Plan, wall: float) -> list[Note]:
    unit, cutter = shop.unit, plan.cutter
    notes = []
    if not cutter.owned:
        size = show(cutter.diameter, "length", unit)
        none = "No owned end mill goes into this slot: the plan assumes one of"
        why = none if inputs.cutter is None else "Not among your end mills: one of"
        notes.append(Note("warning", f"{why} {size}."))
    if cutter.flute_length < inputs.depth:
        notes.append(
            Note(
                "warning",
                f"The cutter's flute, {show(cutter.flute_length, 'length', unit)}, is shorter than the depth.",
            )
        )
    if plan.bend > slot.BEND_ALLOWED:
        notes.append(
            Note(
                "warning",
                f"The tip bends {show(plan.bend, 'length', unit, decimals=3)}: take shallower passes.",
            )
        )
    if wall < _THIN:
        notes.append(
            Note("warning", f"Only {show(max(wall, 0), 'length', unit, decimals=2)} of wall is left.")
        )
    if plan.pace.chosen < 0.5 * plan.pace.ideal and shop.mill:
        text = (
            f"The mill's top step gives less than half the ideal {plan.pace.ideal:.0f} rev/min: "
            "the feed falls with it, do not hurry it."
        )
        notes.append(Note("info", text))
    if abs(inputs.width - cutter.diameter) <= 0.005:
        notes.append(
            Note(
                "info",
                "A cutter of the slot's own width cuts it a little wide; a narrower one is brought to size.",
            )
        )
    else:
        notes.append(
            Note(
                "info",
                "Set the cross dial to the first offset with the cutter over the middle; come to every cross reading "
                "from the same side. Measure after the first side.",
            )
        )
    if inputs.place == "side" and inputs.length < cutter.diameter:
        notes.append(Note("warning", "The slot is shorter than the cutter is wide."))
    return notes


OPERATIONS = {
    "slot": Operation(
        id="slot",
        inputs=SlotInputs,
        work=_work,
        hazards=("milling", "clamping"),
        example={"width": "2", "depth": "2", "length": "8", "diameter": "8", "material": "mild steel"},
        help="Mills a slot in a round bar: cutter, speed, each pass on the mill's dials, and what is left of the bar.",
    )
}
