"""The solid of a part as a half-section: its outside and its hollow as lines of (place along the axis, radius).

A part is turned, so one half of its section says it whole, but for what stands off the axis; that is drawn
turned into the section.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from itertools import pairwise
from math import cos, pi, radians, sin, sqrt, tan

from engine.base.records import dataclass
from engine.part import part as p
from engine.part.of_threads import minor, relief_size

Point = tuple[float, float]
Has = Callable[[str], bool]
POINT_ANGLE = 118.0  # of a twist drill, degrees
_ARC = 6  # chords of a quarter circle


def everything(name: str) -> bool:
    """Whether a feature is there, when the part is finished."""
    return True


@dataclass(frozen=True, slots=True)
class Slice:
    """A piece of the section between two places: from the hollow (`low`) to the outside (`high`), straight
    between them.
    """

    z1: float
    z2: float
    low1: float
    low2: float
    high1: float
    high2: float


@dataclass(frozen=True, slots=True)
class Piece:
    """The line of one feature, from front to back."""

    name: str
    points: tuple[Point, ...]

    def at(self, z: float, *, after: bool = True) -> float:
        """Its radius at a place; at a step the value after it, or before it."""
        return _along(self.points, z, after=after)


def _along(points: tuple[Point, ...], z: float, *, after: bool) -> float:
    found = points[0][1]
    for (z1, r1), (z2, r2) in pairwise(points):
        if z1 - 1e-9 <= z <= z2 + 1e-9:
            if abs(z2 - z1) < 1e-9:
                found = r2 if after else r1
            else:
                found = r1 + (r2 - r1) * min(max((z - z1) / (z2 - z1), 0.0), 1.0)
            if not after or z < z2 - 1e-9:
                return found
    return found


def outside(part: p.Part, has: Has = everything, *, side: float = 0.0) -> tuple[Piece, ...]:
    """The outer line of each outside feature; one that is not there yet is the bar.

    `side` 1 or -1 puts what is off the axis up or down by as much, as seen above or below the axis.
    """
    bar = part.bar.corners / 2
    found = []
    for index, one in enumerate(part.outside):
        if not has(one.name):
            found.append(Piece(one.name, ((one.start, bar), (one.stop, bar))))
            continue
        before = part.outside[index - 1].back_diameter / 2 if index else 0.0
        after = part.outside[index + 1].front_diameter / 2 if index + 1 < len(part.outside) else 0.0
        points = _of_outside(one, before, after, has)
        off = side * one.off_axis.nominal if one.off_axis else 0.0
        found.append(Piece(one.name, tuple((z, r + off) for z, r in points)))
    return tuple(found)


def _of_outside(one: p.Outside, before: float, after: float, has: Has) -> tuple[Point, ...]:
    if isinstance(one, p.Dome):
        return _dome(one)
    r1, r2 = one.front_diameter / 2, one.back_diameter / 2
    front = _edge(one, one.chamfer, "front", r1, before, has)
    back = _edge(one, one.chamfer_back, "back", r2, after, has)
    relief = _relief(one, before, after, has)
    middle = relief if relief else ()
    if middle and middle[0][0] <= one.start + 1e-9:  # the groove is at the front shoulder
        return (*middle, *back)
    return (*front, *middle) if middle else (*front, *back)


def _edge(
    one: p.Outside, chamfer: p.Chamfer | None, end: p.End, radius: float, beside: float, has: Has
) -> tuple[Point, ...]:
    """One end of a feature: plain, bevelled, rounded, or a hollow corner against a larger neighbour."""
    way = 1.0 if end == "front" else -1.0
    z = one.start if end == "front" else one.stop
    if chamfer is not None and has(chamfer.name):
        points: tuple[Point, ...] = ((z, radius - chamfer.depth), (z + way * chamfer.long, radius))
    elif one.fillet is not None and beside > radius + 1e-9 and has(one.fillet.name):
        size = min(one.fillet.radius, beside - radius)
        points = _arc(z, radius + size, way * size, -size)
    elif one.radius is not None and rounded_end(one, end) and beside < radius - 1e-9 and has(one.radius.name):
        size = one.radius.radius
        points = tuple((z + way * (size - size * cos(a)), radius - size + size * sin(a)) for a in _angles())
    else:
        points = ((z, radius),)
    return points if end == "front" else points[::-1]


def rounded_end(one: p.Outside, end: p.End) -> bool:
    """Whether a feature's `radius` rounds that edge: its front edge, or both where none is bevelled."""
    return (one.chamfer if end == "front" else one.chamfer_back) is None


