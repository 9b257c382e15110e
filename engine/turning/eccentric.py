"""Eccentric: how work is set off the axis, by packing in a three-jaw chuck or by the clock in a four-jaw."""

from __future__ import annotations

from typing import Any, cast

from engine.base import declare as ask
from engine.base.answer import Answer, Figure, Note, Picture, figure, info, warning
from engine.base.operation import Operation, tells
from engine.base.records import dataclass, replace
from engine.base.refusals import BadInput
from engine.base.sums import larger, mm, num, root
from engine.base.words import say, shown
from engine.cutting.materials import of_shop
from engine.shop.model import Shop
from engine.situation import Situation
from engine.turning import pace as paces
from engine.turning.holding_pictures import eccentric_picture

_PACKING = "geometry: narrow jaws at 120 degrees touch the work at their middle; flat ones need 1.5 times the throw"
_CLOCK = "geometry: a clock reads twice the throw in one turn"


@dataclass(frozen=True, slots=True, kw_only=True)
class EccentricInputs:
    """What `eccentric` is told.

    throw: From the one axis to the other: half the stroke.
    diameter: Of the work in the jaws.
    turned: What is turned on the other axis: decides the bar needed.
    chuck: Three-jaw: packing under one jaw. Four-jaw: set over by the clock.
    material: Decides the speed.
    """

    throw: float = ask.length("Throw", high=200, example="3")
    diameter: float = ask.length("Diameter gripped", low=0.5, high=500, example="30")
    turned: float | None = ask.length("Eccentric's diameter", high=500, example="20", empty="as the diameter gripped")
    chuck: str = ask.choice("Chuck", ("three-jaw", "four-jaw"), default="three-jaw", example="three-jaw")
    material: Any = ask.material("Material", from_shop=of_shop, example="mild steel", empty="the shop's first")


def packing(*, throw: float, diameter: float) -> float:
    """Packing under one jaw of a three-jaw chuck for a throw.

    throw: Distance of the axes, above 0, below diameter / 2. [mm]
    diameter: Of the work gripped. [mm]
    Returns: 1.5 e - D/2 + sqrt(D^2 - 3 e^2) / 2. [mm]
    Source: Geometry of three points at 120 degrees. It holds for jaws that touch in a line at their middle; wide flat
        jaws need the full 1.5 e, so it errs on the thin side for them: the clock decides.

    >>> round(packing(throw=3, diameter=30), 3)
    4.273
    """
    return float(1.5 * throw - diameter / 2 + (diameter**2 - 3 * throw**2) ** 0.5 / 2)


def _work(inputs: EccentricInputs, shop: Shop) -> Answer:
    if inputs.throw >= inputs.diameter / 2:
        most = say("less than half the diameter of {across}", across=shown(inputs.diameter))
        raise BadInput("throw", shown(inputs.throw), most)
    swing = inputs.diameter + 2 * inputs.throw
    found = paces.pace(shop, inputs.material, "turning", "hss", swing, slower="balance")
    moment = Situation(machine="lathe", spindle_speed=found.chosen, work_diameter=inputs.diameter,
        material=inputs.material.name, held_by=inputs.chuck)  # fmt: skip
    answer = Answer(_figures(inputs, found), notes=_notes(inputs, found), moments=(moment,))
    return replace(answer, pictures=(_picture(inputs, answer),))


def _picture(inputs: EccentricInputs, answer: Answer) -> Picture:
    packing = cast(float, answer.figure("packing").value) if answer.has("packing") else None
    turned = inputs.turned if inputs.turned is not None else inputs.diameter
    bar = cast(float, answer.figure("bar").value)
    return eccentric_picture(throw=inputs.throw, diameter=inputs.diameter, turned=turned, bar=bar, packing=packing)


def _figures(inputs: EccentricInputs, found: paces.Pace) -> tuple[Figure, ...]:
    throw, across = mm(inputs.throw), mm(inputs.diameter)
    turned = mm(inputs.turned) if inputs.turned is not None else across
    thick = num(1.5) * throw - across / 2 + root(across**2 - 3 * throw**2) / 2
    clock = figure("clock", "Clock reads in a turn", 2 * throw, _CLOCK)
    first = (
        [figure("packing", "Packing under one jaw", thick, _PACKING, decimals=2),
         figure("packing_flat", "With wide flat jaws", num(1.5) * throw, _PACKING, decimals=2), clock]
        if inputs.chuck == "three-jaw"
        else [clock, figure("jaw_move", "Opposite jaws move", throw, "geometry: the work moves as far as the jaws",
        "as told")]
    )  # fmt: skip
    return (
        *first,
        figure("bar", "Bar needed", larger(across, turned + 2 * throw), "geometry: both diameters inside it, nothing left "
            "to clean up", decimals=2, side="up"),
        figure("swing", "Swings", across + 2 * throw, "geometry", decimals=1, side="up"),
        paces.speed_figures(found)[0],
    )  # fmt: skip


def _notes(inputs: EccentricInputs, found: paces.Pace) -> tuple[Note, ...]:
    if inputs.chuck == "three-jaw":
        text = say("Try the packing, read the clock over a whole turn, and change the packing by three quarters of "
            "what the reading is out: {one} of packing is {two} on the clock.", one=shown(0.75, decimals=2),
            two=shown(1.0, decimals=2))  # fmt: skip
        grip = "Packing hard and flat, the length of the jaw, and unable to fly out: fix it to the jaw."
        first = [info(text), warning(grip)]
    else:
        text = say("Clock over a whole turn until it moves {reading}; slacken one jaw, tighten the one opposite, and end "
            "with all four tight.", reading=shown(2 * inputs.throw))  # fmt: skip
        first = [info(text)]
    turn = warning("It turns out of balance: turn it by hand first, begin at the lowest speed, and go up only "
        "while nothing shakes. The first cuts are interrupted: light, with a fine feed.")  # fmt: skip
    return (*first, turn, *paces.speed_notes(found))


OPERATION = Operation(
    id="eccentric",
    pane="turning",
    place=60,
    title="Turn an eccentric",
    words="eccentric offset throw crank cam packing shim jaw three-jaw four-jaw stroke clock off-axis pin set over",
    machine="lathe",
    inputs=EccentricInputs,
    work=_work,
    tool="turning tool",
    hazards=("turning", "chuck", "swarf"),
    example={"throw": "3", "diameter": "30"},
    troubles={"TU-01": tells("it swings {swing}", decimals=1, side="up"), "TU-03": None},
    help="Sets work off the axis: packing under one jaw, or the clock's reading in a four-jaw, and the bar that it needs.",
)
