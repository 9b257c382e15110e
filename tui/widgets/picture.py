"""Pictures in character cells: the engine's shapes (millimetres, y upwards) drawn with the glyphs there are."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from engine.base.answer import Circle, Label, Picture, Pointer, Shape, Size
from engine.base.layout import Area, Disc, Head, Mark, Paper, Sheet, Stroke, Words, extents, laid_out, sound
from engine.base.outlines import hatching
from engine.base.words import write
from tui import pictures
from tui.glyphs import plain
from tui.lines import Line, beside, line
from tui.widgets.shown_image import blanks

TALL = 2.0  # a cell is about twice as tall as it is wide
MOST_STRETCH = 4  # a long thin picture (a scale unrolled) is drawn up to so many times taller than true

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_JOINTS = {
    _LEFT: "─", _RIGHT: "─", _LEFT | _RIGHT: "─", _UP: "│", _DOWN: "│", _UP | _DOWN: "│",
    _DOWN | _RIGHT: "┌", _DOWN | _LEFT: "┐", _UP | _RIGHT: "└", _UP | _LEFT: "┘",
    _UP | _DOWN | _RIGHT: "├", _UP | _DOWN | _LEFT: "┤", _LEFT | _RIGHT | _DOWN: "┬", _LEFT | _RIGHT | _UP: "┴",
    _UP | _DOWN | _LEFT | _RIGHT: "┼",
}  # fmt: skip
_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))  # of a braille pattern: down, then across
_BRAILLE = 0x2800
_THIN = 5  # times as long as it is high: a picture that may be drawn taller than true
_HATCH = 6  # dots between the lines of a cut face

Point = tuple[float, float]
_KEPT = 3  # drawings: the bench's, and the two of a job's step
_kept: list[tuple[Picture, tuple[int, int, str, int, str], list[Line]]] = []


class _Grid:
    """Cells to draw in. Points are in cells across and rows down, as fractions."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self.cells = [[(" ", "text")] * width for _ in range(height)]
        self.joints: dict[tuple[int, int], int] = {}
        self.dots: dict[tuple[int, int], int] = {}
        self.written: set[tuple[int, int]] = set()

    def put(self, column: int, row: int, glyph: str, role: str = "text") -> None:
        """Write one cell, if it is on the grid."""
        if 0 <= column < self.width and 0 <= row < self.height:
            self.cells[row][column] = (glyph, role)

    def join(self, column: int, row: int, arms: int, role: str) -> None:
        """Add arms to a box-drawing cell, so that lines that meet make a corner or a cross."""
        arms |= self.joints.get((column, row), 0)
        self.joints[column, row] = arms
        self.put(column, row, _JOINTS[arms], role)

    def dot(self, x: float, y: float, role: str) -> None:
        """Set one of the eight dots of a cell."""
        across, down = math.floor(x * 2 + 1), math.floor(y * 4 + 2)
        column, row = across // 2, down // 4
        if 0 <= column < self.width and 0 <= row < self.height:
            dots = self.dots.get((column, row), 0) | _DOTS[down % 4][across % 2]
            self.dots[column, row] = dots
            held = self.cells[row][column][1]
            stays = held == "mark" or (held == "strong" and role == "text")
            self.cells[row][column] = (chr(_BRAILLE + dots), held if stays else role)

    def say(self, column: int, row: int, words: str, role: str, free: bool) -> None:
        """Write words; where others stand already, those that are `free` go to the next free row, or away."""
        column = min(max(column, 0), max(self.width - len(words), 0))
        places = (row, row + 1, row - 1, row + 2, row - 2) if free else (row,)
        for at in places:
            cells = {(column + i, at) for i in range(len(words))}
            if 0 <= at < self.height and not cells & self.written:
                self.written |= cells
                for i, glyph in enumerate(words):
                    self.put(column + i, at, glyph, role)
                return

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


