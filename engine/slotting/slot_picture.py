"""The picture of a slot: the end of the bar as it is looked at, its middle at the origin."""

from __future__ import annotations

from math import sqrt

from engine.base.answer import Circle, Line, Picture, Shape
from engine.base.quantity import show


def draw(
    *, diameter: float, bore: float, width: float, depth: float, place: str, unit: str = "mm"
) -> Picture:
    """Draw the end view of a slotted bar at true size.

    Examples
    --------
    >>> draw(diameter=8, bore=0, width=2, depth=2, place="side").alt
    'End of a bar of 8.000 mm with a slot 2.000 mm wide and 2.000 mm deep in its side.'
    """
    radius, half = diameter / 2, width / 2
    edge = sqrt(radius**2 - half**2)
    shapes: list[Shape] = [Circle(0, 0, radius)]
    if bore:
        shapes.append(Circle(0, 0, bore / 2))
    if place == "end":
        shapes += [Line(-half, -edge, -half, edge, 1), Line(half, -edge, half, edge, 1)]
        where = "across its face"
    else:
        floor = radius - depth
        shapes += [
            Line(-half, edge, -half, floor, 1),
            Line(half, edge, half, floor, 1),
            Line(-half, floor, half, floor, 1),
        ]
        where = "in its side"
    shapes.append(Line(0, -radius * 1.2, 0, radius * 1.2, 2))
    bar, wide, deep = (show(size, "length", unit) for size in (diameter, width, depth))
    alt = f"End of a bar of {bar} with a slot {wide} wide and {deep} deep {where}."
    return Picture("slot", "The slot from the end", tuple(shapes), alt, true_size=True)
