"""Plain holes drawn: a screw in its clearance hole, a hole before and after the reamer, drills near a size."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Shape, Size
from engine.base.outlines import both_sides, cut_ring, dia, enlarged
from engine.base.words import plain, put, say, shown
from engine.drilling.patterns import Place, chord

_MOST_LABELS = 36  # holes on a circle; with more the numbers in the picture run into each other


def clearance_picture(*, screw: float, name: str, hole: float) -> Picture:
    """A screw through two plates; the upper one has the hole. [mm]"""
    half, thick, head = 1.6 * screw, 0.9 * screw, 0.85 * screw
    gap, back, end = (hole - screw) / 2, -0.7 * screw, 2.2 * thick
    shapes: list[Shape] = [
        *cut_ring([(0, hole / 2), (thick, hole / 2), (thick, half), (0, half)]),
        *cut_ring([(thick, screw / 2), (2 * thick, screw / 2), (2 * thick, half), (thick, half)]),
        *both_sides([(back, 0), (back, head), (0, head), (0, screw / 2), (end, screw / 2), (end, 0)]),
        Line(-screw, 0, 2.5 * thick, 0, 2),
        Size(back, screw / 2, back, -screw / 2, name, "left"),
        Size(2 * thick, hole / 2, 2 * thick, -hole / 2, dia(hole), "right"),
        Pointer(thick / 2, hole / 2, say("room {gap} a side", gap=shown(gap, decimals=2)), "above"),
    ]
    alt = say("A screw of {screw} through a hole of {hole}.", screw=dia(screw), hole=dia(hole))
    return Picture("clearance", "The screw in its hole, in section", tuple(shapes), alt)


def reamed_picture(*, diameter: float, drill: float, low: float, high: float) -> Picture:
    """The drilled hole and the reamed one; what is left for the reamer is enlarged and said so. [mm]"""
    radius = diameter / 2
    times = enlarged((diameter - drill) / 2, 0.35 * radius)
    inner, deep, half = radius - (diameter - drill) / 2 * times, 2.4 * diameter, 1.9 * radius
    leave = say("leave {left} on the diameter", left=shown(diameter - drill, decimals=2))
    text = say("{low} to {high}", low=shown(low, side="up"), high=shown(high, side="down"))
    shapes: list[Shape] = [
        *cut_ring([(0, half), (0, radius), (deep, radius), (deep, half)]),
        *both_sides([(0, inner), (deep, inner)], weight=0),
        Line(-0.2 * diameter, 0, deep + 0.2 * diameter, 0, 2),
        Size(0, inner, 0, -inner, say("drill {size}", size=dia(drill)), "left"),
        Size(deep, radius, deep, -radius, text, "right"),
        Pointer(deep / 2, radius, leave, "above"),
    ]
    drawn = say(" What the reamer takes is drawn {times} times as thick as it is.", times=times) if times > 1 else ""
    alt = say("A hole drilled {drill} and reamed to {size}.{drawn}", drill=dia(drill), size=dia(diameter), drawn=drawn)
    return Picture("reamed", "Before and after the reamer, in section", tuple(shapes), alt)


def near_picture(size: float, near: Sequence[tuple[str, float]]) -> Picture:
    """Drills near a size, each where its diameter lies, far apart enough to be read and said so. [mm]"""
    widest = max((abs(diameter - size) for _, diameter in near), default=0.0) or 0.05
    times = enlarged(widest, 40.0)
    places = sorted((diameter, name) for name, diameter in near)
    shapes: list[Shape] = [Line(-1.15 * widest * times, 0, 1.15 * widest * times, 0), Line(0, -4, 0, 4, 1)]
    shapes.append(Pointer(0, -4, say("asked {size}", size=shown(size, decimals=3)), "below"))
    for diameter, name in places:
        x = (diameter - size) * times
        one = say("{name} {size}", name=name, size=shown(diameter, decimals=3))
        shapes += [Line(x, -2, x, 2, 1), Pointer(x, 2, one, "above")]
    text = "Drills near {size}, their differences drawn {times} times as large as they are."
    alt = say(text, size=plain(size), times=times)
    return Picture("near", "Smaller to the left, larger to the right", tuple(shapes), alt)


def circle_picture(
    places: Sequence[Place], middle: tuple[float, float], *, diameter: float, hole: float | None, way: str, start: float
) -> Picture:
    """Holes on a circle from above; the place of the one in hand is told. [mm, deg]"""
    radius, (x, y) = diameter / 2, middle
    size = hole / 2 if hole is not None else min(radius / 8, chord(holes=len(places), diameter=diameter) / 3)
    shapes: list[Shape] = [
        Line(x - 1.15 * radius, y, x + 1.15 * radius, y, weight=2),
        Line(x, y - 1.15 * radius, x, y + 1.15 * radius, weight=2),
        Circle(x, y, radius),
    ]
    for place in places:
        shapes.append(Circle(place.x, place.y, size, row=place.number))
        across, up = say("x {x}", x=shown(place.x, decimals=3)), say("y {y}", y=shown(place.y, decimals=3))
        shapes.append(Pointer(place.x, place.y, across, "above", place.number, if_marked=True))
        shapes.append(Pointer(place.x, place.y, up, "right", place.number, if_marked=True))
        if len(places) <= _MOST_LABELS:
            away, name = 1 + (size + radius / 10) / radius, str(place.number)
            shapes.append(Label(x + (place.x - x) * away, y + (place.y - y) * away, name, row=place.number))
    shapes.append(Size(x - radius, y, x + radius, y, dia(diameter), "below"))
    if hole is not None:
        shapes.append(Size(x, y + radius - size, x, y + radius + size, dia(hole), "left"))
    text = "{holes} holes numbered {way} on a circle of {across}, hole 1 at {angle} degrees from the x axis."
    alt = say(text, holes=len(places), way=way, across=plain(diameter), angle=put(start, "ratio"))
    return Picture("holes", "The circle from above", tuple(shapes), alt, table="holes")
