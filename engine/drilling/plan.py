"""The tools of a hole in their order, each with its speed, feed, depth and pecks."""

from __future__ import annotations

from collections.abc import Sequence
from math import pi
from typing import Literal

from engine.base.records import dataclass, replace
from engine.base.refusals import check_range
from engine.base.tool import Tool
from engine.cutting.feeds import FeedRange, feed
from engine.cutting.forces import BELT_DRIVE, DrillLoad, drilling_load, torque_power
from engine.cutting.materials import Material
from engine.cutting.speeds import SpeedRange, SpindleSpeed, surface_speed
from engine.drilling import holes
from engine.drilling.bench import Machine, speed_on
from engine.drilling.centres import CentreDrill, centre_drill
from engine.drilling.reaming import flutes_of
from engine.drilling.thrust import drill_thrust

MOTOR_SHARE = 0.7  # of the motor's power: more than that in one drill and the belt slips (common practice)
_SLOWEST = 1 / 3  # of the ideal speed: slower than that for the motor, drill in steps (common practice, no source)
_MOST_STEPS = 6  # drills that open a hole before the last: with more, bore it

Kind = Literal["centre", "pilot", "step", "drill", "reamer"]
Start = Literal["solid", "centred", "drilled"]
STARTS = ("solid", "centred", "drilled")


@dataclass(frozen=True, slots=True)
class ToolCut:
    """One tool of a hole. Lengths in mm, `feed` in mm a turn, `load` for the metal that this tool takes away.

    `before` is the hole that was there all the way. `depth` is of the tip from the face; `pecks` are the depths
    at which it is drawn out, the last being `depth`.
    """

    kind: Kind
    tool: Tool
    owned: bool
    published: SpeedRange
    speed: SpindleSpeed
    published_feed: FeedRange
    feed: float
    reduced: holes.Reduction
    depth: float
    pecks: tuple[float, ...]
    load: DrillLoad
    before: float
    slowed: bool = False  # slower than its diameter asks, for the motor

    @property
    def power(self) -> float:
        """Power at the cut. [W]"""
        return torque_power(torque=self.load.torque, speed=self.speed.chosen)

    @property
    def seconds(self) -> float:
        """Time with the tool in the cut, clearing the chips not counted. [s]"""
        return 60 * self.depth / (self.feed * self.speed.chosen)


@dataclass(frozen=True, slots=True)
class HolePlan:
    """Every tool of a hole, and what the last drill reaches. Lengths in mm.

    `bore_to` is the diameter that the motor turns no drill of, so that it is bored after the last one; 0 where it does.
    """

    cuts: tuple[ToolCut, ...]
    centre: CentreDrill | None
    point: float
    travel: float
    bore_to: float = 0.0

    @property
    def last_drill(self) -> ToolCut:
        """The drill that makes the hole's own diameter, or leaves it for the reamer or the boring tool."""
        return next(cut for cut in reversed(self.cuts) if cut.kind == "drill")


def plan_hole(
    *,
    diameter: float,
    depth: float,
    material: Material,
    machine: Machine,
    drills: Sequence[Tool],
    pilot: float | None = None,
    reamer: Tool | None = None,
    reamer_owned: bool = False,
    point_angle: float = holes.JOBBER_POINT,
    standard: str = "iso",
    starters: Sequence[str] = (),
    start: Start = "solid",
    existing: float = 0.0,
) -> HolePlan:
    """Plan a hole from its centre to its last peck.

    diameter: Diameter of the last drill, above 0. [mm]
    depth: Depth at full diameter, above 0, up to 50 diameters. [mm]
    material, machine, drills: What is drilled, where, and the owned drills.
    pilot: Pilot drill that was asked for; None to choose. [mm]
    reamer, reamer_owned: The reamer that finishes the hole, and whether it is owned.
    point_angle: Point angle of the drills. [deg]
    standard: Standard of the centre drill: `iso` or `asme`.
    starters: Centre and spotting drills that the shop lists.
    start: What is there: `solid` metal, a hole that is `centred`, or one that is `drilled` to `existing`.
    existing: Diameter of the hole that goes all the way already, 0 for none. [mm]
    Returns: The tools in order. [mm]
    Raises: OutOfRange if the depth is more than 50 diameters.
    Source: Speeds and feeds: engine.cutting. Pilot, steps and pecks: engine.drilling.holes. Start:
        engine.drilling.centres.

    >>> from engine.cutting.materials import find
    >>> from engine.drilling.bench import machine_of
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> plan = plan_hole(diameter=8, depth=20, material=find("mild steel"), machine=machine_of(shop, None),
    ...                  drills=shop.drills)
    >>> [cut.kind for cut in plan.cuts], plan.last_drill.speed.chosen, round(plan.travel, 3)
    (['centre', 'drill'], 1000.0, 22.403)
    """
    deepest = holes.DEEPEST * diameter
    check_range("depth", depth, low=0.001, high=deepest, unit="mm", why="50 diameters of a twist drill")
    maker = _Maker(material, machine, drills, depth, point_angle)
    opened, last = _drilled(maker, diameter, pilot, existing)
    bore_to = 0.0
    if not maker.can_turn(last) and (widest := _widest(maker, diameter, existing)):
        diameter, bore_to = widest, diameter
        opened, last = _drilled(maker, diameter, pilot if pilot and pilot < diameter else None, existing)
    centre = centre_drill(diameter=diameter, standard=standard, owned=starters) if start == "solid" else None
    cuts = [maker.centre(centre, diameter)] if centre else []
    cuts += [*opened, last]
    if reamer is not None and not bore_to:
        cuts.append(maker.ream(reamer, reamer_owned, depth, diameter))
    point = holes.point_length(diameter=diameter, angle=point_angle)
    return HolePlan(tuple(cuts), centre, point, depth + point, bore_to)


