"""What goes into the error of a thread, a drum's line, a hole's place and size, a turned diameter and a length."""

from __future__ import annotations

from math import cos, radians, tan
from typing import Literal

from engine.accuracy.budget import KNOWN, Share, micrometer, warmth
from engine.accuracy.machines import CLOCKED, WANDER, cylinder, dial, half_line, head, hollow, leadscrew
from engine.base.words import say
from engine.joining.iso286 import tolerance
from engine.shop.model import Mill, Shop, Slide
from engine.threads.form import addendum, form
from engine.threads.limits import limits
from engine.threads.passes import slide_angle
from engine.threads.sides import check_sloping
from engine.threads.thread import Thread
from engine.threads.wires import groove_of, owned_wire, reading_shares, wire_range

State = Literal["can be held", "hardly held", "cannot be held"]
_HELD, _HARDLY = 0.5, 1.0  # of what is allowed; common practice, no source
_FEEL = 0.002  # mm that two people read a micrometer apart: common practice, no source
_FELT = 0.01  # mm that a gauge spread in a bore is felt apart: common practice, no source
_DEPTH_FEEL = 0.005  # mm that two people read a depth apart: common practice, no source
_TOUCHED = 0.01  # mm within which a tool is set to a face by touch: common practice, no source
_EDGE = 0.02  # mm within which an edge is found on the table: common practice, no source
# Of IT7 either way: a reamer for H7 is made within 35 % of it, and 15 % are kept for its cutting large: DIN 1420, from
# memory.
_MADE, _CUTS_LARGE = 0.175, 0.075
_WARM = 10.0  # °C that work off the machine is warmer than the gauge: common practice, no source


def held(good: float, allowed: float) -> State:
    """Whether a band of this half width can be kept within what is allowed either way.

    >>> held(0.01, 0.02), held(0.011, 0.02), held(0.03, 0.02)
    ('can be held', 'hardly held', 'cannot be held')
    """
    part = good / allowed
    return "can be held" if part <= _HELD else "hardly held" if part <= _HARDLY else "cannot be held"


def _line(slide: Slide) -> float:
    return float(slide.travel_per_turn / slide.divisions)


def half_of_class(size: Thread, tolerance: str | None = None) -> float | None:
    """Half the tolerance on a screw's pitch diameter; None where none is published. [mm]"""
    sizes = limits(size, tolerance)
    low, high = sizes.ext_pitch_min, sizes.ext_pitch_max
    return (high - low) / 2 if low is not None and high is not None else None


def thread_cut(size: Thread, shop: Shop, *, tolerance: str | None = None, length: float | None = None) -> list[Share]:
    """Pitch diameter as the nut feels it: the reading over wires, the leadscrew's error over the length in the nut
    (None: one diameter), and the last setting of the top slide."""
    check_sloping(size, "wires seat on flanks that slope, so its pitch diameter is not read")
    shape, sizes = form(size), limits(size, tolerance)
    groove, major = groove_of(size, shape, sizes.pitch_basic), sizes.pitch_basic + 2 * addendum(shape)
    wires = wire_range(groove, major=major, crest_radius=shape.crest_radius)
    wire = owned_wire(shop.wires, wires) or wires.best
    found = reading_shares(groove, wire=wire, reading=sizes.major_basic, counted=False)
    screw = leadscrew(length or size.diameter, shop)
    steep = 1 / tan(radians(shape.half_angle))
    found.append(Share(say("{screw}, times cot a", screw=screw.cause), screw.most * steep, screw.source))
    if shop.lathe is not None:
        at = slide_angle(shop.lathe.top_slide_angle, shape.half_angle)
        found.append(half_line("top slide", _line(shop.lathe.top_slide), 2 * cos(radians(at))))
    return found


def drum_divided(diameter: float, shop: Shop, *, run_out: float | None = None) -> list[Share]:
    """Where a line stands on the rim: the head's error at that radius, and the drum off the head's axis."""
    out = CLOCKED if run_out is None else max(run_out, 0.0)
    return [head(diameter / 2, shop), Share("drum off the axis, half the run-out", out / 2, "geometry")]


def holes_set_out(diameter: float, mill: Mill) -> list[Share]:
    """Where a hole of a circle stands along either way: the dial, the table's screw, the drill's start."""
    screw = leadscrew(diameter, Shop())
    return [
        half_line("table", max(_line(mill.x), _line(mill.y))),
        Share("table screw, as a new leadscrew", screw.most, screw.source),
        Share("drill's start", WANDER, "common practice"),
    ]


def hole_placed(along: float, mill: Mill) -> list[Share]:
    """Where a hole stands from an edge of the work that was found on the table."""
    return [*holes_set_out(along, mill), Share("edge found", _EDGE, "common practice")]


def half_of_reamed(diameter: float) -> float:
    """Half of what a hole reamed to H7 is allowed. [mm]"""
    return tolerance(grade=7, diameter=diameter) / 2


def hole_reamed(diameter: float) -> list[Share]:
    """A hole as a reamer for H7 leaves it: the reamer's own limits, and how much larger than itself it cuts.

    >>> [round(share.most, 5) for share in hole_reamed(12)]
    [0.00315, 0.00135]
    """
    whole, source = tolerance(grade=7, diameter=diameter), "DIN 1420, from memory"
    return [Share("the reamer's own size", _MADE * whole, source), Share("cuts large", _CUTS_LARGE * whole, source)]


def bore_turned(diameter: float, depth: float, shop: Shop) -> list[Share]:
    """A bored hole: as a turned diameter, and felt by a gauge that the micrometer reads afterwards."""
    return [*diameter_turned(diameter, depth, shop), Share("gauge felt in the bore", _FELT, "common practice", KNOWN)]


def length_turned(length: float, diameter: float, shop: Shop) -> list[Share]:
    """A length between two faces: the reading, the warmth, the touch, the top slide's dial, the hollow of the face."""
    feel = Share("feel of the depth", _DEPTH_FEEL, "common practice", KNOWN)
    found = [micrometer(length), feel, warmth(length, _WARM), Share("tool touched on", _TOUCHED, "common practice")]
    if shop.lathe is not None:
        found.append(half_line("top slide", _line(shop.lathe.top_slide)))
    return [*found, hollow(diameter)]


def diameter_turned(diameter: float, length: float, shop: Shop) -> list[Share]:
    """A turned diameter: the reading, the warmth, the dial, and what the lathe turns along and round."""
    found = [micrometer(diameter), Share("feel", _FEEL, "common practice", KNOWN), warmth(diameter, _WARM)]
    if shop.lathe is not None:
        found.append(half_line("cross slide", _line(shop.lathe.cross_slide), 2.0))
        found += dial("cross slide", shop, 2.0)
    return [*found, *cylinder(length)]
