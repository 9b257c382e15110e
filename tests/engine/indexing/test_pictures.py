"""Pictures of dials, tables and verniers are true to the numbers of their answers, tested by their shapes."""

import math

import pytest

from engine.base.answer import Circle, Label, Line
from engine.base.operation import run
from engine.base.words import write
from engine.indexing.pictures import dial_shapes
from engine.shop.file import sample
from tests.shapes import sizes

METRIC = sample("metric")


def work(operation, call, shop=METRIC):
    return run(operation, dict(word.split("=", 1) for word in call.split()), shop).answer


def angle_of(line, middle):
    """Where a line that starts on the rim stands, clockwise from the top. [deg]"""
    return math.degrees(math.atan2(line.x1 - middle[0], line.y1 - middle[1])) % 360


def labels(picture):
    return [write(s.text) for s in picture.shapes if isinstance(s, Label)]


@pytest.mark.parametrize("lines, drawn", [(50, 50), (125, 125), (126, 63), (200, 100), (1000, 100)])
def test_a_dial_has_its_lines(lines, drawn):
    ticks = [s for s in dial_shapes(lines, 7, "7", middle=(0, 0)) if isinstance(s, Line) and not s.weight]
    assert len(ticks) == drawn


def test_a_rotary_tables_dial_shows_the_line_of_each_position():
    """7 parts on 90:1: 51 3/7 degrees is 12 turns of 4 degrees and 3 degrees 26' of the dial (1' lines)."""
    picture = work("rotary-table", "divisions=7 ratio=90").pictures[0]
    set_lines = {s.row: angle_of(s, (80, 0)) for s in picture.shapes if isinstance(s, Line) and s.weight and s.row}
    assert set_lines[2] == pytest.approx(360 * 206 / 240)
    assert len(set_lines) == 7
    named = [s for s in picture.shapes if isinstance(s, Line) and s.weight and not s.row]
    assert angle_of(named[0], (80, 0)) == pytest.approx(360 * 206 / 240)


def test_a_vernier_meets_the_main_scale_only_at_its_ends():
    """10 parts on 9 mm (course notes): lines 0.9 mm apart under lines 1 mm apart."""
    picture = work("vernier", "division=1 parts=10").pictures[0]
    main = [
        s.x1 for s in picture.shapes if isinstance(s, Line) and not s.row and s.x1 == s.x2 and s.y2 > 0 and s.y1 == 0
    ]
    own = {s.row: s.x1 for s in picture.shapes if isinstance(s, Line) and s.row}
    assert [own[k] for k in range(1, 12)] == pytest.approx([0.9 * k for k in range(11)])
    meet = [row for row, x in own.items() if any(abs(x - m) < 1e-9 for m in main)]
    assert meet == [1, 11]
    assert sizes(picture) == {"9.000 mm": pytest.approx(9), "1.000 mm": pytest.approx(1)}


def test_round_a_drum_a_vernier_has_angles_and_no_picture():
    assert work("vernier", "division=0.05 parts=10 lines=30").pictures == ()


def test_a_straight_verniers_lines_are_set_on_the_dial():
    """Parts of 0.95 mm on 2 mm a turn in 100 lines: line 3 is 2.85 from the first, 1 turn and 0.84 or 0.86."""
    rows = work("vernier", "division=1 parts=20 move_dial=2/100").table("lines").rows
    assert rows[3][3].turns == 1 and rows[3][3].on_dial == pytest.approx(0.86)
    assert rows[20][3].turns == 9 and rows[20][3].on_dial == pytest.approx(1.0)


@pytest.mark.parametrize("lines, warned", [(8, True), (9, False)])
def test_a_vernier_longer_than_its_drum_is_round(lines, warned):
    notes = work("vernier", f"division=0.05 parts=10 lines={lines}").notes
    assert any("longer than the drum" in note.text for note in notes) is warned


def test_the_work_beside_it_is_a_circle():
    shapes = work("rotary-table", "divisions=7 ratio=90").pictures[0].shapes
    dots = [s for s in shapes if isinstance(s, Circle) and s.filled]
    assert math.degrees(math.atan2(dots[1].x, dots[1].y)) == pytest.approx(360 / 7)


def test_the_hand_dial_shows_the_line_to_set_and_where_it_stands():
    """17.35 mm on 2 mm a turn and 100 lines from 0.5: 17.85 is 8 turns and 1.85, line 92.5, so 93 (rounded up)."""
    picture = work("hand-dial", "distance=17.35 per_turn=2 divisions=100 from_reading=0.5").pictures[0]
    heavy = [s for s in picture.shapes if isinstance(s, Line) and s.weight]
    assert angle_of(heavy[0], (0, 0)) == pytest.approx(360 * 93 / 100)
    now = next(s for s in picture.shapes if isinstance(s, Label) and s.text == "now")
    assert math.degrees(math.atan2(now.x, now.y)) == pytest.approx(360 * 25 / 100)
    ticks = [s for s in picture.shapes if isinstance(s, Line) and not s.weight]
    assert len(ticks) == 100


def test_a_chain_of_moves_has_a_line_for_each_row():
    """3, then 4.5 on, then 2 back on 2 mm and 100 lines: 1.00, 1.50 and 1.50 of the dial."""
    answer = work("hand-dial", "moves=3,4.5,-2 per_turn=2 divisions=100")
    picture = answer.pictures[0]
    assert picture.table == "moves"
    rows = {s.row: angle_of(s, (0, 0)) for s in picture.shapes if isinstance(s, Line) and s.row}
    assert rows == pytest.approx({1: 180, 2: 270, 3: 270})
    assert picture.alt.endswith("line 75 is set, down 1 turn, to line 75.")
