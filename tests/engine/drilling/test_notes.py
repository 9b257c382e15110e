"""Every note about a hole: its row just under, at and just over the limit that makes it worth saying.

The limits are common practice, no source, unless a row names one.
"""

import math

import pytest

from engine.base.operation import run
from engine.base.records import replace
from engine.base.tool import Tool
from engine.cutting.materials import find
from engine.drilling.holes import steps_needed
from engine.drilling.reaming import pre_drill
from engine.drilling.tap_choice import choices, target
from engine.drilling.tapping import hole_for, minor_limits
from engine.shop.file import parse as shop_of
from engine.shop.file import sample
from engine.threads.designation import parse
from tests.spoken import spoken

POINT = 1 / (2 * math.tan(math.radians(59)))  # of the diameter: a point of 118 degrees


def _notes(operation, level="", bench="metric", shop=None, **given):
    notes = spoken(run(operation, given, shop or sample(bench)).answer.notes)
    return " ".join(note.text for note in notes if level in ("", note.level))


@pytest.mark.parametrize(
    ("outside", "words"),
    # a tenth of an 8 mm hole, 0.8 mm; never less than 0.5 mm
    [(9.58, "Only 0.79 mm of wall"), (9.6, ""), (9.62, ""), (8, "no wall is left"), (8.02, "Only 0.01 mm of wall")],
)
def test_wall_round_a_hole(outside, words):
    said = _notes("hole-plan", "warning", diameter=8, depth=10, outside=outside)
    assert words in said if words else "wall" not in said


@pytest.mark.parametrize(("outside", "said"), [(3.98, True), (4.0, False)])
def test_wall_of_a_small_hole(outside, said):
    assert ("of wall" in _notes("hole-plan", "warning", diameter=3, depth=5, outside=outside)) == said


@pytest.mark.parametrize(("more", "said"), [(-0.001, True), (0.0, True), (0.001, False)])
def test_point_out_at_the_far_side(more, said):
    stock = 10 + 8 * POINT + more
    assert ("comes out" in _notes("hole-plan", "warning", diameter=8, depth=10, stock=stock)) == said
    assert "comes out" not in _notes("hole-plan", diameter=8, depth=10, stock=stock, hole="through")


@pytest.mark.parametrize(("flute", "said"), [(21.9, True), (20 + 5 * POINT, False), (22, False)])
def test_a_told_flute(flute, said):
    words = _notes("hole-plan", "warning", diameter=5, depth=20.5 if flute == 21.9 else 20, flute=flute)
    assert ("flute: chips cannot get out" in words) == said


def test_what_the_kind_of_hole_asks_for():
    through = _notes("hole-plan", "info", diameter=8, depth=10, hole="through")
    assert "while the point breaks through" in through
    blind = _notes("hole-plan", "info", diameter=8, depth=10)
    assert "breaks through" not in blind and "the tip is hidden in the centre" in blind
    assert "hidden in the hole" in _notes("hole-plan", "info", diameter=8, depth=10, existing=4)
    assert "fine punch" in _notes("hole-plan", "info", diameter=2.6, depth=10)
    assert "fine punch" not in _notes("hole-plan", "info", diameter=2.61, depth=10)
    assert "fine punch" not in _notes("hole-plan", "info", diameter=2.6, depth=10, start="centred")


@pytest.mark.parametrize("material", ["brass", "bronze", "mild steel", "aluminium"])
def test_metal_that_pulls_a_drill_in(material):
    said = "stone a small flat" in _notes("hole-plan", "info", diameter=8, depth=10, material=material)
    assert said == (material in ("brass", "bronze"))


def test_a_reamed_hole():
    assert "full size only behind its lead" in _notes("hole-plan", "info", diameter=8, depth=20, finish="ream")
    through = _notes("hole-plan", "info", diameter=8, depth=20, finish="ream", hole="through")
    assert "behind its lead" not in through
    # DIN 212, from memory: 33 mm of flute at 8 mm
    assert "end in the hole" not in _notes("hole-plan", diameter=8, depth=33, finish="ream")
    assert "end in the hole" in _notes("hole-plan", diameter=8, depth=33.1, finish="ream")


BARE = (
    'name = "x"\nunit = "mm"\ndrills = "1-13 x 0.1"\n[mill]\nspeeds = "%s"\nmotor = 550\n'
    + "".join(f"[mill.{axis}]\ntravel_per_turn = 2\ndivisions = 100\n" for axis in "xyz")
)  # fmt: skip


@pytest.mark.parametrize(
    ("speeds", "words"),
    # 80 to 110 ft/min on 5 mm: 1552 to 2134 rev/min; half as fast again as the top speed is worth saying
    [("2135 3000", "lowest speed"), ("2134 3000", ""), ("500 1035", ""), ("500 1034", "is the most the mill has")],
)
def test_speeds_that_the_machine_has_not(speeds, words):
    said = _notes("hole-plan", shop=shop_of(BARE % speeds), diameter=5, depth=10)
    assert words in said if words else "lowest speed" not in said and "is the most" not in said