def _angles() -> Iterable[float]:
    return (pi / 2 * i / _ARC for i in range(_ARC + 1))


def _arc(z: float, top: float, long: float, deep: float) -> tuple[Point, ...]:
    """A hollow quarter from the shoulder's face (z, top) to the surface (z + long, top + deep)."""
    return tuple((z + long * (1 - cos(a)), top + deep * sin(a)) for a in _angles())


def _dome(one: p.Dome) -> tuple[Point, ...]:
    base, sphere = one.base / 2, one.sphere
    centre = sqrt(max(sphere**2 - base**2, 0.0))  # from the base plane towards the inside
    steps = 2 * _ARC
    points = []
    for i in range(steps + 1):
        h = one.long * i / steps
        radius = sqrt(max(sphere**2 - (centre + h) ** 2, 0.0))
        points.append((one.stop - h if one.closes == "front" else one.start + h, radius))
    return tuple(sorted(points))


def _relief(one: p.Outside, before: float, after: float, has: Has) -> tuple[Point, ...]:
    if not isinstance(one, p.OutsideThread) or one.relief is None or not has(one.relief.name):
        return ()
    width, diameter = relief_size(one)
    major, deep = one.front_diameter / 2, diameter / 2
    width = min(width, one.long)
    slope = min(major - deep, width / 3)
    if after > major or before <= major:
        return ((one.stop - width, major), (one.stop - width + slope, deep), (one.stop, deep))
    return ((one.start, deep), (one.start + width - slope, deep), (one.start + width, major))


def inside(part: p.Part, has: Has = everything) -> tuple[Piece, ...]:
    """The line of each hollow on the axis, from front to back: holes with their points, mouths, bevels."""
    long = part.overall
    found = []
    if part.bar.bore:
        found.append(Piece("bar", ((0.0, part.bar.bore / 2), (long, part.bar.bore / 2))))
    for one in part.inside:
        if has(one.name):
            for points in _of_inside(one, long, has):
                found.append(Piece(one.name, points if one.end == "front" else _turned(points, long)))
        for mouth in (one.mouth, one.mouth_back):
            if mouth is not None and has(mouth.name) and mouth.long > 1e-9:
                small = mouth.diameter / 2 - mouth.long * tan(radians(mouth.angle / 2))
                ends = (mouth.diameter / 2, small) if mouth.at == "front" else (small, mouth.diameter / 2)
                found.append(Piece(mouth.name, ((mouth.start, ends[0]), (mouth.stop, ends[1]))))
        for bevel in (one.chamfer, one.chamfer_back):
            if bevel is not None and has(bevel.name):
                radius = one.mouth_diameter / 2
                ends = (radius + bevel.depth, radius) if bevel.at == "front" else (radius, radius + bevel.depth)
                found.append(Piece(bevel.name, ((bevel.start, ends[0]), (bevel.stop, ends[1]))))
    return tuple(found)


def _turned(points: tuple[Point, ...], long: float) -> tuple[Point, ...]:
    return tuple((long - z, r) for z, r in reversed(points))


def _of_inside(one: p.Inside, long: float, has: Has) -> list[tuple[Point, ...]]:
    """The lines of an inside feature as entered from the front; the caller turns those of the back."""
    if isinstance(one, p.InsideGroove):
        half = one.size.nominal / 2
        first, last = (one.start, one.stop) if one.end == "front" else (long - one.stop, long - one.start)
        return [((first, half), (last, half))]
    deep = one.long
    if isinstance(one, p.InsideThread):
        hole = minor(one.size) / 2
        bottom = long if one.through else min(thread_hole(one), long)
        straight = bottom if one.through else max(bottom - point_of(2 * hole), deep)
        tip = [] if one.through else [(straight + point_of(2 * hole), 0.0)]
        return [((0.0, hole), (straight, hole), *tip)]
    if isinstance(one, p.Hole):
        radius = one.size.nominal / 2
        tip = [] if one.through or one.flat else [(deep + point_of(2 * radius), 0.0)]
        return [((0.0, radius), (deep, radius), *tip)]
    return [((0.0, one.mouth_diameter / 2), (deep, one.bottom_diameter / 2))]


