"""Pictures in character cells: the engine's shapes (millimetres, y upwards) drawn with console glyphs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from engine.base.answer import Circle, Label, Picture, Polygon, Shape
from engine.base.answer import Line as Stroke
from engine.base.words import write
from tui.glyphs import plain
from tui.lines import Line, beside, line

TALL = 2.0  # a cell is about twice as tall as it is wide
MOST_STRETCH = 4  # a long thin picture (a scale unrolled) is drawn up to so many times taller than true

_ORDER = {Polygon: 0, Stroke: 1, Circle: 2, Label: 3}  # what is drawn over what

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_JOINTS = {
    _LEFT: "─", _RIGHT: "─", _LEFT | _RIGHT: "─", _UP: "│", _DOWN: "│", _UP | _DOWN: "│",
    _DOWN | _RIGHT: "┌", _DOWN | _LEFT: "┐", _UP | _RIGHT: "└", _UP | _LEFT: "┘",
    _UP | _DOWN | _RIGHT: "├", _UP | _DOWN | _LEFT: "┤", _LEFT | _RIGHT | _DOWN: "┬", _LEFT | _RIGHT | _UP: "┴",
    _UP | _DOWN | _LEFT | _RIGHT: "┼",
}  # fmt: skip


class _Grid:
    """Cells to draw in, and the scale that brings the picture's millimetres into them."""

    def __init__(self, width: int, height: int, bounds: tuple[float, float, float, float], may_stretch: bool) -> None:
        self.width, self.height = width, height
        x1, y1, x2, y2 = bounds
        across, up = max(x2 - x1, 1e-9), max(y2 - y1, 1e-9)
        self.scale = min((width - 1) / across, (height - 1) * TALL / up)
        room = (height - 1) * TALL / (up * self.scale)
        self.stretch = int(min(room, MOST_STRETCH)) if may_stretch and room >= 2 else 1
        self.tall = TALL / self.stretch
        self.left = x1 - ((width - 1) / self.scale - across) / 2
        self.top = y2 + ((height - 1) * self.tall / self.scale - up) / 2
        self.cells = [[(" ", "text")] * width for _ in range(height)]
        self.joints: dict[tuple[int, int], int] = {}

    def at(self, x: float, y: float) -> tuple[int, int]:
        """The cell that a point falls in."""
        return round((x - self.left) * self.scale), round((self.top - y) * self.scale / self.tall)

    def put(self, column: int, row: int, glyph: str, role: str = "text") -> None:
        """Write one cell, if it is on the grid."""
        if 0 <= column < self.width and 0 <= row < self.height:
            self.cells[row][column] = (glyph, role)

    def join(self, column: int, row: int, arms: int) -> None:
        """Add arms to a box-drawing cell, so that lines that meet make a corner or a cross."""
        arms |= self.joints.get((column, row), 0)
        self.joints[column, row] = arms
        self.put(column, row, _JOINTS[arms])

    def lines(self) -> list[Line]:
        """The grid as lines, neighbouring cells of one role run together."""
        out: list[Line] = []
        for row in self.cells:
            runs: Line = []
            for glyph, role in row:
                if runs and runs[-1][1] == role:
                    runs[-1] = (runs[-1][0] + glyph, role)
                else:
                    runs.append((glyph, role))
            out.append(runs)
        return out


def _points(shape: Shape) -> list[tuple[float, float]]:
    if isinstance(shape, Stroke):
        return [(shape.x1, shape.y1), (shape.x2, shape.y2)]
    if isinstance(shape, Circle):
        r = shape.radius
        return [(shape.x - r, shape.y - r), (shape.x + r, shape.y + r)]
    return list(shape.points) if isinstance(shape, Polygon) else [(shape.x, shape.y)]


def _bounds(shapes: Iterable[Shape]) -> tuple[float, float, float, float] | None:
    points = [p for shape in shapes for p in _points(shape)]
    if not points:
        return None
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _stroke(grid: _Grid, a: tuple[float, float], b: tuple[float, float], weight: int = 0, role: str = "text") -> None:
    (c1, r1), (c2, r2) = grid.at(*a), grid.at(*b)
    steps = max(abs(c2 - c1), abs(r2 - r1))
    if steps > 4 * (grid.width + grid.height):
        return
    if weight == 0 and role == "text" and (c1 == c2 or r1 == r2) and steps:
        _straight(grid, c1, r1, c2, r2)
        return
    for i in range(steps + 1):
        if weight == 2 and i % 2:
            continue
        column, row = round(c1 + (c2 - c1) * i / max(steps, 1)), round(r1 + (r2 - r1) * i / max(steps, 1))
        grid.put(column, row, "·" if weight == 2 else _slope_glyph(c2 - c1, r2 - r1, weight), role)


def _straight(grid: _Grid, c1: int, r1: int, c2: int, r2: int) -> None:
    (c1, r1), (c2, r2) = sorted([(c1, r1), (c2, r2)])
    back, on = (_LEFT, _RIGHT) if r1 == r2 else (_UP, _DOWN)
    count = (c2 - c1) + (r2 - r1)
    for i in range(count + 1):
        arms = (back if i else 0) | (on if i < count else 0)
        grid.join(c1 + (i if r1 == r2 else 0), r1 + (0 if r1 == r2 else i), arms)