@pytest.mark.parametrize(
    ("hole", "words"),
    # 6 holes on 50 mm are 25 mm apart: a quarter of the hole is 5 mm at 20
    [
        (19.9, ""),
        (20, ""),
        (20.1, "Only 4.90 mm of metal"),
        (24.9, "Only 0.10 mm"),
        (25, "run into each other by 0.00"),
    ],
)
def test_metal_between_holes(hole, words):
    said = _notes("hole-circle", "warning", holes=6, diameter=50, hole=hole)
    assert words in said if words else said == ""


def test_turns_counted_back():
    assert "Negative turns" in _notes("hole-circle", holes=4, diameter=50, x_from=-24.9, y_from=-25)
    assert "Negative turns" not in _notes("hole-circle", holes=4, diameter=50, x_from=-25, y_from=-25)


@pytest.mark.parametrize(("depth", "said"), [(12, False), (12.1, True)])
def test_a_deep_thread_by_the_whole_set(depth, said):
    assert ("every tap of the set" in _notes("tap-drill", size="M6", depth=depth)) == said


@pytest.mark.parametrize(
    ("material", "words"),
    [("stainless", "a quarter turn on, half a turn back"), ("brass", "one turn on, half a turn back"),
     ("cast iron", "Dry."), ("mild steel", "half a turn on, a quarter turn back"), ("aluminium", "Paraffin")],
)  # fmt: skip
def test_how_the_chip_is_broken(material, words):
    assert words in _notes("tap-drill", size="M6", material=material)


def test_a_left_hand_tap_and_a_forming_one():
    assert "anticlockwise to go in" in _notes("tap-drill", size="M10 LH")
    assert "anticlockwise" not in _notes("tap-drill", size="M10")
    assert "no chips to break" in _notes("tap-drill", size="M6", tap="form")


def test_a_taper_hole_may_be_as_small_as_its_small_end():
    # ISO 7-1: the small end of R 1/2 leaves more than 105 % of thread, and is a hole for it all the same
    thread = parse("R 1/2")
    least = minor_limits(thread).smallest
    assert least < hole_for(thread, 105)
    aim = target(thread=thread, material=find("mild steel"))
    mine = [Tool("small end", least + 0.01), Tool("too small", least - 0.2)]
    found = choices(thread=thread, aim=aim, drills=mine)
    assert [c.tool.name for c in found if c.owned] == ["small end"] and found[0].fit == "inside"


def test_a_reamer_and_its_drill_that_are_not_owned():
    said = _notes("ream", "warning", diameter=15)
    assert "no reamer of this size" in said and "nor one that leaves the allowance" in said
    assert _notes("ream", "warning", diameter=8) == ""
    assert "turn it one way only" in _notes("ream", "info", diameter=8, kind="hand")


def test_every_tool_of_a_hole_is_a_moment_of_its_own():
    given = {"diameter": "13", "depth": "30", "machine": "lathe", "outside": "30", "material": "brass"}
    answer = run("hole-plan", given, sample("metric")).answer
    steps = answer.table("steps")
    assert tuple(m.spindle_speed for m in answer.moments) == steps.column("rpm")
    assert tuple(m.depth for m in answer.moments) == steps.column("depth")
    assert tuple(m.feed for m in answer.moments) == steps.column("feed")
    assert {(m.machine, m.hole, m.outside, m.material) for m in answer.moments} == {
        ("lathe", "blind", 30, "free-cutting brass")
    }
    assert answer.moments[-1].tool_diameter == 13


def test_what_is_so_at_the_machine():
    drill, tap = run("tap-drill", {"size": "M6", "depth": "12"}, sample("metric")).answer.moments
    assert (drill.tool_diameter, drill.hole, drill.depth) == (5.1, "blind", pytest.approx(17.1))
    assert (str(tap.thread), tap.spare, tap.tool_diameter) == ("M6", pytest.approx(5.1), 6)
    _, through = run("tap-drill", {"size": "M6", "depth": "12", "hole": "through"}, sample("metric")).answer.moments
    assert (through.hole, through.spare, through.depth) == ("through", None, 12)
    ream = run("ream", {"diameter": "8", "machine": "mill"}, sample("metric")).answer
    assert ream.moments[0].machine == "mill" and ream.moments[0].spindle_speed == ream.figure("rpm").value
    assert run("ream", {"diameter": "8", "kind": "hand"}, sample("metric")).answer.moments[0].machine == "bench"
    sink = run("countersink", {"screw": "M6"}, sample("metric")).answer
    assert (sink.moments[0].machine, sink.moments[0].depth) == ("mill", pytest.approx(sink.figure("depth").value))
    assert run("drill-size", {"size": "#7"}, sample("metric")).answer.moments == ()
    assert run("clearance-hole", {"size": "M6"}, sample("metric")).answer.moments == ()
    assert (
        run("hole-circle", {"holes": "4", "diameter": "20", "hole": "3"}, sample("metric"))
        .answer.moments[0]
        .tool_diameter
        == 3
    )


