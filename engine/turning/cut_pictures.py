"""Cuts drawn: the blank, what each cut leaves, and the finished surface, every cut tied to its row of the table.

The removed layer is thin beside the work: it is drawn so many times as deep as it is, and the picture says so.
"""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.outlines import both_sides, box, chuck, cut_ring, dia, enlarged, outline
from engine.base.words import Text, counted, say, shown

_LAYER = 0.4  # of the finished radius: how deep the removed layer is drawn at most


def _alt(text: str, times: int, cuts: Sequence[object], **parts: Text) -> Text:
    deeper = say(" The cuts are drawn {times} times as deep as they are.", times=times) if times > 1 else ""
    return say(text + "{deeper}", cuts=counted(len(cuts), "cut"), deeper=deeper, **parts)


def turned_picture(*, start: float, length: float, out: float, cuts: Sequence[tuple[float, float]]) -> Picture:
    """Turning from a diameter in cuts, each with its diameter after and its stop from the end face. [mm]"""
    end, radius = cuts[-1][0], cuts[-1][0] / 2
    times = enlarged((start - end) / 2, _LAYER * radius)

    def drawn(diameter: float) -> float:
        return radius + (diameter - end) / 2 * times

    blank, shoulder = drawn(start), out - length
    shapes: list[Shape] = [*chuck(0, blank), Line(-0.3 * radius, 0, out + 0.3 * radius, 0, 2)]
    if shoulder > 1e-9:
        step = (shoulder, radius), (shoulder, blank), (0, blank)
        shapes += outline([*step, *((x, -y) for x, y in reversed(step))])
    shapes += both_sides([(shoulder, radius), (out, radius), (out, 0)])
    shapes += both_sides([(shoulder, blank), (out, blank)], weight=0)
    shapes += both_sides([(out, blank), (out, radius)], weight=0)
    for row, (diameter, stop) in enumerate(cuts, 1):
        r, left = drawn(diameter), out - stop
        shapes += both_sides([(left, r), (out, r)], row=row, weight=1 if row == len(cuts) else 0)
        one = say("cut {row}: {size}, stop {stop}", row=row, size=dia(diameter), stop=shown(stop, decimals=1))
        shapes.append(Size(left, -blank, out, -blank, one, "below", row, if_marked=True))
    shapes += [
        Size(0, blank, 0, -blank, dia(start), "left"),
        Size(out, radius, out, -radius, dia(end), "right"),
        Size(shoulder, blank, out, blank, shown(length, decimals=1), "above"),
    ]
    text, long = "The bar from {start} to {end} over {length}, in {cuts}.", shown(length, decimals=1)
    alt = _alt(text, times, cuts, start=dia(start), end=dia(end), length=long)
    return Picture("cuts", "Cut by cut, headstock to the left", tuple(shapes), alt, table="cuts")


def bored_picture(*, start: float, depth: float, bar: float, cuts: Sequence[float]) -> Picture:
    """Boring a hole in cuts, each with its diameter after; the mouth to the right, as the lathe has it. [mm]"""
    end, radius = cuts[-1], cuts[-1] / 2
    times = enlarged((end - start) / 2, 0.45 * radius)

    def drawn(diameter: float) -> float:
        return radius - (end - diameter) / 2 * times

    hole, outer = drawn(start), 1.5 * radius
    shapes: list[Shape] = [
        *cut_ring([(0, outer), (depth, outer), (depth, radius), (0, radius)]),
        Line(-0.2 * radius, 0, depth + 0.6 * radius, 0, 2),
        *both_sides([(0, hole), (depth, hole)], weight=0),
    ]
    for row, diameter in enumerate(cuts, 1):
        r = drawn(diameter)
        shapes += both_sides([(0, r), (depth, r)], row=row, weight=1 if row == len(cuts) else 0)
        one = say("cut {row}: {size}", row=row, size=dia(diameter))
        shapes.append(Size(0, -outer, depth, -outer, one, "below", row, if_marked=True))
    shapes += [
        Size(0, hole, 0, -hole, dia(start), "left"),
        Size(depth, radius, depth, -radius, dia(end), "right"),
        Size(0, outer, depth, outer, shown(depth, decimals=1), "above"),
    ]
    text, deep = (
        "The hole from {start} to {end}, {depth} deep, in {cuts}, with a bar of {bar}.",
        shown(depth, decimals=1),
    )
    alt = _alt(text, times, cuts, start=dia(start), end=dia(end), depth=deep, bar=dia(bar, 1))
    return Picture("cuts", "The bore in section, cut by cut, mouth to the right", tuple(shapes), alt, table="cuts")


