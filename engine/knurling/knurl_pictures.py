"""Knurls drawn: the teeth round a blank, as they close, and the wheel's places along the bar."""

from __future__ import annotations

from collections.abc import Sequence
from math import cos, pi, sin

from engine.base.answer import Circle, Label, Line, Picture, Pointer, Shape, Size
from engine.base.outlines import box, chuck, dia, enlarged
from engine.base.words import Text, general, say, shown

_MOST_TEETH = 400  # more are no longer told apart on any paper
_NEAR = 7  # teeth on either side of the first that are drawn large


def closing_picture(*, teeth: int, blank: float, finished: float, wanted: float) -> Picture:
    """The finished knurl from its end, every tooth drawn; beside it the place where the last meets the first, for the
    blank as it is to be turned and for the size that was wanted.

    wanted: teeth that the wanted diameter would take: a whole number closes
    """
    crest, root = finished / 2, max(blank - (finished - blank), 0.0) / 2
    shapes: list[Shape] = [Circle(0, 0, blank / 2)]
    if teeth <= _MOST_TEETH:
        points = []
        for k in range(2 * teeth):
            r, turn = (crest if k % 2 == 0 else root), pi * k / teeth
            points.append((r * sin(turn), r * cos(turn)))
        shapes += [Line(*a, *b, 3) for a, b in zip(points, [*points[1:], points[0]], strict=True)]
    shapes += [
        Line(-1.1 * crest, 0, 1.1 * crest, 0, 2),
        Line(0, -1.1 * crest, 0, 1.1 * crest, 2),
        Size(-crest, 0, crest, 0, say("finished {size}", size=dia(finished)), "below"),
        Size(-blank / 2, 0, blank / 2, 0, say("blank {size}", size=dia(blank)), "above"),
    ]
    left = 1.5 * crest
    shapes += _row(left, 0.55 * crest, crest, 0.0, say("{teeth} teeth close", teeth=teeth))
    off = wanted - teeth
    words = say("{wanted} would cross", wanted=general(round(wanted, 2)))
    if abs(off) > 0.005:
        shapes += _row(left, -0.45 * crest, crest, off, words)
    text = "{teeth} teeth round a blank of {blank}, {finished} over them when full: the last tooth meets the first."
    alt = say(text, teeth=teeth, blank=dia(blank), finished=dia(finished))
    return Picture("closing", "The knurl from its end, and where it closes", tuple(shapes), alt)


def _row(left: float, y: float, size: float, off: float, text: Text) -> list[Shape]:
    """Teeth where the knurl closes, unrolled: the first time round heavy, the second beside it, out by a share of a
    tooth."""
    step, high = 0.22 * size, 0.24 * size
    found: list[Shape] = []
    for weight, shift in ((1, 0.0), (0, off)) if abs(off) > 1e-9 else ((1, 0.0),):
        for k in range(_NEAR):
            x = left + (k + shift) * step
            found += [Line(x, y, x + step / 2, y + high, weight), Line(x + step / 2, y + high, x + step, y, weight)]
    found.append(Label(left, y - 0.25 * size, text, "start"))
    return found


def wheel_picture(
    *, diameter: float, width: float, start: float, wheel: float, infeed: float, edges: Sequence[float]
) -> Picture:
    """The bar with its knurl and the wheel where each move leaves it; the infeed is enlarged and said so. [mm]

    edges: where the wheel's chuck-side edge ends up in each row, from the end face
    """
    radius = diameter / 2
    out = start + width + 0.6 * max(wheel, radius)
    times = enlarged(infeed, 0.12 * radius)
    deep = infeed * times

    def x(from_end: float) -> float:
        return out - from_end

    shapes: list[Shape] = [
        *chuck(0, radius),
        box(0, -radius, out, radius),
        Line(-0.3 * radius, 0, out + 0.3 * radius, 0, 2),
        *_lines(x(start + width), x(start), radius),
    ]
    for row, edge in enumerate(edges, 1):
        top = radius + max(0.7 * radius, wheel * 0.6)
        shapes.append(box(x(edge), radius - deep, x(edge) + wheel, top, row=row))
        edge_at = say("edge at {edge}", edge=shown(edge, decimals=1))
        shapes.append(Size(x(edge), -radius, out, -radius, edge_at, "below", row, if_marked=True))
    wide, knurled = shown(width, decimals=1), say("knurl {width}", width=shown(width, decimals=1))
    text = say("wheel {wide}", wide=shown(wheel, decimals=1))
    shapes += [
        Size(x(start + width), -radius, x(start), -radius, knurled, "below"),
        Size(0, radius, 0, -radius, dia(diameter), "left"),
        Size(x(edges[-1]), radius, x(edges[-1]) + wheel, radius, text, "above"),
        Pointer(x(edges[-1]) + wheel, radius - deep / 2, say("in {infeed}", infeed=shown(infeed, decimals=2)), "right"),
    ]
    if start > 0:
        shapes.append(Size(x(start), -radius, out, -radius, shown(start, decimals=1), "below"))
    drawn = say(" Its infeed is drawn {times} times as deep as it is.", times=times) if times > 1 else ""
    told = "A bar of {size} with a knurl {width} wide, and the wheel of {wheel} where each move leaves it.{drawn}"
    alt = say(told, size=dia(diameter), width=wide, wheel=shown(wheel, decimals=1), drawn=drawn)
    return Picture("wheel", "The wheel along the bar, headstock to the left", tuple(shapes), alt, table="passes")


def _lines(left: float, right: float, radius: float) -> list[Shape]:
    """The band of the knurl: its edges, and lines along it that stand for the teeth."""
    found: list[Shape] = [Line(x, -radius, x, radius) for x in (left, right)]
    for k in range(-5, 6):
        y = radius * sin(k * pi / 12)
        found.append(Line(left, y, right, y, 3))
    return found
