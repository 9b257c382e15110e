"""A picture laid out for what it is drawn on: shapes at scale, dimensions and words clear of them and of one another.

Paper runs to the right and down, in units of whoever draws: millimetres of paper, or cells (one across, two down).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.records import dataclass

Point = tuple[float, float]
_ROUNDS = 5  # times the scale is tried again with the room that its dimensions then take
_FLAT = ("above", "below")  # sides on which dimensions lie along x
_GAP = 0.3  # letters: how far a witness line stands off what is measured
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
    shapes = tuple(
        s for s in sound(picture.shapes) if not getattr(s, "if_marked", False) or getattr(s, "row", 0) == row
    )
    bounds = extents(shapes)
    if bounds is None:
        return None
    return _Layout(shapes, bounds, paper, words).sheet()


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
    """One picture on one paper. Distances are from the upper left corner of what is drawn, until it is placed."""

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
        self.corner = (0.0, 0.0)  # of the drawing on the paper, from when its margins are known

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
        self._place(left, above)
        return Sheet(tuple(self._marks()), wide, high, self.scale)

    def _place(self, left: float, above: float) -> None:
        """Put the drawing, and what stands beside it, in from the corner of the paper."""
        self.corner = left, above
        for side, items in self.sides.items():
            by = left if side in _FLAT else above
            for item in items:
                item.low, item.high, item.at = item.low + by, item.high + by, item.at + by

    def x(self, x: float) -> float:
        """A place of the work on the paper, across."""
        return (x - self.left) * self.scale + self.corner[0]

    def y(self, y: float) -> float:
        """A place of the work on the paper, downwards."""
        return (self.top - y) * self.scale * self.paper.upwards + self.corner[1]

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
            text, flat = self.words[id(shape)], side in _FLAT
            across, along = numbers(shape)[::2], numbers(shape)[1::2]
            ends = [self.x(x) for x in across] if flat else [self.y(y) for y in along]
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
                yield from self._beside(item, side)

    def _beside(self, item: _Item, side: str) -> Iterable[Mark]:
        """A dimension, or words with a line to their point: along the drawing above it and below, upwards at its sides."""
        flat, way = side in _FLAT, -1 if side in ("above", "left") else 1
        letter, row, shape = self.paper.letter, self.paper.row, item.shape
        if flat:
            level = self.y(self.top if side == "above" else self.bottom) + way * row * (item.tier + 1)
            words, anchor = (item.at, level), item.anchor
        else:
            columns = sum(self._column_widths(side)[: item.tier])
            level = self.x(self.left if side == "left" else self.right) + way * (columns + 1.5 * letter)
            words, anchor = (level + way * letter, item.at), "end" if side == "left" else "start"

        def stroke(along: float, out: float, to_along: float, to_out: float) -> Stroke:
            ends = (along, out, to_along, to_out) if flat else (out, along, to_out, to_along)
            return Stroke(*ends, 0, shape.row, True)

        def place(x: float, y: float) -> Point:
            return (self.x(x), self.y(y)) if flat else (self.y(y), self.x(x))

        if isinstance(shape, Pointer):
            along, out = place(shape.x, shape.y)
            yield stroke(along, out, along, level - way * row * 0.5 if flat else level)
            if not flat and abs(item.at - along) > 1e-9:
                yield stroke(along, level, item.at, level)
        else:
            for along, out in (place(shape.x1, shape.y1), place(shape.x2, shape.y2)):
                yield stroke(along, out + way * _GAP * letter, along, level)
            if flat and item.anchor == "middle":  # the words stand in the line
                half = item.wide / 2 + letter * 0.6
                yield stroke(item.low, level, item.at - half, level)
                yield stroke(item.at + half, level, item.high, level)
            else:
                yield stroke(item.low, level, item.high, level)
            outward = -1 if item.high - item.low > 3 * letter else 1
            for at, points in ((item.low, outward), (item.high, -outward)):
                yield Head(at, level, points, 0, shape.row) if flat else Head(level, at, 0, points, shape.row)
        yield Words(*words, item.text, anchor, shape.row, True)


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