def point_of(diameter: float) -> float:
    """How far a twist drill's point reaches beyond its full diameter. [mm]"""
    return diameter / 2 / tan(radians(POINT_ANGLE / 2))


def thread_hole(one: p.InsideThread) -> float:
    """How deep the hole of a blind thread is drawn, point and all: as asked, else three pitches more than
    the thread. [mm]
    """
    if one.hole_depth is not None:
        return one.hole_depth.nominal
    return one.long + 3 * float(one.size.pitch) + point_of(minor(one.size))


def outer_at(pieces: tuple[Piece, ...], z: float, *, after: bool = True) -> float:
    """The outside radius at a place."""
    for piece in pieces:
        first, last = piece.points[0][0], piece.points[-1][0]
        if first - 1e-9 <= z <= last + 1e-9 and (z < last - 1e-9 if after else z > first + 1e-9):
            return piece.at(z, after=after)
    return pieces[-1].points[-1][1] if after else pieces[0].points[0][1]


def hollow_at(pieces: tuple[Piece, ...], z: float, *, after: bool = True) -> float:
    """The radius of the hollow at a place; 0 where it is solid."""
    found = 0.0
    for piece in pieces:
        first, last = piece.points[0][0], piece.points[-1][0]
        if (first - 1e-9 <= z < last - 1e-9) if after else (first + 1e-9 < z <= last + 1e-9):
            found = max(found, piece.at(z, after=after))
    return found


def hollow_name(pieces: tuple[Piece, ...], z: float) -> str:
    """The name of the widest hollow at a place."""
    wide = [
        (piece.at(z), piece.name) for piece in pieces if piece.points[0][0] - 1e-9 <= z <= piece.points[-1][0] + 1e-9
    ]
    return max(wide)[1] if wide else ""


def breaks(*pieces: tuple[Piece, ...]) -> list[float]:
    """Every place where a line bends, and where two hollows cross."""
    lines = [piece for group in pieces for piece in group]
    places = {round(z, 9) for piece in lines for z, _ in piece.points}
    for i, one in enumerate(lines):
        for other in lines[i + 1 :]:
            places |= {round(z, 9) for z in _crossings(one, other)}
    return sorted(places)


def _crossings(one: Piece, other: Piece) -> list[float]:
    found = []
    first, last = max(one.points[0][0], other.points[0][0]), min(one.points[-1][0], other.points[-1][0])
    places = sorted({z for z, _ in (*one.points, *other.points) if first < z < last} | {first, last})
    for z1, z2 in pairwise(places):
        a = one.at(z1) - other.at(z1)
        b = one.at(z2, after=False) - other.at(z2, after=False)
        if a * b < 0:
            found.append(z1 + (z2 - z1) * a / (a - b))
    return found


def slices(part: p.Part, has: Has = everything) -> list[Slice]:
    """The section above the axis as trapezoids, holes off the axis and keyways taken out."""
    outer, inner = outside(part, has, side=1.0), inside(part, has)
    if not outer:
        return []
    places = [z for z in breaks(outer, inner) if -1e-9 <= z <= part.overall + 1e-9]
    found = []
    for z1, z2 in pairwise(places):
        low1, low2 = hollow_at(inner, z1), hollow_at(inner, z2, after=False)
        high1, high2 = outer_at(outer, z1), outer_at(outer, z2, after=False)
        if max(high1 - low1, high2 - low2) > 1e-9 and z2 - z1 > 1e-9:
            found.append(Slice(z1, z2, min(low1, high1), min(low2, high2), high1, high2))
    for box in cut_outs(part, has):
        found = [piece for one in found for piece in _without(one, box)]
    return found


Box = tuple[float, float, float, float]  # z1, z2, r1, r2


