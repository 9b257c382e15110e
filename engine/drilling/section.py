"""What pictures of holes in section share: outlines, cut faces and dimensions."""

from __future__ import annotations

from itertools import pairwise

from engine.base.answer import Label, Line, Shape
from engine.base.words import Text

_TICK = 0.25  # of the way from the edge to the dimension line: how far a tick stands out to either side
_HATCHES = 7  # lines across the longer side of a cut face


def outline(points: list[tuple[float, float]], *, row: int = 0, weight: int = 1) -> list[Shape]:
    """Straight lines from point to point."""
    return [Line(x1, y1, x2, y2, weight, row) for (x1, y1), (x2, y2) in pairwise(points)]


def both_sides(points: list[tuple[float, float]], *, row: int = 0, weight: int = 1) -> list[Shape]:
    """The same line above and below the axis, which is y = 0."""
    mirrored = [(x, -y) for x, y in points]
    return [*outline(points, row=row, weight=weight), *outline(mirrored, row=row, weight=weight)]


def along(x1: float, x2: float, edge: float, at: float, text: Text) -> list[Shape]:
    """A dimension along x at height `at`, its witness lines from `edge`."""
    tick = abs(at - edge) * _TICK
    return [
        Line(x1, edge, x1, at),
        Line(x2, edge, x2, at),
        Line(x1, at, x2, at),
        *(Line(x - tick / 2, at - tick / 2, x + tick / 2, at + tick / 2) for x in (x1, x2)),
        Label((x1 + x2) / 2, at + (tick if at >= edge else -tick), text),
    ]


def across(y1: float, y2: float, edge: float, at: float, text: Text) -> list[Shape]:
    """A dimension along y at `at` across, its witness lines from `edge`."""
    tick = abs(at - edge) * _TICK
    return [
        Line(edge, y1, at, y1),
        Line(edge, y2, at, y2),
        Line(at, y1, at, y2),
        *(Line(at - tick / 2, y - tick / 2, at + tick / 2, y + tick / 2) for y in (y1, y2)),
        Label(at, max(y1, y2) + tick, text, "end" if at >= edge else "start"),
    ]


def hatched(x1: float, y1: float, x2: float, y2: float) -> list[Shape]:
    """Thin lines at 45 degrees across a rectangle: metal that is cut through."""
    low_x, high_x, low_y, high_y = min(x1, x2), max(x1, x2), min(y1, y2), max(y1, y2)
    wide, high = high_x - low_x, high_y - low_y
    step = max(wide, high) / _HATCHES
    found: list[Shape] = []
    offset = step - high
    while step > 0 and offset < wide:
        start, end = max(offset, 0.0), min(offset + high, wide)
        if end > start:
            found.append(Line(low_x + start, low_y + start - offset, low_x + end, low_y + end - offset))
        offset += step
    return found
