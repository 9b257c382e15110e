"""Turning in cuts: they add up, keep their bounds, stand on whole lines and never pass the size."""

from fractions import Fraction
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import parse, sample
from engine.turning.cut_plan import plan_cuts
from tests.engine.sums import near, sums_of
from tests.rows import each_row
from tests.spoken import spoken

SHOPS = {"mm": sample("metric"), "inch": sample("inch")}
DIAMETER_DIAL = parse(
    "[lathe]\nspeeds = '65 100 160 250 400 630 1000 1600'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 550\n"
    "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 200\nreads_diameter = true\n"
    "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 2000\n"
)


def work(shop=SHOPS["mm"], unit="mm", **inputs):
    asked = {name.removesuffix("_"): str(value) for name, value in inputs.items()}
    return spoken(run("turn-to-size", asked, shop, unit=unit).answer, unit)


def test_its_promise():
    names = "from to fit low high length material tool stick_out support first_cut last_cut touch"
    assert set(names.split()) <= set(asks(load("turn-to-size").inputs))
    answer = work(from_=28, to=25, length=20)
    assert answer.lead.setting is not None
    assert {"rpm", "feed", "finish_cut", "spring", "time"} <= {f.name for f in answer.figures}
    cuts = answer.table("cuts")
    assert cuts.count_noun == "cut" and [c.name for c in cuts.columns][:4] == ["cut", "depth", "diameter", "stop"]


@pytest.mark.parametrize(
    ("now", "wanted", "line", "lines"),
    [
        # One line takes twice its value off the diameter on a radius dial, its value on a diameter dial: geometry.
        (12.85, 12.5, Fraction(2, 100), 8.75),
        (12.85, 12.5, Fraction(1, 100), 17.5),
        (13.5128, 12.7, Fraction(254, 10000), 16.0),
        (25.4, 22.225, Fraction(254, 10000), 62.5),  # a school-shop course: 1.000 to 0.875 in, 0.0625 in on the radius
    ],
)
def test_lines_of_the_dial(now, wanted, line, lines):
    plan = plan_cuts(way=(now - wanted) / 2, line=line, first=0.5, last=0.1, least=0.02)
    assert sum(plan.cuts) == int(lines)
    assert plan.left == pytest.approx(float((Fraction(lines) - int(lines)) * line), abs=1e-9)


