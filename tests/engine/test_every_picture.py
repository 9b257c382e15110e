"""Every operation's picture: there where a look helps, true to its numbers, its words clear of one another."""

import math
import re
from functools import cache

import pytest

from engine.base.answer import Circle, Label, Line, Pointer, Polygon, Size
from engine.base.layout import Paper, Words, laid_out
from engine.base.operation import run
from engine.base.register import CATALOG, load
from engine.base.words import write
from engine.jobs.svg import svg
from engine.shop.file import sample
from tests.rows import each_row
from tests.shapes import edges, said, sizes

IDS = [entry.id for entry in CATALOG]


@cache
def answer_of(operation_id, shop="metric"):
    return run(operation_id, dict(load(operation_id).example), sample(shop)).answer


def picture_of(operation_id, **given):
    return run(operation_id, {k.rstrip("_"): v for k, v in given.items()}, sample("metric")).answer.pictures[0]


@each_row("operation_id", IDS)
def test_every_operation_has_a_picture_with_a_number_in_it(operation_id):
    picture = answer_of(operation_id).pictures[0]
    assert any(any(c.isdigit() for c in text) for text in said(picture))
    assert write(picture.alt).endswith(".")
    assert svg(picture)[0].startswith("<svg")


@each_row("shop", ["metric", "inch"])
@each_row("operation_id", IDS)
def test_a_dimension_measures_what_it_says(operation_id, shop):
    picture = answer_of(operation_id, shop).pictures[0]
    if re.search(r"times as (large|deep|thick|wide|far)", write(picture.alt)):
        return  # something in it is enlarged, and it says so: tried one by one below
    for text, apart in sizes(picture).items():
        found = re.search(r"([\d.]+) mm", text)
        if found:
            decimals = len(found[1].partition(".")[2])
            assert apart == pytest.approx(float(found[1]), abs=1.01 * 10**-decimals), text


def boxes(sheet, letter, row):
    for mark in sheet.marks:
        if isinstance(mark, Words) and mark.size:
            wide = len(mark.text) * letter
            start = mark.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[mark.anchor] * wide
            yield start, mark.y - 0.5 * row, start + wide, mark.y + 0.5 * row, mark.text


@each_row("paper", [Paper(77, 30, 1.0, 2.0), Paper(59, 46, 1.0, 2.0), Paper(178, 68, 1.6, 4.2)])
@each_row("operation_id", IDS)
def test_no_words_beside_a_picture_cover_others_or_leave_the_paper(operation_id, paper):
    picture = answer_of(operation_id).pictures[0]
    sheet = laid_out(picture, paper, lambda s: write(s.text) if isinstance(s, Label | Size | Pointer) else "")
    found = list(boxes(sheet, paper.letter, paper.row))
    for i, (left, top, right, bottom, text) in enumerate(found):
        assert left >= -1e-6 and right <= sheet.width + 1e-6 and top >= -1e-6 and bottom <= sheet.height + 1e-6, text
        for other in found[i + 1 :]:
            apart = left >= other[2] or right <= other[0] or top >= other[3] - 1e-6 or bottom <= other[1] + 1e-6
            assert apart, (text, other[4])


def test_cuts_are_drawn_row_by_row_to_one_scale():
    answer = answer_of("turn-to-size")
    picture, table = answer.pictures[0], answer.table("cuts")
    times = int(re.search(r"drawn (\d+) times", write(picture.alt))[1]) if "drawn" in write(picture.alt) else 1
    end = table.column("diameter")[-1]
    for row, (diameter, stop) in enumerate(zip(table.column("diameter"), table.column("stop"), strict=True), 1):
        line = next(e for e in edges(picture) if e.row == row)
        assert abs(line.y1) == pytest.approx(end / 2 + (diameter - end) / 2 * times)
        assert line.x2 - line.x1 == pytest.approx(stop)
    assert list(sizes(picture, row=1)) == ["cut 1: Ø27.05 mm, stop 19.7 mm"] or "cut 1: Ø" in next(
        iter(sizes(picture, row=1))
    )


def test_a_bore_is_cut_outwards_and_a_face_back():
    bored, faced = answer_of("bore-to-size"), answer_of("face-to-length")
    radii = [
        next(abs(e.y1) for e in edges(bored.pictures[0]) if e.row == r)
        for r in range(1, len(bored.table("cuts").rows) + 1)
    ]
    assert radii == sorted(radii) and radii[-1] == pytest.approx(9)
    places = [
        next(e.x1 for e in edges(faced.pictures[0]) if e.row == r) for r in range(1, len(faced.table("cuts").rows) + 1)
    ]
    assert places == sorted(places, reverse=True) and places[-1] == pytest.approx(40)


def test_the_blade_reaches_past_the_middle_or_into_the_bore():
    for bore, tip in (("0", -0.5), ("10", 4.5)):
        picture = picture_of("part-off", diameter="20", bore=bore, blade="2")
        (blade,) = [s for s in picture.shapes if isinstance(s, Polygon) and s.filled]
        assert min(y for _, y in blade.points) == pytest.approx(tip)
        assert max(x for x, _ in blade.points) - min(x for x, _ in blade.points) == pytest.approx(2)


@pytest.mark.parametrize(("support", "at", "share"), [("chuck", 1.0, 1.0), ("centre", 0.5, 1.0), ("centres", 0.5, 1.0)])
def test_a_bent_bar_has_the_shape_of_beam_theory(support, at, share):
    """Fixed at one end: y = F x² (3 L - x) / 6 E I; both ends rest (and one fixed): level where they rest."""
    from engine.turning.holding_pictures import _BENT

    bend = _BENT[support]
    assert bend(at) == pytest.approx(share) and bend(0.0) == 0
    assert bend(1.0) == pytest.approx(1.0 if support == "chuck" else 0.0)
    if support == "chuck":
        assert bend(0.5) == pytest.approx(5 / 16)  # Machinery's Handbook, beams, case of a load at the free end
    if support == "centres":
        assert bend(0.25) == pytest.approx(11 / 16)


