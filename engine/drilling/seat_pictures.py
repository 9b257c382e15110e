"""Seats for screws drawn in section, to scale: the face at x = 0, the hole going to the right."""

from __future__ import annotations

from engine.base.answer import Line, Picture, Shape
from engine.base.words import plain, put, say, shown
from engine.drilling.section import across, along, both_sides, hatched

_METAL = 1.7  # seat diameters of metal drawn across
_BELOW = 0.6  # seat diameters of hole drawn below the seat
_OFF = 0.45  # seat diameters from the metal to a dimension line


def countersink_picture(*, hole: float, diameter: float, depth: float, angle: float) -> Picture:
    """A cone from the face's diameter to the hole's."""
    half, off, end = _METAL / 2 * diameter, _OFF * diameter, depth + _BELOW * diameter
    shapes: list[Shape] = [
        *_plate(half, end, diameter / 2, hole / 2, off),
        *both_sides([(0, diameter / 2), (depth, hole / 2), (end, hole / 2)]),
        *along(0, depth, half, half + off, shown(depth, decimals=2)),
        *across(-diameter / 2, diameter / 2, 0, -off, shown(diameter, decimals=2)),
        *across(-hole / 2, hole / 2, end, end + off, shown(hole, decimals=2)),
    ]
    alt = say(
        "A countersink of {angle} degrees, {wide} wide at the face and {depth} deep, over a hole of {hole}.",
        angle=put(angle, "ratio"),
        wide=plain(diameter),
        depth=shown(depth, decimals=2),
        hole=plain(hole),
    )
    return Picture("seat", "The countersink in section", tuple(shapes), alt)


def counterbore_picture(*, hole: float, bore: float, depth: float, head: float, height: float) -> Picture:
    """A flat seat with the screw's head standing in it, thin."""
    half, off, end = _METAL / 2 * bore, _OFF * bore, depth + _BELOW * bore
    shapes: list[Shape] = [
        *_plate(half, end, bore / 2, hole / 2, off),
        *both_sides([(0, bore / 2), (depth, bore / 2), (depth, hole / 2), (end, hole / 2)]),
        *both_sides([(depth - height, 0), (depth - height, head / 2), (depth, head / 2)], weight=0),
        *along(0, depth, half, half + off, shown(depth, decimals=2)),
        *across(-bore / 2, bore / 2, 0, -off, shown(bore, decimals=2)),
        *across(-hole / 2, hole / 2, end, end + off, shown(hole, decimals=2)),
    ]
    alt = say(
        "A counterbore of {bore}, {depth} deep, over a hole of {hole}; the head of {head} stands in it.",
        bore=plain(bore),
        depth=shown(depth, decimals=2),
        hole=plain(hole),
        head=plain(head),
    )
    return Picture("seat", "The counterbore in section", tuple(shapes), alt)


def _plate(half: float, end: float, seat: float, hole: float, off: float) -> list[Shape]:
    """The cut metal round a seat and the centre line."""
    return [
        *both_sides([(0, seat), (0, half), (end, half), (end, hole)]),
        *hatched(0, seat, end, half),
        *hatched(0, -half, end, -seat),
        Line(-off, 0, end + off, 0, 2),
    ]
