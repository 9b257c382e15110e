"""What goes into the error of a thread, a drum's line, a hole's place and a turned diameter."""

from __future__ import annotations

from math import cos, radians, tan
from typing import Literal

from engine.accuracy.budget import KNOWN, Share, micrometer, warmth
from engine.accuracy.machines import CLOCKED, WANDER, cylinder, dial, half_line, head, leadscrew
from engine.base.words import say
from engine.shop.model import Mill, Shop, Slide
from engine.threads.form import addendum, form
from engine.threads.limits import limits
from engine.threads.passes import slide_angle
from engine.threads.sides import check_sloping
from engine.threads.thread import Thread
from engine.threads.wires import Groove, owned_wire, reading_shares, wire_range

State = Literal["can be held", "hardly held", "cannot be held"]
_HELD, _HARDLY = 0.5, 1.0  # of what is allowed; common practice, no source
_FEEL = 0.002  # mm that two people read a micrometer apart: common practice, no source
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
    groove = Groove(
        half_angle=shape.half_angle,
        pitch=float(size.pitch),
        lead=float(size.lead),
        pitch_basic=sizes.pitch_basic,
        taper=float(size.taper),
    )
    wires = wire_range(groove, major=sizes.pitch_basic + 2 * addendum(shape), crest_radius=shape.crest_radius)
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


def diameter_turned(diameter: float, length: float, shop: Shop) -> list[Share]:
    """A turned diameter: the reading, the warmth, the dial, and what the lathe turns along and round."""
    found = [micrometer(diameter), Share("feel", _FEEL, "common practice", KNOWN), warmth(diameter, _WARM)]
    if shop.lathe is not None:
        found.append(half_line("cross slide", _line(shop.lathe.cross_slide), 2.0))
        found += dial("cross slide", shop, 2.0)
    return [*found, *cylinder(length)]