def _widest(maker: _Maker, diameter: float, existing: float) -> float:
    """The largest owned drill that the motor turns on the way to a larger hole; 0 if there is none."""
    sizes = sorted({t.diameter for t in maker.stout(diameter) if existing < t.diameter < diameter}, reverse=True)
    return next((s for s in sizes if maker.can_turn(_drilled(maker, s, None, existing)[1])), 0.0)


def _drilled(maker: _Maker, diameter: float, pilot: float | None, existing: float) -> tuple[list[ToolCut], ToolCut]:
    """The drills before the last, and the last."""
    opened = _pilot_and_steps(maker, diameter, pilot, existing)
    before = max([existing, *(cut.tool.diameter for cut in opened if maker.goes_all_the_way(cut, diameter))])
    tool, is_owned = holes.finish_tool(diameter, maker.drills)
    return opened, maker.drill("drill", tool, is_owned, before, diameter)


def _pilot_and_steps(maker: _Maker, diameter: float, pilot: float | None, existing: float) -> list[ToolCut]:
    """The drills before the last: a pilot for the chisel edge, and steps while the last asks too much."""
    found: list[ToolCut] = []
    if pilot is not None:
        tool, is_owned = holes.finish_tool(pilot, maker.drills)
        found.append(maker.drill("pilot", tool, is_owned, existing, diameter))
    elif not existing and diameter >= holes.pilot_from(maker.material):
        chosen = holes.pilot_for(diameter, maker.drills)
        found += [maker.drill("pilot", chosen, True, 0.0, diameter)] if chosen else []
    before = max([existing, *(cut.tool.diameter for cut in found if maker.goes_all_the_way(cut, diameter))])
    last = maker.drill("drill", Tool("", diameter), True, before, diameter)
    if maker.machine.motor is None or maker.can_turn(last):
        return found
    limit = maker.most_torque(last)
    half = maker.point_angle / 2
    full = drilling_load(material=maker.material, diameter=diameter, feed=last.feed, half_point=half).torque
    count = holes.steps_needed(torque=full, limit=limit, pilot=before, diameter=diameter)
    tools = holes.between(pilot=before, diameter=diameter, count=count, tools=maker.stout(diameter))
    even = _opened(maker, diameter, before, tools)
    widest = even[-1].tool.diameter if even else before
    if all(map(maker.can_turn, even)) and maker.can_turn(maker.drill("drill", last.tool, True, widest, diameter)):
        return found + even
    return found + _largest_steps(maker, diameter, before)


def _opened(maker: _Maker, diameter: float, before: float, tools: Sequence[Tool]) -> list[ToolCut]:
    found = []
    for tool in tools:
        found.append(maker.drill("step", tool, True, before, diameter))
        before = tool.diameter
    return found


def _largest_steps(maker: _Maker, diameter: float, before: float) -> list[ToolCut]:
    """The owned drills that the motor turns, each the largest after the one before it, until it turns the last too."""
    found: list[ToolCut] = []
    while len(found) < _MOST_STEPS:
        last = maker.drill("drill", Tool("", diameter), True, before, diameter)
        if found and maker.can_turn(last):
            break
        wider = [t for t in maker.stout(diameter) if 1.1 * before < t.diameter < 0.97 * diameter]
        cuts = [maker.drill("step", tool, True, before, diameter) for tool in wider]
        turned = [cut for cut in cuts if maker.can_turn(cut)]
        if not turned:
            break
        found.append(max(turned, key=lambda cut: cut.tool.diameter))
        before = found[-1].tool.diameter
    return found


