"""What pictures share: outlines, cut faces, boxes and dimensions."""

from __future__ import annotations

from itertools import pairwise

from engine.base.answer import Line, Polygon, Shape, Size
from engine.base.words import Text


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