def _slope_glyph(across: int, down: int, weight: int) -> str:
    if abs(down) * 3 <= abs(across):
        return "═" if weight == 1 else "─"
    if abs(across) * 2 <= abs(down):
        return "║" if weight == 1 else "│"
    return "\\" if (across > 0) == (down > 0) else "/"


def _circle(grid: _Grid, shape: Circle, role: str) -> None:
    radius = shape.radius * grid.scale
    column, row = grid.at(shape.x, shape.y)
    marked = role == "mark"
    if radius < 1.6:
        grid.put(column, row, "■" if marked else ("•" if shape.filled else "o"), role)
        return
    if shape.filled or marked:
        for r in range(row - math.ceil(radius / TALL), row + math.ceil(radius / TALL) + 1):
            half = radius**2 - ((r - row) * TALL) ** 2
            reach = int(math.sqrt(half)) if half >= 0 else -1
            for c in range(max(column - reach, 0), min(column + reach, grid.width - 1) + 1):
                grid.put(c, r, "█" if marked else "▒", "text")
        return
    steps = min(max(int(radius * 8), 24), 720)
    for i in range(steps):
        angle = 2 * math.pi * i / steps
        c, r = grid.at(shape.x + shape.radius * math.cos(angle), shape.y + shape.radius * math.sin(angle))
        grid.put(c, r, _slope_glyph(round(-100 * math.sin(angle)), round(-50 * math.cos(angle)), 0))


def _polygon(grid: _Grid, shape: Polygon) -> None:
    corners = [grid.at(x, y) for x, y in shape.points]
    high, low = min(r for _, r in corners), max(r for _, r in corners)
    if shape.filled and low - high < 3:  # too flat for an outline round a filling
        left, right = min(c for c, _ in corners), max(c for c, _ in corners)
        for row in range(max(high, 0), min(max(low, high + 1), grid.height)):
            for column in range(max(left, 0), min(right + 1, grid.width)):
                grid.put(column, row, "▒")
        return
    if shape.filled:
        for row in range(max(high, 0), min(low, grid.height - 1) + 1):
            crossings = sorted(_crossings(corners, row))
            for start, end in zip(crossings[::2], crossings[1::2], strict=False):
                for c in range(max(math.ceil(start), 0), min(math.floor(end), grid.width - 1) + 1):
                    grid.put(c, row, "░")
    for a, b in zip(shape.points, (*shape.points[1:], *shape.points[:1]), strict=True):
        _stroke(grid, a, b)


def _crossings(corners: list[tuple[int, int]], row: int) -> list[float]:
    found = []
    for (c1, r1), (c2, r2) in zip(corners, corners[1:] + corners[:1], strict=True):
        if min(r1, r2) <= row < max(r1, r2):
            found.append(c1 + (c2 - c1) * (row - r1) / (r2 - r1))
    return found


def _label(grid: _Grid, shape: Label, role: str, unit: str) -> None:
    words = plain(write(shape.text, unit))
    words = f"[{words}]" if role == "mark" else words
    column, row = grid.at(shape.x, shape.y)
    column -= {"start": 0, "middle": len(words) // 2, "end": len(words) - 1}[shape.anchor]
    column = min(max(column, 0), max(grid.width - len(words), 0))
    for i, c in enumerate(words):
        grid.put(column + i, row, c, "strong" if role == "text" else role)


def drawn(picture: Picture, width: int, height: int, unit: str = "mm", *, row: int = 0) -> list[Line]:
    """A picture in so many cells; `row` (from 1) is the row in hand of its table: it is marked in the picture.

    Where there is no room for a drawing, its sentence is given instead.
    """
    shapes = [s for s in picture.shapes if all(math.isfinite(v) for point in _points(s) for v in point)]
    bounds = _bounds(shapes)
    if bounds is None or width < 12 or height < 4:
        return [line(write(picture.alt, unit))]
    may_stretch = not any(isinstance(s, Circle) and s.radius > 1 for s in shapes)
    grid = _Grid(width, height, bounds, may_stretch)
    if grid.stretch > 1:
        grid = _Grid(width, height - 1, bounds, may_stretch)
    shapes = sorted(shapes, key=lambda s: (_ORDER[type(s)], _is_row(s, row)))
    for shape in shapes:
        role = "mark" if _is_row(shape, row) else "text"
        if isinstance(shape, Stroke):
            _stroke(grid, (shape.x1, shape.y1), (shape.x2, shape.y2), shape.weight, role)
        elif isinstance(shape, Circle):
            _circle(grid, shape, role)
        elif isinstance(shape, Polygon):
            _polygon(grid, shape)
        else:
            _label(grid, shape, role, unit)
    if grid.stretch > 1:
        return [*grid.lines(), [(f"Drawn {grid.stretch} times taller than true.", "hint")]]
    return grid.lines()


def lying(pictures: Sequence[Picture], width: int, height: int, unit: str = "mm") -> list[Line]:
    """The work as it lies on the machine, and beside it the end view where there is one."""
    if len(pictures) == 1:
        return drawn(pictures[0], width, height, unit)
    left = width * 3 // 5
    sides = drawn(pictures[0], left, height, unit), drawn(pictures[1], width - left - 1, height, unit)
    return beside([(sides[0], left), (sides[1], width - left - 1)], height)


def _is_row(shape: Shape, row: int) -> bool:
    return bool(row) and getattr(shape, "row", 0) == row