def test_packing_lifts_the_bar_by_the_throw():
    """Three jaws of one scroll stand alike from the axis: two touch the bar, one the packing."""
    picture = picture_of("eccentric", throw="3", diameter="30")
    bar = next(s for s in picture.shapes if isinstance(s, Circle))
    assert (bar.x, bar.y, bar.radius) == (0, 3, 15)
    (packing,) = [s for s in picture.shapes if isinstance(s, Polygon) and s.filled]
    reach = -min(y for _, y in packing.points)
    touch = reach * math.sin(math.radians(60)), reach * math.cos(math.radians(60))
    assert math.hypot(touch[0], touch[1] - 3) == pytest.approx(15)
    assert max(y for _, y in packing.points) == 3 - 15


@pytest.mark.parametrize(("wheels", "used"), [("20,25,30,35,40,45,50,60,65,127", "4"), ("20,30,40,60", "2")])
def test_wheels_mesh_at_their_pitch_circles(wheels, used):
    answer = run(
        "change-gears", {"size": "M10", "wheels": wheels, "wheels_used": used, "module": "1"}, sample("metric")
    ).answer
    circles = [s for s in answer.pictures[0].shapes if isinstance(s, Circle) and s.radius != 7]
    drivers = [int(n) for n in answer.figure("drivers").text.split(", ")]
    driven = [int(n) for n in answer.figure("driven").text.split(", ")]
    radii = {round(2 * c.radius) for c in circles}
    assert set(drivers) | set(driven) <= radii
    for a, b in zip(drivers, driven, strict=True) if len(drivers) > 1 else ():
        one = next(c for c in circles if c.radius == a / 2)
        other = next(c for c in circles if c.radius == b / 2)
        assert math.hypot(one.x - other.x, one.y - other.y) == pytest.approx((a + b) / 2)
    if len(drivers) == 1:
        first, idler, last = circles
        for a, b in ((first, idler), (idler, last)):
            assert math.hypot(a.x - b.x, a.y - b.y) == pytest.approx(a.radius + b.radius)


def test_a_knurl_has_its_teeth_and_closes():
    answer = answer_of("knurl-blank")
    teeth = answer.figure("teeth").value
    flanks = [e for e in edges(answer.pictures[0]) if e.weight == 3]
    assert len(flanks) == 2 * teeth
    assert max(math.hypot(e.x1, e.y1) for e in flanks) == pytest.approx(answer.figure("finished_diameter").value / 2)
    assert (flanks[-1].x2, flanks[-1].y2) == (flanks[0].x1, flanks[0].y1)


def test_zones_stand_where_their_deviations_put_them():
    """12 H7/g6 of ISO 286: 0 to +18 and -17 to -6 µm."""
    hole, shaft = [s for s in picture_of("fit", diameter="12", fit="H7/g6").shapes if isinstance(s, Polygon)]
    heights = [sorted({y for _, y in zone.points}) for zone in (hole, shaft)]
    scale = heights[0][1] / 18
    assert heights[0][0] == 0 and [y / scale for y in heights[1]] == pytest.approx([-17, -6])


def test_a_groove_is_as_wide_and_as_deep_as_the_table_says():
    answer = answer_of("thread-relief")
    points = {(round(e.x1, 6), round(e.y1, 6)) for e in edges(answer.pictures[0]) if e.weight == 1}
    deep, wide, floor = (answer.figure(n).value for n in ("relief_diameter", "relief_width", "relief_floor"))
    assert {(0, deep / 2), (floor, deep / 2), (wide, 5)} <= points


def test_the_wheel_stands_where_each_move_leaves_it():
    answer = answer_of("knurl-passes")
    out = max(e.x2 for e in edges(answer.pictures[0]) if e.weight == 0 and not e.row and e.y1 == e.y2 == -9)
    for row, edge in enumerate(answer.table("passes").column("edge"), 1):
        (wheel,) = [s for s in answer.pictures[0].shapes if isinstance(s, Polygon) and s.row == row]
        assert out - min(x for x, _ in wheel.points) == pytest.approx(edge)


def test_what_belongs_to_a_row_is_only_told_in_hand():
    picture = answer_of("hole-plan").pictures[0]
    waiting = [s for s in picture.shapes if getattr(s, "if_marked", False)]
    assert {s.row for s in waiting} == set(range(1, len(answer_of("hole-plan").table("steps").rows) + 1))
    paper = Paper(77, 40, 1.0, 2.0)
    write_it = lambda s: write(s.text) if isinstance(s, Label | Size | Pointer) else ""  # noqa: E731
    told = [{m.text for m in laid_out(picture, paper, write_it, row).marks if isinstance(m, Words)} for row in (0, 2)]
    assert told[1] - told[0] == {write(s.text) for s in waiting if s.row == 2}


def test_the_screw_the_hole_and_the_reamers_share_are_drawn_apart():
    clearance = answer_of("clearance-hole").pictures[0]
    heights = {abs(e.y1) for e in edges(clearance) if e.y1 == e.y2}
    assert {3.3, 3.0} <= heights  # M6 in a hole of 6.6 (ISO 273, medium)
    reamed = answer_of("ream").pictures[0]
    assert 4.0 in {abs(e.y1) for e in edges(reamed)} and isinstance(reamed.shapes[0], Polygon | Line)
