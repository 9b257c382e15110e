"""Points, pecks, deep holes, centre drills and whole plans."""

from fractions import Fraction
from math import tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput, OutOfRange
from engine.base.tables import rows
from engine.base.words import write
from engine.cutting.materials import find
from engine.cutting.speeds import surface_speed
from engine.drilling import holes
from engine.drilling.bench import machine_of
from engine.drilling.centres import british_centre_drill, centre_drill
from engine.drilling.plan import plan_hole
from engine.drilling.sizes import SAME
from engine.shop.file import parse, sample
from tests.spoken import spoken

from .rows import published

MATERIALS = ["mild steel", "brass", "stainless", "6082", "acetal", "cast iron", "silver steel"]


@pytest.mark.parametrize("row", published("drill_point.csv"), ids=lambda r: r["angle"])
def test_point_length(row):
    found = holes.point_length(diameter=1, angle=float(row["angle"]))
    assert found == pytest.approx(float(row["length_per_diameter"]), abs=5e-5)


@pytest.mark.parametrize("row", published("deep_holes.csv"), ids=lambda r: r["diameters"])
def test_deep_hole_reduction(row):
    found = holes.reduction(float(row["diameters"]))
    assert found.speed == pytest.approx(1 - int(row["speed_less"]) / 100)
    assert found.feed == pytest.approx(1 - int(row["feed_less"]) / 100)
    assert holes.reduction(float(row["diameters"]) - 0.01).speed > found.speed


@pytest.mark.parametrize("row", published("centre_drills.csv"), ids=lambda r: f"{r['standard']} {r['size']}")
def test_centre_drill_as_printed(row):
    kept = next(
        r
        for r in rows("drilling/centre_drills.csv")
        if (r["standard"], r["size"]) == (row["standard"], row["size"])
    )
    for name in ("pilot", "body", "pilot_length", "mouth"):
        assert kept[name] == row[name]
    if row["mouth"]:  # ISO 6411: the mouth is 2.12 times the pilot within 2.5 %
        assert float(row["mouth"]) == pytest.approx(2.12 * float(row["pilot"]), rel=0.025)
    if row["standard"] == "asme" and row["size"] != "00":  # plain type: pilots in 64ths of an inch
        assert float(row["pilot"]) / 25.4 * 64 == pytest.approx(
            round(float(row["pilot"]) / 25.4 * 64), abs=0.01
        )


@pytest.mark.parametrize("standard", ["iso", "asme"])
@pytest.mark.parametrize("diameter", [0.4, 1, 2.5, 6, 12, 40])
def test_the_drill_takes_its_centre_away(standard, diameter):
    found = centre_drill(diameter=diameter, standard=standard)
    assert found.mouth <= max(diameter, found.pilot)
    assert found.depth == pytest.approx(found.depth) and found.depth > 0
    cone = (found.mouth - found.pilot) / 2 / tan(0.5235987755982988)
    assert found.depth > cone


def test_a_british_centre_drill_is_named():
    assert british_centre_drill(3.15) == "BS 4"  # pilot 1/8 in, BS 328-2 (from memory)


@settings(max_examples=60, deadline=None)
@given(st.floats(0.3, 40), st.floats(0.05, 49), st.booleans())
def test_pecks_rise_to_the_depth_and_never_exceed_two_diameters(diameter, ratio, tough):
    depth = ratio * diameter
    found = holes.pecks(diameter=diameter, depth=depth, tough=tough)
    assert found[-1] == depth
    assert list(found) == sorted(set(found))
    longest = 2 if len(found) > 1 else 3
    bites = [b - a for a, b in zip((0.0, *found), found, strict=False)]
    assert max(bites) <= longest * diameter * (1 + 1e-9)
    assert len(found) <= 100


