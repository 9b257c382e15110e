"""What pictures share: outlines, cut faces, boxes and dimensions."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import floor, log10

from engine.base.answer import Line, Polygon, Shape, Size
from engine.base.records import replace
from engine.base.words import Text, say, shown


def outline(points: list[tuple[float, float]], *, row: int = 0, weight: int = 1) -> list[Shape]:
    """Straight lines from point to point."""
    return [Line(x1, y1, x2, y2, weight, row) for (x1, y1), (x2, y2) in pairwise(points)]


def both_sides(points: list[tuple[float, float]], *, row: int = 0, weight: int = 1) -> list[Shape]:
    """The same line above and below the axis, which is y = 0."""
    mirrored = [(x, -y) for x, y in points]
    return [*outline(points, row=row, weight=weight), *outline(mirrored, row=row, weight=weight)]


def along(x1: float, x2: float, edge: float, text: Text, *, row: int = 0) -> Size:
    """A dimension along x, outside the edge at that height: above the axis or below it."""
    return Size(x1, edge, x2, edge, text, "above" if edge > 0 else "below", row)


def across(y1: float, y2: float, edge: float, text: Text, *, side: str = "left", row: int = 0) -> Size:
    """A dimension along y of what ends at x = edge."""
    return Size(edge, y1, edge, y2, text, "left" if side == "left" else "right", row)


def cut_ring(points: list[tuple[float, float]]) -> list[Shape]:
    """Metal that is cut through, above the axis and the same below it."""
    return [Polygon(tuple(points), cut=True), Polygon(tuple((x, -y) for x, y in points), cut=True)]


def box(
    x1: float, y1: float, x2: float, y2: float, *, filled: bool = False, cut: bool = False, row: int = 0
) -> Polygon:
    """An upright rectangle."""
    return Polygon(((x1, y1), (x2, y1), (x2, y2), (x1, y2)), filled, cut, row)


def moved(shape: Shape, up: float) -> Shape:
    """The same shape so much higher."""
    if isinstance(shape, Line | Size):
        return replace(shape, y1=shape.y1 + up, y2=shape.y2 + up)
    if isinstance(shape, Polygon):
        return replace(shape, points=tuple((x, y + up) for x, y in shape.points))
    return replace(shape, y=shape.y + up)


def dia(diameter: float, decimals: int = 2) -> Text:
    """A diameter as drawings write it."""
    return say("Ø{size}", size=shown(diameter, decimals=decimals))


def enlarged(small: float, room: float) -> int:
    """How many times larger something small is drawn so that it fills its room: 1, 2, 5, 10, 20 and so on.

    >>> enlarged(0.3, 4.0), enlarged(5.0, 4.0), enlarged(0.012, 5), enlarged(1, 999.9999999999999)
    (10, 1, 200, 500)
    """
    wanted = room / max(small, 1e-9)
    if wanted < 2:
        return 1
    power = 10 ** floor(log10(wanted))
    power //= 10 if power > wanted else 1  # the logarithm of 999.9999999999999 is 3
    return max(step * int(power) for step in (1, 2, 5) if step * power <= wanted)


def chuck(right: float, radius: float) -> list[Shape]:
    """The jaws that hold a bar of that radius, their noses at x = right, the headstock to the left."""
    long, high = 1.2 * radius, 0.55 * radius
    return [box(right - long, radius, right, radius + high), box(right - long, -radius - high, right, -radius)]


def hatching(points: Sequence[tuple[float, float]], step: float) -> list[tuple[float, float, float, float]]:
    """Lines at 45 degrees inside an outline, so far apart measured across the paper: metal that is cut through.

    >>> hatching([(0, 0), (4, 0), (4, 4), (0, 4)], 4)
    [(0.0, 4.0, 4.0, 0.0)]
    """
    found: list[tuple[float, float, float, float]] = []
    sums = [x + y for x, y in points]
    at = step * (int(min(sums) // step) + 1)
    while at < max(sums) - 1e-9 and len(found) < 2000:
        cuts = sorted(_cut(points, at))
        for (x1, y1), (x2, y2) in zip(cuts[::2], cuts[1::2], strict=False):
            found.append((x1, y1, x2, y2))
        at += step
    return found


def _cut(points: Sequence[tuple[float, float]], at: float) -> list[tuple[float, float]]:
    """Where the line x + y = at meets an outline."""
    found = []
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        a, b = x1 + y1 - at, x2 + y2 - at
        if (a < 0) != (b < 0):
            part = a / (a - b)
            found.append((x1 + (x2 - x1) * part, y1 + (y2 - y1) * part))
    return found
