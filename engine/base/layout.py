"""A picture laid out for what it is drawn on: shapes at scale, dimensions and words clear of them and of one another.

Paper runs to the right and down, in units of whoever draws: millimetres of paper, or cells (one across, two down).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.records import dataclass

Point = tuple[float, float]
_ROUNDS = 5  # times the scale is tried again with the room that its dimensions then take
_FAR = 1e6  # mm: what lies further off is no part of a drawing


@dataclass(frozen=True, slots=True)
class Paper:
    """What is drawn on: its size, how wide a letter and how high a row of words is there. `scale`: the units of paper
    for a millimetre of the work, 0 for what fits; `upwards`: how many times taller than true."""

    width: float
    height: float
    letter: float
    row: float
    scale: float = 0.0
    upwards: float = 1.0
    labels_count: bool = True


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line; `size`: it belongs to a dimension."""

    x1: float
    y1: float
    x2: float
    y2: float
    weight: int = 0
    row: int = 0
    size: bool = False


@dataclass(frozen=True, slots=True)
class Disc:
    """A circle."""

    x: float
    y: float
    radius: float
    filled: bool
    row: int


@dataclass(frozen=True, slots=True)
class Area:
    """An outline with what is in it."""

    points: tuple[Point, ...]
    filled: bool
    cut: bool
    row: int


@dataclass(frozen=True, slots=True)
class Words:
    """Words whose middle line is at y; `anchor`: which part of them stands at x; `ringed`: a size that matters."""

    x: float
    y: float
    text: str
    anchor: str
    row: int = 0
    size: bool = False
    ringed: bool = False


@dataclass(frozen=True, slots=True)
class Head:
    """The head of an arrow whose point is at x, y and which points the way of across, down."""

    x: float
    y: float
    across: int
    down: int
    row: int = 0


Mark = Stroke | Disc | Area | Words | Head


@dataclass(frozen=True, slots=True)
class Sheet:
    """What was laid out: the marks, the paper they take, and the scale."""

    marks: tuple[Mark, ...]
    width: float
    height: float
    scale: float


def numbers(shape: Shape) -> tuple[float, ...]:
    """Every number of a shape that places it."""
    if isinstance(shape, Line | Size):
        return shape.x1, shape.y1, shape.x2, shape.y2
    if isinstance(shape, Circle):
        return shape.x, shape.y, shape.radius
    if isinstance(shape, Polygon):
        return tuple(number for point in shape.points for number in point)
    return shape.x, shape.y


def sound(shapes: Iterable[Shape]) -> tuple[Shape, ...]:
    """The shapes that can be drawn: a number that is none, or is out of all bounds, leaves its shape out."""
    return tuple(s for s in shapes if all(-_FAR < n < _FAR for n in numbers(s)))  # no number at all is not between


def extents(shapes: Iterable[Shape]) -> tuple[float, float, float, float] | None:
    """Left, bottom, right and top of what is drawn, the points of words counted, dimensions not."""
    xs: list[float] = []
    ys: list[float] = []
    for shape in shapes:
        if isinstance(shape, Circle):
            xs += (shape.x - shape.radius, shape.x + shape.radius)
            ys += (shape.y - shape.radius, shape.y + shape.radius)
        elif not isinstance(shape, Size | Pointer):
            found = numbers(shape)
            xs += found[::2]
            ys += found[1::2]
    return (min(xs), min(ys), max(xs), max(ys)) if xs else None


def laid_out(picture: Picture, paper: Paper, words: Callable[[Shape], str], row: int = 0) -> Sheet | None:
    """Lay out a picture; `words` writes what a shape says, `row` is the one in hand. None where nothing is drawn."""
    shapes = tuple(s for s in sound(picture.shapes) if not getattr(s, "if_marked", False) or s_row(s) == row)
    bounds = extents(shapes)
    if bounds is None:
        return None
    return _Layout(shapes, bounds, paper, words).sheet()


def s_row(shape: Shape) -> int:
    """The row that a shape belongs to, 0 for none."""
    return getattr(shape, "row", 0)


@dataclass(slots=True)
class _Item:
    """A dimension or a pointer beside the drawing: where it begins on the paper and how much of its side it takes."""

    shape: Size | Pointer
    text: str
    low: float
    high: float
    wide: float
    tier: int = 0
    at: float = 0.0
    anchor: str = "middle"
    taken: tuple[float, float] = (0.0, 0.0)


