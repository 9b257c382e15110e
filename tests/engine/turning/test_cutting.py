"""Speeds, overhang and parting: published examples, and what holds for every cut."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.cutting.materials import find, names
from engine.shop.file import parse, sample
from engine.turning.part_off import reach_needed
from engine.turning.stiffness import bend, longest_for_taper, ratio_limit
from tests.rows import each_row
from tests.spoken import spoken

METRIC, INCH = sample("metric"), sample("inch")
LBF = 4.4482216152605


def work(operation_id, shop=METRIC, **given):
    return spoken(run(operation_id, {k: str(v) for k, v in given.items()}, shop).answer)


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
def test_no_speed_above_the_mark_of_the_chuck_or_the_published_range(diameter, stuff, tool, mark):
    shop = slow_chuck(mark)
    for operation_id, more in (("turning-speed", {"cut": "0.1"}), ("part-off", {})):
        answer = work(operation_id, shop, diameter=f"{diameter:.3f}", material=stuff, tool=tool, **more)
        rpm, published = answer.figure("rpm").value, answer.figure("surface_speed")
        assert rpm in shop.lathe.speeds and rpm <= mark
        actual = answer.figure("actual_speed").value
        assert actual <= published.high + 1e-9 or any("lowest speed" in note.text for note in answer.notes)
        steps = [s for s in shop.lathe.speeds if s <= mark]
        inside = [s for s in steps if published.low <= pi * diameter * s / 1000 <= published.high]
        if inside and not answer.notes:  # US Army OD 1645: near the speed wanted; the lowest that is inside the range
            assert rpm == min(inside)


def test_a_chuck_slower_than_the_lathe_is_refused():
    with pytest.raises(BadInput, match="chuck"):
        work("turning-speed", slow_chuck(60), diameter=20)


def test_speed_of_a_published_range():
    """A machinist course: mild steel, high-speed steel, 80 to 100 ft/min; n = 1000 v / (pi D)."""
    answer = work("turning-speed", diameter=20, material="mild steel")
    speed = answer.figure("surface_speed")
    assert (speed.low, speed.high) == pytest.approx((80 * 0.3048, 100 * 0.3048))
    assert answer.figure("ideal_rpm").value == pytest.approx(1000 * speed.value / (pi * 20))
    # 400 rev/min is 25.1 m/min, inside the range; the next slower, 250, is 15.7 m/min, below it.
    assert answer.figure("rpm").value == 400


@pytest.mark.parametrize(
    ("more", "rpm", "word"),
    [
        ({}, 400, ""),
        ({"stick_out": 60}, 400, ""),
        ({"stick_out": 60.1}, 250, "stands out far"),
        ({"cut": 3}, 400, ""),  # 403 W of 412 W
        ({"cut": 3.1}, 250, "more than the motor gives"),
    ],
)
def test_slower_only_for_a_reason_that_is_said(more, rpm, word):
    """Three diameters: a lathe maker's manual; three quarters of 550 W reach the cut: common practice."""
    answer = work("turning-speed", diameter=20, **more)
    assert answer.figure("rpm").value == rpm
    assert any(word in note.text for note in answer.notes) if word else not answer.notes


@pytest.mark.parametrize(("mark", "said"), [(1000, False), (1600, True)])
def test_the_next_step_is_named_only_below_the_chucks_mark(mark, said):
    """Acetal of 20 mm, 61 to 122 m/min: 1000 rev/min is set, 1600 is inside the range still."""
    answer = work("turning-speed", slow_chuck(mark), diameter=20, material="acetal", cut=0.1)
    assert answer.figure("rpm").value == 1000
    assert any("1600 rev/min, is still inside" in note.text for note in answer.notes) == said
    assert any("Held back" in note.text for note in answer.notes) is False


def test_a_mark_inside_the_range_holds_the_speed_back():
    answer = work("turning-speed", slow_chuck(300), diameter=20, material="brass", cut=0.1)
    assert answer.figure("rpm").value == 250
    assert any("Held back by the speed marked on the chuck, 300" in note.text for note in answer.notes)


