"""Finding the place after a miscount, checked by turning a simulated crank."""

from fractions import Fraction

import pytest

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.indexing.place import find_place, read_report, repair
from engine.shop.file import sample
from tests.engine.indexing.checks import Head
from tests.rows import each_row

METRIC = sample("metric")
SCALE = run("scale-lines", {"lead": "1.5", "per_line": "0.05", "diameter": "24"}, METRIC).answer


def test_hole_7_of_line_12():
    # line 12 is 11 moves of 1 turn + 13 of 39: 14 turns and 26 holes. Hole 7 is 19 holes short of it
    place = repair(SCALE, "I am at hole 7 of line 12")
    assert (place.row, place.turns, place.hole, place.off) == (12, 14, 26, -19)
    assert "14 turns + 26 holes of 39" in place.text and "Turn on 19 holes" in place.text
    assert "132.000°" in place.text  # 11 lines of 12 degrees


@each_row("reported", range(39))
def test_turning_by_what_is_said_puts_it_right(reported):
    place = repair(SCALE, f"line 12, hole {reported}")
    head = Head(40)
    head.turn(place.turns + Fraction(reported, 39) - (1 if place.off * 2 + 2 * (place.hole - reported) != 0 else 0))
    # the pin stands `off` past the true hole: turning back by it lands on the line
    head = Head(40)
    head.turn(place.turns + Fraction(place.hole + place.off, 39))
    assert (head.pin * 39) % 39 == reported
    head.turn(Fraction(-place.off, 39))
    assert head.spindle == Fraction(11, 30)
    assert abs(place.off) <= 19


def test_a_missed_or_doubled_move_is_recognised():
    missed = repair(SCALE, "line 12, hole 13")
    assert missed.rows[0] == 11 and "one move was missed" in missed.text
    twice = repair(SCALE, "line 12, hole 0")
    assert twice.rows[0] == 13 and "one move was made twice" in twice.text
    assert "Turn on" in twice.text or "Turn back" in twice.text


def test_past_the_hole_comes_back_from_below():
    past = repair(SCALE, "line 12, hole 30")
    assert past.off == 4 and "then come up to it in the working direction" in past.text


def test_right_is_said_to_be_right():
    assert "is right for line 12" in repair(SCALE, "hole 26 of line 12").text


def test_every_row_of_every_way_knows_its_own_hole():
    for divisions in ("7", "24", "77", "127", "383"):
        answer = run("divide", {"divisions": divisions}, METRIC).answer
        table, circle = answer.table("positions"), int(answer.figure("circle").value)
        for row, hole in enumerate(table.column("hole_from_start"), 1):
            assert find_place(table, circle=circle, row=row, hole=hole).off == 0


def test_the_rear_pin_is_named_on_a_compound_way():
    answer = run("divide", {"divisions": "77", "method": "compound"}, METRIC).answer
    row = answer.table("positions").rows[4]
    assert f"rear pin belongs in hole {row[5]}" in repair(answer, "hole 0 of position 5").text


def test_teeth_of_a_spindle_wheel():
    answer = run("flats", {"sides": "6", "across_flats": "13", "by": "wheel"}, METRIC).answer
    assert repair(answer, "tooth 19 of flat 3").off == -1


@pytest.mark.parametrize(
    "text", ["", "hole", "hole 7", "hole 7 hole 8", "line 3 of line 4", "1 2 3", "\x1b[2J", "line ٣ hole ٤"]
)
def test_what_names_no_place_is_refused(text):
    with pytest.raises(BadInput):
        read_report(text)


@pytest.mark.parametrize("text", ["hole 39 of line 12", "hole 0 of line 31", "hole 0 of line 0"])
def test_what_is_not_there_is_refused(text):
    with pytest.raises(BadInput):
        repair(SCALE, text)


def test_a_rotary_table_has_no_holes():
    with pytest.raises(BadInput, match="not counted in holes"):
        repair(run("rotary-table", {"divisions": "7"}, METRIC).answer, "hole 1 of position 2")
