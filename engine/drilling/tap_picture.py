"""The tapped hole drawn: drilled hole and thread in section, to scale."""

from __future__ import annotations

from engine.base.answer import Line, Picture, Polygon, Shape, Size
from engine.base.outlines import along, both_sides, cut_ring, dia
from engine.base.words import Text, plain, say, shown
from engine.drilling.holes import point_length
from engine.threads.thread import Thread

_EXAMPLE = 1.5  # diameters: how deep a thread is drawn whose depth is not told
_MOST_TEETH = 40  # more run into each other: then only crest and root are drawn
_METAL = 1.8  # diameters of metal drawn across


def picture(thread: Thread, hole: float, depth: float | None, drilled: float | None) -> Picture:
    """The hole in section with its mouth at x = 0: the drill's sides and point, and the thread to its depth.

    A thread without a depth is drawn 1.5 diameters deep, through; a through hole ends with its thread.
    """
    deep = depth if depth is not None else _EXAMPLE * thread.diameter
    major = thread.diameter / 2
    point = point_length(diameter=hole)
    end = drilled + point + 0.3 * thread.diameter if drilled else deep
    half = _METAL / 2 * thread.diameter
    wall = [(0.0, half), (0.0, major), (deep, major), (deep, hole / 2)]
    shapes: list[Shape] = []
    if drilled:
        sides = [*wall, (drilled, hole / 2), (drilled + point, 0.0)]
        ring = [*sides, *[(x, -y) for x, y in reversed(sides[:-1])], (end, -half), (end, half)]
        shapes += [Polygon(tuple(ring), cut=True), *both_sides([(deep, hole / 2), (drilled, hole / 2)])]
        shapes.append(along(0, drilled, -half, shown(drilled, decimals=2)))
    else:
        shapes += cut_ring([*wall[:2], (end, major), (end, half)])
    shapes += [*_thread(thread, hole / 2, deep), Line(-0.2 * thread.diameter, 0, end + 0.2 * thread.diameter, 0, 2)]
    shapes.append(Size(0, hole / 2, 0, -hole / 2, dia(hole), "left"))
    shapes.append(Size(0, major, 0, -major, str(thread), "left"))
    if depth is not None:
        shapes.append(along(0, deep, half, shown(deep, decimals=2)))
    return Picture("tapped", "The tapped hole in section", tuple(shapes), _alt(thread, hole, depth, drilled))


def _thread(thread: Thread, minor: float, deep: float) -> list[Shape]:
    """Root and crest of the thread as far as it is full, and its flanks while they can be told apart."""
    pitch, major = float(thread.pitch), thread.diameter / 2
    lines = [*both_sides([(0, major), (deep, major)], weight=0), *both_sides([(0, minor), (deep, minor)])]
    teeth = int(deep / pitch + 1e-9)
    if not 0 < teeth <= _MOST_TEETH:
        return lines
    points = [(0.0, major)]
    for tooth in range(teeth):
        start = tooth * pitch
        points += [(start + pitch / 2, minor), (start + pitch, major)]
    return [*lines, *both_sides([*points, (deep, minor)] if deep > teeth * pitch + 1e-9 else points, weight=3)]


def _alt(thread: Thread, hole: float, depth: float | None, drilled: float | None) -> Text:
    deep: Text = say(", full to {depth}", depth=shown(depth, decimals=2)) if depth is not None else ""
    under: Text = say(", drilled to {drilled}", drilled=shown(drilled, decimals=2)) if drilled else ""
    return say("{size} in a hole of {hole}{deep}{under}.", size=str(thread), hole=plain(hole), deep=deep, under=under)