def faced_picture(*, start: float, diameter: float, bore: float, cuts: Sequence[float]) -> Picture:
    """Facing a length in cuts, each with the length after; the face to the right. [mm]"""
    end, radius = cuts[-1], diameter / 2
    times = enlarged(start - end, 0.3 * max(end, radius))

    def drawn(length: float) -> float:
        return end + (length - end) * times

    right = drawn(start)
    shapes: list[Shape] = [
        *outline([(end, radius), (0, radius), (0, -radius), (end, -radius), (end, radius)]),
        Line(-0.1 * end, 0, right + 0.1 * end, 0, 2),
        *both_sides([(end, radius), (right, radius), (right, bore / 2)], weight=0),
    ]
    if bore > 0:
        shapes += both_sides([(0, bore / 2), (right, bore / 2)], weight=0)
    for row, length in enumerate(cuts, 1):
        x = drawn(length)
        shapes.append(Line(x, -radius, x, radius, 1 if row == len(cuts) else 0, row))
        one = say("cut {row}: {long}", row=row, long=shown(length, decimals=2))
        shapes.append(Size(0, -radius, x, -radius, one, "below", row, if_marked=True))
    shapes += [
        Size(0, radius, right, radius, say("{long} now", long=shown(start, decimals=2)), "above"),
        Size(0, radius, end, radius, shown(end, decimals=2), "above"),
        Size(0, radius, 0, -radius, dia(diameter), "left"),
    ]
    text = "The work from {start} to {end} long, in {cuts} across its face."
    alt = _alt(text, times, cuts, start=shown(start, decimals=2), end=shown(end, decimals=2))
    return Picture("cuts", "Cut by cut, the face to the right", tuple(shapes), alt, table="cuts")


def speed_picture(*, diameter: float, cut: float, rpm: float, feed: float) -> Picture:
    """A bar under its tool: what is turned off it, to scale. [mm, rev/min]"""
    radius, long = diameter / 2, 1.6 * diameter
    inner, at = radius - cut, 0.55 * long
    size, below = 0.5 * radius, -radius - 0.5 * radius
    right, slope = at + size * 0.8, -inner - size * 0.25
    turning = say("{rpm}, feed {feed}", rpm=shown(rpm, "speed"), feed=shown(feed, "feed"))
    shapes: list[Shape] = [
        *chuck(0, radius),
        *outline([(at, inner), (at, radius), (0, radius), (0, -radius), (at, -radius), (at, -inner)]),
        *outline([(at, inner), (long, inner), (long, -inner), (at, -inner)]),
        Line(-0.3 * radius, 0, long + 0.2 * radius, 0, 2),
        Polygon(((at, -inner), (right, slope), (right, below), (at, below))),
        Size(0, radius, 0, -radius, dia(diameter), "left"),
        Size(long, inner, long, -inner, dia(diameter - 2 * cut), "right"),
        Pointer(long * 0.8, inner, say("cut {cut} deep", cut=shown(cut, decimals=2)), "above"),
        Pointer(at * 0.5, -radius, turning, "below"),
    ]
    text = "A bar of {size} with {cut} turned off its radius at {rpm}."
    alt = say(text, size=dia(diameter), cut=shown(cut, decimals=2), rpm=shown(rpm, "speed"))
    return Picture("cut", "The cut, headstock to the left", tuple(shapes), alt)