class _Layout:
    """One picture on one paper. Distances are from the upper left corner of what is drawn, until the end."""

    def __init__(
        self, shapes: Sequence[Shape], bounds: tuple[float, float, float, float], paper: Paper,
        words: Callable[[Shape], str],
    ) -> None:  # fmt: skip
        self.shapes, self.paper = shapes, paper
        self.left, self.bottom, self.right, self.top = bounds
        self.words = {id(s): words(s) for s in shapes if isinstance(s, Label | Size | Pointer)}
        self.beside = [s for s in shapes if isinstance(s, Size | Pointer)]
        self.scale = paper.scale
        self.sides: dict[str, list[_Item]] = {}
        self.margins = (0.0, 0.0, 0.0, 0.0)  # left, above, right, below

    def sheet(self) -> Sheet:
        """Find the scale with which everything fits, then draw."""
        across, up = max(self.right - self.left, 1e-9), max(self.top - self.bottom, 1e-9) * self.paper.upwards
        paper = self.paper
        self.scale = self.paper.scale or min(paper.width / across, paper.height / up)
        for _ in range(_ROUNDS):
            self._arrange()
            if paper.scale:
                break
            left, above, right, below = self.margins
            room_x = max(paper.width - left - right, paper.width / 4)
            room_y = max(paper.height - above - below, paper.height / 4)
            before, self.scale = self.scale, min(room_x / across, room_y / up)
            if abs(before - self.scale) < 1e-9 * before:
                break
        else:
            self._arrange()
        left, above, right, below = self.margins
        wide, high = left + across * self.scale + right, above + up * self.scale + below
        marks = tuple(self._moved(mark, left, above) for mark in self._marks())
        return Sheet(marks, wide, high, self.scale)

    def x(self, x: float) -> float:
        """A place of the work on the paper, across."""
        return (x - self.left) * self.scale

    def y(self, y: float) -> float:
        """A place of the work on the paper, downwards."""
        return (self.top - y) * self.scale * self.paper.upwards

    # Where dimensions and pointers stand

    def _arrange(self) -> None:
        paper = self.paper
        self.sides = {side: self._items(side) for side in ("above", "below", "left", "right")}
        over = [0.0, self.x(self.right)]
        for side in ("above", "below"):
            _tiers(self.sides[side], paper.letter, self.x(self.right))
            over += [edge for item in self.sides[side] for edge in item.taken]
        over += self._label_edges()
        for side in ("left", "right"):
            _columns(self.sides[side], paper.row, self.y(self.bottom))
        deep = {s: (1 + max(i.tier for i in self.sides[s])) * paper.row * 1.0 + paper.row * 0.5
                if self.sides[s] else 0.0 for s in ("above", "below")}  # fmt: skip
        wide = {s: sum(self._column_widths(s)) for s in ("left", "right")}
        edges = [(item.taken[0], item.taken[1]) for s in ("left", "right") for item in self.sides[s]]
        high = -min([0.0, *(low for low, _ in edges)])
        low = max([0.0, *(far - self.y(self.bottom) for _, far in edges)])
        label_high, label_low = self._label_heights()
        self.margins = (
            max(wide["left"], -min(over)),
            max(deep["above"], high, label_high),
            max(wide["right"], max(over) - self.x(self.right)),
            max(deep["below"], low, label_low),
        )

    def _items(self, side: str) -> list[_Item]:
        found = []
        for shape in self.beside:
            if shape.side != side:
                continue
            text = self.words[id(shape)]
            flat = side in ("above", "below")
            if isinstance(shape, Pointer):
                ends = [self.x(shape.x)] * 2 if flat else [self.y(shape.y)] * 2
            else:
                ends = [self.x(shape.x1), self.x(shape.x2)] if flat else [self.y(shape.y1), self.y(shape.y2)]
            found.append(_Item(shape, text, min(ends), max(ends), len(text) * self.paper.letter))
        return found

    def _column_widths(self, side: str) -> list[float]:
        """How wide each column beside the drawing is, the nearest first: a gap, the line, a gap, the words."""
        items, letter = self.sides[side], self.paper.letter
        count = 1 + max((i.tier for i in items), default=-1)
        return [max((i.wide for i in items if i.tier == tier), default=0.0) + 3 * letter for tier in range(count)]

    def _label_box(self, shape: Label) -> tuple[float, float]:
        width = len(self.words[id(shape)]) * self.paper.letter
        start = self.x(shape.x) - {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor] * width
        return start, start + width

    def _label_edges(self) -> list[float]:
        if not self.paper.labels_count:
            return []
        return [edge for s in self.shapes if isinstance(s, Label) for edge in self._label_box(s)]

    def _label_heights(self) -> tuple[float, float]:
        """How far words stand out above and below what is drawn."""
        if not self.paper.labels_count:
            return 0.0, 0.0
        ys = [self.y(s.y) for s in self.shapes if isinstance(s, Label)]
        half, foot = self.paper.row / 2, self.y(self.bottom)
        return max([0.0, *(half - y for y in ys)]), max([0.0, *(y + half - foot for y in ys)])

    # The marks

    def _marks(self) -> Iterable[Mark]:
        for shape in self.shapes:
            if isinstance(shape, Line):
                ends = self.x(shape.x1), self.y(shape.y1), self.x(shape.x2), self.y(shape.y2)
                yield Stroke(*ends, shape.weight, shape.row)
            elif isinstance(shape, Circle):
                yield Disc(self.x(shape.x), self.y(shape.y), shape.radius * self.scale, shape.filled, shape.row)
            elif isinstance(shape, Polygon):
                points = tuple((self.x(x), self.y(y)) for x, y in shape.points)
                yield Area(points, shape.filled, shape.cut, shape.row)
            elif isinstance(shape, Label):
                words = self.words[id(shape)]
                yield Words(self.x(shape.x), self.y(shape.y), words, shape.anchor, shape.row, ringed=shape.ringed)
        for side, items in self.sides.items():
            for item in items:
                yield from self._flat(item, side) if side in ("above", "below") else self._upright(item, side)

    def _flat(self, item: _Item, side: str) -> Iterable[Mark]:
        """A dimension along, or words with a line down to their point."""
        row, way = self.paper.row, -1 if side == "above" else 1
        edge = 0.0 if side == "above" else self.y(self.bottom)
        level = edge + way * row * (item.tier + 1)
        shape = item.shape
        if isinstance(shape, Pointer):
            x, y = self.x(shape.x), self.y(shape.y)
            yield Stroke(x, y, x, level - way * row * 0.5, 0, shape.row, True)
            yield Words(item.at, level, item.text, item.anchor, shape.row, True)
            return
        for x, y in ((shape.x1, shape.y1), (shape.x2, shape.y2)):
            yield Stroke(self.x(x), self.y(y) + way * self._gap(), self.x(x), level, 0, shape.row, True)
        inline = item.anchor == "middle"
        if inline:
            half = item.wide / 2 + self.paper.letter * 0.6
            yield Stroke(item.low, level, item.at - half, level, 0, shape.row, True)
            yield Stroke(item.at + half, level, item.high, level, 0, shape.row, True)
        else:
            yield Stroke(item.low, level, item.high, level, 0, shape.row, True)
        outward = -1 if item.high - item.low > 3 * self.paper.letter else 1
        yield Head(item.low, level, outward, 0, shape.row)
        yield Head(item.high, level, -outward, 0, shape.row)
        yield Words(item.at, level, item.text, item.anchor, shape.row, True)

    def _gap(self) -> float:
        """How far a witness line stands off what is measured."""
        return 0.3 * self.paper.letter

    def _upright(self, item: _Item, side: str) -> Iterable[Mark]:
        """A dimension upwards, or words with a line across to their point."""
        letter, way = self.paper.letter, -1 if side == "left" else 1
        edge = 0.0 if side == "left" else self.x(self.right)
        level = edge + way * (sum(self._column_widths(side)[: item.tier]) + 1.5 * letter)
        anchor, shape = "end" if side == "left" else "start", item.shape
        if isinstance(shape, Pointer):
            x, y = self.x(shape.x), self.y(shape.y)
            yield Stroke(x, y, level, y, 0, shape.row, True)
            if abs(item.at - y) > 1e-9:
                yield Stroke(level, y, level, item.at, 0, shape.row, True)
            yield Words(level + way * letter, item.at, item.text, anchor, shape.row, True)
            return
        for x, y in ((shape.x1, shape.y1), (shape.x2, shape.y2)):
            yield Stroke(self.x(x) + way * self._gap(), self.y(y), level, self.y(y), 0, shape.row, True)
        yield Stroke(level, item.low, level, item.high, 0, shape.row, True)
        outward = -1 if item.high - item.low > 3 * letter else 1
        yield Head(level, item.low, 0, outward, shape.row)
        yield Head(level, item.high, 0, -outward, shape.row)
        yield Words(level + way * letter, item.at, item.text, anchor, shape.row, True)

    @staticmethod
    def _moved(mark: Mark, x: float, y: float) -> Mark:
        if isinstance(mark, Stroke):
            ends = mark.x1 + x, mark.y1 + y, mark.x2 + x, mark.y2 + y
            return Stroke(*ends, mark.weight, mark.row, mark.size)
        if isinstance(mark, Area):
            return Area(tuple((a + x, b + y) for a, b in mark.points), mark.filled, mark.cut, mark.row)
        if isinstance(mark, Disc):
            return Disc(mark.x + x, mark.y + y, mark.radius, mark.filled, mark.row)
        if isinstance(mark, Head):
            return Head(mark.x + x, mark.y + y, mark.across, mark.down, mark.row)
        return Words(mark.x + x, mark.y + y, mark.text, mark.anchor, mark.row, mark.size, mark.ringed)


