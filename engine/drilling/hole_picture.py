"""The hole plan drawn: the bar in section, each tool's reach, the pecks and the point."""

from __future__ import annotations

from engine.base.answer import Line, Picture, Shape
from engine.base.words import plain, say, shown
from engine.drilling.plan import HolePlan, ToolCut
from engine.drilling.section import across, along, both_sides, hatched

_BAR = 2.0  # hole diameters: how thick a bar is drawn whose size is not known
_FLOOR = 0.3  # hole diameters of metal drawn beyond the point of a blind hole
_OFF = 0.5  # hole diameters from the bar to a dimension line


def picture(plan: HolePlan, *, depth: float, blind: bool, outside: float | None) -> Picture:
    """The bar in section with its face at x = 0 and the hole going to the right; `table` marks the tool in hand.

    True to its numbers: every tool's outline ends at its own depth, every peck stands at its depth.
    """
    size = plan.last_drill.tool.diameter
    half = max(outside or 0.0, _BAR * size) / 2 if outside is None or outside > size else outside / 2
    end = plan.travel + _FLOOR * size if blind else depth
    off = _OFF * size
    shapes: list[Shape] = [
        *both_sides([(0, size / 2), (0, half), (end, half)]),
        *([Line(end, -half, end, half, 1)] if blind else both_sides([(end, size / 2), (end, half)])),
        Line(-off, 0, end + off, 0, 2),
        *hatched(0, size / 2, end, half),
        *hatched(0, -half, end, -size / 2),
    ]
    for row, cut in enumerate(plan.cuts, 1):
        shapes += _tool(cut, plan, row, end)
    last = plan.last_drill
    for peck in last.pecks[:-1]:
        shapes.append(Line(peck, -size / 2, peck, size / 2, 0))
    shapes += along(0, depth, half, half + off, shown(depth, decimals=2))
    if blind:
        shapes += along(0, plan.travel, -half, -half - off, shown(plan.travel, decimals=2))
    shapes += across(-size / 2, size / 2, 0, -off, shown(size, decimals=2))
    alt = say(
        "The bar in section: {tools} tools, the last of {size} with its tip {travel} from the face in {pecks}.",
        tools=len(plan.cuts),
        size=plain(size),
        travel=shown(plan.travel, decimals=2),
        pecks=f"{len(last.pecks)} peck{'' if len(last.pecks) == 1 else 's'}",
    )
    return Picture("hole", "The hole in section", tuple(shapes), alt, table="steps")


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
    return both_sides(
        [(0, centre.mouth / 2), (cone, centre.pilot / 2), (cut.depth, centre.pilot / 2), (cut.depth, 0)],
        row=row,
        weight=0,
    )
