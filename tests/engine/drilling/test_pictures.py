"""Pictures of holes by their shapes: every outline ends where its number says, hatching stays in the metal."""

import math

import pytest

from engine.base.answer import Label, Line
from engine.base.operation import run
from engine.base.outlines import across, along, hatching
from engine.base.words import write
from engine.shop.file import sample
from engine.trouble import trouble_for
from tests.shapes import edges


def _lines(operation, **given):
    return edges(run(operation, given, sample("metric")).answer.pictures[0])


@pytest.mark.parametrize("box", [(0, 2, 10, 5), (0, -5, 10, -2), (1, 0, 2, 30)])
def test_hatching_stays_in_its_rectangle(box):
    x1, y1, x2, y2 = box
    lines = hatching([(x1, y1), (x2, y1), (x2, y2), (x1, y2)], 1.0)
    assert len(lines) >= 9
    for a, b, c, d in lines:
        assert a + b == pytest.approx(c + d)  # 45 degrees
        assert all(x1 - 1e-9 <= x <= x2 + 1e-9 for x in (a, c)) and all(y1 - 1e-9 <= y <= y2 + 1e-9 for y in (b, d))
    assert hatching([(0, 0), (0, 0), (0, 0)], 1.0) == []


def test_dimensions_stand_on_their_own_side():
    assert along(0, 30, 5, "30").side == "above" and along(0, 30, -5, "30").side == "below"
    assert across(-2, 2, 0, "4").side == "left" and across(-2, 2, 0, "4", side="right").side == "right"


def test_the_centre_drills_mouth_and_pilot():
    # ISO 866 A2.5: pilot 2.5, mouth 5.3, a cone of 60 degrees
    first = [line for line in _lines("hole-plan", diameter="10", depth="20") if line.row == 1]
    assert max(abs(line.y1) for line in first) == 5.3 / 2
    cone = next(line for line in first if line.x1 == 0)
    assert (cone.x2, abs(cone.y2)) == (pytest.approx((5.3 - 2.5) / 2 / math.tan(math.radians(30))), 1.25)
    assert min(abs(line.y1) for line in first if line.x1 > 0) == 1.25


@pytest.mark.parametrize(("outside", "half"), [(None, 8.5), ("40", 20)])
def test_the_bar_round_the_hole(outside, half):
    given = {"diameter": "8.5", "depth": "25", **({"outside": outside} if outside else {})}
    heavy = [line for line in _lines("hole-plan", **given) if line.weight == 1 and not line.row]
    assert max(abs(line.y2) for line in heavy) == half
    assert max(line.x2 for line in heavy) > 25 + 8.5 / 2 / math.tan(math.radians(59))  # metal beyond the point
    through = [line for line in _lines("hole-plan", **given, hole="through") if line.weight == 1 and not line.row]
    assert max(line.x1 for line in through) == 25


def test_plates_round_the_seats():
    sink = [line for line in _lines("countersink", hole="6.6", diameter="12.6") if line.weight == 1]
    end = max(line.x2 for line in sink)
    assert {min(abs(line.y1), abs(line.y2)) for line in sink if line.x1 == line.x2 == end} == {
        3.3
    }  # the plate ends at the hole
    assert max(abs(line.y2) for line in sink) == pytest.approx(1.7 * 12.6 / 2)
    bore = [line for line in _lines("counterbore", size="M6") if line.weight == 1]
    assert max(abs(line.y2) for line in bore) == pytest.approx(1.7 * 11 / 2)
    assert {min(abs(line.y1), abs(line.y2)) for line in bore if line.x1 == line.x2 == 6.4} == {3.3}


def test_the_circle_its_centre_lines_and_its_numbers():
    given = {"holes": "6", "diameter": "50", "centre_x": "10", "hole": "5"}
    answer = run("hole-circle", given, sample("metric")).answer
    dashed = [s for s in answer.pictures[0].shapes if isinstance(s, Line) and s.weight == 2]
    assert {(s.x1, s.x2) for s in dashed} == {(10 - 1.15 * 25, 10 + 1.15 * 25), (10, 10)}
    for label in (s for s in answer.pictures[0].shapes if isinstance(s, Label)):
        assert math.hypot(label.x - 10, label.y) == pytest.approx(25 + 2.5 + 2.5)  # outside its hole


def _numbers(operation, **given):
    shop = sample("metric")
    done = run(operation, given, shop)
    return {t.id: write(t.number) for t in trouble_for(operation, done.answer, done.inputs, shop)}


def test_the_numbers_that_tell_a_fault():
    tap = _numbers("tap-drill", size="M6", depth="12")
    assert tap["TP-01"] == "drill 5.1 mm leaves 69 % of full thread"
    assert tap["TP-02"] == "5.1 mm below the thread, 5.1 turns" and tap["TP-03"] == ""
    assert _numbers("tap-drill", size="M6", depth="12", hole="through")["TP-02"] == ""
    hole = _numbers("hole-plan", diameter="8.5", depth="25")
    assert hole["DR-01"] == "this plan starts with: centre drill ISO 2.5"
    assert hole["DR-03"] == "2.9 diameters deep"
    assert _numbers("countersink", hole="6.6", diameter="12.6")["DR-06"].startswith("3.000 mm")
    assert _numbers("ream", diameter="8")["DR-04"] == "the drilled hole leaves 0.200 mm"
    assert _numbers("hole-circle", holes="4", diameter="20")["DR-07"] == "x has 0.100 mm, y 0.100 mm of play"
