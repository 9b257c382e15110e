"""How work gives way and how it stands in its jaws, drawn: a bent bar, an eccentric, work off centre."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, radians, sin

from engine.base.answer import Circle, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.outlines import box, chuck, dia, enlarged, outline
from engine.base.words import Text, say, shown

_STEPS = 24  # straight pieces of a bent bar

# The shape of the axis under a force, as a share of the largest bend, over the share of the length from the left:
# at the free end of a bar held at its left; in the middle of one held at its left and by a centre; between centres.
# Source: beam theory (Machinery's Handbook, beams: fixed at one end; fixed and supported; supported at both ends).
_BENT: dict[str, Callable[[float], float]] = {
    "chuck": lambda s: s * s * (3 - s) / 2,
    "centre": lambda s: _propped(s) / _propped(0.5),
    "centres": lambda s: 3 * min(s, 1 - s) - 4 * min(s, 1 - s) ** 3,
}


def _propped(s: float) -> float:
    """Held at the left, supported at the right, the force in the middle; without its constant factor."""
    return s * s * (9 - 11 * s) if s <= 0.5 else (1 - s) * (3 - 5 * (1 - s) ** 2)


def bent_picture(*, diameter: float, length: float, support: str, deflection: float, error: float) -> Picture:
    """A bar bent by the tool, the bend enlarged and said so: held at the left, the tool below. [mm]

    support: `chuck`, `centre` or `centres`, as stiffness.bend has it
    """
    radius = diameter / 2
    times = enlarged(deflection, 0.9 * diameter)
    bend = _BENT[support]
    axis = [(length * i / _STEPS, deflection * times * bend(i / _STEPS)) for i in range(_STEPS + 1)]
    at = length if support == "chuck" else length / 2
    lift = deflection * times * bend(at / length)
    wide, low = 0.2 * diameter, lift - 1.4 * diameter
    shapes: list[Shape] = [
        Line(-0.2 * diameter, 0, length + 0.3 * diameter, 0, 2),
        *outline([(x, y + radius) for x, y in axis]),
        *outline([(x, y - radius) for x, y in axis]),
        Line(length, axis[-1][1] - radius, length, axis[-1][1] + radius, 1),
        Line(0, -radius, length, -radius),
        Polygon(((at, lift - radius), (at + wide, low), (at - wide, low)), filled=True),
        *(chuck(0, radius) if support != "centres" else [_centre(0, -1, radius)]),
        *([_centre(length, 1, radius)] if support != "chuck" else []),
        Size(0, -radius, length, -radius, say("free {long}", long=shown(length, decimals=1)), "below"),
        Size(0, radius, 0, -radius, dia(diameter), "left"),
        Pointer(at, lift + radius, say("gives {bend}, drawn larger", bend=shown(deflection, decimals=3)), "above"),
    ]
    if support == "chuck":
        shapes.append(Pointer(length, lift, say("{error} larger", error=dia(error, 3)), "right"))
    text = "A bar of {size}, {long} free, gives way by {bend} under the tool. The bend is drawn {times} times as large as it is."
    alt = say(text, size=dia(diameter), long=shown(length, decimals=1), bend=shown(deflection, decimals=3), times=times)
    return Picture("bent", "The bar under the tool, its bend enlarged", tuple(shapes), alt)


def _centre(x: float, way: int, radius: float) -> Polygon:
    """A centre of 60 degrees with its point at x."""
    size = 0.6 * radius
    return Polygon(((x, 0), (x + way * 1.73 * size, size), (x + way * 1.73 * size, -size)))


def eccentric_picture(*, throw: float, diameter: float, turned: float, bar: float, packing: float | None) -> Picture:
    """The bar in its jaws from the tailstock, the lathe's axis at the origin, the bar's centre a throw above it. [mm]"""
    radius = diameter / 2
    shapes: list[Shape] = [
        Circle(0, throw, radius),
        Circle(0, 0, turned / 2),
        Line(-1.1 * radius, 0, 1.1 * radius, 0, 2),
        Line(-0.4 * radius, throw, 0.4 * radius, throw, 2),
        Line(0, throw - 1.1 * radius, 0, throw + 1.1 * radius, 2),
    ]
    if packing is not None:
        reach = radius - throw + packing  # of every jaw from the axis, as a scroll moves them alike
        shapes.append(box(-0.22 * radius, -reach, 0.22 * radius, throw - radius, filled=True))
        faces = [(60.0, reach), (180.0, reach), (300.0, reach)]
    else:
        side = (radius**2 - throw**2) ** 0.5
        faces = [(0.0, radius + throw), (90.0, side), (180.0, radius - throw), (270.0, side)]
    shapes += [_jaw(angle, near, radius) for angle, near in faces]
    text = say("turned {size}", size=dia(turned))
    shapes += [
        Size(radius, throw, radius, 0, say("throw {throw}", throw=shown(throw, decimals=2)), "right"),
        Size(-radius, throw, radius, throw, dia(diameter), "below"),
        Pointer(turned / 2 * cos(radians(30)), -turned / 2 * sin(radians(30)), text, "right"),
    ]
    if packing is not None:
        packed = say("packing {thick}", thick=shown(packing, decimals=2))
        shapes.append(Pointer(0.22 * radius, -reach + packing / 2, packed, "right"))
    how: Text = "in four jaws"
    if packing is not None:
        how = say("with {thick} under one jaw", thick=shown(packing, decimals=2))
    told = "The bar of {size} stands {throw} off the lathe's axis, {how}; {turned} is turned on the axis, from a bar of {bar}."
    far = shown(throw, decimals=2)
    alt = say(told, size=dia(diameter), throw=far, turned=dia(turned), bar=dia(bar), how=how)
    return Picture("eccentric", "In the jaws, seen from the tailstock", tuple(shapes), alt)


def _jaw(angle: float, near: float, radius: float) -> Polygon:
    """A jaw at an angle from the top, clockwise, its face so far from the axis."""
    across = (cos(radians(angle)), -sin(radians(angle)))
    out = (sin(radians(angle)), cos(radians(angle)))
    half, far = 0.22 * radius, near + 0.55 * radius
    corners = ((near, -half), (near, half), (far, half), (far, -half))
    return Polygon(tuple((u * out[0] + v * across[0], u * out[1] + v * across[1]) for u, v in corners))


def true_picture(*, reading: float, move: float, jaws: int, shim: float | None) -> Picture:
    """Work off centre in its jaws and the clock that says so: how far it is off is enlarged and said so. [mm]"""
    radius = 20.0  # stands for the work, whose size is not asked
    times = enlarged(move, 0.2 * radius)
    off = move * times
    top = off + radius
    shapes: list[Shape] = [
        Circle(0, off, radius),
        Line(-1.25 * radius, 0, 1.25 * radius, 0, 2),
        Line(0, -1.25 * radius, 0, top + 0.2 * radius, 2),
        Line(-0.3 * radius, off, 0.3 * radius, off),
    ]
    for k in range(jaws):
        turn = 360 * k / jaws
        near = off * cos(radians(turn)) + (radius**2 - (off * sin(radians(turn))) ** 2) ** 0.5
        shapes.append(_jaw(turn, near, radius))
    touch = radius * sin(radians(35)), off + radius * cos(radians(35))
    x, y = 1.7 * radius, touch[1] + 0.35 * radius
    turned = radians(40)
    shapes += [
        Line(*touch, x - 0.4 * radius * cos(turned), y - 0.4 * radius * sin(turned), 1),
        Circle(x, y, 0.4 * radius),
        Line(x, y, x + 0.3 * radius * sin(turned), y + 0.3 * radius * cos(turned), 1),
        Pointer(x + 0.4 * radius, y, say("clock {reading}", reading=shown(reading)), "right"),
        Size(-0.3 * radius, 0, -0.3 * radius, off, say("off {move}", move=shown(move)), "left"),
    ]
    if shim is None:
        shapes += [
            Pointer(-0.1 * radius, top + 0.3 * radius, "tighten", "left"),
            Pointer(-0.1 * radius, off - radius - 0.3 * radius, "slacken", "left"),
        ]
    else:
        text = say("shim {shim} under it", shim=shown(shim, decimals=2))
        shapes.append(Pointer(-0.1 * radius, top + 0.05 * radius, text, "left"))
    told = "The clock moves {reading} in a turn: the work is {move} off the axis, towards the highest reading. "
    told += "Drawn {times} times as far off as it is."
    alt = say(told, reading=shown(reading), move=shown(move), times=times)
    return Picture("true", "In the jaws, seen from the tailstock", tuple(shapes), alt)