def _tiers(items: list[_Item], letter: float, wide: float) -> None:
    """Give each item above or below a row of its own, the shortest nearest to the drawing."""
    taken: list[list[tuple[float, float]]] = []
    for item in sorted(items, key=lambda one: (one.high - one.low, one.low)):
        places = _places(item, letter, wide)
        tier = 0
        while True:
            if tier == len(taken):
                taken.append([])
            found = next(
                (p for p in places if all(p[3] + letter <= a or p[2] >= b + letter for a, b in taken[tier])), None
            )
            if found:
                item.at, item.anchor, item.taken, item.tier = found[0], found[1], (found[2], found[3]), tier
                taken[tier].append(item.taken)
                break
            tier += 1


def _places(item: _Item, letter: float, wide: float) -> list[tuple[float, str, float, float]]:
    """Where the words of an item may stand: place, anchor, and what they and the line take; the best first."""
    middle = (item.low + item.high) / 2
    if isinstance(item.shape, Pointer):
        return [(middle, "middle", middle - item.wide / 2, middle + item.wide / 2)]
    if item.high - item.low >= item.wide + 4 * letter:
        return [(middle, "middle", item.low, item.high)]
    right = (item.high + letter, "start", item.low, item.high + letter + item.wide)
    left = (item.low - letter, "end", item.low - letter - item.wide, item.high)
    return [left, right] if middle < wide / 2 else [right, left]