@given(
    way=st.floats(0.15, 20),
    line=st.sampled_from([Fraction(1, 100), Fraction(1, 50), Fraction(1, 40), Fraction(254, 10000), Fraction(1, 20)]),
    first=st.floats(0.3, 3),
    last=st.floats(0.01, 0.4),
    least=st.floats(0.005, 0.12),
)
def test_cuts_keep_their_bounds(way, line, first, last, least):
    try:
        plan = plan_cuts(way=way, line=line, first=first, last=last, least=least)
    except BadInput as refusal:
        fewest = -(-Fraction(repr(least)) // line) * line
        assert refusal.field == "first_cut" and (first < 2 * fewest + line or way / 0.3 > 100)
        return
    depths = [plan.depth(i) for i in range(1, len(plan.cuts) + 1)]
    assert sum(plan.cuts) * line <= Fraction(repr(way)) + line / 10**5
    assert plan.total + plan.left == pytest.approx(way, abs=1e-6) and plan.left < line
    assert max(depths) <= first + 1e-6 and min(depths) >= least - 1e-6
    assert depths == sorted(depths, reverse=True), "the last is the lightest"


@given(
    start=st.floats(6, 60),
    off=st.floats(0.2, 5),
    out=st.floats(5, 200),
    more=st.floats(0, 200),
    stuff=st.sampled_from(["mild steel", "brass", "stainless steel", "silver steel", "aluminium"]),
    support=st.sampled_from(["none", "centre"]),
)
def test_a_longer_stick_out_never_makes_a_cut_heavier(start, off, out, more, stuff, support):
    at = {"from_": f"{start:.3f}", "to": f"{start - off:.3f}", "length": 5, "material": stuff, "support": support}
    near_cut, far_cut = (
        work(stick_out=f"{far:.2f}", **at).table("cuts").column("depth")[0] for far in (out, out + more)
    )
    assert far_cut <= near_cut + 1e-9


@given(
    start=st.floats(3, 60),
    off=st.floats(0.2, 5),
    touch=st.floats(0, 1.9),
    shop=st.sampled_from([*SHOPS.values(), DIAMETER_DIAL]),
)
def test_the_table_closes_and_its_dial_never_passes_the_size(start, off, touch, shop):
    wanted = max(start - off, 1.0)
    if start - wanted < 0.3:
        return
    answer = work(shop, from_=f"{start:.4f}", to=f"{wanted:.4f}", length=10, touch=f"{touch:.2f}mm")
    cuts, slide = answer.table("cuts"), shop.lathe.cross_slide
    assert round(start, 4) - 2 * sum(cuts.column("depth")) == pytest.approx(cuts.column("diameter")[-1])
    assert cuts.column("diameter")[-1] >= round(wanted, 4) - 1e-6
    assert cuts.column("diameter")[-1] - round(wanted, 4) < 2 * slide.travel_per_turn / slide.divisions + 1e-6
    line = slide.travel_per_turn / slide.divisions
    begins = round(Fraction(f"{touch:.2f}") / (2 if slide.reads_diameter else 1) / line)
    gone = 0
    for depth, setting in zip(cuts.column("depth"), cuts.column("set"), strict=True):
        gone += round(depth / line)
        assert setting.line == (begins + gone) % slide.divisions and setting.way == "in"
        assert setting.turns == gone // slide.divisions
        shows = (
            float(setting.line * line) * (2 if slide.reads_diameter else 1) / (25.4 if setting.unit == "inch" else 1)
        )
        assert setting.on_dial == pytest.approx(shows)


def test_speed_feed_and_time_hang_together():
    """T = L / (f n) for each cut: any shop handbook."""
    answer = work(from_=28, to=25, length=20)
    rpm, rough, fine = (answer.figure(n).value for n in ("rpm", "feed", "finish_feed"))
    assert 24.384 * 0.7 < pi * 28 * rpm / 1000 < 30.48
    count = answer.figure("cut_count").value
    assert answer.figure("time").value == pytest.approx(60 * 20 * ((count - 1) / (rough * rpm) + 1 / (fine * rpm)))


def test_the_target_of_a_fit_is_between_its_limits():
    """ISO 286-1: 10 h7 is 9.985 to 10.000."""
    target = work(from_=12, to=10, length=10, fit="h7").figure("target")
    assert (target.low, target.high) == pytest.approx((9.985, 10.0)) and target.value == pytest.approx(9.9925)
    assert work(from_=12, low=9.9, high=10, length=10).figure("target").value == pytest.approx(9.95)
    assert work(from_=12, low=9.9, high=10, to=9.98, length=10).figure("target").value == 9.98


@each_row(
    ("inputs", "said", "there"),
    [
        ({"to": 10}, "Before the last cut stop", True),
        ({"to": 11.8}, "One cut: try it", True),
        ({"to": 10, "stick_out": 30}, "at most, for the stick-out", False),
        ({"to": 10, "stick_out": 80}, "at most, for the stick-out", True),
        ({"to": 10, "stick_out": 50}, "large at the free end", False),  # 0.0061 mm
        ({"to": 10, "stick_out": 60}, "large at the free end", True),  # 0.0105 mm
        ({"to": 10, "fit": "h7", "stick_out": 67}, "more than the limits are apart", False),  # 0.0147 of 0.015
        ({"to": 10, "fit": "h7", "stick_out": 68}, "more than the limits are apart", True),
        ({"low": 9.962, "high": 9.964}, "outside", True),
        ({"low": 9.949, "high": 9.951}, "outside", False),
        ({"to": 10, "stick_out": 36}, "stands out far", False),
        ({"to": 10, "stick_out": 36.1}, "stands out far", True),
    ],
)
def test_notes_at_their_limits(inputs, said, there):
    """Three diameters out of a chuck: a lathe maker's manual; the give of the work: beam theory."""
    notes = [note.text for note in work(from_=12, length=20, **inputs).notes]
    assert any(said in text for text in notes) is there, notes


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("call", [{}, {"material": "brass", "stick_out": "90mm"}, {"tool": "carbide"}])
def test_the_workings_give_the_figures(unit, call):
    for figure in work(SHOPS["mm"], unit, from_="28mm", to="25mm", length="20mm", **call).figures:
        if figure.setting is not None or figure.name in ("rpm", "feed", "finish_feed", "target"):
            continue
        inch = unit == "inch" and figure.dimension == "length"
        assert any(near(v, figure.value / 25.4 if inch else figure.value) for v in sums_of(figure.working)), figure


@each_row(
    ("inputs", "field"),
    [
        ({"to": 12}, "to"),
        ({}, "to"),
        ({"to": 11.97}, "to"),  # 0.015 mm on the tool: a line is 0.025
        ({"low": 10}, "high"),
        ({"high": 10}, "low"),
        ({"low": 10, "high": 10}, "high"),
        ({"low": 9.9, "high": 10, "to": 10.1}, "to"),
        ({"to": 10, "fit": "H7"}, "fit"),
        ({"to": 10, "fit": "h7", "low": 9, "high": 10}, "fit"),
        ({"to": 10, "first_cut": 0.03}, "first_cut"),
        ({"to": 10, "stick_out": 19}, "stick_out"),
    ],
)
def test_refusals_name_the_field(inputs, field):
    with pytest.raises(BadInput) as refusal:
        work(from_=12, length=20, **inputs)
    assert refusal.value.field == field


def test_without_a_lathe_the_depths_stand_alone():
    answer = work(parse(""), from_=12, to=10, length=20)
    assert not answer.has("setting") and answer.table("cuts").setting == ("depth", "diameter", "stop")


@pytest.mark.parametrize(
    ("inputs", "sentence"),
    [
        # A sharp edge takes 0.01 to 0.025 mm (common practice): one line of 0.025 mm here; twice that to begin with.
        ({"to": 11.97}, "accepted: at least 0.025 mm on the tool"),
        ({"to": 10, "first_cut": 0.03}, "accepted: at least 0.050 mm, twice the least"),
        ({"to": 11.85, "tool": "carbide"}, "accepted: at least 0.100 mm on the tool"),
        (
            {"to": 1, "first_cut": 0.05, "from_": 30},
            "first_cut: 0.050 mm cannot be used; accepted: cuts that make it in 200",
        ),
    ],
)
def test_refusals_say_what_would_do(inputs, sentence):
    with pytest.raises(BadInput) as refusal:
        work(**{"from_": 12, "length": 1, **inputs})
    assert sentence in str(refusal.value)


def test_without_a_dial_the_lines_are_hundredths():
    assert work(parse(""), from_=12, to=11.77, length=20).table("cuts").column("diameter")[-1] == pytest.approx(11.78)


def test_the_material_bends_by_its_own_stiffness():
    """F L^3 / (3 E I), twice on the diameter; half the main force across the bar (common practice)."""
    answer = work(from_=12, to=10, length=50)
    depth, feed = answer.figure("finish_cut").value, answer.figure("finish_feed").value
    push = 0.5 * 1780 * feed ** (1 - 0.17) * depth
    assert answer.figure("spring").value == pytest.approx(2 * push * 50**3 / (3 * 206_000 * pi * 10**4 / 64))


@pytest.mark.parametrize(
    ("material", "rough"),
    [
        ("mild steel", 0.5),
        ("brass", 1.0),
        ("aluminium", 1.0),
        ("stainless steel", 0.3),
        ("cast iron", 0.5),
        ("acetal", 1.0),
    ],
)
def test_the_roughing_cut_of_a_material(material, rough):
    """A light lathe: 0.25 to 0.75 mm in steel, 0.5 to 1.5 in brass and aluminium (common practice, no source)."""
    first = work(from_=60, to=50, length=20, material=material).figure("rough_cut").value
    assert 0.8 * rough <= first <= rough


def test_a_limp_material_takes_lighter_cuts():
    """Acetal is a seventieth as stiff as steel: the give of 0.05 mm that is borne comes sooner."""
    cuts = [work(from_=14, to=10, length=60, material=m).figure("rough_cut").value for m in ("aluminium", "acetal")]
    assert cuts[1] < cuts[0] / 2


@pytest.mark.parametrize(("length", "turns", "dial"), [(10, 0, 10.0), (20, 1, 2.0), (50, 2, 14.0)])
def test_the_stop_stands_on_the_saddles_own_dial(length, turns, dial):
    """A handwheel of 18 mm a turn in lines of 0.1, its zero at the end face: counted by hand."""
    answer = run("turn-to-size", {"from": "28", "to": "25", "length": str(length)}, sample("metric")).answer
    last = answer.table("cuts").column("saddle")[-1]
    assert (last.turns, last.on_dial) == (turns, pytest.approx(dial))
