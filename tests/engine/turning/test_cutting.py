"""Speeds, overhang and parting: published examples, and what holds for every cut."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.cutting.materials import find, names
from engine.shop.file import parse, sample
from engine.turning.overhang import bend, longest_for_taper, ratio_limit
from engine.turning.parting import reach_needed

METRIC, INCH = sample("metric"), sample("inch")
LBF = 4.4482216152605


def work(operation_id, shop=METRIC, **given):
    return run(operation_id, {k: str(v) for k, v in given.items()}, shop).answer


def slow_chuck(mark):
    return parse(
        "[lathe]\nspeeds = '65 100 160 250 400 630 1000 1600'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 500\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n"
        f"[lathe.blade]\nwidth = 2\nreach = 12\n[lathe.chuck]\nmarked_speed = {mark}\n"
    )


@given(
    diameter=st.floats(0.5, 400),
    stuff=st.sampled_from(names()),
    tool=st.sampled_from(["hss", "carbide"]),
    mark=st.sampled_from([100, 300, 1000, 2000]),
)
def test_no_speed_above_the_mark_of_the_chuck_or_the_ideal(diameter, stuff, tool, mark):
    shop = slow_chuck(mark)
    for operation_id, more in (("turning-speed", {"cut": "0.1"}), ("part-off", {})):
        answer = work(operation_id, shop, diameter=f"{diameter:.3f}", material=stuff, tool=tool, **more)
        rpm, ideal = answer.figure("rpm").value, answer.figure("ideal_rpm").value
        assert rpm in shop.lathe.speeds and rpm <= mark
        assert rpm <= ideal or any("lowest speed" in note.text for note in answer.notes)


def test_a_chuck_slower_than_the_lathe_is_refused():
    with pytest.raises(BadInput, match="chuck"):
        work("turning-speed", slow_chuck(60), diameter=20)


def test_speed_of_a_published_range():
    """A machinist course: mild steel, high-speed steel, 80 to 100 ft/min; n = 1000 v / (pi D)."""
    answer = work("turning-speed", diameter=20, material="mild steel")
    speed = answer.figure("surface_speed")
    assert (speed.low, speed.high) == pytest.approx((80 * 0.3048, 100 * 0.3048))
    assert answer.figure("ideal_rpm").value == pytest.approx(1000 * speed.value / (pi * 20))
    assert answer.figure("rpm").value == 250
    # 400 rev/min is 25.1 m/min, inside the range.
    assert any("400 rev/min" in note.text for note in answer.notes)


@given(
    diameter=st.floats(5, 100),
    cut=st.floats(0.05, 2),
    feed=st.floats(0.02, 0.4),
    stuff=st.sampled_from(names()),
)
def test_force_power_and_share_hang_together(diameter, cut, feed, stuff):
    answer = work(
        "turning-speed", diameter=f"{diameter:.3f}", cut=f"{cut:.4f}", feed=f"{feed:.4f}", material=stuff
    )
    material = find(stuff)
    cut, feed = round(cut, 4), round(feed, 4)
    force = material.kc11 * feed ** (1 - material.mc) * cut  # Kienzle, edge square to the feed
    assert answer.figure("force").value == pytest.approx(force)
    speed = answer.figure("actual_speed").value
    assert answer.figure("power").value == pytest.approx(force * speed / 60)
    share = answer.figure("share_of_motor").value
    assert share == pytest.approx(force * speed / 60 / 0.75 / METRIC.lathe.motor)


def test_bar_deflection_of_a_trade_journal():
    """207.8 lbf on 4 in of 1 in steel bar held at one end: 0.003 in (E 30 million psi)."""
    bent = bend(
        diameter=25.4, bore=0, length=101.6, modulus=30e6 * LBF / 25.4**2, force=207.8 * LBF, support="chuck"
    )
    assert bent.deflection / 25.4 == pytest.approx(0.0030, abs=0.00005)
    answer = work("overhang", diameter="1 in", length="4 in", force="207.8 lbf")
    assert answer.figure("deflection").value / 25.4 == pytest.approx(0.0030, abs=0.00005)
    assert answer.figure("taper_error").value == pytest.approx(2 * answer.figure("deflection").value)


@given(
    diameter=st.floats(1, 60),
    length=st.floats(5, 400),
    bore=st.floats(0, 0.9),
    support=st.sampled_from(["chuck", "centre", "centres"]),
)
def test_twice_as_long_bends_eight_times(diameter, length, bore, support):
    at = {"diameter": diameter, "bore": bore * diameter, "modulus": 206_000, "force": 20, "support": support}
    once, twice = bend(length=length, **at), bend(length=2 * length, **at)
    assert twice.deflection == pytest.approx(8 * once.deflection)
    longest = longest_for_taper(allowed=0.02, **at)
    assert bend(length=longest, **at).taper == pytest.approx(0.02)


def test_supports_stiffen_in_order():
    found = [
        work("overhang", diameter=10, length=80, support=s).figure("deflection").value
        for s in ("chuck", "centres", "centre")
    ]
    assert found == sorted(found, reverse=True)
    # Beam theory: 1/3, 1/48 and 7/768 of F L^3 / (E I).
    assert found[0] / found[1] == pytest.approx(16)
    assert found[0] / found[2] == pytest.approx(256 / 7)


def test_longest_is_never_beyond_the_rule_of_thumb():
    """Three diameters out of a chuck: a lathe maker's manual."""
    assert ratio_limit("chuck")[0] == 3
    for diameter in (1, 3, 10, 40):
        longest = work("overhang", diameter=diameter, length=20).figure("longest").value
        assert longest <= 3 * diameter + 1e-9
    assert any("Longer than" in n.text for n in work("overhang", diameter=6, length=30).notes)