def test_carbide_parts_off_within_the_motor():
    """A blade cannot take less: the step is slower instead."""
    answer = work("part-off", diameter=25, tool="carbide")
    assert answer.figure("share_of_motor").value <= 1
    assert any("slower for that" in note.text for note in answer.notes)


def test_finishing_takes_the_feed_that_the_finish_asks_for():
    """Peak 125 f^2 / r um for f over 0.1 mm (an insert maker's finishing page); Ra = f^2 / (32 r), exactly 1/31.2."""
    answer = work("turning-speed", diameter=3, material="brass", way="finish", cut=0.1)
    assert answer.figure("feed").value == pytest.approx(0.002 * 25.4)
    answer = work("turning-speed", diameter=20, way="finish", roughness="1.6", nose=0.4)
    feed, ra = answer.figure("feed").value, answer.figure("roughness").value
    assert ra == pytest.approx(0.8)  # half of what is asked: a light lathe leaves 1.5 to 3 times the sum
    assert 1000 * feed**2 / (32 * 0.4) == pytest.approx(ra)
    assert work("turning-speed", diameter=20, way="finish", roughness="0.1", nose=0.2).figure("feed").value == 0.05
    coarse = work("turning-speed", diameter=20, way="finish", roughness="25", nose=0.2).figure("feed").value
    assert coarse == pytest.approx(0.2 / 1.6)


def test_without_a_blade_the_width_is_asked_for():
    """A shop without a blade: one plain question, no traceback."""
    text = (
        "[lathe]\nspeeds = '65 100 160 250'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 500\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 1000\n"
    )
    for shop in (parse(text), parse("")):
        for operation_id, more in (
            ("part-off", {"diameter": 25}),
            ("bar-plan", {"parts": 3, "length": 12, "grip": 20}),
        ):
            with pytest.raises(BadInput, match="blade: width of the blade is needed"):
                work(operation_id, shop, **more)
            assert work(operation_id, shop, blade=2, **more).figures


@given(diameter=st.floats(5, 100), cut=st.floats(0.05, 2), feed=st.floats(0.02, 0.4), stuff=st.sampled_from(names()))
def test_force_power_and_share_hang_together(diameter, cut, feed, stuff):
    answer = work("turning-speed", diameter=f"{diameter:.3f}", cut=f"{cut:.4f}", feed=f"{feed:.4f}", material=stuff)
    material = find(stuff)
    cut, feed = round(cut, 4), round(feed, 4)
    force = material.kc11 * feed ** (1 - material.mc) * cut  # the power law, edge square to the feed
    assert answer.figure("force").value == pytest.approx(force)
    speed = answer.figure("actual_speed").value
    assert answer.figure("power").value == pytest.approx(force * speed / 60)
    share = answer.figure("share_of_motor").value
    assert share == pytest.approx(force * speed / 60 / 0.75 / METRIC.lathe.motor)


def test_bar_deflection_of_a_trade_journal():
    """207.8 lbf on 4 in of 1 in steel bar held at one end: 0.003 in (E 30 million psi)."""
    bent = bend(diameter=25.4, bore=0, length=101.6, modulus=30e6 * LBF / 25.4**2, force=207.8 * LBF, support="chuck")
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
    assert any("no thicker than the blade" in n.text for n in work("part-off", diameter=2, blade=2).notes)
    assert not any("no thicker than the blade" in n.text for n in work("part-off", diameter=2.1, blade=2).notes)
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


@pytest.mark.parametrize(("stuff", "said"), [("AZ31", True), ("aluminium", False)])
def test_magnesium_says_fire(stuff, said):
    """T.O. 1-1A-9 / TM 43-0106, par. 4-22: never water; class D powder or dry sand."""
    assert any("never water" in note.text for note in work("turning-speed", diameter=20, material=stuff).notes) is said


