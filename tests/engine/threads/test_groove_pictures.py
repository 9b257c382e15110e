"""The pictures are to scale: wires touch the flanks, passes stay within the last one."""

from itertools import pairwise
from math import hypot

import pytest

from engine.base.answer import Circle, Line, Polygon
from engine.base.operation import run
from engine.shop.file import sample

METRIC = sample("metric")


def _distance(x, y, start, end):
    """From a point to a straight piece."""
    (x1, y1), (x2, y2) = start, end
    along = hypot(x2 - x1, y2 - y1) ** 2
    share = 0 if not along else max(0, min(1, ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / along))
    return hypot(x - x1 - share * (x2 - x1), y - y1 - share * (y2 - y1))


@pytest.mark.parametrize("size", ["M10", "3/8 BSW", "2BA", "Tr14x6(P3)", "3/4-6 ACME", "Tr8x8(P2)"])
def test_wires_touch_the_flanks(size):
    answer = run("three-wires", {"size": size}, METRIC).answer
    shapes = answer.pictures[0].shapes
    outline = next(shape.points for shape in shapes if isinstance(shape, Polygon))
    wires = [shape for shape in shapes if isinstance(shape, Circle)]
    assert len(wires) == 3
    lead = answer.figure("lead_correction").value
    for wire in wires:
        near = min(_distance(wire.x, wire.y, *piece) for piece in pairwise((*outline, outline[0])))
        # In plain section the wire stands off by half of what the lead adds, or less.
        assert wire.radius - 1e-3 <= near <= wire.radius + lead / 2 + 1e-3


@pytest.mark.parametrize("size", ["M10", "M10-6H", "Tr12x3"])
def test_every_pass_is_drawn_within_the_last(size):
    answer = run("screwcutting", {"size": size}, METRIC).answer
    table, picture = answer.table("passes"), answer.pictures[0]
    cuts = [number for number, kind in zip(table.column("pass"), table.column("kind"), strict=True) if kind != "spring"]
    lines = [shape for shape in picture.shapes if isinstance(shape, Line) and shape.row]
    assert picture.table == "passes"
    assert sorted({line.row for line in lines}) == cuts
    depth = table.column("total_depth")[-1]
    assert max(abs(line.y2) for line in lines) == pytest.approx(depth)
    last = [line for line in lines if line.row == cuts[-1]]
    left, right = min(line.x1 for line in last), max(line.x2 for line in last)
    for line in lines:
        assert left - 1e-9 <= min(line.x1, line.x2)
        assert max(line.x1, line.x2) <= right + 1e-9
