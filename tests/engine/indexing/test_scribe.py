"""Lines scribed by a still cutter: depth, strokes, dials, and the picture of it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.answer import Line, Polygon
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.indexing.scribing import chip, strokes_for, v_depth, v_width
from engine.shop.file import parse, sample
from tests.engine.indexing.checks import table
from tests.rows import each_row
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")
V_LINES = [r for r in table("graduating_check.csv") if r["topic"] == "V-cutter line"]


def scribe(shop=METRIC, **given):
    return spoken(run("scribe", {k: str(v) for k, v in given.items()}, shop).answer)


@each_row("row", V_LINES, ids=lambda r: r["input"])
def test_depth_and_width_of_a_v_cut(row):
    words = row["input"].replace(",", "").split()
    angle, depth = float(words[2]), float(words[5])
    assert v_width(depth, angle) == pytest.approx(float(row["computed"]), abs=1e-4)
    assert v_depth(float(row["computed"]), angle).value == pytest.approx(depth, abs=1e-4)


def test_a_flat_on_the_tip_asks_for_less_depth():
    """60 degrees, 0.05 mm of flat, 0.1655 wide: 0.1 mm deep (geometry); without the flat it would be 0.143."""
    answer = scribe(line_width=0.1655, tip_flat=0.05)
    assert answer.figure("line_depth").value == pytest.approx(0.1, abs=1e-4)
    assert scribe(line_width=0.1655).figure("line_depth").value == pytest.approx(0.1433, abs=1e-4)


@given(width=st.floats(0.05, 0.6), angle=st.sampled_from([40.0, 60.0, 90.0]), flat=st.floats(0, 0.04))
def test_strokes_end_at_the_depth_and_none_is_deeper_than_is_borne(width, angle, flat):
    answer = scribe(line_width=round(width, 3), cutter_angle=angle, tip_flat=round(flat, 4), material="brass")
    rows = answer.table("strokes").rows
    depths = [row[1] for row in rows]
    assert depths[-1] == depths[-2] == pytest.approx(answer.figure("line_depth").value)
    assert max(b - a for a, b in zip([0.0, *depths], depths, strict=False)) <= 0.1 + 1e-9
    assert rows[-1][2] == pytest.approx(round(width, 3))
    settings_made = [row[3].distance for row in rows]
    assert settings_made == depths
    for row in rows[:-2]:  # before the last infeed the dial stops short of the depth
        assert row[3].turns * 1.0 + row[3].on_dial <= row[1] + 1e-9


@pytest.mark.parametrize(
    ("depth", "deepest", "strokes"), [(0.1, 0.1, 1), (0.1001, 0.1, 2), (0.3, 0.1, 3), (3, 0.1, 30)]
)
def test_so_many_strokes(depth, deepest, strokes):
    assert strokes_for(depth, deepest) == strokes


def test_a_groove_is_refused_by_name():
    with pytest.raises(BadInput, match="mill a groove") as refusal:
        scribe(line_width=4)
    assert refusal.value.field == "deepest"
    with pytest.raises(BadInput) as refusal:
        scribe(line_width=0.1, tip_flat=0.1)
    assert refusal.value.field == "line_width"


@pytest.mark.parametrize(("cuts", "warned"), [(10, False), (11, True)])
def test_many_strokes_are_a_groove(cuts, warned):
    answer = scribe(line_width=0.5, deepest=round(answer_depth(0.5) / cuts + 1e-6, 6))
    assert answer.figure("strokes").value == cuts + 1
    assert any("groove rather than a line" in note.text for note in answer.notes) is warned


def answer_depth(width):
    return width / 2 / math.tan(math.radians(30))


def test_a_dial_too_coarse_for_the_line_is_said_to_be():
    """A line of 0.05 mm moves a 60 degree line's width by 0.058 mm: 0.12 asks for 0.104, the dial gives 0.10."""
    assert not any("coarse" in n.text for n in scribe(depth_dial="1/50").notes)
    coarse = scribe(depth_dial="5/50")
    assert coarse.figure("width_a_line").value == pytest.approx(2 * 0.1 * math.tan(math.radians(30)))
    assert not any("coarse" in n.text for n in coarse.notes)  # 0.1 deep happens to be near: 0.1155 wide
    assert any("coarse" in n.text for n in scribe(line_width=0.18, depth_dial="5/50").notes)