@each_row(
    ("operation_id", "given", "said", "there"),
    [
        # Six times as deep as wide on a light lathe, common practice; eight at most in steel, a blade maker's table.
        ("part-off", {"diameter": 24, "blade": 2}, "slender for a light lathe", False),
        ("part-off", {"diameter": 24.1, "blade": 2}, "slender for a light lathe", True),
        ("part-off", {"diameter": 32, "blade": 2}, "above what steel bears", False),
        ("part-off", {"diameter": 32.1, "blade": 2}, "above what steel bears", True),
        # Within one diameter of the jaws: common practice.
        ("part-off", {"diameter": 20, "stick_out": 20}, "diameters from the jaws", False),
        ("part-off", {"diameter": 20, "stick_out": 20.1}, "diameters from the jaws", True),
        # The sample blade reaches 17 mm: half the bar and half a millimetre.
        ("part-off", {"diameter": 33}, "The blade reaches", False),
        ("part-off", {"diameter": 33.1}, "The blade reaches", True),
        # Three diameters in chuck and collet; the 10 mm bar bends 0.02 mm on the diameter only beyond that.
        ("overhang", {"diameter": 10, "length": 30}, "Longer than", False),
        ("overhang", {"diameter": 10, "length": 30.1}, "Longer than", True),
        ("overhang", {"diameter": 10, "length": 30, "support": "collet"}, "Longer than", False),
        ("overhang", {"diameter": 10, "length": 30.1, "support": "collet"}, "Longer than", True),
        ("overhang", {"diameter": 10, "length": 30.1}, "support the end with a centre", True),
        ("overhang", {"diameter": 10, "length": 90, "support": "centre"}, "Use a steady", True),
        ("overhang", {"diameter": 10, "length": 30.1, "force": "20 N"}, "that force leaves", True),
        # A light lathe gives 0.1 µm per newton (from memory): F L^3 / (3 E I) is that at 31.2 mm of a 10 mm steel bar.
        ("overhang", {"diameter": 10, "length": 31}, "stiffer than the lathe", True),
        ("overhang", {"diameter": 10, "length": 31.3}, "stiffer than the lathe", False),
    ],
)
def test_notes_at_their_limits(operation_id, given, said, there):
    assert any(said in note.text for note in work(operation_id, **given).notes) is there


def test_the_lathes_own_give_is_told_beside_the_bars():
    """A bar of 100 x 5 mm bends by nothing that can be read: what is seen then is the lathe."""
    answer = work("overhang", diameter=100, length=5)
    assert answer.figure("spindle_give").value > 100 * answer.figure("deflection").value


@pytest.mark.parametrize(("diameter", "words"), [(129, ""), (180, "cut lightly"), (260, "slower lathe")])
def test_a_lathe_that_is_too_fast(diameter, words):
    """65 rev/min is the sample lathe's lowest; 80 to 100 ft/min in mild steel; half as fast again is too much."""
    notes = [note.text for note in work("turning-speed", diameter=diameter, cut=0.1).notes]
    assert any(words in text and "lowest speed" in text for text in notes) is bool(words)


@pytest.mark.parametrize(
    ("diameter", "height"), [(25.4, "on centre"), (27, "at most 0.1 mm"), (50.8, "at most 1.6 mm")]
)
def test_height_of_a_blade(diameter, height):
    """US Army OD 1645: on centre up to 1 in, 1/16 in higher for each inch more."""
    from engine.base.words import write
    from engine.turning.part_off import blade_height

    assert height in write(blade_height(diameter))


def test_a_bored_part_takes_a_shorter_blade():
    """The wall and half a millimetre past it: geometry, common practice."""
    assert work("part-off", diameter=20, bore=10).figure("blade_reach").value == pytest.approx(5.5)
    assert work("part-off", diameter=20, bore=10).figure("slenderness").value == pytest.approx(2.5)
    assert reach_needed(diameter=20, bore=10) == 5.5
