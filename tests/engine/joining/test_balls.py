"""A ball in a hole: geometry of the sphere, and what can hold it."""

from math import cos, radians, sin, sqrt, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.answer import Polygon
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.joining.balls import press_range, seat, ways
from engine.shop.file import sample
from tests.rows import each_row
from tests.shapes import sizes
from tests.spoken import spoken

METRIC = sample("metric")


def work(**given):
    return spoken(run("ball-seat", {k: str(v) for k, v in given.items()}, METRIC).answer)


@given(ball=st.floats(1, 30), share=st.floats(0.05, 0.95))
def test_depth_and_stand_out_make_up_the_ball(ball, share):
    found = seat(ball=ball, hole=ball, stand_out=share * ball)
    assert found.depth + share * ball == pytest.approx(ball)
    assert found.equator_below == pytest.approx(ball / 2 - share * ball)


@given(ball=st.floats(2, 30), hole=st.floats(0.3, 0.98), drop=st.floats(0, 0.9))
def test_on_an_edge_the_contact_lies_on_ball_and_hole(ball, hole, drop):
    """The circle of contact has the hole's radius, lies on the sphere, and the edge is where it says."""
    hole *= ball
    radius = ball / 2
    highest = radius + sqrt(radius**2 - hole**2 / 4)
    stand_out = highest * (1 - drop) + 1e-6
    if stand_out > highest:
        return
    found = seat(ball=ball, hole=hole, stand_out=stand_out)
    angle = radians(found.contact_angle)
    assert radius * sin(angle) == pytest.approx(hole / 2)
    centre_below_face = radius - stand_out
    assert centre_below_face + radius * cos(angle) == pytest.approx(found.rim_depth, abs=1e-6)


def test_three_four_five():
    """Ball 10 on a hole of 8: centre 3 above the edge, contact at the arc sine of 4/5."""
    found = seat(ball=10, hole=8, stand_out=8)
    assert found.rim_depth == pytest.approx(0)
    assert found.contact_angle == pytest.approx(53.1301, abs=1e-4)


@given(ball=st.floats(1, 20), share=st.floats(0.1, 0.5))
def test_a_drill_point_carries_the_ball_at_the_same_height(ball, share):
    """On a 118 degree bottom the ball's centre lies r / sin 59 above the apex (geometry)."""
    found = seat(ball=ball, hole=ball, stand_out=share * ball)
    if found.point_depth is None:
        return
    apex = found.point_depth + ball / 2 / tan(radians(59))
    centre = apex - ball / 2 / sin(radians(59))
    assert centre == pytest.approx(found.equator_below)


def held(**given):
    return work(**given).figure("hold").text.split(", ")


def test_what_holds_a_ball():
    """Force fit 0.001 to 0.0025 of the diameter; adhesive from 0.0004 in; staking wants the middle inside."""
    assert press_range(10) == pytest.approx((0.01, 0.025))
    assert held(ball=10, hole=9.985, stand_out=3) == ["press", "stake"]
    assert held(ball=10, hole=10.06, stand_out=3) == ["retain", "stake", "solder"]
    assert held(ball=10, hole=10.06, stand_out=4.5) == ["retain", "solder"]
    assert held(ball=10, hole=10, stand_out=6)[0].startswith("none of these")
    # 0.001 in each side is a copper tube handbook's least gap for solder.
    assert held(ball=10, hole=10.051, stand_out=6) == ["solder"]
    assert held(ball=10, hole=10.049, stand_out=6)[0].startswith("none of these")
    assert held(ball=10, hole=8, stand_out=7) == ["solder"]


