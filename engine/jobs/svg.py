"""A picture as SVG with its sizes in millimetres, so that what is drawn 1:1 is printed 1:1."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from math import isfinite

from engine.base.answer import Circle, Label, Line, Picture, Polygon, Shape
from engine.base.records import dataclass
from engine.base.rounding import short
from engine.base.words import write

WIDEST = 180.0  # mm: what A4 and Letter both leave between margins of 15 mm
TALLEST = 70.0  # mm: a picture that is not at true size leaves room for its step
_TEXT = 2.6  # mm: height of words on paper
_MARGIN = 1.0  # mm of paper round the drawing, so that no line is cut off
_STROKES = {0: 0.13, 1: 0.35, 2: 0.13}  # mm: thin, heavy, centre line


@dataclass(frozen=True, slots=True)
class _Frame:
    """What part of a picture is drawn, and how many mm of paper one mm of the work takes."""

    left: float
    right: float
    bottom: float
    top: float
    scale: float


def svg(picture: Picture, unit: str = "mm") -> tuple[str, ...]:
    """Return a picture as SVG elements: one, or several side by side where it is true to size and wider than paper.

    picture: What to draw; anything not finite is left out.
    unit: `mm` or `inch`: what its words are written in.
    Returns: Each a whole `<svg>` with width and height in mm, its words escaped.
    Source: SVG 2 (W3C): width and height in mm, the viewBox in the drawing's own units.

    >>> square = Picture("p", "Square", (Polygon(((0, 0), (10, 0), (10, 10), (0, 10))),), "A square.", true_size=True)
    >>> 'width="12mm"' in svg(square)[0]
    True
    """
    shapes = tuple(shape for shape in picture.shapes if _finite(shape))
    if not shapes:
        return ()
    left, right, bottom, top = _bounds(shapes)
    if not picture.true_size:
        scale = min(WIDEST / max(right - left, 1e-6), TALLEST / max(top - bottom, 1e-6))
        left, right, bottom, top = _bounds(shapes, scale)
        scale = min(WIDEST / (right - left), TALLEST / (top - bottom))
        return (_element(picture, shapes, _Frame(left, right, bottom, top, scale), write(picture.alt, unit), unit),)
    left, right, bottom, top = _bounds(shapes, 1.0)
    pieces = max(1, -int(-(right - left) // WIDEST))
    found = []
    for piece in range(min(pieces, 20)):
        start = left + piece * WIDEST
        frame = _Frame(start, min(start + WIDEST, right), bottom, top, 1.0)
        words = write(picture.alt, unit)
        alt = words if pieces == 1 else f"{words} Piece {piece + 1} of {pieces}."
        found.append(_element(picture, shapes, frame, alt, unit))
    return tuple(found)


def _numbers(shape: Shape) -> tuple[float, ...]:
    if isinstance(shape, Line):
        return shape.x1, shape.y1, shape.x2, shape.y2
    if isinstance(shape, Circle):
        return shape.x, shape.y, shape.radius
    if isinstance(shape, Polygon):
        return tuple(number for point in shape.points for number in point)
    return shape.x, shape.y


def _finite(shape: Shape) -> bool:
    return all(isfinite(number) and abs(number) < 1e6 for number in _numbers(shape))


def _corners(shape: Shape, scale: float | None) -> Iterable[tuple[float, float]]:
    if isinstance(shape, Circle):
        return (shape.x - shape.radius, shape.y - shape.radius), (shape.x + shape.radius, shape.y + shape.radius)
    if isinstance(shape, Label):
        if scale is None:
            return ((shape.x, shape.y),)
        width = 0.62 * _TEXT * len(write(shape.text)) / scale
        start = shape.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor] * width
        return (start, shape.y - 0.3 * _TEXT / scale), (start + width, shape.y + _TEXT / scale)
    numbers = _numbers(shape)
    return tuple(zip(numbers[::2], numbers[1::2], strict=True))


def _bounds(shapes: tuple[Shape, ...], scale: float | None = None) -> tuple[float, float, float, float]:
    """Left, right, bottom, top; words count once the scale is known."""
    corners = [corner for shape in shapes for corner in _corners(shape, scale)]
    edge = _MARGIN / scale if scale else 0.0
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    return min(xs) - edge, max(xs) + edge, min(ys) - edge, max(ys) + edge


def _element(picture: Picture, shapes: tuple[Shape, ...], frame: _Frame, alt: str, unit: str) -> str:
    width, height = frame.right - frame.left, frame.top - frame.bottom
    drawn = "".join(_drawn(shape, frame, unit) for shape in shapes)
    return (
        f'<svg role="img" xmlns="http://www.w3.org/2000/svg" width="{_mm(width * frame.scale)}mm" '
        f'height="{_mm(height * frame.scale)}mm" viewBox="{_mm(frame.left)} {_mm(-frame.top)} {_mm(width)} '
        f'{_mm(height)}" font-size="{_mm(_TEXT / frame.scale)}"><title>{escape(alt)}</title>{drawn}</svg>'
    )


def _mm(number: float) -> str:
    return short(number, 4)


def _drawn(shape: Shape, frame: _Frame, unit: str) -> str:
    """One shape; y grows downwards in SVG and upwards in a picture."""
    if isinstance(shape, Label):
        at = f'x="{_mm(shape.x)}" y="{_mm(-shape.y)}" text-anchor="{shape.anchor}"'
        return f"<text {at}>{escape(write(shape.text, unit))}</text>"
    filled = getattr(shape, "filled", False)
    weight = shape.weight if isinstance(shape, Line) else 0
    pen = f'fill="{"black" if filled else "none"}" stroke="black" stroke-width="{_mm(_STROKES[weight] / frame.scale)}"'
    if isinstance(shape, Circle):
        return f'<circle cx="{_mm(shape.x)}" cy="{_mm(-shape.y)}" r="{_mm(shape.radius)}" {pen}/>'
    if isinstance(shape, Polygon):
        points = " ".join(f"{_mm(x)},{_mm(-y)}" for x, y in shape.points)
        return f'<polygon points="{points}" {pen}/>'
    if weight == 2:
        pen += f' stroke-dasharray="{_mm(2 / frame.scale)} {_mm(0.7 / frame.scale)}"'
    ends = f'x1="{_mm(shape.x1)}" y1="{_mm(-shape.y1)}" x2="{_mm(shape.x2)}" y2="{_mm(-shape.y2)}"'
    return f"<line {ends} {pen}/>"
