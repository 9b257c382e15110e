"""The tools of a hole in their order, each with its speed, feed, depth and pecks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

from engine.base.lists import Tool
from engine.base.refusals import check_range
from engine.cutting.feeds import FeedRange, feed
from engine.cutting.forces import BELT_DRIVE, DrillLoad, drilling_load, torque_power
from engine.cutting.materials import Material
from engine.cutting.speeds import SpeedRange, SpindleSpeed, surface_speed
from engine.drilling import holes
from engine.drilling.bench import Machine, speed_on
from engine.drilling.centres import CentreDrill, centre_drill
from engine.drilling.reaming import flutes_of

MOTOR_SHARE = 0.7  # of the motor's power: more than that in one drill and the belt slips (common practice)

Kind = Literal["centre", "pilot", "step", "drill", "reamer"]


@dataclass(frozen=True, slots=True)
class ToolCut:
    """One tool of a hole. Lengths in mm, `feed` in mm a turn, `load` for the metal that this tool takes away.

    `before` is the hole that was there. `depth` is of the tip from the face; `pecks` are the depths at which it is
    drawn out, the last being `depth`.
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
    """Every tool of a hole, and what the last drill reaches. Lengths in mm."""

    cuts: tuple[ToolCut, ...]
    centre: CentreDrill
    point: float
    travel: float

    @property
    def last_drill(self) -> ToolCut:
        """The drill that makes the hole's own diameter, or leaves it for the reamer."""
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
) -> HolePlan:
    """Plan a hole from its centre to its last peck.

    Parameters
    ----------
    diameter : float
        Diameter of the last drill, above 0. [mm]
    depth : float
        Depth at full diameter, above 0, up to 50 diameters. [mm]
    material : Material
        What is drilled.
    machine : Machine
        Where it is drilled.
    drills : sequence of Tool
        The owned drills.
    pilot : float or None
        Pilot drill that was asked for; None to choose. [mm]
    reamer : Tool or None
        The reamer that finishes the hole.
    reamer_owned : bool
        Whether it is owned.
    point_angle : float
        Point angle of the drills. [deg]
    standard : str
        Standard of the centre drill, which leads the first drill: `iso` or `asme`.

    Returns
    -------
    plan : HolePlan
        The tools in order. [mm]

    Raises
    ------
    OutOfRange
        If the depth is more than 50 diameters.

    Sources
    -------
    Speeds and feeds: engine.cutting. Pilot, steps and pecks: engine.drilling.holes.

    Examples
    --------
    >>> from engine.cutting.materials import find
    >>> from engine.drilling.bench import machine_of
    >>> from engine.shop.file import sample
    >>> shop = sample("metric")
    >>> plan = plan_hole(diameter=8, depth=20, material=find("mild steel"), machine=machine_of(shop, None),
    ...                  drills=shop.drills)
    >>> [cut.kind for cut in plan.cuts], plan.last_drill.speed.chosen, round(plan.travel, 3)
    (['centre', 'drill'], 630.0, 22.403)
    """
    check_range(
        "depth",
        depth,
        low=0.001,
        high=holes.DEEPEST * diameter,
        unit="mm",
        why="50 diameters of a twist drill",
    )
    point = holes.point_length(diameter=diameter, angle=point_angle)
    travel = depth + point
    maker = _Maker(material, machine, drills, travel, point_angle)
    opened = _pilot_and_steps(maker, diameter, pilot)
    first = opened[0].tool.diameter if opened else diameter
    centre = centre_drill(diameter=first, standard=standard)
    cuts = [maker.centre(centre)] if centre.pilot < first else []
    cuts += opened
    before = opened[-1].tool.diameter if opened else 0.0
    tool, is_owned = holes.finish_tool(diameter, drills)
    cuts.append(maker.drill("drill", tool, is_owned, before))
    if reamer is not None:
        cuts.append(maker.ream(reamer, reamer_owned, depth, diameter))
    return HolePlan(tuple(cuts), centre, point, travel)


