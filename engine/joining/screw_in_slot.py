"""A locating screw whose point runs in a slot: the slot for the screw, or the screw for the slot, and the play left."""

from __future__ import annotations

from math import cos, pi, sin
from typing import TYPE_CHECKING

from engine.base import declare as ask
from engine.base.answer import Answer, Circle, Figure, Note, Picture, Polygon, Shape, Size, figure, info, warning
from engine.base.operation import Operation
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.sums import mm
from engine.base.tables import rows
from engine.base.words import say, shown
from engine.joining.fits import allowance
from engine.shop.model import Shop
from engine.situation import Situation

if TYPE_CHECKING:
    from engine.threads.thread import Thread

_BOTTOM = 0.2  # mm between the point and the slot's floor: common practice, no source
_GAP_SOURCE = "slot and point as given"
_SAME = 0.01  # mm: screws of one diameter
_ROUND = 24  # corners of half a round end, drawn
_POINT = "dog points, ISO 4028: from memory, unconfirmed"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewInSlotInputs:
    """What `screw-in-slot` is told.

    screw: The locating screw. Its dog point is taken where no point is given.
    point: Diameter of what runs in the slot, as it is or is wanted.
    width: Of a slot that is there: the point is turned to it.
    length: Of a slot that is there: says what end play is left.
    travel: How far the work moves along the slot.
    end_play: What is left at the ends together, beyond the travel.
    depth: Of the slot: says how far the point stands into it.
    diameter: Of the round that the slot is in: says how far it can turn.
    """

    screw: Thread | None = ask.thread("Locating screw", example="M5", empty="not chosen")
    point: float | None = ask.length("Its point", low=0.3, high=60, example="3.5", empty="the screw's own, or to suit")
    width: float | None = ask.length("Slot's width", low=0.3, high=60, example="3.54", empty="to suit the point")
    length: float | None = ask.length("Slot's length", low=0.5, high=2000, example="14", empty="to suit")
    travel: float = ask.length("Travel", default=0.0, low=-1e-9, high=2000, example="10")
    end_play: float = ask.length("End play", default=0.2, low=-1e-9, high=50, example="0.2")
    depth: float | None = ask.length("Slot's depth", low=0.1, high=100, example="2.5", empty="not given")
    diameter: float | None = ask.length("Diameter of the work", low=1, high=500, example="25", empty="not given")


def dog_point(screw: Thread) -> float | None:
    """Largest diameter of the dog point of a grub screw; None outside the table. [mm]"""
    every = ((float(row["diameter"]), float(row["point"])) for row in rows("joining/dog_points.csv"))
    return next((point for diameter, point in every if abs(diameter - screw.diameter) < _SAME), None)


@dataclass(frozen=True, slots=True)
class _Pair:
    """Point and slot [mm] with what stands between them, least and most. `made`: which of them is made to the other."""

    point: float
    width: float
    low: float
    high: float
    made: str


def _pair(inputs: ScrewInSlotInputs) -> _Pair:
    point, width = inputs.point, inputs.width
    if point is None and width is None and inputs.screw is not None:
        point = dog_point(inputs.screw)
    if point is None and width is None:
        text = "screw: give the locating screw, its point or the slot's width."
        if inputs.screw is not None:
            text = f"screw: no point of {inputs.screw} is kept here; give the diameter of its point."
        raise BadInput("screw", "", "a locating screw such as M5", text)
    if point is not None and width is not None:
        if width <= point:
            raise BadInput("width", shown(width), say("more than the point's {point}", point=shown(point)))
        return _Pair(point, width, width - point, width - point, "")
    size = point if point is not None else width
    assert size is not None
    runs = allowance("running", size)
    assert runs is not None
    low, high = -runs.high, -runs.low
    if point is not None:
        return _Pair(point, point + (low + high) / 2, low, high, "width")
    return _Pair(size - (low + high) / 2, size, low, high, "point")


def _work(inputs: ScrewInSlotInputs, shop: Shop) -> Answer:
    pair = _pair(inputs)
    length = inputs.length if inputs.length is not None else pair.point + inputs.travel + inputs.end_play
    figures = (*_across(pair), *_along(inputs, pair), *_more(inputs, pair))
    drawn = _picture(pair, length)
    return Answer(figures, pictures=(drawn,), notes=tuple(_notes(inputs, pair)), moments=(Situation(machine="bench"),))