def parted_picture(*, diameter: float, bore: float, blade: float, reach: float, at: float | None) -> Picture:
    """The blade at the bottom of its cut, as far out of its holder as it needs. [mm]

    at: from the jaws to the cut, None where it is not told: as close as the blade is wide, twice over
    """
    radius, left = diameter / 2, at if at is not None else 2 * blade
    tip = radius - reach
    right, end = left + blade, left + blade + 0.9 * diameter
    hold = radius + 0.4 * diameter
    text = say("out {reach}", reach=shown(reach, decimals=1, side="up"))
    shapes: list[Shape] = [
        *chuck(0, radius),
        *outline([(left, -radius), (0, -radius), (0, radius), (left, radius), (left, -radius)]),
        *outline([(right, -radius), (right, radius), (end, radius), (end, -radius), (right, -radius)]),
        Line(-0.2 * diameter, 0, end + 0.1 * diameter, 0, 2),
        box(left, tip, right, radius, filled=True),
        box(left, radius, right + 0.6 * diameter, hold),
        *both_sides([(left, max(bore / 2, -tip)), (right, max(bore / 2, -tip))]),
        Size(left, hold, right, hold, say("blade {wide}", wide=shown(blade, decimals=2)), "above"),
        Size(right, radius, right, tip, text, "right"),
        Size(0, radius, 0, -radius, dia(diameter), "left"),
    ]
    if bore > 0:
        shapes += both_sides([(0, bore / 2), (end, bore / 2)], weight=0)
    if at is not None:
        shapes.append(Size(0, -radius, left, -radius, shown(at, decimals=1), "below"))
    template = "A bar of {size} parted by a blade {wide} wide that stands {reach} out of its holder."
    alt = say(template, size=dia(diameter), wide=shown(blade, decimals=2), reach=shown(reach, decimals=1, side="up"))
    return Picture("parting", "The blade at the end of its cut", tuple(shapes), alt)


def edge_picture(*, low: float, high: float, handled: tuple[float, float]) -> Picture:
    """The corner of a bar, enlarged: edges taken off at 45 degrees, least and most. [mm]"""
    room = 2.2 * handled[1]
    shapes: list[Shape] = [
        Polygon(((0, 0), (room - low, 0), (room, -low), (room, -room), (0, -room)), cut=True),
        Line(room - low, 0, room, -low, 1),
        Line(room - high, 0, room, -high),
        Line(room - handled[1], 0, room, -handled[1]),
        Line(room - low, 0, room, 0, 2),
        Line(room, 0, room, -low, 2),
        Size(room - low, 0, room, 0, shown(low, decimals=1), "above"),
        Size(room - high, 0, room, 0, say("to {most}", most=shown(high, decimals=1)), "above"),
        Size(room, 0, room, -handled[1], say("handled: to {most}", most=shown(handled[1], decimals=1)), "right"),
    ]
    text = "A corner of the work enlarged: {low} to {high} off at 45 degrees, up to {handled} where it is handled."
    alt = say(text, low=shown(low, decimals=1), high=shown(high, decimals=1), handled=shown(handled[1], decimals=1))
    return Picture("edge", "The edge, enlarged", tuple(shapes), alt)


def taper_picture(large: float, small: float, length: float, angle: float, *, inside: bool) -> Picture:
    """The cone along its axis, the headstock to the left; a bore is drawn in the block round it. [mm, deg a side]"""
    half, long = shown(angle, "angle", decimals=2), shown(length, decimals=1)
    # Outside the small end is free, at the right; a bore's mouth, its large end, is.
    left, right = (small, large) if inside else (large, small)
    shapes: list[Shape] = [
        *outline([(0, -left / 2), (length, -right / 2), (length, right / 2), (0, left / 2), (0, -left / 2)]),
        Line(-length / 8, 0, length * 9 / 8, 0, 2),
        Size(0, left / 2, 0, -left / 2, dia(left), "left"),
        Size(length, right / 2, length, -right / 2, dia(right), "right"),
        Size(0, -left / 2, length, -right / 2, long, "below"),
        Pointer(length / 2, (left + right) / 4, say("{angle} a side", angle=half), "above"),
    ]
    if inside:
        rim = large * 0.8
        shapes += cut_ring([(0, left / 2), (length, right / 2), (length, rim), (0, rim)])
    text, where = (
        "A taper {where} from {large} to {small} over {length}, {angle} each side of the axis.",
        "on the outside",
    )
    where = "in the bore" if inside else where
    alt = say(text, where=where, large=shown(large), small=shown(small), length=long, angle=half)
    return Picture("taper", "The taper, headstock to the left", tuple(shapes), alt)
