"""Pictures of divided circles and unrolled scales, with each shape tied to the row it belongs to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, pi, radians, sin

from engine.base.answer import Circle, Label, Line, Picture, Polygon, Shape
from engine.base.quantity import show
from engine.indexing.way import counted

_RADIUS = 30.0  # mm: a circle that stands for the work
MOST_DOTS = 240  # more would run into one another on any screen


@dataclass(frozen=True, slots=True)
class Mark:
    """One line of a scale: its length in mm, and what is written at it ("" for nothing)."""

    length: float
    label: str


def circle_picture(angles: Sequence[float], *, title: str, table: str, noun: str) -> Picture:
    """Draw the positions round a circle, the first on top, numbered clockwise.

    Examples
    --------
    >>> len(circle_picture([0, 120, 240], title="Three", table="positions", noun="position").shapes)
    7
    """
    shapes: list[Shape] = [Circle(0, 0, _RADIUS)]
    dot = min(1.2, _RADIUS * pi / max(len(angles), 1) / 2.5)
    every = next(step for step in (1, 5, 10, 20, 50, 100, 10_000) if len(angles) <= 12 * step)
    for row, angle in enumerate(angles, 1):
        x, y = sin(radians(angle)), cos(radians(angle))
        shapes.append(Circle(_RADIUS * x, _RADIUS * y, dot, filled=True, row=row))
        if row == 1 or row % every == 0:
            shapes.append(Label(_RADIUS * 1.18 * x, _RADIUS * 1.18 * y, str(row), row=row))
    alt = f"{counted(len(angles), noun)} round a circle, number 1 on top, numbered clockwise."
    return Picture("circle", title, tuple(shapes), alt, table=table)


def unrolled_pictures(marks: Sequence[Mark], *, diameter: float, unit: str) -> tuple[Picture, Picture]:
    """Draw a scale unrolled, its lines standing on the edge of the drum: for the screen, and as a strip to print.

    Examples
    --------
    >>> screen, strip = unrolled_pictures([Mark(4, "0"), Mark(2, "")], diameter=20, unit="mm")
    >>> round(strip.shapes[3].x1 - strip.shapes[1].x1, 3), strip.true_size, screen.true_size
    (31.416, True, False)
    """
    along = pi * diameter
    high = max(mark.length for mark in marks) + 4.0
    shapes: list[Shape] = [Polygon(((0, 0), (along, 0), (along, high), (0, high)))]
    dots: list[Shape] = []
    for row, mark in enumerate(marks, 1):
        x = along * (row - 1) / len(marks)
        shapes.append(Line(x, 0, x, mark.length, weight=1 if mark.label else 0, row=row))
        if mark.label:
            shapes.append(Label(x, mark.length + 1.6, mark.label, row=row))
        if len(marks) <= MOST_DOTS:
            dots.append(Circle(x, -0.8, 0.3, filled=True, row=row))
    drawn = tuple(shapes)
    long = show(along, "length", unit, decimals=2)
    alt = f"The scale unrolled: {len(marks)} lines over {long}, figures at the longest."
    return (
        Picture("unrolled", "The scale unrolled", (*drawn, *dots), alt, table="lines"),
        Picture("strip", "Strip at true size", drawn, alt, true_size=True, table="lines"),
    )
