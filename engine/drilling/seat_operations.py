"""The operations about seats for screws: `countersink` and `counterbore`."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import radians, tan

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Operation
from engine.base.refusals import BadInput
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import surface_speed
from engine.drilling.bench import MACHINES, Machine, machine_of, speed_notes, speed_on
from engine.drilling.figures import dial_figures, said, speed_figure
from engine.drilling.seats import (
    HEADS,
    Countersink,
    clearance_hole,
    counterbore,
    countersink_depth,
    countersink_for,
)
from engine.shop.model import Shop
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True, kw_only=True)
class CountersinkInputs:
    """What `countersink` is told."""

    hole: float | None = ask.diameter(
        "Hole",
        required=False,
        empty="the screw's",
        example="6.6",
        high=500,
        help="Diameter of the hole that is there already.",
    )
    diameter: float | None = ask.diameter(
        "Face diameter",
        required=False,
        empty="the screw's",
        example="12.6",
        high=500,
        help="How wide the countersink is to be where it breaks the face.",
    )
    angle: float = ask.angle(
        "Included angle",
        low=30,
        high=150,
        default=90.0,
        example="90",
        help="Of the countersink, from side to side: 90° for metric heads, 82° for Unified ones.",
    )
    screw: Thread | None = ask.thread(
        "For the screw",
        required=False,
        empty="none",
        example="M6",
        help="Gives hole and face diameter for a head of 90°.",
    )
    head: str = ask.choice(
        "Head",
        HEADS,
        default="flat",
        example="flat",
        help="Flat: ISO 2009, 7046. Socket: ISO 10642. Old: DIN 963.",
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides the speed of the countersink.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="mill, else lathe",
        example="mill",
        help="Whose speeds and handwheel are used.",
    )


def _countersink(inputs: CountersinkInputs, shop: Shop) -> Answer:
    unit = shop.unit
    seat, angle = _countersink_seat(inputs, unit), inputs.angle
    depth = countersink_depth(hole=seat.hole, diameter=seat.diameter, angle=angle)
    machine = _mill_first(inputs.machine, shop)
    figures = [
        Figure(
            "depth",
            "Depth from the hole's edge",
            depth,
            "length",
            "(D - d) ÷ (2 tan(angle ÷ 2)); geometry",
            f"({said(seat.diameter, unit)} - {said(seat.hole, unit)}) ÷ (2 x {tan(radians(angle) / 2):.4f})",
        ),
        *dial_figures(machine, depth, unit=unit),
        Figure(
            "diameter",
            "Diameter at the face",
            seat.diameter,
            "length",
            seat.source,
            _from(inputs, inputs.diameter),
            decimals=2,
            low=seat.diameter if seat.largest else None,
            high=seat.largest or None,
        ),
        Figure("hole", "Hole", seat.hole, "length", seat.hole_source, _from(inputs, inputs.hole), decimals=2),
        Figure("angle", "Included angle", angle, "angle", "as given", f"{angle:g}°", decimals=1),
    ]
    rpm, notes = _rpm(machine, inputs.material, seat.diameter, "countersink", unit)
    note = Note("info", "Zero the dial where the countersink first touches the edge of the hole all round.")
    return Answer(figures=(*figures, rpm), notes=(*notes, note))


def _from(inputs: CountersinkInputs, given: float | None) -> str:
    return "as given" if given is not None else f"table, {inputs.screw}, {inputs.head} head"


def _countersink_seat(inputs: CountersinkInputs, unit: str) -> Countersink:
    """The seat of the screw, with what was given in place of the table's own."""
    if inputs.screw is not None:
        seat = countersink_for(inputs.screw, inputs.head)
    elif inputs.hole is None:
        text = "hole: the hole's diameter is needed (or screw=M6)."
        raise BadInput("hole", "", "a diameter or a screw", text)
    elif inputs.diameter is None:
        text = "diameter: the diameter at the face is needed (or screw=M6)."
        raise BadInput("diameter", "", "a diameter or a screw", text)
    else:
        seat = Countersink(inputs.diameter, 0.0, inputs.hole, "as given", "as given")
    if inputs.hole is not None:
        seat = replace(seat, hole=inputs.hole, hole_source="as given")
    if inputs.diameter is not None:
        seat = replace(seat, diameter=inputs.diameter, largest=0.0, source="as given")
    if seat.diameter <= seat.hole:
        accepted = f"more than the hole's {said(seat.hole, unit)}"
        raise BadInput("diameter", said(seat.diameter, unit), accepted)
    return seat


def _mill_first(wanted: str | None, shop: Shop) -> Machine:
    return machine_of(shop, wanted or ("mill" if shop.mill else None))


def _rpm(
    machine: Machine, stuff: Material, diameter: float, tool: str, unit: str
) -> tuple[Figure, list[Note]]:
    published = surface_speed(material=stuff, operation="countersinking")
    speed = speed_on(machine, diameter=diameter, surface_speed=published.chosen)
    figure = speed_figure(machine, published, speed, diameter=diameter, unit=unit)
    return figure, speed_notes(machine, speed, tool)


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterboreInputs:
    """What `counterbore` is told."""

    size: Thread = ask.thread(
        "Cap screw", example="M6", help="A socket head cap screw: M1.6 to M24, No. 4 to 3/4 in."
    )
    material: Material = ask.material(
        "Material",
        from_shop=of_shop,
        empty="the shop's first",
        example="mild steel",
        help="Decides the speed of the counterbore.",
    )
    machine: str | None = ask.choice(
        "On the",
        MACHINES,
        required=False,
        empty="mill, else lathe",
        example="mill",
        help="Whose speeds and handwheel are used.",
    )


def _counterbore(inputs: CounterboreInputs, shop: Shop) -> Answer:
    unit, size = shop.unit, inputs.size
    seat, through = counterbore(size), clearance_hole(size, "normal")
    machine = _mill_first(inputs.machine, shop)
    rpm, notes = _rpm(machine, inputs.material, seat.bore, "counterbore", unit)
    table = f"table, {size}"
    deep = f"head {said(seat.height, unit)}" + (f" + {said(seat.addition, unit)}" if seat.addition else "")
    figures = (
        Figure("bore", "Counterbore", seat.bore, "length", seat.source, table, decimals=2),
        Figure("depth", "Depth", seat.depth, "length", seat.source, deep, decimals=2),
        *dial_figures(machine, seat.depth, unit=unit),
        Figure("head_diameter", "Head of the screw", seat.head, "length", seat.source, table, decimals=2),
        Figure("head_height", "Height of the head", seat.height, "length", seat.source, table, decimals=2),
        Figure(
            "hole",
            "Hole for the screw",
            through.diameter,
            "length",
            through.source,
            through.working,
            decimals=2,
        ),
        rpm,
    )
    note = Note(
        "info", f"The counterbore is {said(seat.bore - seat.head, unit)} larger in diameter than the head."
    )
    return Answer(figures=figures, notes=(*notes, note))


OPERATIONS = {
    "countersink": Operation(
        id="countersink",
        inputs=CountersinkInputs,
        work=_countersink,
        hazards=("drilling",),
        example={"hole": "6.6", "diameter": "12.6"},
        help="Turns a countersink's diameter into its depth and the dial, for a hole or for a screw's head.",
    ),
    "counterbore": Operation(
        id="counterbore",
        inputs=CounterboreInputs,
        work=_counterbore,
        hazards=("drilling", "clamping"),
        example={"size": "M6"},
        help="Gives the counterbore that sinks a cap screw's head flush.",
    ),
}
