"""The counterbore that sinks a cap screw's head flush."""

from __future__ import annotations

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, info
from engine.base.operation import Operation, tells
from engine.base.records import dataclass
from engine.base.sums import mm
from engine.base.words import plain, say
from engine.cutting.materials import Material, of_shop
from engine.cutting.speeds import surface_speed
from engine.drilling.bench import MACHINES, at_work, dial_figures, mill_first, speed_figure, speed_notes, speed_on
from engine.drilling.seat_pictures import counterbore_picture
from engine.drilling.seats import clearance_hole, counterbore
from engine.drilling.troubles import spot_first
from engine.shop.model import Shop
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True, kw_only=True)
class CounterboreInputs:
    """What `counterbore` is told.

    size: A socket head cap screw: M1.6 to M24, No. 0 to 1 1/2 in.
    material: Decides the speed of the counterbore.
    machine: Whose speeds and handwheel are used.
    """

    size: Thread = ask.thread("Cap screw", example="M6", coarse=True)
    material: Material = ask.material("Material", from_shop=of_shop, empty="the shop's first", example="mild steel")
    machine: str | None = ask.choice("On the", MACHINES, empty="mill, else lathe", example="mill")


def _work(inputs: CounterboreInputs, shop: Shop) -> Answer:
    size = inputs.size
    seat, through = counterbore(size), clearance_hole(size, "normal")
    machine = mill_first(shop, inputs.machine)
    published = surface_speed(material=inputs.material, operation="countersinking")
    speed = speed_on(machine, diameter=seat.bore, surface_speed=published.chosen)
    table = f"table, {size}"
    head = mm(seat.height, "head {}")
    deep = head + mm(seat.addition) if seat.addition else head
    figures = (
        Figure("bore", "Counterbore", seat.bore, "length", seat.source, table, decimals=2),
        *dial_figures(machine, seat.depth),
        Figure("depth", "Depth", seat.depth, "length", seat.source, deep, decimals=2),
        Figure("head_diameter", "Head of the screw", seat.head, "length", seat.source, table, decimals=2),
        Figure("head_height", "Height of the head", seat.height, "length", seat.source, table, decimals=2),
        Figure("hole", "Hole for the screw", through.diameter, "length", through.source, through.working, decimals=2),
        speed_figure(machine, published, speed, diameter=seat.bore),
    )
    play = say("The counterbore is {play} larger in diameter than the head.", play=plain(seat.bore - seat.head))
    now = at_work(machine, inputs.material, seat.bore, speed, seat.depth)
    notes = (*speed_notes(machine, speed, "counterbore"), info(play))
    drawn = counterbore_picture(
        hole=through.diameter, bore=seat.bore, depth=seat.depth, head=seat.head, height=seat.height
    )
    return Answer(figures, pictures=(drawn,), notes=notes, moments=(now,))


OPERATION = Operation(
    id="counterbore",
    pane="drilling",
    place=60,
    title="Counterbore",
    words="cap screw head spot face spotface socket hex recess sink flush cheese head seat pocket bore depth "
    "enlarge step",
    machine="mill",
    inputs=CounterboreInputs,
    work=_work,
    tool="counterbore",
    hazards=("drilling", "clamping"),
    example={"size": "M6"},
    troubles={"DR-01": spot_first, "DR-06": tells("{depth} at full diameter, from the clean face")},
    help="Gives the counterbore that sinks a cap screw's head flush.",
)
