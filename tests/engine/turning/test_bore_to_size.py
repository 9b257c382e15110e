"""Boring in cuts: they add up, never pass the size, fall on the dial; the bar by published rules and beam theory."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import parse, sample
from tests.engine.sums import near, sums_of
from tests.spoken import spoken

SHOP = sample("metric")


def work(shop=SHOP, unit="mm", **inputs):
    return spoken(run("bore-to-size", {k: str(v) for k, v in inputs.items()}, shop, unit=unit).answer, unit)


def test_its_promise():
    names = "hole to fit low high depth bar material tool first_cut last_cut touch"
    assert set(names.split()) <= set(asks(load("bore-to-size").inputs))
    answer = work(hole=16, to=18, depth=20)
    assert answer.lead.setting is not None and answer.table("cuts").count_noun == "cut"
    assert {"rpm", "feed", "finish_cut", "deflection", "least_bar", "spring", "time"} <= {
        f.name for f in answer.figures
    }


@pytest.mark.parametrize(
    ("bar", "reach", "small"),
    # A steel bar under 40 N, F L^3 / (3 E I) twice: derived.
    [(6, 18, 0.0119), (10, 40, 0.0169), (12, 48, 0.0141)],
)
def test_what_a_bar_gives(bar, reach, small):
    """The spring is as the force: 40 N and the force of this cut."""
    answer = work(hole=20, to=22, depth=reach, bar=f"{bar} x {reach}")
    gives = answer.figure("deflection").value
    force = gives * 3 * 206_000 * pi * bar**4 / 64 / reach**3
    assert answer.figure("spring").value == pytest.approx(2 * gives) == pytest.approx(small * force / 40, rel=0.01)


@pytest.mark.parametrize(
    ("bar", "said"), [("10 x 40", False), ("9.9 x 40", True)]
)  # 4 diameters for a steel bar: an insert maker's boring guide
def test_a_bar_that_stands_out_too_far(bar, said):
    answer = work(hole=16, to=18, depth=20, bar=bar)
    assert any("will chatter" in note.text for note in answer.notes) is said


@pytest.mark.parametrize(("bar", "said"), [("12.8", False), ("12.9", True)])  # four fifths of the hole: common practice
def test_a_bar_that_fills_the_hole(bar, said):
    assert any("chips jam" in note.text for note in work(hole=16, to=18, depth=20, bar=bar).notes) is said


@given(
    hole=st.floats(5, 80), off=st.floats(0.4, 6), depth=st.floats(2, 30), touch=st.sampled_from(["0", "0.5", "1.975"])
)
def test_the_table_closes_and_never_passes_the_size(hole, off, depth, touch):
    answer = work(hole=f"{hole:.4f}", to=f"{hole + off:.4f}", depth=f"{depth:.2f}", touch=touch)
    cuts, line = answer.table("cuts"), 2 / 80
    sizes, depths = cuts.column("diameter"), cuts.column("depth")
    wanted = round(hole + off, 4)
    assert round(hole, 4) + 2 * sum(depths) == pytest.approx(sizes[-1])
    assert wanted - 2 * line - 1e-6 < sizes[-1] <= wanted + 1e-6
    assert list(depths) == sorted(depths, reverse=True) and min(depths) >= 0.02
    gone = 0
    for cut, setting in zip(depths, cuts.column("set"), strict=True):
        gone += round(cut / line)
        assert setting.way == "out" and setting.line == (round(float(touch) / line) - gone) % 80


@given(depth=st.floats(3, 60), more=st.floats(0, 60))
def test_a_longer_bar_never_makes_a_cut_heavier(depth, more):
    cuts = [
        work(hole=20, to=26, depth=3, bar=f"8 x {reach:.2f}").table("cuts").column("depth")[0]
        for reach in (depth, depth + more)
    ]
    assert cuts[1] <= cuts[0] + 1e-9


def test_an_owned_boring_tool_is_taken():
    shop = parse(
        "[lathe]\nspeeds = '65 100 160 250 400 630 1000 1600'\nleadscrew = 3\nchange_wheels = '20, 30'\nmotor = 550\n"
        "[lathe.cross_slide]\ntravel_per_turn = 2\ndivisions = 80\n"
        "[lathe.top_slide]\ntravel_per_turn = 1\ndivisions = 50\n[lathe.chuck]\nmarked_speed = 2000\n"
        "[[boring_tools]]\ndiameter = 6\nreach = 24\nleast_bore = 8\n"
        "[[boring_tools]]\ndiameter = 10\nreach = 40\nleast_bore = 14\n"
    )
    assert [work(shop, hole=h, to=h + 2, depth=20).figure("bar").value for h in (7.9, 8, 13.9, 14)] == [
        pytest.approx(0.7 * 7.9), 6, 6, 10,
    ]  # fmt: skip
    assert work(shop, hole=8, to=10, depth=24).figure("bar").value == pytest.approx(5.6)


def test_a_fit_is_a_holes():
    """ISO 286-1: 18 H7 is 18.000 to 18.018."""
    target = work(hole=16, to=18, fit="H7", depth=20).figure("target")
    assert (target.low, target.high) == pytest.approx((18.0, 18.018))


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("call", [{}, {"bar": "6mm x 40mm", "material": "brass"}])
def test_the_workings_give_the_figures(unit, call):
    for figure in work(SHOP, unit, hole="16mm", to="18mm", depth="20mm", **call).figures:
        if figure.setting is not None or figure.name in ("rpm", "feed", "finish_feed", "target", "bar"):
            continue
        inch = unit == "inch" and figure.dimension == "length"
        values = sums_of(figure.working)
        assert any(near(v, figure.value / 25.4 if inch else figure.value) or near(v, figure.value) for v in values), (
            figure
        )


@pytest.mark.parametrize(
    ("inputs", "field"),
    [
        ({"to": 16}, "to"),
        ({"to": 18, "fit": "h7"}, "fit"),
        ({"to": 18, "bar": "16"}, "bar"),
        ({"to": 18, "bar": "thick"}, "bar"),
        ({"to": 18, "bar": "10 x 0"}, "bar"),
        ({"to": 18, "bar": "10 x 19"}, "reach"),
        ({"to": 18, "reach": 19}, "reach"),
        ({"low": 18}, "high"),
    ],
)
def test_refusals_name_the_field(inputs, field):
    with pytest.raises(BadInput) as refusal:
        work(hole=16, depth=20, **inputs)
    assert refusal.value.field == field