def cut_outs(part: p.Part, has: Has = everything) -> list[Box]:
    """What is cut from the section off the axis, as boxes of place and radius."""
    found: list[Box] = []
    for one in part.across:
        if not has(one.name):
            continue
        half = one.bore / 2
        if isinstance(one, p.HoleCircle):
            middle = one.diameter.nominal / 2
            found.append((one.start, one.stop, middle - half, middle + half))
        elif isinstance(one, p.CrossHole):
            top = outer_at(outside(part, has, side=1.0), one.z)
            found.append((one.start, one.stop, max(top - one.depth.nominal, 0.0) if one.depth else 0.0, 1e6))
    for on in part.outside:
        if on.keyway is not None and has(on.keyway.name):
            found.append((on.keyway.start, on.keyway.stop, on.front_diameter / 2 - on.keyway.depth.nominal, 1e6))
    for bore in part.inside:
        if bore.keyway is not None and has(bore.keyway.name):
            found.append(
                (bore.keyway.start, bore.keyway.stop, 0.0, bore.mouth_diameter / 2 + bore.keyway.depth.nominal)
            )
    return found


def _without(one: Slice, box: Box) -> list[Slice]:
    """A slice with a box taken out of it: up to four slices."""
    z1, z2, r1, r2 = box
    if z2 <= one.z1 + 1e-9 or z1 >= one.z2 - 1e-9:
        return [one]
    found = []
    first, last = max(z1, one.z1), min(z2, one.z2)
    if first > one.z1 + 1e-9:
        found.append(_part_of(one, one.z1, first))
    middle = _part_of(one, first, last)
    if r1 > min(middle.low1, middle.low2) + 1e-9:
        found.append(Slice(first, last, middle.low1, middle.low2, min(r1, middle.high1), min(r1, middle.high2)))
    if r2 < max(middle.high1, middle.high2) - 1e-9:
        found.append(Slice(first, last, max(r2, middle.low1), max(r2, middle.low2), middle.high1, middle.high2))
    if last < one.z2 - 1e-9:
        found.append(_part_of(one, last, one.z2))
    return found


def _part_of(one: Slice, z1: float, z2: float) -> Slice:
    def between(a: float, b: float, z: float) -> float:
        return a + (b - a) * (z - one.z1) / (one.z2 - one.z1)

    return Slice(
        z1, z2, between(one.low1, one.low2, z1), between(one.low1, one.low2, z2),
        between(one.high1, one.high2, z1), between(one.high1, one.high2, z2),
    )  # fmt: skip


def hatch(pieces: list[Slice], spacing: float, slope: float = 1.0) -> list[tuple[float, float, float, float]]:
    """Slanting lines over the section, each as (z1, r1, z2, r2); a slope of 1 is 45 degrees."""
    if not pieces or spacing <= 0:
        return []
    low = min(one.z1 for one in pieces) - max(max(one.high1, one.high2) for one in pieces) / slope
    high = max(one.z2 for one in pieces)
    count = int((high - low) / spacing) + 1
    found = []
    for i in range(count):
        shift = low + (i + 0.5) * spacing
        runs = sorted(run for one in pieces if (run := _hatched(one, shift, slope)))
        for start, stop in _joined(runs):
            found.append((start, slope * (start - shift), stop, slope * (stop - shift)))
    return found


def _hatched(one: Slice, shift: float, slope: float) -> tuple[float, float] | None:
    """Where the line r = slope (z - shift) lies inside a slice."""
    z1, z2 = one.z1, one.z2
    for a, b, above in ((one.low1, one.low2, True), (one.high1, one.high2, False)):
        # inside: slope (z - shift) - line(z) >= 0 above the hollow, <= 0 under the outside
        d1, d2 = slope * (one.z1 - shift) - a, slope * (one.z2 - shift) - b
        if not above:
            d1, d2 = -d1, -d2
        if d1 <= 1e-9 and d2 <= 1e-9:
            return None
        if d1 < 0 or d2 < 0:
            cross = one.z1 + (one.z2 - one.z1) * d1 / (d1 - d2)
            z1, z2 = (max(z1, cross), z2) if d1 < 0 else (z1, min(z2, cross))
    return (z1, z2) if z2 - z1 > 1e-9 else None


def _joined(runs: list[tuple[float, float]]) -> list[tuple[float, float]]:
    found: list[tuple[float, float]] = []
    for start, stop in runs:
        if found and start - found[-1][1] < 1e-6:
            found[-1] = (found[-1][0], stop)
        else:
            found.append((start, stop))
    return found
