"""Holes on a circle against printed co-ordinates, and their handwheel settings."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Circle
from engine.base.operation import run
from engine.drilling.patterns import axis_setting, chord, on_circle
from engine.shop.file import parse, sample
from engine.shop.model import Slide
from tests.rows import each_row
from tests.spoken import spoken

from .rows import published

NANOMETRE = 1e-6  # mm: a place is taken to it before it is rounded to a line


@each_row("row", published("bolt_circle.csv"), ids=lambda r: f"{r['frame']} {r['holes']} {r['hole']}")
def test_printed_coordinates(row):
    if row["frame"] == "A":  # diameter 1, from the upper left tangents, y down, hole 1 at the top, anticlockwise
        places = on_circle(holes=int(row["holes"]), diameter=1, start_angle=90, centre_x=0.5, centre_y=-0.5)
        place = places[int(row["hole"]) - 1]
        assert (place.x, -place.y) == (
            pytest.approx(float(row["x"]), abs=6e-6),
            pytest.approx(float(row["y"]), abs=6e-6),
        )
    else:  # 8 in circle straddling the centre line: hole 1 at 15 degrees from the top, clockwise
        places = on_circle(holes=int(row["holes"]), diameter=8, start_angle=75, clockwise=True)
        place = places[int(row["hole"]) - 1]
        assert (place.x, place.y) == (
            pytest.approx(float(row["x"]), abs=5e-5),
            pytest.approx(float(row["y"]), abs=5e-5),
        )


@each_row("row", published("chords.csv"), ids=lambda r: f"{r['holes']} {r['of']}")
def test_printed_chord(row):
    diameter = 2 if row["of"] == "radius" else 1
    places = 5 if row["of"] == "diameter" else 4
    assert chord(holes=int(row["holes"]), diameter=diameter) == pytest.approx(
        float(row["chord"]), abs=0.6 * 10**-places
    )


@settings(max_examples=80, deadline=None)
@given(
    st.floats(-500, 500),
    st.sampled_from([Fraction(2), Fraction(254, 100), Fraction(3, 2), Fraction(127, 100)]),
    st.sampled_from([40, 50, 60, 100, 125]),
)
def test_a_setting_is_within_half_a_line_and_reads_upwards(distance, per_turn, divisions):
    found = axis_setting(Slide(travel_per_turn=per_turn, divisions=divisions), distance)
    reached = found.turns * float(per_turn) + found.reading
    assert abs(reached - distance) <= float(per_turn / divisions) / 2 + NANOMETRE
    assert reached - distance == pytest.approx(found.error, abs=1e-6)
    assert 0 <= found.reading < float(per_turn)


@settings(max_examples=50, deadline=None)
@given(st.integers(2, 60), st.floats(5, 300), st.floats(-360, 360), st.floats(-50, 50), st.floats(-100, 100))
def test_each_hole_is_rounded_by_itself(holes, diameter, start, centre, zero):
    shop = sample("metric")
    given = {
        "holes": holes,
        "diameter": diameter,
        "start_angle": start,
        "centre_x": centre,
        "centre_y": -centre,
        "x_from": zero,
        "y_from": -zero,
    }
    answer = run("hole-circle", given, shop).answer
    table = answer.table("holes")
    assert table.column("number") == tuple(range(1, holes + 1))
    for row in table.rows:
        _, x, y, x_turns, x_reading, y_turns, y_reading, error, x_set, y_set = row
        assert (x_set.turns, y_set.turns) == (x_turns, y_turns)
        assert abs(x_turns * 2 + x_reading - (x - zero)) <= 0.01 + NANOMETRE
        assert abs(y_turns * 2 + y_reading - (y + zero)) <= 0.01 + NANOMETRE
        assert error <= 0.01 * 2**0.5 + NANOMETRE
        assert ((x - centre) ** 2 + (y + centre) ** 2) ** 0.5 == pytest.approx(diameter / 2, abs=1e-6)


def test_from_the_left_no_turn_is_counted_backwards():
    answer = run(
        "hole-circle", {"holes": "7", "diameter": "40", "x_from": "-20", "y_from": "-20"}, sample("metric")
    ).answer
    assert min(answer.table("holes").column("x_turns")) >= 0
    assert not any("Negative" in note.text for note in spoken(answer.notes))


def test_the_picture_is_tied_to_the_holes():
    answer = run("hole-circle", {"holes": "6", "diameter": "50"}, sample("metric")).answer
    picture = answer.pictures[0]
    assert picture.table == "holes"
    marked = [shape.row for shape in picture.shapes if isinstance(shape, Circle) and shape.row]
    assert marked == [1, 2, 3, 4, 5, 6]


def test_without_a_mill_the_coordinates_stay():
    answer = run("hole-circle", {"holes": "4", "diameter": "10"}, parse('name = "x"')).answer
    assert answer.table("holes").rows[0] == (1, 5.0, 0.0)
    assert not answer.has("worst_error")


def test_holes_that_meet_are_said():
    answer = run("hole-circle", {"holes": "12", "diameter": "20", "hole": "6"}, sample("metric")).answer
    assert any("run into each other" in note.text for note in spoken(answer.notes))