@pytest.mark.parametrize(
    ("ball", "hole", "stand_out", "angle"),
    [
        (5, 5, 1.5, 90),  # line to line
        (5, 4.99, 1.5, 90),  # a press fit
        (5, 5.1, 1.5, None),  # loose: nothing of the wall need touch
        (5, 6, 1.5, None),
        (5, 5, 3, None),  # its middle above the face, and no edge to sit on
        (10, 9.98, 5.2, 86.376),  # arc sine of 0.998: the edge, the middle 0.2 above the face
        (10, 9.98, 5.4, None),  # the edge stands at 5.316: the ball never comes down on it
    ],
)
def test_the_wall_touches_a_ball_only_where_it_can(ball, hole, stand_out, angle):
    found = seat(ball=ball, hole=hole, stand_out=stand_out).contact_angle
    assert found == (None if angle is None else pytest.approx(angle, abs=1e-3))
    assert work(ball=ball, hole=hole, stand_out=stand_out).has("contact_angle") == (angle is not None)


def test_a_ball_a_millimetre_loose_is_held_by_nothing():
    """A staked rim closes 2 % of the ball (common practice, no source); solder 0.25 mm (from memory)."""
    answer = work(ball=5, hole=6, stand_out=1.5)
    assert answer.figure("hold").text.startswith("none of these")
    assert any("1.000 mm loose" in note.text for note in answer.notes)
    assert held(ball=5, hole=5.1, stand_out=1.5) == ["retain", "stake", "solder"]
    assert held(ball=5, hole=5.2, stand_out=1.5) == ["solder"]


def test_on_an_edge_the_depth_is_a_least():
    """Ball 10 on a hole of 8, 7 out: the underside hangs 3 below the face; deeper does no harm."""
    depth = work(ball=10, hole=8, stand_out=7).figure("depth")
    assert depth.value == pytest.approx(3) and "at least" in depth.label and depth.side == "up"
    assert "at least" not in work(ball=10, hole=10, stand_out=3).figure("depth").label


def test_no_millimetres_where_inches_are_shown():
    for told in ({"ball": "0.25", "hole": "0.25", "stand_out": "0.08"}, {"ball": "1", "hole": ".8", "stand_out": ".7"}):
        answer = spoken(run("ball-seat", told, METRIC, unit="inch").answer, "inch")
        words = [f.working for f in answer.figures] + [n.text for n in answer.notes] + [answer.pictures[0].alt]
        assert not [text for text in words if "mm" in text]
        depth = answer.figure("depth").working
        assert depth.startswith(f"ball {told['ball']} - stand-out 0.{told['stand_out'].split('.')[1]}")


def test_a_hole_from_the_table_of_ways_works():
    for way in ways(ball=6, hole=6, found=seat(ball=6, hole=6, stand_out=2)):
        if way.hole_low is None:
            continue
        middle = (way.hole_low + way.hole_high) / 2
        again = ways(ball=6, hole=middle, found=seat(ball=6, hole=middle, stand_out=2))
        assert next(w for w in again if w.name == way.name).works


def test_no_interference_is_spoken_of_where_the_middle_stands_out():
    assert any("Interference" in note.text for note in work(ball=10, hole=9.98, stand_out=4).notes)
    assert not any("Interference" in note.text for note in work(ball=10, hole=9.98, stand_out=5.4).notes)