def _across(pair: _Pair) -> list[Figure]:
    play = mm((pair.low + pair.high) / 2, "play {}")
    rule = allowance("running", pair.point)
    source = rule.source if rule is not None and pair.made else _GAP_SOURCE
    side = figure("side_play", "Side play", play, source)
    if pair.made == "width":
        wide = mm(pair.point, "point {}") + play
        low, high = pair.point + pair.low, pair.point + pair.high
        return [figure("slot_width", "Slot's width", wide, source, low=low, high=high), side]
    if pair.made == "point":
        turned = mm(pair.width, "slot {}") - play
        low, high = pair.width - pair.high, pair.width - pair.low
        return [figure("point", "Turn the point to", turned, source, low=low, high=high), side]
    return [figure("side_play", "Side play", mm(pair.width, "slot {}") - mm(pair.point, "point {}"), source)]


def _along(inputs: ScrewInSlotInputs, pair: _Pair) -> list[Figure]:
    point, travel = mm(pair.point, "point {}"), mm(inputs.travel, "travel {}")
    if inputs.length is None:
        long = point + travel + mm(inputs.end_play, "end play {}")
        return [figure("slot_length", "Slot's length", long, "arithmetic")]
    left = mm(inputs.length, "slot {}") - point - travel
    if float(left) < -1e-9:
        needs = say("at least {least}, the point and its travel", least=shown(float(point + travel)))
        raise BadInput("length", shown(inputs.length), needs)
    return [figure("end_play_left", "End play", left, "arithmetic", side="down")]


def _more(inputs: ScrewInSlotInputs, pair: _Pair) -> list[Figure]:
    made = []
    if inputs.depth is not None:
        stands = mm(inputs.depth) - mm(_BOTTOM)
        source = "clear of the floor: common practice, no source"
        made.append(figure("point_length", "Point stands in by", stands, source, decimals=1, side="down"))
    if inputs.diameter is not None:
        turns = 360 * pair.high / (pi * inputs.diameter)
        text = "{play} on a round of {across}"
        working = say(text, play=shown(pair.high), across=shown(inputs.diameter))
        made.append(Figure("turns_by", "The work turns by, at most", turns, "angle", "geometry", working, decimals=2))
    return made


def _notes(inputs: ScrewInSlotInputs, pair: _Pair) -> list[Note]:
    notes = []
    core = _core(inputs)
    if core is not None and pair.point > core:
        text = "A point of {point} does not pass the screw's own thread: its core is {core}. Take a larger screw."
        notes.append(warning(text, point=shown(pair.point), core=shown(core)))
    if inputs.depth is not None and inputs.depth <= _BOTTOM:
        notes.append(warning("The slot is too shallow for a point that clears its floor."))
    both = "The end play is that of both ends together: with the screw in the middle half of it stands at each."
    notes.append(info(both))
    notes.append(
        info("Try the screw home by hand over the whole travel before it is locked: it has to run, not to clamp.")
    )
    return notes


def _core(inputs: ScrewInSlotInputs) -> float | None:
    screw = inputs.screw
    return None if screw is None else float(screw.diameter) - 1.0825 * float(screw.pitch)


def _picture(pair: _Pair, length: float) -> Picture:
    """The slot from above with the point at its left end."""
    half, play = pair.width / 2, (pair.low + pair.high) / 2
    inner = max(length / 2 - half, 0.0)
    bend = [-pi / 2 + pi * k / _ROUND for k in range(_ROUND + 1)]
    right = [(inner + half * cos(a), half * sin(a)) for a in bend]
    left = [(-x, -y) for x, y in right]
    at = -max(length / 2 - pair.point / 2 - play / 2, 0.0)
    shapes: list[Shape] = [
        Polygon((*right, *left)),
        Circle(at, 0, pair.point / 2),
        Size(-length / 2, half, length / 2, half, shown(length, decimals=2), "above"),
        Size(length / 2, -half, length / 2, half, shown(pair.width, decimals=3), "right"),
        Size(at - pair.point / 2, 0, at + pair.point / 2, 0, shown(pair.point, decimals=3), "below"),
    ]
    alt = say("From above: a slot {long} long and {wide} wide with a point of {point} in it.", long=shown(length, decimals=2),
              wide=shown(pair.width), point=shown(pair.point))  # fmt: skip
    return Picture("slot", "The point in its slot, from above", tuple(shapes), alt)


OPERATION = Operation(
    id="screw-in-slot",
    pane="joining",
    place=15,
    title="Screw in a slot",
    words="locating screw grub screw set screw dog point slot clearance end play side play guide key runs keeps from turning",
    machine="bench",
    inputs=ScrewInSlotInputs,
    work=_work,
    hazards=("deburring",),
    example={"screw": "M5", "travel": "10", "end_play": "0.2", "depth": "2.5"},
    troubles={"FI-01": None},
    help="What width and length a slot gets for a locating screw's point, or the point for a slot, and the play left.",
)
