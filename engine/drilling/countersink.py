"""The countersink: a diameter at the face as a depth and a dial, for a hole or for a screw's head."""

from __future__ import annotations

from dataclasses import replace

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, figure
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import deg
from engine.base.words import Text, plain, say
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import surface_speed
from engine.drilling.bench import MACHINES, dial_figures, mill_first, speed_figure, speed_notes, speed_on
from engine.drilling.seats import HEADS, Countersink, countersink_depth, countersink_for
from engine.drilling.troubles import sink_depth
from engine.shop.model import Shop
from engine.situation import Situation
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


def _work(inputs: CountersinkInputs, shop: Shop) -> Answer:
    seat, machine = _seat(inputs), mill_first(shop, inputs.machine)
    depth = countersink_depth(hole=seat.hole, diameter=seat.diameter, angle=inputs.angle)
    published = surface_speed(material=inputs.material, operation="countersinking")
    speed = speed_on(machine, diameter=seat.diameter, surface_speed=published.chosen)
    figures = (
        *dial_figures(machine, float(depth)),
        figure("depth", "Depth from the edge", depth, "(D - d) ÷ (2 tan(angle ÷ 2)); geometry"),
        Figure("diameter", "Diameter at the face", seat.diameter, "length", seat.source,
               _from(inputs, inputs.diameter), decimals=2, low=seat.diameter if seat.largest else None,
               high=seat.largest or None),
        Figure("hole", "Hole", seat.hole, "length", seat.hole_source, _from(inputs, inputs.hole), decimals=2),
        figure("angle", "Included angle", deg(inputs.angle), "as given", decimals=1),
        speed_figure(machine, published, speed, diameter=seat.diameter),
    )  # fmt: skip
    zero = Note("info", "Zero the dial where the countersink first touches the edge of the hole all round.")
    now = Situation(
        machine=machine.name,
        material=inputs.material.name,
        tool_diameter=seat.diameter,
        spindle_speed=speed.chosen,
        depth=float(depth),
    )
    return Answer(figures, notes=(*speed_notes(machine, speed, "countersink"), zero), moments=(now,))


def _from(inputs: CountersinkInputs, given: float | None) -> Text:
    return "as given" if given is not None else f"table, {inputs.screw}, {inputs.head} head"


def _seat(inputs: CountersinkInputs) -> Countersink:
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
        accepted = say("more than the hole's {hole}", hole=plain(seat.hole))
        raise BadInput("diameter", say("{d}", d=plain(seat.diameter)), accepted)
    return seat


OPERATION = Operation(
    id="countersink",
    pane="drilling",
    place=50,
    title="Countersink",
    words="chamfer flat head 82 90 csk countersunk screw flush head deburr rose bit cone bevel machine screw socket "
    "flat head depth",
    machine="mill",
    inputs=CountersinkInputs,
    work=_work,
    hazards=("drilling",),
    example={"hole": "6.6", "diameter": "12.6"},
    troubles={"DR-05": None, "DR-06": sink_depth},
    help="Turns a countersink's diameter into its depth and the dial, for a hole or for a screw's head.",
)
