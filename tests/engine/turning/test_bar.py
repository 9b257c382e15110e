"""A bar plan closes: parts, kerfs, facings, waste and grip make up the bar."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.answer import Line
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.shop.file import parse, sample
from engine.turning.bar import plan_bar
from tests.rows import each_row
from tests.shapes import sizes
from tests.spoken import spoken

METRIC = sample("metric")


def plan(shop=METRIC, unit="mm", **given):
    return spoken(run("bar-plan", {k: str(v) for k, v in given.items()}, shop, unit=unit).answer, unit)


@given(
    parts=st.integers(1, 40),
    length=st.floats(0.5, 60),
    back=st.floats(0, 1),
    blade=st.floats(0.5, 4),
    facing=st.floats(0, 2),
    end_waste=st.floats(0, 30),
    grip=st.floats(0, 60),
)
def test_the_bar_is_used_up(parts, length, back, blade, facing, end_waste, grip):
    found = plan_bar(parts=parts, length=length, back=back, blade=blade, facing=facing, end_waste=end_waste, grip=grip)
    pieces = sum(cut.end - cut.start for cut in found.cuts)
    kerfs = sum(cut.kerf_end - cut.end for cut in found.cuts)
    assert pieces == pytest.approx(parts * (length + back))
    assert pieces + kerfs + parts * facing + end_waste + grip == pytest.approx(found.bar_length)
    assert found.stick_out + grip == pytest.approx(found.bar_length)
    for before, after in zip(found.cuts, found.cuts[1:], strict=False):
        assert after.start == pytest.approx(before.kerf_end + facing)


def test_a_plan_worked_by_hand():
    """3 parts of 12, blade 2, facing 0.5 each, 5 before the jaws, 24 in them: 3 x 14.5 + 29."""
    answer = plan(parts=3, length=12, blade=2, facing=0.5, end_waste=5, grip=24)
    assert answer.figure("bar_length").value == pytest.approx(72.5)
    cuts = answer.table("cuts")
    assert cuts.count_noun == "cut" and cuts.column("part") == (1, 2, 3)
    assert cuts.column("to") == pytest.approx((12, 26.5, 41))
    # Saddle of the sample lathe: 18 mm a turn.
    assert cuts.column("saddle_turns") == (0, 1, 2)
    assert cuts.column("saddle_reading") == pytest.approx((12, 8.5, 5))


def test_each_saddle_reading_is_rounded_by_itself():
    cuts = plan(parts=30, length=7.13, blade=2, facing=0.25, end_waste=5, grip=24).table("cuts")
    line = float(METRIC.lathe.saddle.travel_per_turn) / METRIC.lathe.saddle.divisions
    for to, turns, reading in zip(
        cuts.column("to"), cuts.column("saddle_turns"), cuts.column("saddle_reading"), strict=True
    ):
        assert abs(turns * 18 + reading - to) <= line / 2 + 1e-9


def test_the_last_part_is_threaded_through():
    """DIN 76-1: a blind hole for P 1.5 goes 7.3 mm beyond its full thread."""
    answer = plan(parts=3, length=12, blade=2, facing=0.5, thread="M12x1.5", drill=10.5)
    last = answer.table("cuts").column("to")[-1]
    assert answer.figure("thread_depth").value == pytest.approx(last)
    assert answer.figure("drill_depth").value == pytest.approx(last + 7.3)
    # 118 degree point: 0.3004 of the diameter.
    travel = answer.figure("drill_travel").value
    assert travel == pytest.approx(last + 7.3 + 0.3004 * 10.5, abs=1e-3)
    turns, reading = answer.figure("drill_turns").value, answer.figure("drill_reading").value
    assert 0 <= turns * 2 + reading - travel < 0.05
    # A second tap's lead of 5 threads would end above the last part; the bottoming tap's 2 do not.
    tap = answer.figure("tap_turns")
    assert "bottoming" in tap.label and tap.value == 30  # 41 / 1.5 + 2, rounded up
    assert any("The stub is hollow" in note.text for note in answer.notes)


@given(parts=st.integers(1, 8), length=st.floats(3, 30), thread=st.sampled_from(["M6", "M10x1", "1/4-20", "4BA"]))
def test_the_drill_never_reaches_the_jaws(parts, length, thread):
    answer = plan(parts=parts, length=f"{length:.3f}", thread=thread)
    stick_out, facing = answer.figure("stick_out").value, 0.5
    assert answer.figure("drill_travel").value < stick_out - facing
    assert answer.figure("stub_solid").value > 0


def test_a_plain_hole_goes_through_the_last_cut():
    answer = plan(parts=2, length=10, blade=2, facing=0.5, drill=6)
    assert answer.figure("drill_depth").value == pytest.approx(answer.table("cuts").column("kerf_end")[-1])
    assert not answer.has("thread_depth")


def test_without_a_saddle_dial_the_distances_stand_alone():
    shop = parse(
        "[lathe]\nspeeds = '100 200'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 500\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 2000\n"
    )
    cuts = plan(shop, parts=2, length=10, blade=2, grip=25).table("cuts")
    assert cuts.setting == ("to",) and [c.name for c in cuts.columns] == ["part", "from", "to", "kerf_end"]


def test_a_long_bar_is_told_to_be_pulled_out():
    notes = [n.text for n in plan(parts=5, length=20, diameter=12, end_waste=5).notes]
    assert any("diameters" in text for text in notes)


@pytest.mark.parametrize(
    ("given", "field"),
    [
        ({"parts": 0, "length": 10}, "parts"),
        ({"parts": 3, "length": -1}, "length"),
        ({"parts": 3, "length": 10, "thread": "M6", "drill": 7}, "drill"),
        ({"parts": 3, "length": 10, "drill": 12, "diameter": 12}, "drill"),
        ({"parts": 3, "length": 10, "thread": "M6.3"}, "thread"),
    ],
)
def test_refusals_name_the_field(given, field):
    with pytest.raises(BadInput) as refusal:
        plan(**given)
    assert refusal.value.field == field


def test_the_picture_belongs_to_the_cuts():
    picture = plan(parts=3, length=12, drill=6, diameter=16).pictures[0]
    assert picture.table == "cuts" and picture.true_size
    assert {s.row for s in picture.shapes if hasattr(s, "row") and s.row} == {1, 2, 3}


@each_row(
    ("given", "said", "there"),
    [
        # Three diameters out of a chuck: a lathe maker's manual. 2 x 14.5 + 5 = 34.
        ({"diameter": 11.34}, "diameters: above 3 pull it out", False),
        ({"diameter": 11.33}, "diameters: above 3 pull it out", True),
        # Thicker than the sample lathe's spindle bore of 21 mm.
        ({"diameter": 21}, "thicker than the spindle's bore", False),
        ({"diameter": 21.1}, "thicker than the spindle's bore", True),
        # Five drill diameters: common practice. The hole ends with the last cut, 28.5 mm.
        ({"drill": 5.7}, "drill diameters deep", False),
        ({"drill": 5.69}, "drill diameters deep", True),
        # DIN 338: a 3 mm drill has 33 mm of flute, 28.5 clear chips; one of 3.2 mm has 36 and 31.2. The tip is at 29.4.
        ({"drill": 3.2}, "packs", False),
        ({"drill": 3}, "Take a long drill", True),
        # DIN 340: a long 3 mm drill has 66 mm of flute, 61.5 clear chips.
        ({"drill": 3, "length": 28.04}, "Take a long drill", True),
        ({"drill": 3, "length": 28.06}, "packs, and no longer one clears it: drill for each part", True),
        # A 118 degree point is 0.3004 of the diameter: 6 mm ends 1.8 mm into the stub.
        ({"drill": 6, "end_waste": 1.81}, "into the stub, past the jaws", False),
        ({"drill": 6, "end_waste": 1.8}, "into the stub, past the jaws", True),
        ({"thread": "M8"}, "tap-drill chooses", True),
        ({"thread": "M8", "drill": 6.8}, "tap-drill chooses", False),
        ({"thread": "M8"}, "The stub is hollow", True),
        ({"drill": 6.8}, "The stub is hollow", False),
    ],
)
def test_notes_at_their_limits(given, said, there):
    notes = [
        note.text
        for note in plan(**{"parts": 2, "length": 12, "blade": 2, "facing": 0.5, "end_waste": 5, **given}).notes
    ]
    assert any(said in text for text in notes) is there, notes


@pytest.mark.parametrize(("length", "said"), [(12, False), (12.06, True)])
def test_a_cut_that_the_saddles_lines_put_out_of_place(length, said):
    """The sample saddle's lines are 0.1 mm; a hundredth is lost in the facing (common practice)."""
    notes = plan(parts=1, length=length, blade=2, facing=0.5, end_waste=5).notes
    assert any("out of place" in note.text for note in notes) is said


