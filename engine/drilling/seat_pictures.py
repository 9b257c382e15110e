"""Seats for screws drawn in section, to scale: the face at x = 0, the hole going to the right."""

from __future__ import annotations

from engine.base.answer import Label, Line, Picture, Shape
from engine.base.outlines import across, along, both_sides, cut_ring, dia
from engine.base.words import plain, put, say, shown

_METAL = 1.7  # seat diameters of metal drawn across
_BELOW = 0.6  # seat diameters of hole drawn below the seat


def countersink_picture(*, hole: float, diameter: float, depth: float, angle: float) -> Picture:
    """A cone from the face's diameter to the hole's."""
    half, end = _METAL / 2 * diameter, depth + _BELOW * diameter
    shapes: list[Shape] = [
        *_plate([(0, diameter / 2), (depth, hole / 2), (end, hole / 2)], half, end),
        along(0, depth, half, shown(depth, decimals=2)),
        across(-diameter / 2, diameter / 2, 0, dia(diameter)),
        across(-hole / 2, hole / 2, end, dia(hole), side="right"),
        Label(depth * 0.5, 0, plain(angle, "angle")),
    ]
    text = "A countersink of {angle} degrees, {wide} wide at the face and {depth} deep, over a hole of {hole}."
    alt = say(text, angle=put(angle, "ratio"), wide=plain(diameter), depth=shown(depth, decimals=2), hole=plain(hole))
    return Picture("seat", "The countersink in section", tuple(shapes), alt)


def counterbore_picture(*, hole: float, bore: float, depth: float, head: float, height: float) -> Picture:
    """A flat seat with the screw's head standing in it, thin."""
    half, end = _METAL / 2 * bore, depth + _BELOW * bore
    shapes: list[Shape] = [
        *_plate([(0, bore / 2), (depth, bore / 2), (depth, hole / 2), (end, hole / 2)], half, end),
        *both_sides([(depth - height, 0), (depth - height, head / 2), (depth, head / 2)], weight=0),
        along(0, depth, half, shown(depth, decimals=2)),
        across(-bore / 2, bore / 2, 0, dia(bore)),
        across(-hole / 2, hole / 2, end, dia(hole), side="right"),
        Label(depth - height / 2, -head / 4, "head"),
    ]
    text = "A counterbore of {bore}, {depth} deep, over a hole of {hole}; the head of {head} stands in it."
    alt = say(text, bore=plain(bore), depth=shown(depth, decimals=2), hole=plain(hole), head=plain(head))
    return Picture("seat", "The counterbore in section", tuple(shapes), alt)


def _plate(wall: list[tuple[float, float]], half: float, end: float) -> list[Shape]:
    """The cut metal round a seat with this wall, and the centre line."""
    return [*cut_ring([*wall, (end, half), (0, half)]), Line(-0.1 * half, 0, end + 0.1 * half, 0, 2)]
