"""The drawing of a part: a half-section with its dimensions, front end to the left, in millimetres.

Above the axis the part is cut open, below it is seen from outside. Every shape carries the row of its
feature (`row_of`), so that
a screen can mark the one under the cursor.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import cos, pi, sin, sqrt
from textwrap import wrap

from engine.base.answer import Label, Line, Picture, Polygon, Shape
from engine.base.records import dataclass
from engine.part import part as p
from engine.part.of_threads import minor
from engine.part.shape import (
    Has,
    Piece,
    breaks,
    everything,
    hatch,
    hollow_at,
    hollow_name,
    inside,
    outer_at,
    outside,
    slices,
)
from engine.part.sizes import limits_text, number
from engine.part.words import callout, notes

TALL = 2.1  # a row of words is so many times as high as a letter is wide, on the screen and on paper
_MOST_STRETCH = 4  # as the screen draws a long thin picture
_PAPER = 108, 20  # letters across and lines down where a picture is printed
_TICKS = 9  # at most so many lines of a scale are drawn


def row_of(part: p.Part, name: str) -> int:
    """The row (from 1) that the shapes of a feature carry; 0 where there is none."""
    for row, one in enumerate(part.features(), 1):
        if one.name == name:
            return row
    return 0


@dataclass(frozen=True, slots=True)
class Frame:
    """How the picture is laid out: the width of a letter and the height of a row, in mm of the work."""

    letter: float
    row: float
    slope: float = 1.0  # of the hatching: on the screen one column a row, on paper 45 degrees
    cells: bool = False


@dataclass(frozen=True, slots=True)
class _Call:
    """Words that point at a place: from the place (z, r), which may move along its feature."""

    text: str
    z: float
    r: float
    row: int
    first: float
    last: float


def drawing(
    part: p.Part, *, columns: int = 0, rows: int = 0, paper: tuple[int, int] = _PAPER, with_notes: bool = True
) -> Picture:
    """Draw a part.

    `columns` and `rows` are the cells of the screen it is for; without them it is for paper with room for so many
    letters across and lines down.
    """
    return drawing_and_rest(part, columns=columns, rows=rows, paper=paper, with_notes=with_notes)[0]


def drawing_and_rest(
    part: p.Part, *, columns: int = 0, rows: int = 0, paper: tuple[int, int] = _PAPER, with_notes: bool = True
) -> tuple[Picture, tuple[str, ...]]:
    """The drawing, and what there was no room for in it."""
    cells = bool(columns and rows)
    width, height = (max(columns, 30), max(rows, 10)) if cells else paper
    sides = _side_calls(part)
    column = width * 4 // 5 if cells else width
    lines = _wrapped(notes(part), column) if with_notes else []
    most_top = max(min(5, height // 5), 1)
    room = max(height - 14, 0) if cells else len(lines)
    frame = _frame(part, sides, width, height - most_top - 4 - min(len(lines), room), cells)
    margin = max(width * frame.letter - part.overall - frame.letter * _beside(sides), 0.0) / 2
    top, left_out = _top_calls(part, frame, most_top, sides, margin)
    left_out += [callout(one, part) for bore in part.inside for one in bore.standing if _is_more(one)]
    bottom = -_reach(part, -1.0) - 1.2 * frame.row
    shapes = [*top, *_side_shapes(part, sides, frame), *_lengths(part, frame, bottom), *section(part, frame)]
    if with_notes:
        also = _wrapped([also_words(left_out)], column) if left_out else []
        start = -frame.letter * _widest(sides, "left") - (margin if cells else 0.0)
        for i, line in enumerate((also + lines)[:room] if cells else also + lines):
            shapes.append(Label(start, bottom - (3.9 + i) * frame.row, line, "start"))
    shapes.append(Line(-frame.letter, 0, part.overall + frame.letter, 0, 2))
    return Picture("part", part.title, tuple(shapes), describe(part)), tuple(dict.fromkeys(left_out))


def also_words(left_out: Iterable[str]) -> str:
    """What the drawing has no room for, as a line under it."""
    return f"Also: {'; '.join(dict.fromkeys(left_out))}."


def _reach(part: p.Part, side: float) -> float:
    """How far the part reaches above (1) or below (-1) its axis."""
    return max((r for piece in outside(part, side=side) for _, r in piece.points), default=0.0)


def _is_more(one: p.Feature) -> bool:
    """Whether what stands on a bore is told under the drawing: its bevels and the mouths that were asked
    for.
    """
    return isinstance(one, p.Chamfer) or (isinstance(one, p.Mouth) and not one.implied)


def _wrapped(lines: Iterable[str], width: int) -> list[str]:
    return [part for line in lines for part in wrap(line, width)]


def _beside(sides: list[tuple[str, _Call]]) -> int:
    return _widest(sides, "left") + _widest(sides, "right")


def describe(part: p.Part) -> str:
    """The drawing in one sentence."""
    unit = "in" if part.unit == "inch" else "mm"
    features = "; ".join(f"{callout(one, part)} x {limits_text(one.length, part.unit)}" for one in part.outside)
    hollow = "; ".join(callout(one, part) for one in (*part.inside, *part.across))
    text = f"{part.title}, {number(part.overall, part.unit)} {unit} long, from front to back: {features}"
    return text + (f"; inside and across: {hollow}." if hollow else ".")


def _frame(part: p.Part, sides: list[tuple[str, _Call]], width: int, height: int, cells: bool) -> Frame:
    """The size of a letter in the work's mm, so that the part and the words beside it fill the room."""
    left, right = _widest(sides, "left"), _widest(sides, "right")
    room = max(width - left - right - 2, width // 4)
    letter = max(part.overall / room, part.largest / (max(height, 3) * TALL), 1e-3)
    stretch = 1
    if cells:
        fits = [s for s in range(1, _MOST_STRETCH + 1) if part.largest * s / (TALL * letter) <= max(height, 3)]
        stretch = max(fits, default=1)
    row = TALL * letter / stretch
    return Frame(letter, row, row / letter if cells else 1.0, cells)


def _widest(sides: list[tuple[str, _Call]], side: str) -> int:
    return max((len(call.text) + 3 for at, call in sides if at == side), default=2)


# the part itself


def section(part: p.Part, frame: Frame, has: Has = everything, *, hatched: bool = True) -> list[Shape]:
    """The half-section: cut above the axis, from outside below it."""
    if not part.outside:
        return []
    outer, below, inner = outside(part, has, side=1.0), outside(part, has, side=-1.0), inside(part, has)
    lines = hatch(slices(part, has), 4.0 * frame.letter, frame.slope) if hatched else []
    shapes: list[Shape] = [Line(z1, r1, z2, r2) for z1, r1, z2, r2 in lines]
    shapes += _seen(part, below, has, frame)
    shapes += _hollow(part, outer, inner, has)
    shapes += _outline(part, outer, below, inner)
    shapes += _cut_edges(part, has)
    return shapes


def _outline(part: p.Part, outer: tuple[Piece, ...], below: tuple[Piece, ...], inner: tuple[Piece, ...]) -> list[Shape]:
    """Outside lines and faces, above and below the axis."""
    shapes: list[Shape] = []
    for pieces, up in ((outer, 1.0), (below, -1.0)):
        for piece in pieces:
            row = row_of(part, piece.name)
            shapes += [Line(z1, up * r1, z2, up * r2, 1, row) for (z1, r1), (z2, r2) in pairwise(piece.points)]
        for before, after in pairwise(pieces):
            z, a, b = after.points[0][0], before.points[-1][1], after.points[0][1]
            row, step = row_of(part, (after if b > a else before).name), abs(a - b) > 1e-9
            if up < 0:
                shapes.append(Line(z, -max(a, b), z, 0, int(step), row))
            elif step:
                shapes.append(Line(z, a, z, b, 1, row))
    for end, index, after_face in (("front", 0, True), ("back", -1, False)):
        row = row_of(part, end)
        z, r = outer[index].points[index]
        shapes.append(Line(z, hollow_at(inner, z, after=after_face), z, r, 1, row))
        shapes.append(Line(z, -below[index].points[index][1], z, 0, 1, row))
    return shapes


def _hollow(part: p.Part, outer: tuple[Piece, ...], inner: tuple[Piece, ...], has: Has) -> list[Shape]:
    """The hollow's wall in the section, its edges behind the section, and threads by a thin line."""
    shapes: list[Shape] = []
    places = [z for z in breaks(outer, inner) if -1e-9 <= z <= part.overall + 1e-9]
    for z1, z2 in pairwise(places):
        low1, low2 = hollow_at(inner, z1), hollow_at(inner, z2, after=False)
        if max(low1, low2) > 1e-9:
            row = row_of(part, hollow_name(inner, (z1 + z2) / 2))
            shapes.append(Line(z1, low1, z2, low2, 1, row))
    for z in places[1:-1]:
        a, b = hollow_at(inner, z, after=False), hollow_at(inner, z)
        if abs(a - b) > 1e-9:
            row = row_of(part, hollow_name(inner, z))
            shapes += [Line(z, a, z, b, 1, row), Line(z, min(a, b), z, 0, 0, row)]
    for z, inwards in ((0.0, True), (part.overall, False)):
        edge = hollow_at(inner, z, after=inwards)
        if edge > 1e-9:
            shapes.append(Line(z, edge, z, 0))
    for one in part.inside:
        if isinstance(one, p.InsideThread) and has(one.name):
            radius = one.size.diameter / 2
            shapes.append(Line(one.start, radius, one.stop, radius, 0, row_of(part, one.name)))
        if isinstance(one, p.Ball) and has(one.name):
            shapes += _ball(one, part)
    return shapes


def _ball(one: p.Ball, part: p.Part) -> list[Shape]:
    """A ball as an outline of chords: a circle would keep the screen from drawing a thin part taller."""
    radius, out = one.ball / 2, one.stand_out.nominal
    z = radius - out if one.end == "front" else part.overall - radius + out
    turn = [2 * pi * i / 24 for i in range(25)]
    points = [(z + radius * cos(a), radius * sin(a)) for a in turn]
    row = row_of(part, one.name)
    return [Line(a[0], a[1], b[0], b[1], 0, row) for a, b in pairwise(points)]


def _seen(part: p.Part, outer: tuple[Piece, ...], has: Has, frame: Frame) -> list[Shape]:
    """What is seen from outside, below the axis: threads, knurls, flats, lines, slots, and edges of bevels."""
    shapes: list[Shape] = []
    for one, piece in zip(part.outside, outer, strict=True):
        if not has(one.name):
            continue
        row = row_of(part, one.name)
        if isinstance(one, p.OutsideThread):
            shapes += _thread_lines(one, piece, row)
        elif isinstance(one, p.Knurl):
            shapes += _knurl(one, frame, row)
        elif isinstance(one, p.AsBought) and one.section == "hex":
            shapes.append(Line(one.start, -one.front_diameter / 4, one.stop, -one.front_diameter / 4, 0, row))
        for bevel in (one.chamfer, one.chamfer_back):
            if bevel is not None and has(bevel.name):
                z = bevel.stop if bevel.at == "front" else bevel.start
                shapes.append(Line(z, -piece.at(z, after=bevel.at == "back"), z, 0, 0, row_of(part, bevel.name)))
        if one.scale is not None and has(one.scale.name):
            shapes += _scale(one.scale, row_of(part, one.scale.name))
        if one.flats is not None and has(one.flats.name):
            shapes += _flats(one, one.flats, row_of(part, one.flats.name))
        if one.slot is not None and has(one.slot.name):
            shapes += _slot(one.slot, row_of(part, one.slot.name))
    for face in (part.front, part.back):
        if face.slot is not None and has(face.slot.name):
            half = face.slot.width.nominal / 2
            inner = face.slot.stop if face.name == "front" else face.slot.start
            row = row_of(part, face.slot.name)
            shapes += [
                Line(face.slot.start, -half, face.slot.stop, -half, 1, row),
                Line(inner, -half, inner, 0, 1, row),
            ]
    return shapes


def _thread_lines(one: p.OutsideThread, piece: Piece, row: int) -> list[Shape]:
    """The root of a thread as thin lines, where the thread is whole: not in its relief."""
    root = minor(one.size) / 2
    whole = [z for z, r in piece.points if r > root + 1e-9]
    first, last = (min(whole), max(whole)) if len(whole) > 1 else (one.start, one.stop)
    return [Line(first, side * root, last, side * root, 0, row) for side in (1, -1)]


def _knurl(one: p.Knurl, frame: Frame, row: int) -> list[Shape]:
    """A knurl's own hatching: along the axis, or crossed."""
    radius = one.front_diameter / 2
    if one.form in ("diamond", "crossed"):
        shapes: list[Shape] = []
        step = max(2.5 * frame.letter, radius / 6)
        for i in range(int((one.long + radius) / step) + 1):
            shift = i * step
            z1, z2 = max(shift - radius, 0.0), min(shift, one.long)
            if z2 > z1:
                shapes.append(Line(one.start + z1, -(shift - z1), one.start + z2, -(shift - z2), 0, row))
                shapes.append(Line(one.stop - z1, -(shift - z1), one.stop - z2, -(shift - z2), 0, row))
        return shapes
    count = max(min(int(radius / (1.1 * frame.row)), 8), 2)
    angles = [pi / 2 * (i + 0.5) / count for i in range(count)]
    return [Line(one.start, -radius * sin(a), one.stop, -radius * sin(a), 0, row) for a in angles]


def _scale(one: p.Scale, row: int) -> list[Shape]:
    step = 360 / max(one.lines, 1)
    every = max(round(90 / _TICKS / step), 1)
    shapes: list[Shape] = []
    for i in range(int(90 / step / every) + 1):
        angle = i * every * step * pi / 180
        long = one.long * (0.8 if i % 5 == 0 else 0.5)
        y = -one.diameter / 2 * sin(angle)
        if angle < pi / 2 - 1e-6:
            shapes.append(Line(one.start, y, one.start + long, y, 0, row))
    return shapes


def _flats(on: p.Outside, one: p.Flats, row: int) -> list[Shape]:
    """A flat seen from the front: its two edges, and the crossed thin lines that say it is flat."""
    radius, half = on.smallest / 2, one.across_flats.nominal / 2
    high = sqrt(max(radius**2 - half**2, 0.0)) if one.sides <= 4 else half * sin(pi / one.sides)
    return [
        Line(one.start, -high, one.stop, -high, 0, row),
        Line(one.stop, -high, one.stop, 0, 0, row),
        Line(one.start, 0, one.stop, -high, 0, row),
        Line(one.start, -high, one.stop, 0, 0, row),
    ]


def _slot(one: p.Slot, row: int) -> list[Shape]:
    half = one.width.nominal / 2
    return [
        Line(one.start, -half, one.stop, -half, 0, row),
        Line(one.start, 0, one.start, -half, 0, row),
        Line(one.stop, 0, one.stop, -half, 0, row),
    ]


def _cut_edges(part: p.Part, has: Has) -> list[Shape]:
    """The walls of holes off the axis and of keyways, drawn turned into the section."""
    outer, inner = outside(part, has, side=1.0), inside(part, has)
    shapes: list[Shape] = []
    for one in part.across:
        if not has(one.name):
            continue
        row, half = row_of(part, one.name), one.bore / 2
        if isinstance(one, p.HoleCircle):
            middle = one.diameter.nominal / 2
            shapes += [
                Line(one.start, middle - half, one.stop, middle - half, 1, row),
                Line(one.start, middle + half, one.stop, middle + half, 1, row),
                Line(one.start, middle, one.stop, middle, 2, row),
            ]
        elif isinstance(one, p.CrossHole):
            top = outer_at(outer, one.z)
            bottom = hollow_at(inner, one.z)
            if one.depth is not None:
                bottom = max(top - one.depth.nominal, bottom)
                shapes.append(Line(one.start, bottom, one.stop, bottom, 1, row))
            shapes += [Line(z, bottom, z, outer_at(outer, z, after=z < one.z), 1, row) for z in (one.start, one.stop)]
            shapes.append(Line(one.z, bottom, one.z, top, 2, row))
    for on in part.outside:
        if on.keyway is not None and has(on.keyway.name):
            floor = on.front_diameter / 2 - on.keyway.depth.nominal
            shapes += _box_edges(on.keyway, floor, on.front_diameter / 2, row_of(part, on.keyway.name))
    for bore in part.inside:
        if bore.keyway is not None and has(bore.keyway.name):
            floor = bore.mouth_diameter / 2 + bore.keyway.depth.nominal
            shapes += _box_edges(bore.keyway, floor, bore.mouth_diameter / 2, row_of(part, bore.keyway.name))
    return shapes


def _box_edges(one: p.Keyway, floor: float, surface: float, row: int) -> list[Shape]:
    return [
        Line(one.start, floor, one.stop, floor, 1, row),
        Line(one.start, floor, one.start, surface, 1, row),
        Line(one.stop, floor, one.stop, surface, 1, row),
    ]


# its words


def _side_calls(part: p.Part) -> list[tuple[str, _Call]]:
    """What is entered from an end, told beside that end."""
    found = []
    for one in part.inside:
        side = "right" if one.end == "back" else "left"
        z = part.overall if one.end == "back" else 0.0
        call = _Call(callout(one, part), z, one.mouth_diameter / 2, row_of(part, one.name), z, z)
        found.append((side, call))
        if one.keyway is not None:
            row = row_of(part, one.keyway.name)
            found.append((side, _Call(callout(one.keyway, part), z, one.mouth_diameter / 2, row, z, z)))
    for face in (part.front, part.back):
        if face.slot is not None:
            side, z = ("right", part.overall) if face.name == "back" else ("left", 0.0)
            row = row_of(part, face.slot.name)
            found.append((side, _Call(callout(face.slot, part), z, 0.0, row, z, z)))
    return found


def _side_shapes(part: p.Part, sides: list[tuple[str, _Call]], frame: Frame) -> list[Shape]:
    shapes: list[Shape] = []
    for side in ("left", "right"):
        calls = sorted((call for at, call in sides if at == side), key=lambda call: -call.r)
        high = max(part.largest / 2, frame.row * len(calls))
        for i, call in enumerate(calls):
            y = high - (i + 0.8) * max(frame.row * 1.1, 0.0)
            way = -1.0 if side == "left" else 1.0
            near = call.z + way * 2.0 * frame.letter
            shapes.append(Line(near, y, call.z, call.r, 0, call.row))
            shapes.append(Label(near, y, call.text, "end" if side == "left" else "start", call.row))
    return shapes


def _top_calls(
    part: p.Part, frame: Frame, most: int, sides: list[tuple[str, _Call]], margin: float
) -> tuple[list[Shape], list[str]]:
    """Words over the part with a line down to what they name; and what there was no room for."""
    outer = outside(part, side=1.0)
    calls = [_over(one, part, outer) for one in (*part.outside, *part.across)]
    first = len(calls)
    for on in part.outside:
        calls += [_over(one, part, outer) for one in on.standing if not isinstance(one, p.Chamfer | p.Round)]
    for on in part.outside:
        calls += [_over(one, part, outer) for one in on.standing if isinstance(one, p.Chamfer | p.Round)]
    low = -frame.letter * _widest(sides, "left") - margin
    high = part.overall + frame.letter * _widest(sides, "right") + margin
    half = _reach(part, 1.0)
    shapes: list[Shape] = []
    left_out: list[str] = []
    placed: list[_Placed] = []
    for index, call in enumerate(calls):
        if not call.text:
            continue
        aside = index < first or not frame.cells
        spot = _spot(call, placed, frame, most, low, high, aside=aside)
        if spot is None:
            left_out.append(call.text)
            continue
        placed.append(spot)
        y = half + (spot.level + 0.9) * frame.row
        shapes += [
            Line(spot.near, y - 0.15 * frame.row, spot.leader, call.r, 0, call.row),
            Label((spot.start + spot.stop) / 2, y, call.text, "middle", call.row),
        ]
    return shapes, left_out


def _over(one: p.Feature, part: p.Part, outer: tuple[Piece, ...]) -> _Call:
    middle = (one.start + one.stop) / 2
    if isinstance(one, p.HoleCircle):
        middle, r = one.start, one.diameter.nominal / 2
        return _Call(callout(one, part), middle, r, row_of(part, one.name), one.start, one.stop)
    r = outer_at(outer, min(max(middle, 0.0), part.overall - 1e-9))
    narrow = one.long * 0.15
    return _Call(callout(one, part), middle, r, row_of(part, one.name), one.start + narrow, one.stop - narrow)


@dataclass(frozen=True, slots=True)
class _Placed:
    """Where words over the part stand: their level, from where to where; their line from `near` down to `leader`."""

    level: int
    start: float
    stop: float
    near: float
    leader: float

    def crosses(self, level: int) -> float:
        """Where its line passes a lower level."""
        return self.leader + (self.near - self.leader) * (level + 1) / (self.level + 1)


_SHIFTS = sorted(range(-30, 31, 3), key=abs)  # letters that words may stand to a side of what they name


def _spot(
    call: _Call, placed: list[_Placed], frame: Frame, most: int, low: float, high: float, *, aside: bool
) -> _Placed | None:
    """The best free place for words: near what they name and low; `aside`: or beside it with a slanting line."""
    long = len(call.text) + (1 if frame.cells else 2)  # on paper a ring may go round them
    places = [
        (6 * level + 3 * max(abs(shift) - long / 2 + 1, 0.0), level, shift)
        for level in range(most)
        for shift in _SHIFTS
        if aside or abs(shift) < long / 2
    ]
    for _, level, shift in sorted(places, key=lambda place: place[0]):
        for leader in (call.z, call.first, call.last):
            start = leader + (shift - long / 2) * frame.letter
            stop = start + long * frame.letter
            near = min(max(leader, start + frame.letter), stop - frame.letter)
            spot = _Placed(level, start, stop, near, leader)
            if low <= start and stop <= high and not any(_meet(spot, other) for other in placed):
                return spot
    return None


def _meet(one: _Placed, other: _Placed) -> bool:
    """Whether two words overlap, or the line of one runs through the other, or both lines end at one place."""
    if one.level == other.level:
        return one.start < other.stop and other.start < one.stop
    upper, lower = (one, other) if one.level > other.level else (other, one)
    if lower.start < upper.crosses(lower.level) < lower.stop:
        return True
    return abs(one.leader - other.leader) < 1e-6


def _lengths(part: p.Part, frame: Frame, y: float) -> list[Shape]:
    """The chain of lengths under the part, and the whole of it below."""
    shapes: list[Shape] = []
    unit, many = part.unit, len(part.outside) > 1
    for i, one in enumerate(part.outside if many else ()):
        said = _size_words(one.length, one.long, unit)
        aside = "left" if i == 0 else "right" if i == len(part.outside) - 1 else ""
        shapes += dimension(one.start, one.stop, y, said, frame, row_of(part, one.name), "" if frame.cells else aside)
    computed = any(not one.length.written for one in part.outside)
    whole = part.length or (
        part.outside[0].length if not many else p.Size(part.overall, written="" if computed else "sum")
    )
    low = y - 1.9 * frame.row if many else y
    shapes += dimension(0.0, part.overall, low, _size_words(whole, part.overall, unit), frame, 0)
    outer = outside(part, side=-1.0)
    for z in sorted({0.0, part.overall, *(one.stop for one in part.outside)}):
        r = outer_at(outer, z, after=z < part.overall)
        end = low if z in (0.0, part.overall) else y
        shapes.append(Line(z, -r - 0.2 * frame.row, z, end - 0.2 * frame.row))
    return shapes


def _size_words(size: p.Size | None, length: float, unit: str) -> str:
    if size is not None and not size.written:  # it follows from others
        return number(length, unit, 2)
    if size is None or size.general:
        return number(length, unit)
    return limits_text(size, unit)


def dimension(z1: float, z2: float, y: float, text: str, frame: Frame, row: int, aside: str = "") -> list[Shape]:
    """A dimension between two places: its line broken for its words, or its words under it where it is too short;
    `aside`: or at its left or right.
    """
    wide = (len(text) + 1) * frame.letter
    middle = (z1 + z2) / 2
    tick = 0.35 * frame.letter
    shapes: list[Shape] = [Line(z - tick, y - tick, z + tick, y + tick) for z in (z1, z2)]
    if wide <= z2 - z1 - frame.letter:
        shapes += [Line(z1, y, middle - wide / 2, y, 0, row), Line(middle + wide / 2, y, z2, y, 0, row)]
        return [*shapes, Label(middle, y, text, "middle", row)]
    whole = [*shapes, Line(z1, y, z2, y, 0, row)]
    if aside == "left":
        return [*whole, Label(z1 - frame.letter, y, text, "end", row)]
    if aside == "right":
        return [*whole, Label(z2 + frame.letter, y, text, "start", row)]
    return [*whole, Label(middle, y - 0.95 * frame.row, text, "middle", row)]


def extents(shapes: Iterable[Shape]) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of what is drawn, without words."""
    points = [
        point
        for shape in shapes
        for point in (
            ((shape.x1, shape.y1), (shape.x2, shape.y2))
            if isinstance(shape, Line)
            else shape.points
            if isinstance(shape, Polygon)
            else ()
        )
    ]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)