def test_a_slender_bar_is_limited_by_its_taper():
    answer = work("overhang", diameter=1, length=3)
    longest = answer.figure("longest")
    assert longest.value < 3 and "beam theory" in longest.source


def test_blade_reach_and_its_warnings():
    assert reach_needed(diameter=20, bore=0) == 10.5
    shop = slow_chuck(2000)
    assert any("blade reaches" in n.text for n in work("part-off", shop, diameter=30).notes)
    assert not any("blade reaches" in n.text for n in work("part-off", shop, diameter=22).notes)
    assert any("deep as wide" in n.text for n in work("part-off", diameter=30, blade=2).notes)
    assert any("diameters from the jaws" in n.text for n in work("part-off", diameter=10, stick_out=25).notes)


def test_parting_runs_at_half_the_turning_speed_and_the_army_feed():
    """A machinist course: 0.5 to 0.6 of turning; TM 1-420 par. 32: 0.002 in a turn."""
    turning = work("turning-speed", diameter=20).figure("surface_speed").value
    answer = work("part-off", diameter=20)
    assert answer.figure("surface_speed").value == pytest.approx(turning / 2)
    assert answer.figure("feed").value == pytest.approx(0.002 * 25.4)


@pytest.mark.parametrize(
    ("operation_id", "given", "field"),
    [
        ("turning-speed", {"diameter": 20, "material": "cheese"}, "material"),
        ("turning-speed", {"diameter": 2, "cut": 1}, "cut"),
        ("turning-speed", {"diameter": 0}, "diameter"),
        ("overhang", {"diameter": 10, "length": 40, "bore": 10}, "bore"),
        ("overhang", {"diameter": 1, "length": 4000}, "length"),
        ("part-off", {"diameter": 20, "bore": 21}, "bore"),
        ("part-off", {"diameter": 20, "blade": 0}, "blade"),
    ],
)
def test_refusals_name_the_field(operation_id, given, field):
    with pytest.raises(BadInput) as refusal:
        work(operation_id, **given)
    assert refusal.value.field == field


def test_the_inch_bench_answers_with_its_own_speeds():
    answer = work("turning-speed", INCH, diameter="3/4in")
    assert answer.figure("rpm").value in INCH.lathe.speeds