@dataclass(frozen=True, slots=True)
class _Maker:
    """What every tool of one hole shares; `depth` is that at full diameter."""

    material: Material
    machine: Machine
    drills: Sequence[Tool]
    depth: float
    point_angle: float

    def travel(self, diameter: float) -> float:
        """Depth of the tip of the last drill."""
        return self.depth + holes.point_length(diameter=diameter, angle=self.point_angle)

    def stout(self, diameter: float) -> list[Tool]:
        """The owned drills that a hole of a diameter is not too deep for."""
        slenderest = self.travel(diameter) / holes.DEEPEST
        return [tool for tool in self.drills if tool.diameter >= slenderest]

    def most_torque(self, cut: ToolCut) -> float:
        """Torque that the motor has for a tool at its speed."""
        return MOTOR_SHARE * BELT_DRIVE * (self.machine.motor or 0.0) * 60 / (2 * pi * cut.speed.chosen)

    def can_turn(self, cut: ToolCut) -> bool:
        """Whether the motor turns a tool; any, where its power is not known."""
        return self.machine.motor is None or cut.load.torque <= self.most_torque(cut) * (1 + 1e-9)

    def goes_all_the_way(self, cut: ToolCut, diameter: float) -> bool:
        """Whether a drill clears the way for the last one to the end."""
        return cut.depth >= self.travel(diameter) - 1e-9

    def centre(self, centre: CentreDrill, diameter: float) -> ToolCut:
        """The centre or spotting drill, turned as a drill of the width that it makes."""
        tool = Tool(centre.name, centre.pilot or centre.mouth)
        published = surface_speed(material=self.material, operation="drilling")
        speed = speed_on(self.machine, diameter=centre.mouth, surface_speed=published.chosen)
        rate = feed(kind="drilling", diameter=tool.diameter)
        depth = min(centre.depth, self.travel(diameter))
        is_owned = centre.owned is not False
        return self._cut("centre", tool, is_owned, published, speed, rate, depth, 0.0, holes.Reduction(1.0, 1.0))

    def drill(self, kind: Kind, tool: Tool, is_owned: bool, before: float, diameter: float) -> ToolCut:
        """A drill on the way to the last one, of `diameter`, or that one."""
        depth = self._reach(kind, tool, diameter)
        full_depth = depth - holes.point_length(diameter=tool.diameter, angle=self.point_angle)
        reduced = holes.reduction(full_depth / tool.diameter + 1e-9)
        published = surface_speed(material=self.material, operation="drilling")
        chosen, top = published.chosen * reduced.speed, published.high * reduced.speed
        speed = speed_on(self.machine, diameter=tool.diameter, surface_speed=chosen, top=top)
        rate = feed(kind="drilling", diameter=tool.diameter)
        cut = self._cut(kind, tool, is_owned, published, speed, rate, depth, before, reduced)
        return cut if self.can_turn(cut) else self._eased(cut)

    def _eased(self, cut: ToolCut) -> ToolCut:
        """The same tool at the first slower step that the motor turns it at; as it was where none is near enough."""
        speed = cut.speed
        slower = [step for step in self.machine.speeds if _SLOWEST * speed.ideal <= step < speed.chosen]
        for step in sorted(slower, reverse=True):
            turned = replace(speed, chosen=step, surface_speed=speed.surface_speed * step / speed.chosen, inside=False)
            eased = replace(cut, speed=turned, slowed=True)
            if self.can_turn(eased):
                return eased
        return cut

    def _reach(self, kind: Kind, tool: Tool, diameter: float) -> float:
        travel = self.travel(diameter)
        if kind != "pilot":
            return travel
        return holes.pilot_depth(pilot=tool.diameter, travel=travel, diameter=diameter, angle=self.point_angle)

    def ream(self, tool: Tool, is_owned: bool, depth: float, before: float) -> ToolCut:
        published = surface_speed(material=self.material, operation="reaming")
        speed = speed_on(self.machine, diameter=tool.diameter, surface_speed=published.chosen)
        rate = feed(kind="reaming", diameter=tool.diameter)
        no_less = holes.Reduction(1.0, float(flutes_of(tool.diameter)))
        return self._cut("reamer", tool, is_owned, published, speed, rate, depth, before, no_less)

    def _cut(
        self, kind: Kind, tool: Tool, is_owned: bool, published: SpeedRange, speed: SpindleSpeed, rate: FeedRange,
        depth: float, before: float, reduced: holes.Reduction,
    ) -> ToolCut:  # fmt: skip
        per_turn, half, stuff, size = rate.chosen * reduced.feed, self.point_angle / 2, self.material, tool.diameter
        full = drilling_load(material=stuff, diameter=size, feed=per_turn, half_point=half)
        left = 1 - (before / size) ** 2
        whole, tough = kind in ("centre", "reamer"), stuff.machining != "free"
        pecks = (depth,) if whole else holes.pecks(diameter=size, depth=depth, tough=tough)
        thrust = 0.0  # a reamer is hardly pressed
        if kind != "reamer":
            thrust = drill_thrust(material=stuff, diameter=size, feed=per_turn, half_point=half, before=before)
        load = DrillLoad(torque=full.torque * left, thrust=thrust)
        return ToolCut(kind, tool, is_owned, published, speed, rate, per_turn, reduced, depth, pecks, load, before)