def test_a_ball_half_out_is_warned_about():
    assert any("cannot grip" in note.text for note in work(ball=4, hole=4, stand_out=2).notes)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"ball": 4, "hole": 4, "stand_out": 4}, "stand_out"),
        ({"ball": 4, "hole": 3, "stand_out": 3.9}, "stand_out"),
        ({"ball": 4, "hole": 4, "stand_out": 0}, "stand_out"),
        ({"ball": -4, "hole": 4, "stand_out": 1}, "ball"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        work(**given)
    assert refusal.value.field == field


def works(ball, hole, stand_out):
    return {
        way.name
        for way in ways(ball=ball, hole=hole, found=seat(ball=ball, hole=hole, stand_out=stand_out))
        if way.works
    }


@each_row(
    ("hole", "stand_out", "way", "there"),
    [
        # Interference of 0.001 to 0.0025 of the ball: handbook text in the public domain.
        (9.99, 3, "press", True),
        (9.9901, 3, "press", False),
        (9.975, 3, "press", True),
        (9.975, 5, "press", False),  # its middle level with the face
        # A bearing maker's guide: 0.0004 to 0.005 in of gap.
        (10.0102, 3, "retain", True),
        (10.0101, 3, "retain", False),
        (10.127, 3, "retain", True),
        (10.1271, 3, "retain", False),
        # Staked from a tenth of the ball below the face, up to a fiftieth of it loose: common practice, no source.
        (10, 4, "stake", True),
        (10, 4.001, "stake", False),
        (10.2, 3, "stake", True),
        (10.2001, 3, "stake", False),
        # Solder from 0.001 in each side (a copper tube handbook) to 0.25 mm on the diameter (from memory).
        (10.05, 3, "solder", True),
        (10.0499, 3, "solder", False),
        (10.25, 3, "solder", True),
        (10.2501, 3, "solder", False),
    ],
)
def test_each_way_at_its_limits(hole, stand_out, way, there):
    assert (way in works(10, hole, stand_out)) is there


def test_the_hole_that_each_way_asks_for_is_named():
    found = {w.name: w for w in ways(ball=10, hole=10, found=seat(ball=10, hole=10, stand_out=3))}
    assert (found["press"].hole_low, found["press"].hole_high) == pytest.approx((9.975, 9.99))
    assert (found["retain"].hole_low, found["retain"].hole_high) == pytest.approx((10.01016, 10.127))
    assert (found["stake"].hole_low, found["stake"].hole_high) == pytest.approx((9.975, 10.2))
    assert (found["solder"].hole_low, found["solder"].hole_high) == pytest.approx((10.05, 10.25))


@given(ball=st.floats(2, 20), less=st.floats(0.0001, 0.0024), above=st.floats(0.0001, 0.2))
def test_an_edge_touches_a_ball_only_where_it_reaches_the_sphere(ball, less, above):
    """Middle a little above the face: the edge, at half the hole, lies on the sphere only if it is that near."""
    hole = ball * (1 - less)
    found = seat(ball=ball, hole=hole, stand_out=ball / 2 + above).contact_angle
    reaches = (hole / 2) ** 2 + above**2 < (ball / 2) ** 2
    assert (found is not None) is reaches


@pytest.mark.parametrize(
    ("given", "said", "there"),
    [
        ({"hole": 9.9951}, "Interference", False),
        ({"hole": 9.9949}, "Interference", True),
        ({"hole": 10}, "loose in the hole", False),
        ({"hole": 10.001}, "loose in the hole", True),
        ({"hole": 9.975}, "sits on the edge", False),
        ({"hole": 9.9749}, "sits on the edge", True),
        ({"hole": 10, "stand_out": 4.999}, "cannot grip", False),
        ({"hole": 10, "stand_out": 5}, "cannot grip", True),
    ],
)
def test_notes_at_their_limits(given, said, there):
    """0.0025 of the ball goes in by force (handbook text); half of it out leaves the wall nothing to grip: geometry."""
    assert any(said in note.text for note in work(**{"ball": 10, "stand_out": 3, **given}).notes) is there


def test_the_picture_is_the_seat_in_section():
    """Face at nought: the ball stands out as told, its middle where the figure has it, the hole as deep as it is."""
    answer = work(ball=10, hole=10, stand_out=3)
    ball = next(s for s in answer.pictures[0].shapes if hasattr(s, "radius"))
    assert (ball.x, ball.y, ball.radius) == (0, -2, 5) and ball.y + ball.radius == 3
    (metal,) = [s for s in answer.pictures[0].shapes if isinstance(s, Polygon)]
    assert {(-5, -7), (5, -7), (-5, 0), (5, 0)} <= set(metal.points)
    assert sizes(answer.pictures[0]) == {"out 3.00 mm": 3, "deep 7.00 mm": 7, "Ø10.00 mm": 10, "ball Ø10.00 mm": 10}
    edge = work(ball=10, hole=8, stand_out=7).pictures[0]
    (metal,) = [s for s in edge.shapes if isinstance(s, Polygon)]
    assert {abs(x) for x, y in metal.points if round(y, 9) == -1} == {4, 5}
