"""The tapped hole drawn: drilled hole and thread in section, to scale."""

from __future__ import annotations

from engine.base.answer import Line, Picture, Shape
from engine.base.words import Text, plain, say, shown
from engine.drilling.holes import point_length
from engine.drilling.section import across, along, both_sides, hatched
from engine.threads.thread import Thread

_EXAMPLE = 1.5  # diameters: how deep a thread is drawn whose depth is not told
_MOST_TEETH = 40  # more run into each other: then only crest and root are drawn
_METAL = 1.8  # diameters of metal drawn across
_OFF = 0.5  # diameters from the metal to a dimension line


def picture(thread: Thread, hole: float, depth: float | None, drilled: float | None) -> Picture:
    """The hole in section with its mouth at x = 0: the drill's sides and point, and the thread to its depth.

    A thread without a depth is drawn 1.5 diameters deep, through; a through hole ends with its thread.
    """
    deep = depth if depth is not None else _EXAMPLE * thread.diameter
    major = thread.diameter / 2
    point = point_length(diameter=hole)
    end = drilled + point + 0.3 * thread.diameter if drilled else deep
    half, off = _METAL / 2 * thread.diameter, _OFF * thread.diameter
    shapes: list[Shape] = [
        *both_sides([(0, major), (0, half), (end, half)]),
        *hatched(0, major, end, half),
        *hatched(0, -half, end, -major),
        *_thread(thread, hole / 2, deep),
        Line(-off, 0, end + off / 2, 0, 2),
    ]
    if drilled:
        shapes += both_sides([(0, hole / 2), (drilled, hole / 2), (drilled + point, 0)], weight=0)
        shapes += [*both_sides([(deep, hole / 2), (drilled, hole / 2), (drilled + point, 0)])]
        shapes += [Line(end, -half, end, half, 1), *along(0, drilled, -half, -half - off, shown(drilled, decimals=2))]
    else:
        shapes += [*both_sides([(0, hole / 2), (end, hole / 2)], weight=0), *both_sides([(end, major), (end, half)])]
    if depth is not None:
        shapes += along(0, deep, half, half + off, shown(deep, decimals=2))
    shapes += across(-hole / 2, hole / 2, 0, -off, shown(hole, decimals=2))
    return Picture("tapped", "The tapped hole in section", tuple(shapes), _alt(thread, hole, depth, drilled))


def _thread(thread: Thread, minor: float, deep: float) -> list[Shape]:
    """Root and crest of the thread as far as it is full, flank by flank while they can be told apart."""
    pitch, major = float(thread.pitch), thread.diameter / 2
    teeth = int(deep / pitch + 1e-9)
    if not 0 < teeth <= _MOST_TEETH:
        return [*both_sides([(0, major), (deep, major)], weight=0), *both_sides([(0, minor), (deep, minor)])]
    points = [(0.0, major)]
    for tooth in range(teeth):
        start = tooth * pitch
        points += [(start + pitch / 2, minor), (start + pitch, major)]
    return both_sides([*points, (deep, minor)] if deep > teeth * pitch + 1e-9 else points)


def _alt(thread: Thread, hole: float, depth: float | None, drilled: float | None) -> Text:
    deep: Text = say(", full to {depth}", depth=shown(depth, decimals=2)) if depth is not None else ""
    under: Text = say(", drilled to {drilled}", drilled=shown(drilled, decimals=2)) if drilled else ""
    return say("{size} in a hole of {hole}{deep}{under}.", size=str(thread), hole=plain(hole), deep=deep, under=under)