def _columns(items: list[_Item], row: float, high: float) -> None:
    """Give each dimension at a side a column, the shortest nearest; pointers the last, spread so that none covers
    another."""
    taken: list[list[tuple[float, float]]] = []
    sizes = [item for item in items if isinstance(item.shape, Size)]
    for item in sorted(sizes, key=lambda one: one.high - one.low):
        item.at = (item.low + item.high) / 2
        item.taken = min(item.low, item.at - row / 2), max(item.high, item.at + row / 2)
        item.tier = next(
            (t for t, column in enumerate(taken) if all(item.taken[1] <= a or item.taken[0] >= b for a, b in column)),
            len(taken),
        )
        if item.tier == len(taken):
            taken.append([])
        taken[item.tier].append(item.taken)
    pointers = sorted((item for item in items if isinstance(item.shape, Pointer)), key=lambda one: one.low)
    for item, at in zip(pointers, _spread([item.low for item in pointers], row, high), strict=True):
        item.at, item.tier, item.taken = at, len(taken), (at - row / 2, at + row / 2)


def _spread(wanted: Sequence[float], apart: float, high: float) -> list[float]:
    """Places in order, at least so far apart, as near to those wanted as a push down and one back up bring them.

    >>> _spread([1.0, 1.0, 5.0], 2.0, 6.0), _spread([5.0, 5.0], 2.0, 6.0)
    ([1.0, 3.0, 5.0], [4.0, 6.0])
    """
    placed: list[float] = []
    for want in wanted:
        placed.append(max(want, placed[-1] + apart) if placed else want)
    limit = max(high, apart * (len(placed) - 1))
    for i in range(len(placed) - 1, -1, -1):
        placed[i] = min(placed[i], limit - apart * (len(placed) - 1 - i))
    return placed


def hatching(points: Sequence[Point], step: float) -> list[tuple[float, float, float, float]]:
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


def _cut(points: Sequence[Point], at: float) -> list[Point]:
    """Where the line x + y = at meets an outline."""
    found = []
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        a, b = x1 + y1 - at, x2 + y2 - at
        if (a < 0) != (b < 0):
            part = a / (a - b)
            found.append((x1 + (x2 - x1) * part, y1 + (y2 - y1) * part))
    return found