@settings(max_examples=80, deadline=None)
@given(
    st.floats(0.5, 40),
    st.floats(0.2, 20),
    st.sampled_from(MATERIALS),
    st.sampled_from(["lathe", "mill"]),
    st.sampled_from(["metric", "inch"]),
    st.sampled_from(["blind", "through"]),
)
def test_a_plan_keeps_its_promises(diameter, ratio, material, machine, bench, hole):
    shop = sample(bench)
    given = {
        "diameter": diameter,
        "depth": diameter * ratio,
        "material": material,
        "machine": machine,
        "hole": hole,
    }
    answer = run("hole-plan", given, shop).answer
    steps = answer.table("steps")
    # the last depth is the asked depth and the point
    assert steps.column("depth")[-1] == pytest.approx(given["depth"] + answer.figure("drill_point").value)
    assert steps.column("depth")[-1] == pytest.approx(answer.figure("travel").value)
    # no speed above the machine's top step or the chuck's mark
    speeds = (shop.lathe if machine == "lathe" else shop.mill).speeds
    ceiling = min(max(speeds), shop.lathe.chuck.marked_speed) if machine == "lathe" else max(speeds)
    assert all(rpm in speeds and rpm <= ceiling for rpm in steps.column("rpm"))
    # every drill is owned or marked
    is_owned = any(abs(t.diameter - diameter) <= SAME for t in shop.drills)
    marked = [text for text in steps.column("tool") if "(not owned)" in text]
    assert bool(marked) != is_owned
    # a dial never goes past a depth of a blind hole
    slide = shop.lathe.tailstock if machine == "lathe" else shop.mill.z
    for depth, turns, reading in zip(
        *(steps.column(name) for name in ("depth", "turns", "reading")), strict=True
    ):
        reached = turns * float(slide.travel_per_turn) + reading
        line = float(slide.travel_per_turn / slide.divisions)
        assert abs(reached - depth) <= line
        if hole == "blind":
            assert reached <= depth + 1e-9


@settings(max_examples=60, deadline=None)
@given(st.floats(0.5, 30), st.sampled_from(MATERIALS), st.sampled_from(["lathe", "mill"]))
def test_no_tool_runs_faster_than_its_material_allows(diameter, material, machine):
    shop = sample("metric")
    stuff = find(material)
    plan = plan_hole(
        diameter=diameter,
        depth=diameter,
        material=stuff,
        machine=machine_of(shop, machine),
        drills=shop.drills,
    )
    limit = surface_speed(material=stuff, operation="drilling").high
    for cut in plan.cuts:
        assert cut.speed.surface_speed <= limit * (1 + 1e-9) or cut.speed.too_fast


@settings(max_examples=40, deadline=None)
@given(st.floats(1, 20), st.floats(0.5, 5))
def test_reamed_holes_end_at_the_asked_depth(diameter, ratio):
    answer = run(
        "hole-plan", {"diameter": diameter, "depth": diameter * ratio, "finish": "ream"}, sample("metric")
    ).answer
    tools, depths = answer.table("steps").column("tool"), answer.table("steps").column("depth")
    assert tools[-1].startswith("reamer") and depths[-1] == pytest.approx(diameter * ratio)
    assert depths[-2] > depths[-1]  # the drill goes deeper by its point


def test_a_deep_hole_runs_slower():
    shallow = run("hole-plan", {"diameter": 5, "depth": 10}, sample("metric")).answer
    deep = run("hole-plan", {"diameter": 5, "depth": 30}, sample("metric")).answer
    # 6 diameters: speed less 40 %, feed less 20 % (a drill maker's guide); 0.002 in from the Navy's table
    assert "24.384 x 0.6 for the depth" in write(deep.figure("rpm").working)
    assert deep.figure("feed").value == pytest.approx(0.8 * 0.0508)
    assert shallow.figure("feed").value == pytest.approx(0.0508)
    assert deep.figure("rpm").value < shallow.figure("rpm").value
    assert deep.figure("pecks").value > shallow.figure("pecks").value


