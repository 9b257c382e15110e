"""What a hole asks for: the drill's point, a pilot, steps, pecks, slower speeds when it is deep."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, radians, sqrt, tan

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.tables import rows
from engine.base.tool import Tool
from engine.cutting.materials import Material
from engine.drilling.reach import drill_length
from engine.drilling.sizes import SAME, every_drill, owned, unnamed
from engine.drilling.thrust import CHISEL

JOBBER_POINT = 118.0  # deg: the usual point of a jobber drill
DEEPEST = 50.0  # diameters; beyond it a twist drill is the wrong tool
_PLAINEST = ("metric", "fraction", "number", "letter")
_LAST_BITE = 0.1  # diameters: less than that is no peck of its own (common practice)
_PILOT_FROM_TOUGH, _PILOT_FROM = 10.0, 12.7  # mm
_PILOT_SHARE = 1 / 3  # of the diameter: the usual pilot (a shop-notes page on pilot size)
_PILOT_DEEPEST = 6.0  # pilot diameters: deeper, a slender drill wanders (common practice: 5 to 6)
LED = 0.5  # of the diameter: a drill that opens a larger hole bores and is not led (a shop-notes page on pilot size)


@dataclass(frozen=True, slots=True)
class Reduction:
    """Shares of speed and feed that are left in a deep hole: 1 is all."""

    speed: float
    feed: float


def point_length(*, diameter: float, angle: float = JOBBER_POINT) -> float:
    """Length of a conical point: of a drill, or of a countersink brought to a diameter.

    diameter: Diameter, above 0. [mm]
    angle: Included angle of the point, above 0, below 180. [deg]
    Returns: D / (2 tan(angle / 2)). [mm]
    Raises: OutOfRange if diameter or angle lies outside its bounds.
    Source: Geometry.

    >>> round(point_length(diameter=10), 3)
    3.004
    """
    check_range("diameter", diameter, low=1e-9, unit="mm")
    check_range("angle", angle, low=1, high=179, unit="deg")
    return diameter / (2 * tan(radians(angle) / 2))


def reduction(ratio: float) -> Reduction:
    """What is left of speed and feed at a depth over diameter: a drill maker's guide, engine/data/drilling/deep_holes.csv.

    >>> reduction(2.9), reduction(5)
    (Reduction(speed=1.0, feed=1.0), Reduction(speed=0.7, feed=0.8))
    """
    found = Reduction(1.0, 1.0)
    for row in rows("drilling/deep_holes.csv"):
        if ratio >= float(row["diameters"]):
            found = Reduction(1 - int(row["speed_less_percent"]) / 100, 1 - int(row["feed_less_percent"]) / 100)
    return found


def pecks(*, diameter: float, depth: float, tough: bool = False) -> tuple[float, ...]:
    """Depths of the tip at which the drill is drawn out to clear its chips; the last is the depth itself.

    diameter: Diameter of the drill, above 0. [mm]
    depth: Depth of the tip, above 0, up to 51 diameters. [mm]
    tough: Whether the chips are stringy or the material hardens: peck from 2 diameters, not from 3.
    Returns: Rising: 2 diameters, then 1 diameter a peck, beyond 6 diameters half a diameter a peck; the last takes in
        what is left up to a tenth of a diameter. [mm]
    Raises: OutOfRange if diameter or depth lies outside its bounds.
    Source: First 2 diameters: a drill dealer's technical tips; deep-hole class from 3 diameters: a drill maker's page;
        the rest common practice, no source.

    >>> pecks(diameter=5, depth=14), pecks(diameter=5, depth=22)
    ((14,), (10.0, 15.0, 20.0, 22))
    """
    check_range("diameter", diameter, low=1e-9, unit="mm")
    check_range("depth", depth, low=1e-9, high=(DEEPEST + 1) * diameter, unit="mm")
    if depth <= (2 if tough else 3) * diameter:
        return (depth,)
    steps = []
    reached = 2.0
    while reached * diameter < depth - _LAST_BITE * diameter:
        steps.append(reached * diameter)
        reached += 1.0 if reached < 6 else 0.5
    return (*steps, depth)


def pilot_from(material: Material) -> float:
    """Diameter [mm] from which a hole is piloted: 10 mm in tough metals, 1/2 in in others (a shop-notes page: no pilot
    up to 3/8 to 1/2 in in mild steel with a sharp drill)."""
    return _PILOT_FROM_TOUGH if material.machining == "tough" else _PILOT_FROM


def pilot_for(diameter: float, tools: Sequence[Tool]) -> Tool | None:
    """Owned pilot drill for a larger one: nearest to a third of its diameter, from the chisel edge to half, or None.

    >>> pilot_for(12, [Tool("2", 2.0), Tool("2.5", 2.5), Tool("5", 5.0)]).name
    '5'
    """
    inside = [tool for tool in tools if CHISEL * diameter <= tool.diameter <= LED * diameter]
    return min(inside, key=lambda tool: abs(tool.diameter - _PILOT_SHARE * diameter), default=None)


def pilot_depth(*, pilot: float, travel: float, diameter: float, angle: float = JOBBER_POINT) -> float:
    """How deep the tip of a pilot drill goes.

    pilot, travel, diameter: Diameter of the pilot drill, depth of the last drill's tip, and that drill's diameter. [mm]
    angle: Point angle of the drills. [deg]
    Returns: All the way where that is 6 pilot diameters or less and its flutes clear chips; else one finished diameter
        and its own point, to start the drill true: a slender pilot wanders and breaks. [mm]
    Source: 5 to 6 pilot diameters, else short: common practice, no source. Flutes: DIN 338, from memory.

    >>> pilot_depth(pilot=4.3, travel=23, diameter=13), round(pilot_depth(pilot=4.3, travel=34, diameter=13), 2)
    (23, 14.29)
    """
    length = drill_length(pilot)
    usable = length.usable if length else travel
    if travel <= min(_PILOT_DEEPEST * pilot, usable) + 1e-9:
        return travel
    return min(travel, diameter + point_length(diameter=pilot, angle=angle), DEEPEST * pilot)


def between(*, pilot: float, diameter: float, count: int, tools: Sequence[Tool]) -> tuple[Tool, ...]:
    """Owned drills that open a hole from a pilot [mm] in so many steps before the last, each asking for as much torque.

    Equal areas ask for equal torque by the power law of cutting force; fewer than asked for where the owned drills give no more.

    >>> [t.name for t in between(pilot=0, diameter=13, count=1, tools=[Tool("9", 9.0), Tool("12", 12.0)])]
    ['9']
    """
    found: list[Tool] = []
    for step in range(1, count + 1):
        wanted = sqrt(pilot**2 + (diameter**2 - pilot**2) * step / (count + 1))
        inside = [t for t in tools if pilot * 1.1 < t.diameter < diameter * 0.97]
        nearest = min(inside, key=lambda t: abs(t.diameter - wanted), default=None)
        if nearest is not None and nearest not in found:
            found.append(nearest)
    return tuple(sorted(found, key=lambda t: t.diameter))


def steps_needed(*, torque: float, limit: float, pilot: float, diameter: float) -> int:
    """Steps before the last, 0 to 3, that keep each cut within a torque [N·m]: it goes with the area.

    >>> steps_needed(torque=10, limit=6, pilot=0, diameter=12)
    1
    """
    check_range("limit", limit, low=1e-9, unit="N.m")
    share = torque * (1 - (pilot / diameter) ** 2) / limit
    return min(max(ceil(share) - 1, 0), 3)


def finish_tool(diameter: float, tools: Sequence[Tool]) -> tuple[Tool, bool]:
    """The tool of a diameter and whether it is owned; a tool that is not owned is named by its size.

    >>> finish_tool(5.1054, [])
    (Tool(name='#7', diameter=5.1054), False)
    """
    found = owned(diameter, tools)
    if found:
        return found, True
    known = [drill for drill in every_drill() if abs(drill.diameter - diameter) <= SAME]
    named = min(known, key=lambda d: _PLAINEST.index(d.series), default=None)
    return (Tool(named.name, diameter) if named else unnamed(diameter)), False