class _Pen:
    """Marks drawn on a grid: `fine` with braille patterns, else with box lines and slashes; `row` is marked."""

    def __init__(self, grid: _Grid, row: int, off: Point, fine: bool) -> None:
        self.grid, self.row, self.off, self.fine = grid, row, off, fine

    def at(self, x: float, y: float) -> Point:
        """A point of the paper in cells and rows."""
        return x + self.off[0], y / TALL + self.off[1]

    def draw(self, mark: Mark) -> None:
        """One mark."""
        marked = bool(self.row) and mark.row == self.row
        if isinstance(mark, Stroke):
            self._stroke(mark, marked)
        elif isinstance(mark, Disc):
            self._disc(mark, marked)
        elif isinstance(mark, Area):
            self._area(mark, marked)
        elif isinstance(mark, Words):
            self._words(mark, marked)

    def _stroke(self, mark: Stroke, marked: bool) -> None:
        role = "mark" if marked else "rule" if mark.size else "strong" if mark.weight == 1 else "text"
        a, b = self.at(mark.x1, mark.y1), self.at(mark.x2, mark.y2)
        if max(abs(v) for v in (*a, *b)) > 8 * (self.grid.width + self.grid.height):
            return
        if mark.weight == 3 and not self.fine:
            return
        if self.fine and not mark.size:
            self._dotted(a, b, role, dashed=mark.weight == 2)
        else:
            self._celled(a, b, mark.weight, role)

    def _dotted(self, a: Point, b: Point, role: str, dashed: bool = False) -> None:
        steps = max(_cell(max(abs(b[0] - a[0]) * 2, abs(b[1] - a[1]) * 4)), 1)
        for i in range(steps + 1):
            if not dashed or i % 4 < 2:
                self.grid.dot(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps, role)

    def _celled(self, a: Point, b: Point, weight: int, role: str) -> None:
        (c1, r1), (c2, r2) = (_cell(a[0]), _cell(a[1])), (_cell(b[0]), _cell(b[1]))
        steps = max(abs(c2 - c1), abs(r2 - r1))
        if role == "rule" and not steps:  # a witness line shorter than a cell: its dimension still has a corner
            arm = (_DOWN if a[1] > b[1] else _UP) if a[0] == b[0] else _RIGHT if a[0] > b[0] else _LEFT
            self.grid.join(c1, r1, arm, role)
            return
        if weight != 2 and role != "mark" and (c1 == c2 or r1 == r2) and steps:
            self._straight(c1, r1, c2, r2, role)
            return
        for i in range(steps + 1):
            if weight == 2 and i % 2:
                continue
            column, row = _cell(c1 + (c2 - c1) * i / max(steps, 1)), _cell(r1 + (r2 - r1) * i / max(steps, 1))
            glyph = "·" if weight == 2 else _slope_glyph(c2 - c1, r2 - r1, role == "mark")
            self.grid.put(column, row, glyph, role)

    def _straight(self, c1: int, r1: int, c2: int, r2: int, role: str) -> None:
        (c1, r1), (c2, r2) = sorted([(c1, r1), (c2, r2)])
        flat = r1 == r2
        back, on = (_LEFT, _RIGHT) if flat else (_UP, _DOWN)
        count = (c2 - c1) + (r2 - r1)
        for i in range(count + 1):
            arms = (back if i else 0) | (on if i < count else 0)
            self.grid.join(c1 + (i if flat else 0), r1 + (0 if flat else i), arms, role)

    def _disc(self, mark: Disc, marked: bool) -> None:
        x, y = self.at(mark.x, mark.y)
        column, row, radius = _cell(x), _cell(y), mark.radius
        if radius < (0.6 if self.fine else 1.6):
            self.grid.put(column, row, "■" if marked else "•" if mark.filled else "o", "mark" if marked else "text")
        elif mark.filled or marked:
            self._filled_disc(x, y, radius, marked)
        else:
            self._ring(x, y, radius)

    def _filled_disc(self, x: float, y: float, radius: float, marked: bool) -> None:
        high = math.ceil(radius / TALL)
        for r in range(_cell(y) - high, _cell(y) + high + 1):
            half = radius**2 - ((r - y) * TALL) ** 2
            reach = math.sqrt(half) if half >= 0 else -1.0
            for c in range(max(math.ceil(x - reach), 0), min(math.floor(x + reach), self.grid.width - 1) + 1):
                self.grid.put(c, r, "█" if marked else "▒", "text")

    def _ring(self, x: float, y: float, radius: float) -> None:
        steps = min(max(int(radius * (14 if self.fine else 8)), 24), 1440)
        for i in range(steps):
            turn = 2 * math.pi * i / steps
            c, r = x + radius * math.cos(turn), y + radius * math.sin(turn) / TALL
            if self.fine:
                self.grid.dot(c, r, "text")
            else:
                glyph = _slope_glyph(_cell(-100 * math.sin(turn)), _cell(50 * math.cos(turn)), False)
                self.grid.put(_cell(c), _cell(r), glyph)

    def _area(self, mark: Area, marked: bool) -> None:
        corners = [self.at(x, y) for x, y in mark.points]
        if max(abs(v) for corner in corners for v in corner) > 8 * (self.grid.width + self.grid.height):
            return
        high, low = _cell(min(y for _, y in corners)), _cell(max(y for _, y in corners))
        if mark.filled and low - high < 3:  # too flat for an outline round a filling
            left, right = _cell(min(x for x, _ in corners)), _cell(max(x for x, _ in corners))
            for row in range(max(high, 0), min(max(low, high + 1), self.grid.height)):
                for column in range(max(left, 0), min(right + 1, self.grid.width)):
                    self.grid.put(column, row, "█" if marked else "▒")
            return
        if mark.filled or mark.cut:
            self._fill(corners, mark.cut)
        sides = zip(mark.points, (*mark.points[1:], *mark.points[:1]), strict=True)
        for (x1, y1), (x2, y2) in sides:
            self._stroke(Stroke(x1, y1, x2, y2, 1 if mark.cut else 0, mark.row), marked)

    def _fill(self, corners: Sequence[Point], cut: bool) -> None:
        if self.fine and cut:
            for x1, y1, x2, _ in hatching([(x * 2, y * 4) for x, y in corners], _HATCH):
                way = 1 if x2 >= x1 else -1
                for i in range(int(abs(x2 - x1)) + 1):
                    self.grid.dot((x1 + way * i) / 2, (y1 - way * i) / 4, "text")
            return
        if self.fine:
            self._fill_dots([(x * 2, y * 4) for x, y in corners])
            return
        for row, start, end in _rows(corners, self.grid.height):
            first, last = math.ceil(start), math.floor(end)
            if first > last:  # narrower than a cell
                first = last = _cell((start + end) / 2)
            for c in range(max(first, 0), min(last, self.grid.width - 1) + 1):
                self.grid.put(c, row, "░")

    def _fill_dots(self, corners: Sequence[Point]) -> None:
        """A body seen whole, every dot of it."""
        for row, start, end in _rows(corners, self.grid.height * 4):
            for c in range(max(math.ceil(start), 0), min(math.floor(end), self.grid.width * 2) + 1):
                self.grid.dot(c / 2, row / 4, "text")

    def _words(self, mark: Words, marked: bool) -> None:
        words = f"[{mark.text}]" if marked else mark.text
        x, y = self.at(mark.x, mark.y)
        column = _cell(x) - {"start": 0, "middle": len(words) // 2, "end": len(words) - 1}[mark.anchor]
        self.grid.say(column, _cell(y), words, "mark" if marked else "strong", free=not mark.size)


def _cell(place: float) -> int:
    """The cell that a place falls in; halves go up, so that rows one apart stay one apart."""
    return math.floor(place + 0.5)


def _slope_glyph(across: int, down: int, marked: bool) -> str:
    if abs(down) * 3 <= abs(across):
        return "═" if marked else "─"
    if abs(across) * 2 <= abs(down):
        return "║" if marked else "│"
    return "\\" if (across > 0) == (down > 0) else "/"


def _rows(corners: Sequence[Point], height: int) -> Iterator[tuple[int, float, float]]:
    """Each row of an outline, from where to where it is inside."""
    ys = [y for _, y in corners]
    for row in range(max(math.ceil(min(ys)), 0), min(math.floor(max(ys)), height - 1) + 1):
        crossings = sorted(_crossings(corners, row))
        for start, end in zip(crossings[::2], crossings[1::2], strict=False):
            yield row, start, end


def _crossings(corners: Sequence[Point], row: int) -> list[float]:
    found = []
    for (c1, r1), (c2, r2) in zip(corners, [*corners[1:], corners[0]], strict=True):
        if min(r1, r2) <= row < max(r1, r2):
            found.append(c1 + (c2 - c1) * (row - r1) / (r2 - r1))
    return found


def _order(mark: Mark) -> int:
    """What is drawn over what."""
    if isinstance(mark, Stroke):
        return 3 if mark.size else 1
    return {Area: 0, Disc: 2, Head: 4, Words: 5}[type(mark)]


def _may_stretch(picture: Picture) -> bool:
    """Whether it may be drawn taller than true: nothing round in it; with dimensions only if it is long and thin."""
    if any(isinstance(s, Circle) and s.radius > 1 for s in picture.shapes):
        return False
    bounds = extents(sound(picture.shapes))
    plain_ = not any(isinstance(s, Size | Pointer) for s in picture.shapes)
    return bounds is not None and (plain_ or bounds[2] - bounds[0] > _THIN * (bounds[3] - bounds[1]))


def laid(picture: Picture, width: int, height: int, unit: str, row: int) -> tuple[Sheet, int] | None:
    """A picture laid out in so many cells, and how many times taller than true it stands there."""

    def said(shape: Shape) -> str:
        return plain(write(shape.text, unit)) if isinstance(shape, Label | Size | Pointer) else ""

    def at(upwards: int) -> Sheet | None:
        rows = height - 1 if upwards > 1 else height  # the last says so
        paper = Paper(width - 1, (rows - 1) * TALL, 1.0, TALL, upwards=upwards, labels_count=False)
        return laid_out(picture, paper, said, row)

    true = at(1)
    if true is None or not _may_stretch(picture):
        return None if true is None else (true, 1)
    for upwards in range(MOST_STRETCH, 1, -1) if true.height * 1.5 < height * TALL else ():
        taller = at(upwards)
        if taller is not None and taller.scale >= true.scale * 0.995:
            return taller, upwards
    return true, 1


def drawn(picture: Picture, width: int, height: int, unit: str = "mm", *, row: int = 0) -> list[Line]:
    """A picture in so many cells; `row` (from 1) is the row in hand of its table: it is marked in the picture.

    Where there is no room for a drawing, its sentence is given instead. What was drawn last is kept: a key that leaves
    the answer as it is draws nothing anew.
    """
    asked = (width, height, unit, row, pictures.means())
    for held, of, lines in _kept:
        if held is picture and of == asked:
            return list(lines)
    lines = _drawn(picture, width, height, unit, row)
    _kept.append((picture, asked, lines))
    del _kept[:-_KEPT]
    return list(lines)


def _drawn(picture: Picture, width: int, height: int, unit: str, row: int) -> list[Line]:
    found = laid(picture, width, height, unit, row) if width >= 12 and height >= 4 else None
    if found is None:
        return [line(write(picture.alt, unit))]
    if pictures.means() in ("kitty", "sixel"):
        return blanks(picture, width, height, unit, row)
    sheet, stretch = found
    grid = _Grid(width, height - 1 if stretch > 1 else height)
    off = max((width - 1 - sheet.width) / 2, 0.0), max((grid.height - 1 - sheet.height / TALL) / 2, 0.0)
    pen = _Pen(grid, row, off, pictures.means() != "plain")
    for mark in sorted(sheet.marks, key=lambda m: (_order(m), bool(row) and m.row == row)):
        pen.draw(mark)
    if stretch > 1:
        return [*grid.lines(), [(f"Drawn {stretch} times taller than true.", "hint")]]
    return grid.lines()


def lying(pictures: Sequence[Picture], width: int, height: int, unit: str = "mm") -> list[Line]:
    """The work as it lies on the machine, and beside it the end view where there is one."""
    if len(pictures) == 1:
        return drawn(pictures[0], width, height, unit)
    left = width * 3 // 5
    sides = drawn(pictures[0], left, height, unit), drawn(pictures[1], width - left - 1, height, unit)
    return beside([(sides[0], left), (sides[1], width - left - 1)], height)