def test_the_dial_leads_and_a_slide_that_reads_diameter_shows_twice():
    lathe = 'name = "x"\n[lathe]\n' + "\n".join(
        ["speeds = '100'", "leadscrew = 3", "change_wheels = '20'", "motor = 500",
         "[lathe.cross_slide]", "travel_per_turn = 2", "divisions = 200", "reads_diameter = true",
         "[lathe.top_slide]", "travel_per_turn = 1", "divisions = 50", "[lathe.chuck]"]
    )  # fmt: skip
    answer = scribe(parse(lathe), line_width=0.3464)  # 0.3 mm deep at 60 degrees
    lead = answer.lead.setting
    assert (lead.wheel, lead.turns, lead.on_dial) == ("Cross slide", 0, pytest.approx(0.6))
    assert answer.figure("stroke_setting").setting.wheel == "Top slide"
    assert answer.moments[0].machine == "lathe"
    assert scribe(parse('name = "bare"'), material="brass").lead.name == "line_depth"


def test_the_push_is_kienzle_times_the_chip():
    """Brass, kc1.1 700 MPa and mc 0.27: the last chip of 0.0693 sharp at 90 degrees is depth squared less what went."""
    answer = scribe(line_width=0.2, cutter_angle=90, material="free-cutting brass", deepest=0.05, again=0)
    assert answer.figure("strokes").value == 2
    assert chip(0.05, 0.1, 90) == pytest.approx(0.0075)
    assert answer.figure("stroke_force").value == pytest.approx(0.0075 * 700 * 0.05**-0.27)


def test_the_line_is_drawn_to_its_numbers():
    picture = scribe(line_width=0.3, material="mild steel").pictures[0]
    outline = next(s for s in picture.shapes if isinstance(s, Polygon))
    xs, ys = zip(*outline.points, strict=True)
    assert (xs[2], ys[2]) == pytest.approx((0, -answer_depth(0.3)))
    assert xs[4] - xs[1] == pytest.approx(0.3)
    flanks = [s for s in picture.shapes if isinstance(s, Line) and s.row == 2 and s.x1 < 0]
    assert flanks[0].y2 == pytest.approx(-answer_depth(0.3) / 3)
    assert "0.300 mm wide" in picture.alt


def test_what_bounds_a_stroke_is_said():
    assert "no deeper than 0.10 mm in free-cutting brass" in scribe(material="brass").figure("strokes").working
    assert "as given" in scribe(deepest=0.03).figure("strokes").working
    assert scribe(deepest=0.03, again=2).figure("strokes").value == 4 + 2  # 0.104 in 0.03: four


def test_what_is_drawn_and_what_draws():
    """The line's length is the stroke on the handwheel along; without a mill or lathe only the depth is known."""
    assert scribe(length=5, feed_dial="2/100").figure("stroke_setting").setting.turns == 2
    assert scribe(length=5, feed_dial="2/100").figure("stroke_setting").setting.on_dial == 1


def test_the_push_of_a_single_stroke_is_that_of_the_whole_chip():
    answer = scribe(line_width=0.1, cutter_angle=90, material="free-cutting brass", deepest=0.05, again=0)
    assert answer.figure("strokes").value == 1
    assert answer.figure("stroke_force").value == pytest.approx(0.0025 * 700 * 0.05**-0.27)


def test_the_dials_line_decides_the_width():
    """0.12 wide at 60 degrees is 0.104 deep; the nearest line of 0.02 mm is 0.10, and that is 0.1155 wide."""
    answer = scribe(line_width=0.12, depth_dial="1/50")
    assert answer.figure("width_set").value == pytest.approx(2 * 0.10 * math.tan(math.radians(30)))
    flat = scribe(line_width=0.12, tip_flat=0.05, depth_dial="1/50")  # 0.0606 deep: 0.06
    assert flat.figure("width_set").value == pytest.approx(0.05 + 2 * 0.06 * math.tan(math.radians(30)))