def test_each_cut_has_its_setting_of_the_saddle():
    cuts = plan(parts=3, length=12, blade=2, facing=0.5).table("cuts")
    assert cuts.setting == ("set", "to")
    assert [(s.wheel, s.turns, s.on_dial) for s in cuts.column("set")] == [
        ("Saddle", 0, 12.0), ("Saddle", 1, 8.5), ("Saddle", 2, 5.0),
    ]  # fmt: skip


def test_the_picture_lies_as_the_bar_does():
    """Faced end at nought, each part and blade where the cuts say, jaws behind the waste, the drill's point on the axis."""
    answer = plan(parts=2, length=12, blade=2, facing=0.5, end_waste=5, grip=20, drill=6, diameter=16)
    boxes = [s for s in answer.pictures[0].shapes if hasattr(s, "points")]
    spans = [(min(x for x, _ in b.points), max(x for x, _ in b.points), b.filled) for b in boxes]
    assert spans == [
        (-12, 0, False),
        (-14, -12, True),
        (-26.5, -14.5, False),
        (-28.5, -26.5, True),
        (-53.5, -28.5, False),
    ]
    assert {abs(y) for b in boxes for _, y in b.points} == {8}
    lines = [s for s in answer.pictures[0].shapes if isinstance(s, Line)]
    jaws = next(s for s in lines if s.weight == 1)
    assert jaws.x1 == jaws.x2 == -33.5
    tip = -28.5 - 0.30043 * 6
    points = [s for s in lines if s.y2 == 0 and s.weight == 0]
    assert [(s.x1, abs(s.y1)) for s in points] == [(-28.5, 3)] * 2
    assert [s.x2 for s in points] == pytest.approx([tip, tip], abs=1e-3)
    told = sizes(answer.pictures[0])
    assert (told["grip 20.0 mm"], told["out 33.5 mm"], told["blade 2.00 mm"], told["Ø16.00 mm"]) == (20, 33.5, 2, 16)
    assert sizes(answer.pictures[0], row=2) == {"cut 2 at 26.50 mm": 26.5}