def _pilot_and_steps(maker: _Maker, diameter: float, pilot: float | None) -> list[ToolCut]:
    """The drills before the last: a pilot for the chisel edge, and steps while the last asks too much."""
    found: list[ToolCut] = []
    if pilot is not None:
        tool, is_owned = holes.finish_tool(pilot, maker.drills)
        found.append(maker.drill("pilot", tool, is_owned, 0.0))
    elif diameter >= holes.PILOT_FROM and (chosen := holes.pilot_for(diameter, maker.drills)):
        found.append(maker.drill("pilot", chosen, True, 0.0))
    before = found[-1].tool.diameter if found else 0.0
    last = maker.drill("drill", Tool("", diameter), True, before)
    if maker.machine.motor is None:
        return found
    limit = MOTOR_SHARE * BELT_DRIVE * maker.machine.motor * 60 / (2 * pi * last.speed.chosen)
    full = drilling_load(
        material=maker.material, diameter=diameter, feed=last.feed, half_point=maker.point_angle / 2
    ).torque
    count = holes.steps_needed(torque=full, limit=limit, pilot=before, diameter=diameter)
    for step in holes.between(pilot=before, diameter=diameter, count=count, tools=maker.drills):
        found.append(maker.drill("step", step, True, found[-1].tool.diameter if found else 0.0))
    return found


@dataclass(frozen=True, slots=True)
class _Maker:
    """What every tool of one hole shares."""

    material: Material
    machine: Machine
    drills: Sequence[Tool]
    travel: float
    point_angle: float

    def centre(self, centre: CentreDrill) -> ToolCut:
        name = {"iso": "ISO", "asme": "No."}[centre.standard]
        tool = Tool(f"centre drill {name} {centre.size}", centre.pilot)
        published = surface_speed(material=self.material, operation="drilling")
        speed = speed_on(self.machine, diameter=centre.mouth, surface_speed=published.chosen)
        rate = feed(kind="drilling", diameter=centre.pilot)
        depth = min(centre.depth, self.travel)
        return self._cut("centre", tool, True, published, speed, rate, depth, 0.0, holes.Reduction(1.0, 1.0))

    def drill(self, kind: Kind, tool: Tool, is_owned: bool, before: float) -> ToolCut:
        depth = self._reach(tool) if kind in ("pilot", "step") else self.travel
        full_depth = depth - holes.point_length(diameter=tool.diameter, angle=self.point_angle)
        reduced = holes.reduction(full_depth / tool.diameter + 1e-9)
        published = surface_speed(material=self.material, operation="drilling")
        speed = speed_on(self.machine, diameter=tool.diameter, surface_speed=published.chosen * reduced.speed)
        rate = feed(kind="drilling", diameter=tool.diameter)
        return self._cut(kind, tool, is_owned, published, speed, rate, depth, before, reduced)

    def _reach(self, tool: Tool) -> float:
        """A pilot or step drill goes to the last drill's depth, or as deep as its flute clears chips."""
        flute = holes.flute_length(tool.diameter)
        deepest = holes.DEEPEST * tool.diameter if flute is None else flute
        return min(self.travel, deepest)

    def ream(self, tool: Tool, is_owned: bool, depth: float, before: float) -> ToolCut:
        published = surface_speed(material=self.material, operation="reaming")
        speed = speed_on(self.machine, diameter=tool.diameter, surface_speed=published.chosen)
        rate = feed(kind="reaming", diameter=tool.diameter)
        no_less = holes.Reduction(1.0, float(flutes_of(tool.diameter)))
        return self._cut("reamer", tool, is_owned, published, speed, rate, depth, before, no_less)

    def _cut(
        self,
        kind: Kind,
        tool: Tool,
        is_owned: bool,
        published: SpeedRange,
        speed: SpindleSpeed,
        rate: FeedRange,
        depth: float,
        before: float,
        reduced: holes.Reduction,
    ) -> ToolCut:
        per_turn = rate.chosen * reduced.feed
        full = drilling_load(
            material=self.material, diameter=tool.diameter, feed=per_turn, half_point=self.point_angle / 2
        )
        left = 1 - (before / tool.diameter) ** 2
        no_web = 1 - before / tool.diameter
        whole = kind in ("centre", "reamer")
        tough = self.material.machining != "free"
        return ToolCut(
            kind=kind,
            tool=tool,
            owned=is_owned,
            published=published,
            speed=speed,
            published_feed=rate,
            feed=per_turn,
            reduced=reduced,
            depth=depth,
            pecks=(depth,) if whole else holes.pecks(diameter=tool.diameter, depth=depth, tough=tough),
            load=DrillLoad(torque=full.torque * left, thrust=full.thrust * no_web),
            before=before,
        )
