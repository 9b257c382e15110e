"""Joints drawn: tolerance zones of a fit, the gap of a bush, a solder's heat beside what the part bears."""

from __future__ import annotations

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Polygon, Shape, Size
from engine.base.outlines import both_sides, box, cut_ring, dia, enlarged
from engine.base.words import Text, say, shown

_ROOM = 16.0  # mm of paper from the nominal size to the farthest limit
_WIDE = 14.0  # mm of paper: how wide a zone is drawn


def zones_picture(
    *, nominal: float, hole: tuple[float, float], shaft: tuple[float, float], kind: str, measured: float | None = None
) -> Picture:
    """The zones of hole and shaft from the nominal size, to one scale, as standards draw them. Low and high [mm]

    measured: a hole's own size, drawn as a line across
    """
    known = [*hole, *shaft, *([measured] if measured is not None else [])]
    times = enlarged(max(abs(size - nominal) for size in known) or 0.001, _ROOM)

    def y(size: float) -> float:
        return (size - nominal) * times

    left, right = 0.0, 1.6 * _WIDE
    shapes: list[Shape] = [
        Line(-0.3 * _WIDE, 0, right + 1.3 * _WIDE, 0, 2),
        box(left, y(hole[0]), left + _WIDE, y(hole[1]), cut=hole[1] > hole[0]),
        box(right, y(shaft[0]), right + _WIDE, y(shaft[1]), filled=shaft[1] > shaft[0]),
        Pointer(left, y(hole[1]), say("hole to {size}", size=shown(hole[1], side="down")), "left"),
        Pointer(left, y(hole[0]), say("hole from {size}", size=shown(hole[0], side="up")), "left"),
        Pointer(right + _WIDE, y(shaft[1]), say("shaft to {size}", size=shown(shaft[1], side="down")), "right"),
        Pointer(right + _WIDE, y(shaft[0]), say("shaft from {size}", size=shown(shaft[0], side="up")), "right"),
        Pointer(right + 1.3 * _WIDE, 0, dia(nominal, 3), "right"),
    ]
    if measured is not None:
        shapes += [
            Line(left, y(measured), left + _WIDE, y(measured), 1),
            Label(left + _WIDE / 2, y(measured), "measured"),
        ]
    middle = (left + _WIDE + right) / 2
    least = hole[0] - shaft[1]
    shapes += [Line(left + _WIDE, y(hole[0]), middle, y(hole[0])), Line(middle, y(shaft[1]), right, y(shaft[1]))]
    text: Text = say("{word} {size}", word="room" if least >= 0 else "overlap", size=shown(abs(least)))
    shapes += [
        Line(middle, y(hole[0]), middle, y(shaft[1]), 1),
        Pointer(middle, max(y(hole[0]), y(shaft[1])), text, "above"),
    ]
    text = "The zones of hole (hatched) and shaft (filled) from {size}, a {kind} fit, drawn {times} times as large as they are."
    alt = say(text, size=dia(nominal, 3), kind=kind, times=times)
    return Picture("zones", "Hole (hatched) and shaft (filled) about nominal", tuple(shapes), alt)


def gap_picture(*, diameter: float, low: float, high: float, length: float | None) -> Picture:
    """A pin in its bush with a gap between, enlarged and said so; gaps on the diameter. [mm]"""
    radius, long = diameter / 2, length or 1.2 * diameter
    times = enlarged(high / 2, 0.15 * radius)
    gap, outer = high / 2 * times, 1.7 * radius
    bore, ends = radius + gap, (-0.4 * radius, long + 0.4 * radius)
    text = say("gap {low} to {high} on the diameter", low=shown(low, side="up"), high=shown(high, side="down"))
    shapes: list[Shape] = [
        *cut_ring([(0, bore), (long, bore), (long, outer), (0, outer)]),
        *both_sides([(ends[0], 0), (ends[0], radius), (ends[1], radius), (ends[1], 0)]),
        Line(-0.6 * radius, 0, long + 0.6 * radius, 0, 2),
        Pointer(long, radius + gap / 2, text, "right"),
        Size(-0.4 * radius, radius, -0.4 * radius, -radius, dia(diameter), "left"),
    ]
    if length is not None:
        shapes.append(Size(0, outer, long, outer, shown(length, decimals=1), "above"))
    least, most = shown(low, side="up"), shown(high, side="down")
    told = (
        "A pin of {size} in its bush with {low} to {high} of room on the diameter. The gap is drawn {times} times as "
    )
    alt = say(told + "wide as it is.", size=dia(diameter), low=least, high=most, times=times)
    return Picture("gap", "The pin in its bush, in section", tuple(shapes), alt)


def heat_picture(*, alloy: str, solidus: float, liquidus: float, working: float, part: str, limit: float) -> Picture:
    """A thermometer: where the solder melts, what the joint reaches, what the part bears. [deg C], a tenth of a mm each"""
    top = 1.1 * max(working, limit)
    scale = 60.0 / top

    def y(celsius: float) -> float:
        return celsius * scale

    shapes: list[Shape] = [
        box(0, 0, 4, y(top)),
        box(0, 0, 4, y(working), filled=True),
        Line(-2, y(limit), 6, y(limit), 1),
        Pointer(-2, y(limit), say("{part} bears {limit}", part=part, limit=shown(limit, "temperature")), "left"),
        Pointer(4, y(working), say("joint {hot}", hot=shown(working, "temperature")), "right"),
        Pointer(4, y(liquidus), say("{alloy} liquid {hot}", alloy=alloy, hot=shown(liquidus, "temperature")), "right"),
    ]
    if solidus < liquidus - 0.5:
        shapes.append(Pointer(4, y(solidus), say("begins to melt {hot}", hot=shown(solidus, "temperature")), "right"))
    text = "The joint reaches {hot}, the {part} bears {limit}."
    alt = say(text, hot=shown(working, "temperature"), part=part, limit=shown(limit, "temperature"))
    return Picture("heat", "How hot it gets, and what the part bears", tuple(shapes), alt)


def ball_picture(
    ball: float, hole: float, stand_out: float, depth: float, below: float, rim_depth: float | None
) -> Picture:
    """A ball in its hole in section: the face at y = 0, the axis at x = 0, the ball's middle so far `below`. [mm]"""
    radius, half = ball / 2, hole / 2
    wide = max(radius, half) * 1.8
    rim = -rim_depth if rim_depth is not None else 0.0
    outer = radius if rim_depth else half
    floor = -depth - 0.6 * radius
    wall = [(-wide, floor), (-wide, 0.0), (-outer, 0.0), *([(-outer, rim), (-half, rim)] if rim_depth else [])]
    left = [*wall, (-half, -depth)]
    shapes: list[Shape] = [
        Polygon((*left, *[(-x, y) for x, y in reversed(left)]), cut=True),
        Circle(0, -below, radius),
        Line(0, floor, 0, stand_out + 0.3 * radius, 2),
        Size(wide, 0, 0, stand_out, say("out {out}", out=shown(stand_out, decimals=2)), "right"),
        Size(wide, 0, half, -depth, say("deep {deep}", deep=shown(depth, decimals=2)), "right"),
        Size(-half, -depth, half, -depth, dia(hole), "below"),
        Size(-radius, -below, radius, -below, say("ball {size}", size=dia(ball)), "above"),
    ]
    text = "A ball of {ball} in a hole of {hole}, {deep} deep, standing out {out}."
    alt = say(text, ball=shown(ball), hole=shown(hole), deep=shown(depth), out=shown(stand_out))
    return Picture("seat", "The ball in its hole", tuple(shapes), alt)
