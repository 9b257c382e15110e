"""A bar's end with what is milled into it: a slot, or the keyway of a key that stands in it."""

from __future__ import annotations

from math import sqrt

from engine.base.answer import Circle, Line, Picture, Polygon, Shape, Size
from engine.base.words import say, shown


def slot_picture(diameter: float, width: float, depth: float, bore: float, place: str) -> Picture:
    """The end of the slotted bar, with the slot's width and depth; `place` is its `end` or its side. [mm]"""
    radius, half = diameter / 2, width / 2
    edge, floor = sqrt(radius**2 - half**2), radius - depth
    shapes: list[Shape] = [Circle(0, 0, radius)]
    if bore > 0:
        shapes.append(Circle(0, 0, bore / 2))
    if place == "end":
        shapes += [Line(-half, -edge, -half, edge, 1), Line(half, -edge, half, edge, 1)]
    else:
        shapes += [Line(-half, edge, -half, floor, 1), Line(half, edge, half, floor, 1)]
        shapes += [Line(-half, floor, half, floor, 1), Size(half, floor, half, radius, shown(depth), "right")]
    shapes.append(Line(0, -radius * 1.1, 0, radius * 1.1, 2))
    shapes.append(Size(-radius, 0, radius, 0, shown(diameter), "below"))
    shapes.append(Size(-half, edge, half, edge, shown(width), "above"))
    text, where = "End of a bar of {bar} with a slot {width} wide and {depth} deep {where}.", "in its side"
    where = "across its face" if place == "end" else where
    alt = say(text, where=where, bar=shown(diameter), width=shown(width), depth=shown(depth))
    return Picture("slot", "The slot from the end", tuple(shapes), alt)


def key_picture(diameter: float, title: str, *, width: float, height: float, down: float, hub: float) -> Picture:
    """Shaft, key and keyways across: the dimensions are those of the answer. [mm]"""
    radius, half = diameter / 2, width / 2
    edge, floor, roof = sqrt(radius**2 - half**2), radius - down, radius + hub
    top = floor + height
    shapes: list[Shape] = [Circle(0, 0, radius)]
    for end in (floor, roof):
        shapes += [Line(-half, edge, -half, end, 1), Line(half, edge, half, end, 1), Line(-half, end, half, end, 1)]
    shapes.append(Polygon(((-half, floor), (half, floor), (half, top), (-half, top))))
    shapes.append(Size(-half, roof, half, roof, shown(width), "above"))
    shapes.append(Size(half, floor, half, radius, shown(down), "right"))
    shapes.append(Size(-half, radius, -half, roof, shown(hub), "left"))
    shapes.append(Size(-radius, 0, radius, 0, shown(diameter), "below"))
    text = "{title} across a shaft of {d}: {width} wide, {height} high, its keyway {down} from the top of the round."
    alt = say(text, title=title, d=shown(diameter), width=shown(width), height=shown(height), down=shown(down))
    return Picture("key", title, tuple(shapes), alt)
