"""The hole plan drawn: the bar in section, each tool's reach, the pecks and the point."""

from __future__ import annotations

from engine.base.answer import Line, Picture, Polygon, Shape, Size
from engine.base.outlines import across, along, both_sides, cut_ring, dia
from engine.base.words import counted, plain, say, shown
from engine.drilling.plan import HolePlan, ToolCut

_BAR = 2.0  # hole diameters: how thick a bar is drawn whose size is not known
_FLOOR = 0.3  # hole diameters of metal drawn beyond the point of a blind hole


def picture(plan: HolePlan, *, depth: float, blind: bool, outside: float | None) -> Picture:
    """The bar in section with its face at x = 0 and the hole going to the right; `table` marks the tool in hand.

    True to its numbers: every tool's outline ends at its own depth, every peck stands at its depth.
    """
    size = plan.last_drill.tool.diameter
    half = max(outside or 0.0, _BAR * size) / 2 if outside is None or outside > size else outside / 2
    end = plan.travel + _FLOOR * size if blind else depth
    shapes: list[Shape] = [*_metal(plan, size / 2, half, end, blind), Line(-0.3 * size, 0, end + 0.3 * size, 0, 2)]
    for row, cut in enumerate(plan.cuts, 1):
        shapes += _tool(cut, plan, row, end)
        tip = min(cut.depth, end)
        one = say("{tool} to {deep}", tool=cut.kind, deep=shown(tip, decimals=2))
        shapes.append(Size(0, -half, tip, -half, one, "below", row, if_marked=True))
    last = plan.last_drill
    shapes += [Line(peck, -size / 2, peck, size / 2, 0) for peck in last.pecks[:-1]]
    shapes.append(along(0, depth, half, shown(depth, decimals=2)))
    if blind:
        shapes.append(along(0, plan.travel, -half, shown(plan.travel, decimals=2)))
    shapes.append(across(-size / 2, size / 2, 0, dia(size)))
    if outside is not None:
        shapes.append(across(-half, half, end, dia(outside), side="right"))
    text = "The bar in section: {tools} tools, the last of {size} with its tip {travel} from the face in {pecks}."
    pecks, travel = counted(len(last.pecks), "peck"), shown(plan.travel, decimals=2)
    alt = say(text, tools=len(plan.cuts), size=plain(size), travel=travel, pecks=pecks)
    return Picture("hole", "The hole in section", tuple(shapes), alt, table="steps")


def _metal(plan: HolePlan, radius: float, half: float, end: float, blind: bool) -> list[Shape]:
    """The bar cut open: one piece round a blind hole, two beside one that goes through."""
    if not blind:
        return cut_ring([(0, half), (0, radius), (end, radius), (end, half)])
    wall = [(0.0, half), (0.0, radius), (plan.travel - plan.point, radius), (plan.travel, 0.0)]
    corners = [*wall, *[(x, -y) for x, y in reversed(wall[:-1])], (end, -half), (end, half)]
    return [Polygon(tuple(corners), cut=True)]


def _tool(cut: ToolCut, plan: HolePlan, row: int, end: float) -> list[Shape]:
    """What one tool leaves: its sides, and its point where it has one."""
    radius = cut.tool.diameter / 2
    if cut.kind == "reamer":
        return both_sides([(0, radius), (min(cut.depth, end), radius)], row=row, weight=0)
    if cut.kind == "centre" and plan.centre is not None:
        return _centre(plan, cut, row)
    point = plan.point * radius * 2 / plan.last_drill.tool.diameter
    shoulder = cut.depth - point
    weight = 1 if cut.kind == "drill" else 0
    if shoulder >= end:
        return both_sides([(0, radius), (end, radius)], row=row, weight=weight)
    return both_sides([(0, radius), (shoulder, radius), (cut.depth, 0)], row=row, weight=weight)


def _centre(plan: HolePlan, cut: ToolCut, row: int) -> list[Shape]:
    """The mouth and the pilot of a centre drill, or the cone of a spotting drill."""
    centre = plan.centre
    assert centre is not None
    if not centre.pilot:
        return both_sides([(0, centre.mouth / 2), (cut.depth, 0)], row=row, weight=0)
    cone = (centre.mouth - centre.pilot) / 2 * 3**0.5
    pilot = centre.pilot / 2
    return both_sides([(0, centre.mouth / 2), (cone, pilot), (cut.depth, pilot), (cut.depth, 0)], row=row, weight=0)