def test_a_speed_by_hand():
    # 24.384 m/min (80 ft/min, US Navy 14345) on 8.5 mm: 913 rev/min; the sample lathe's step below is 630.
    figure = run("hole-plan", {"diameter": "8.5", "depth": "10"}, sample("metric")).answer.figure("rpm")
    assert figure.value == 630 and "= 913" in write(figure.working)


def test_a_chuck_marked_low_holds_every_tool():
    text = 'unit = "mm"\ndrills = "1-13 x 0.1"\n[lathe]\nspeeds = "100 400 1600"\nleadscrew = 3\n' + (
        'change_wheels = "20"\nmotor = 500\n[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n'
        "[lathe.top_slide]\ntravel_per_turn = 2\ndivisions = 80\n[lathe.chuck]\nmarked_speed = 500\n"
    )
    shop = parse(text)
    answer = run("hole-plan", {"diameter": "3", "depth": "5", "material": "brass"}, shop).answer
    assert max(answer.table("steps").column("rpm")) == 400
    assert any("500 rev/min marked on the chuck" in note.text for note in spoken(answer.notes))
    assert not answer.has("turns")  # that lathe has no tailstock dial


def _warnings(**given):
    return " ".join(
        n.text for n in spoken(run("hole-plan", given, sample("metric")).answer.notes) if n.level == "warning"
    )


def test_warnings_with_the_number_that_raises_them():
    assert "flute" in _warnings(diameter="2", depth="30")  # DIN 338: 24 mm of flute (from memory)
    assert "flute" not in _warnings(diameter="2", depth="20")
    assert "0.25 mm of wall" in _warnings(diameter="8", depth="10", outside="8.5")
    assert "wall" not in _warnings(diameter="8", depth="10", outside="12")
    assert "comes out" in _warnings(diameter="8", depth="10", stock="12")
    assert "comes out" not in _warnings(diameter="8", depth="10", stock="13")
    assert "web" in _warnings(diameter="10", depth="10", pilot="5")
    assert "web" not in _warnings(diameter="10", depth="10", pilot="2.5")
    assert "no 8.75 mm drill" in _warnings(diameter="8.75", depth="10")


def test_pilot_and_steps_for_a_large_hole():
    answer = run("hole-plan", {"diameter": "13", "depth": "20"}, sample("metric")).answer
    kinds = [text.split(",")[0] for text in answer.table("steps").column("tool")]
    assert kinds[1] == "pilot" and kinds[-1] == "drill"
    low, high = holes.pilot_range(13)
    pilot = float(answer.table("steps").column("tool")[1].split()[1])
    assert low <= pilot <= high


def test_what_cannot_be_planned():
    shop = sample("metric")
    with pytest.raises(OutOfRange, match="depth"):
        run("hole-plan", {"diameter": "1", "depth": "60"}, shop)
    with pytest.raises(BadInput, match="no mill"):
        run("hole-plan", {"diameter": "5", "depth": "6", "machine": "mill"}, parse('name = "x"'))
    bare = run("hole-plan", {"diameter": "5", "depth": "6"}, parse('name = "x"')).answer
    assert bare.figure("rpm").value == pytest.approx(1000 * 24.384 / (3.141592653589793 * 5))


def test_torque_of_steps_stays_within_the_motor():
    shop = sample("metric")
    for diameter in (6, 9, 12, 13):
        answer = run(
            "hole-plan", {"diameter": diameter, "depth": diameter, "material": "stainless"}, shop
        ).answer
        assert answer.figure("share_of_motor").value <= 0.75


def test_exact_settings():
    # 10 mm and the 118 degree point of a 5 mm drill, 1.502 mm; 2 mm a turn, 40 lines of 0.05 mm: 5 turns and 1.50
    answer = run("hole-plan", {"diameter": "5", "depth": "10"}, sample("metric")).answer
    assert answer.figure("travel").value == pytest.approx(11.502, abs=5e-4)
    assert (answer.figure("turns").value, answer.figure("reading").value) == (5, 1.5)
    assert sample("metric").lathe.tailstock.travel_per_turn == Fraction(2)
