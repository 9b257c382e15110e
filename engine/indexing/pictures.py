"""Pictures of divided circles, index plates, dials and unrolled scales, each shape tied to the row it belongs to."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from math import cos, pi, radians, sin

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.records import dataclass
from engine.base.words import Text, counted, say, shown

Point = tuple[float, float]
_RADIUS = 30.0  # mm: a circle that stands for the work
_BESIDE = 80.0  # mm from the middle of the work to the middle of the plate or dial drawn beside it
_MOST_DRAWN = 120  # lines of a vernier's main scale that a picture can hold
_SET = 0.83  # of a dial's radius: how far in the line to set is drawn heavy, clear of the figures
_HAND = 0.15, 0.6  # of it: from where to where a hand points to that line, inside the figures
_FIGURE, _CLEAR = 1.6, 0.8  # mm: a figure printed at true size and the gap to the next
MOST_DOTS = 240  # more would run into one another on any screen


@dataclass(frozen=True, slots=True)
class Mark:
    """One line of a scale: its length in mm, and what is written at it ("" for nothing)."""

    length: float
    label: str


def at(angle: float, radius: float, middle: Point = (0.0, 0.0)) -> Point:
    """A point on a circle, its angle counted clockwise from the top. [deg, mm]

    >>> [round(v, 3) for v in at(90, 2, (1, 1))]
    [3.0, 1.0]
    """
    return middle[0] + radius * sin(radians(angle)), middle[1] + radius * cos(radians(angle))


def circle_picture(
    angles: Sequence[float], *, title: str, table: str, noun: str, beside: Sequence[Shape] = (), more: str = ""
) -> Picture:
    """Draw the positions round a circle, the first on top, numbered clockwise; `beside` stands to the right of it.

    >>> len(circle_picture([0, 120, 240], title="Three", table="positions", noun="position").shapes)
    7
    """
    shapes: list[Shape] = [Circle(0, 0, _RADIUS)]
    dot = min(1.2, _RADIUS * pi / max(len(angles), 1) / 2.5)
    every = next(step for step in (1, 5, 10, 20, 50, 100, 10_000) if len(angles) <= 12 * step)
    for row, angle in enumerate(angles, 1):
        shapes.append(Circle(*at(angle, _RADIUS), dot, filled=True, row=row))
        if row == 1 or row % every == 0:
            shapes.append(Label(*at(angle, _RADIUS * 1.18), str(row), row=row))
    alt = f"{counted(len(angles), noun)} round a circle, number 1 on top, numbered clockwise."
    return Picture("circle", title, (*shapes, *beside), f"{alt} {more}".strip(), table=table)


def plate_shapes(circle: int, holes: int, pins: Sequence[int] = ()) -> tuple[Shape, ...]:
    """An index plate beside the work: its circle of holes, the arms from hole 0 to the hole of the next move, the pin
    in hole 0; `pins` are the holes in which the pin stands in each row. Holes are counted clockwise.

    >>> [round(v) for v in (plate_shapes(39, 13)[-3].x2, plate_shapes(39, 13)[-3].y2)]
    [109, -17]
    """
    middle = (_BESIDE, 0.0)
    dot = min(1.0, _RADIUS * pi / circle / 2.5)
    shapes: list[Shape] = [Circle(*middle, _RADIUS * 1.15), Circle(*middle, 3.0)]
    shapes += [Circle(*at(360 * k / circle, _RADIUS, middle), dot) for k in range(circle)]
    for row, hole in enumerate(pins, 1):
        shapes.append(Circle(*at(360 * hole / circle, _RADIUS, middle), dot * 2, row=row))
    ends = [at(360 * k / circle, _RADIUS * 1.12, middle) for k in (0, holes)]
    shapes += [Line(*middle, *end, 1) for end in ends]
    shapes.append(Label(*at(0, _RADIUS * 1.3, middle), f"circle {circle}"))
    shapes.append(Label(*at(180 * holes / circle, _RADIUS * 0.6, middle), f"{counted(holes, 'space')}"))
    return tuple(shapes)


def dial_shapes(
    lines: int, line: float, words: Text, *, middle: Point = (_BESIDE, 0.0), rows: Sequence[float] = ()
) -> tuple[Shape, ...]:
    """A dial as it is looked at: its lines clockwise from 0, the reading line on top, the line to set heavy and named.

    `rows` are the lines to set in each row of a table. A dial of very many lines is drawn with some of them.

    >>> face = dial_shapes(100, 25, "25", middle=(0, 0))
    >>> [round(v, 3) + 0.0 for v in (face[-2].x1, face[-2].y1)]
    [30.0, 0.0]
    """
    every = next(step for step in (1, 2, 5, 10, 20, 50, 100, 1000, 10_000) if lines <= 125 * step)
    shapes: list[Shape] = [Circle(*middle, _RADIUS)]
    for k in range(0, lines, every):
        inner = 0.84 if k % (10 * every) == 0 else 0.88 if k % (5 * every) == 0 else 0.92
        shapes.append(Line(*at(360 * k / lines, _RADIUS, middle), *at(360 * k / lines, _RADIUS * inner, middle)))
    for k in range(0, lines, 10 * every):
        shapes.append(Label(*at(360 * k / lines, _RADIUS * 0.74, middle), str(k)))
    for row, place in enumerate(rows, 1):
        angle = 360 * place / lines
        shapes.append(Line(*at(angle, _RADIUS, middle), *at(angle, _RADIUS * _SET, middle), 1, row=row))
    angle = 360 * line / lines
    shapes.append(Line(*at(angle, _RADIUS * _HAND[0], middle), *at(angle, _RADIUS * _HAND[1], middle), 1))
    shapes.append(Line(*at(angle, _RADIUS, middle), *at(angle, _RADIUS * _SET, middle), 1))
    rim = at(angle, _RADIUS, middle)
    return (*shapes, Pointer(*rim, words, "below" if 90 < angle % 360 < 270 else "above"))


def unrolled_pictures(marks: Sequence[Mark], *, along: float, straight: bool = False) -> tuple[Picture, Picture]:
    """Draw a scale unrolled, its lines standing on the edge: for the screen, and as a strip to print. A drum's length
    `along` is its circumference, its last space leads back to line 1; a straight scale ends with its last line.

    >>> screen, strip = unrolled_pictures([Mark(4, "0"), Mark(2, "")], along=62.832)
    >>> round(strip.shapes[3].x1 - strip.shapes[1].x1, 3), strip.true_size, screen.true_size
    (31.416, True, False)
    """
    spaces = len(marks) - 1 if straight else len(marks)
    high = max(mark.length for mark in marks) + 4.0
    shapes: list[Shape] = [Polygon(((0, 0), (along, 0), (along, high), (0, high)))]
    dots: list[Shape] = []
    for row, mark in enumerate(marks, 1):
        x = along * (row - 1) / spaces
        shapes.append(Line(x, 0, x, mark.length, weight=1 if mark.label else 0, row=row))
        if mark.label:
            shapes.append(Label(x, mark.length + 1.6, mark.label, row=row))
        if len(marks) <= MOST_DOTS:
            dots.append(Circle(x, -0.8, 0.3, filled=True, row=row))
    drawn = tuple(shapes)
    strip = tuple(shape for shape in drawn if not isinstance(shape, Label) or shape in _apart(drawn))
    words = (shown(along, decimals=2), len(marks))
    alt = say("The scale unrolled: {lines} lines over {long}, figures at the longest.", long=words[0], lines=words[1])
    size = Size(0, 0, along, 0, words[0], "below")
    return (
        Picture("unrolled", "The scale unrolled", (*drawn, *dots, size), alt, table="lines"),
        Picture("strip", "Strip at true size", strip, alt, true_size=True, table="lines"),
    )


def _apart(shapes: Sequence[Shape]) -> tuple[Label, ...]:
    """The figures that a strip has room for at true size: the first, then every so many, evenly."""
    labels = [shape for shape in shapes if isinstance(shape, Label)]
    wide = max((len(str(label.text)) for label in labels), default=0) * _FIGURE + _CLEAR
    between = min((b.x - a.x for a, b in pairwise(labels)), default=wide)
    every = next((step for step in (1, 2, 5, 10, 20, 50) if step * between >= wide), len(labels) or 1)
    return tuple(labels[::every])


def vernier_picture(main: float, part: float, long: float, covers: int, parts: int) -> Picture:
    """The main scale above, the vernier below it, their zeros together; the dimensions are those of the answer. [mm]"""
    tall, ends = long * 0.12, (-main, long + main)
    shapes: list[Shape] = [
        Polygon(((ends[0], 0), (ends[1], 0), (ends[1], high), (ends[0], high))) for high in (tall * 1.6, -tall * 1.6)
    ]
    if covers <= _MOST_DRAWN:
        shapes += [Line(k * main, 0, k * main, tall) for k in range(covers + 1)]
    for k in range(parts + 1):
        shapes.append(Line(k * part, 0, k * part, -tall * (1.3 if k in (0, parts) else 1), 1, row=k + 1))
    shapes += [Label(0, -tall * 2, "0"), Label(long, -tall * 2, str(parts))]
    shapes.append(Size(0, tall, main, tall, shown(main, decimals=3), "above"))
    shapes.append(Size(0, -tall, long, -tall, shown(long, decimals=3), "below"))
    text = "A vernier of {parts} parts under {covers} divisions of the main scale, {long} long, zeros together."
    alt = say(text, parts=parts, covers=covers, long=shown(long))
    return Picture("vernier", "The vernier at its zero", tuple(shapes), alt, table="lines")


def flats_picture(
    turns: Sequence[float], *, bar: float, across: float, width: float, corners: float, to_corner: float, deep: float
) -> Picture:
    """The bar's end: each flat where its row puts it, the size across and the depth. [deg, mm]"""
    radius, near, half, odd = bar / 2, across / 2, width / 2, len(turns) % 2
    shapes: list[Shape] = [Circle(0, 0, radius)]
    for row, angle in enumerate(turns, 1):
        (x, y), (dx, dy) = at(angle, near), at(angle + 90, half)
        shapes.append(Line(x - dx, y - dy, x + dx, y + dy, 1, row=row))
    far, span = (corners / 2, to_corner) if odd else (near, across)
    shapes.append(Size(0, -far, 0, near, shown(span), "left"))
    shapes.append(Size(0, near, 0, radius, shown(deep), "right"))
    text = "End of a bar of {bar} with {n} flats, {across} across the flats, cut {deep} deep."
    alt = say(text, bar=shown(bar), n=len(turns), across=shown(across), deep=shown(deep))
    return Picture("flats", f"{len(turns)} flats", tuple(shapes), alt, table="positions")


def line_picture(width: float, flat: float, deep: float, floors: Sequence[tuple[float, float]]) -> Picture:
    """A scribed line across: the V in the work, the floor of each stroke (how wide, how deep), width and depth. [mm]"""
    half, side = width / 2, width * 1.25
    rim = (-side, 0), (-half, 0), (-flat, -deep), (flat, -deep), (half, 0), (side, 0)
    shapes: list[Shape] = [Polygon((*rim, (side, -deep * 2), (-side, -deep * 2)))]
    for row, (wide, depth) in enumerate(floors, 1):
        shapes += [Line(-wide / 2, 0, -flat, -depth, row=row), Line(flat, -depth, wide / 2, 0, row=row)]
    shapes.append(Size(-half, 0, half, 0, shown(width), "above"))
    shapes.append(Size(side, -deep, side, 0, shown(deep), "right"))
    text = "A line across: {width} wide at the surface, {deep} deep, in {n} strokes."
    alt = say(text, width=shown(width), deep=shown(deep), n=len(floors))
    return Picture("line", "The line, across", tuple(shapes), alt, table="strokes")
