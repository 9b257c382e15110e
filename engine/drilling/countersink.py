"""The countersink: a diameter at the face as a depth and a dial, for a hole or for a screw's head."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, figure, info
from engine.base.operation import Operation, tells
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.sums import deg
from engine.base.words import Text, plain, say
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import surface_speed
from engine.drilling.bench import (
    MACHINES,
    at_work,
    by_standard,
    dial_figures,
    mill_first,
    speed_figure,
    speed_notes,
    speed_on,
)
from engine.drilling.seat_pictures import countersink_picture
from engine.drilling.seats import HEADS, INCH_CONE, METRIC_CONE, Countersink, countersink_depth, countersink_for
from engine.shop.model import Shop
from engine.threads.thread import Thread

_USUAL = {"iso": METRIC_CONE, "asme": INCH_CONE}


@dataclass(frozen=True, slots=True, kw_only=True)
class CountersinkInputs:
    """What `countersink` is told.

    hole: Diameter of the hole that is there already.
    diameter: How wide the countersink is to be where it breaks the face.
    angle: Of the countersink, from side to side: 90° for metric heads, 82° for Unified ones.
    screw: Gives hole, face diameter and angle; its size alone will do: M6, 1/4, #8.
    head: Flat: ISO 2009, 7046; ASME B18.6.3. Socket: ISO 10642; ASME B18.3. Old: DIN 963 (withdrawn).
    standard: Which angle is usual where no screw and no angle is told: 90° iso, 82° asme.
    material: Decides the speed of the countersink.
    machine: Whose speeds and handwheel are used.
    """

    hole: float | None = ask.diameter("Hole", empty="the screw's", example="6.6", high=500)
    diameter: float | None = ask.diameter("Face diameter", empty="the screw's", example="12.6", high=500)
    angle: float | None = ask.angle(
        "Included angle", low=30, high=150, empty="the screw's, else by the standard", example="90"
    )
    screw: Thread | None = ask.thread("For the screw", empty="none", example="M6", coarse=True)
    head: str = ask.choice("Head", HEADS, default="flat", example="flat")
    standard: str = by_standard()
    material: Material = ask.material("Material", from_shop=of_shop, empty="the shop's first", example="mild steel")
    machine: str | None = ask.choice("On the", MACHINES, empty="mill, else lathe", example="mill")


def _work(inputs: CountersinkInputs, shop: Shop) -> Answer:
    seat, machine = _seat(inputs), mill_first(shop, inputs.machine)
    angle = inputs.angle or (seat.angle if inputs.screw else _USUAL[inputs.standard])
    depth = countersink_depth(hole=seat.hole, diameter=seat.diameter, angle=angle)
    published = surface_speed(material=inputs.material, operation="countersinking")
    speed = speed_on(machine, diameter=seat.diameter, surface_speed=published.chosen)
    figures = (
        *dial_figures(machine, float(depth)),
        figure("depth", "Depth from the edge", depth, "(D - d) ÷ (2 tan(angle ÷ 2)); geometry"),
        Figure("diameter", "Diameter at the face", seat.diameter, "length", seat.source,
               _from(inputs, inputs.diameter), decimals=2, low=seat.diameter if seat.largest else None,
               high=seat.largest or None),
        Figure("hole", "Hole", seat.hole, "length", seat.hole_source, _from(inputs, inputs.hole), decimals=2),
        figure("angle", "Included angle", deg(angle), "as given" if inputs.angle else "usual for that head", decimals=1),
        *_least_head(seat),
        speed_figure(machine, published, speed, diameter=seat.diameter),
    )  # fmt: skip
    zero = info("Zero the dial where the countersink first touches the edge of the hole all round.")
    now = at_work(machine, inputs.material, seat.diameter, speed, float(depth))
    drawn = countersink_picture(hole=seat.hole, diameter=seat.diameter, depth=float(depth), angle=angle)
    notes = (*speed_notes(machine, speed, "countersink"), zero)
    return Answer(figures, pictures=(drawn,), notes=notes, moments=(now,))


def _least_head(seat: Countersink) -> tuple[Figure, ...]:
    """The smallest head that the standard lets pass: how far below the face it may sit."""
    if not seat.head_least:
        return ()
    edge = "its edge broken"
    return (Figure("head_least", "Head, at least", seat.head_least, "length", seat.source, edge, decimals=2),)


def _from(inputs: CountersinkInputs, given: float | None) -> Text:
    return "as given" if given is not None else f"table, {inputs.screw}, {inputs.head} head"


def _seat(inputs: CountersinkInputs) -> Countersink:
    """The seat of the screw, with what was given in place of the table's own."""
    if inputs.screw is not None:
        seat = countersink_for(inputs.screw, inputs.head)
        if inputs.hole is not None:
            seat = replace(seat, hole=inputs.hole, hole_source="as given")
        if inputs.diameter is not None:
            seat = replace(seat, diameter=inputs.diameter, largest=0.0, head_least=0.0, source="as given")
    elif inputs.hole is None:
        text = "hole: the hole's diameter is needed (or screw=M6)."
        raise BadInput("hole", "", "a diameter or a screw", text)
    elif inputs.diameter is None:
        text = "diameter: the diameter at the face is needed (or screw=M6)."
        raise BadInput("diameter", "", "a diameter or a screw", text)
    else:
        seat = Countersink(inputs.diameter, 0.0, inputs.hole, "as given", "as given")
    if seat.diameter <= seat.hole:
        accepted = say("more than the hole's {hole}", hole=plain(seat.hole))
        raise BadInput("diameter", plain(seat.diameter), accepted)
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
    tool="countersink {angle}",
    hazards=("countersinking", "drilling"),
    example={"hole": "6.6", "diameter": "12.6"},
    troubles={"DR-05": None, "DR-06": tells("{depth} at full diameter, from the clean face")},
    help="Turns a countersink's diameter into its depth and the dial, for a hole or for a screw's head.",
)