def test_a_drill_within_the_catalogues_share_keeps_quiet():
    # 60 to 70 % in a deep hole: 69 % is inside; M3 in stainless aims at 60 and gets 77
    assert "to keep the limits" not in _notes("tap-drill", size="M6", depth="12")
    assert "leaves 77 %, to keep the limits" in _notes("tap-drill", size="M3", depth="6", material="stainless")


def test_the_torque_is_that_of_the_drill_shown():
    answer = run("tap-drill", {"size": "M6", "depth": "12"}, sample("metric")).answer
    # a tap maker's law: kc 3700, K 1.35
    wanted = math.tan(math.radians(30)) * 3700 * 1.35 * 0.9**2 * (6 + 2 * 5.1) / 24000
    assert answer.figure("torque").value == pytest.approx(wanted)
    bottoming = run("tap-drill", {"size": "M12x1.5", "depth": "20"}, sample("metric")).answer
    assert "bottoming" in bottoming.figure("torque").source


def test_the_centre_drill_turns_by_its_mouth_and_feeds_by_its_pilot():
    steps = run("hole-plan", {"diameter": "10", "depth": "20"}, sample("metric")).answer.table("steps")
    # the Navy's bands: 1/16 in 0.001, 3/16 in 0.002; a pilot of 2.5 mm between them
    assert steps.column("feed")[0] == pytest.approx((0.001 + 0.001 * (2.5 / 25.4 - 1 / 16) / (1 / 8)) * 25.4)
    assert steps.column("rpm")[0] == 1000  # 24.384 m/min on a mouth of 5.3 mm: 1464, the step below


def test_what_is_left_for_the_reamer():
    asked = run("ream", {"diameter": "8", "leave": "0.3"}, sample("metric")).answer
    assert (asked.figure("drill").text, asked.figure("allowance").value) == ("7.7 mm", pytest.approx(0.3))
    bought = run("ream", {"diameter": "15", "leave": "0.3"}, sample("metric")).answer
    assert bought.figure("drill").text == "14.7 mm (not owned)"
    light = run("ream", {"diameter": "25"}, sample("metric")).answer
    assert light.figure("pre_drill").value == 24.5  # 0.3 to 0.5 mm; drills of 0.25 mm steps leave 0.25 or 0.5


def test_the_least_head_of_a_flat_screw():
    head = run("countersink", {"screw": "1/4"}, sample("inch"), unit="inch").answer.figure("head_least")
    assert head.value / 25.4 == pytest.approx(0.442)  # a public table after ASME B18.6.3, its edge broken
    assert not run("countersink", {"screw": "M6"}, sample("metric")).answer.has("head_least")


def test_the_older_manuals_allowance_is_kept_to_its_end():
    # TM 1-420 (1940) par. 37: 0.005 to 0.010 in; the trade text wants 0.3 to 0.5 mm at 25 mm
    steel = find("mild steel")
    for size, kept in ((24.75, True), (24.74, False), (24.87, True), (24.88, False)):
        found = pre_drill(diameter=25, material=steel, kind="machine", drills=[Tool("mine", size)])
        assert found.owned == kept


def test_steps_by_the_metal_that_a_pilot_leaves():
    # torque goes with the area: a pilot of half the diameter leaves three quarters of it
    assert steps_needed(torque=10, limit=7.6, pilot=6, diameter=12) == 0
    assert steps_needed(torque=10, limit=7.4, pilot=6, diameter=12) == 1
    assert steps_needed(torque=10, limit=7.6, pilot=0, diameter=12) == 1
    assert steps_needed(torque=100, limit=1, pilot=0, diameter=12) == 3


@pytest.mark.parametrize(("drill", "said"), [("5.801", True), ("5.8", False), ("5.7", False), ("5.699", True)])
def test_less_or_more_for_the_reamer_than_the_tables_leave_is_told(drill, said):
    """6 mm in mild steel: 0.2 to 0.3 mm by the table of engine/data/drilling; the drill that is owned decides."""
    shop = replace(sample("metric"), drills=(Tool(f"{drill} mm", float(drill)),))
    answer = run("ream", {"diameter": "6", "leave": str(6 - float(drill))}, shop).answer
    assert any("the tables leave" in note.text for note in spoken(answer).notes) is said
