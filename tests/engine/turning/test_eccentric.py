"""Eccentrics: the packing puts the axis where it is asked, by geometry worked the other way round."""

from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.declare import asks
from engine.base.operation import run
from engine.base.refusals import BadInput
from engine.base.register import load
from engine.shop.file import sample
from tests.engine.sums import near, sums_of
from tests.spoken import spoken

SHOP = sample("metric")


def work(unit="mm", **inputs):
    return spoken(run("eccentric", {k: str(v) for k, v in inputs.items()}, SHOP, unit=unit).answer, unit)


def test_its_promise():
    assert {"throw", "diameter", "chuck"} <= set(asks(load("eccentric").inputs))
    assert {"packing", "clock", "bar"} <= {f.name for f in work(throw=3, diameter=30).figures}
    assert {"clock", "jaw_move", "bar"} <= {f.name for f in work(throw=3, diameter=30, chuck="four-jaw").figures}


@given(diameter=st.floats(5, 200), share=st.floats(0.01, 0.45))
def test_three_jaws_hold_the_work_off_by_the_throw(diameter, share):
    """The circle through the packing and the two other jaws has its middle the throw away from the chuck's."""
    throw = diameter * share
    pack = work(throw=f"{throw:.5f}", diameter=f"{diameter:.5f}").figure("packing").value
    radius = round(diameter, 5) / 2
    # Jaws at 0, 120 and 240 degrees, all at r: the middle of the work at (-e, 0) is a radius from each.
    r = radius + pack - round(throw, 5)
    for jaw in (1, 2):
        x, y = r * cos(jaw * 2 * pi / 3), r * sin(jaw * 2 * pi / 3)
        assert hypot(x + round(throw, 5), y) == pytest.approx(radius)


@pytest.mark.parametrize(
    ("given", "bar"),
    [({}, 36), ({"turned": 20}, 30), ({"turned": 24}, 30), ({"turned": 24.1}, 30.1), ({"chuck": "four-jaw"}, 36)],
)
def test_the_bar_holds_both_diameters(given, bar):
    answer = work(throw=3, diameter=30, **given)
    assert answer.figure("bar").value == pytest.approx(bar) and answer.figure("clock").value == 6


def test_it_turns_a_step_slower_for_the_balance():
    answer = work(throw=3, diameter=30)
    assert answer.figure("rpm").value == 160
    assert any("out of balance" in note.text for note in answer.notes)


@pytest.mark.parametrize("throw", [15, 16])
def test_the_axis_stays_inside_the_work(throw):
    with pytest.raises(BadInput, match="throw"):
        work(throw=throw, diameter=30)


@pytest.mark.parametrize("unit", ["mm", "inch"])
@pytest.mark.parametrize("chuck", ["three-jaw", "four-jaw"])
def test_the_workings_give_the_figures(unit, chuck):
    for figure in work(unit, throw="3mm", diameter="30mm", turned="26mm", chuck=chuck).figures:
        if figure.name in ("rpm", "jaw_move"):
            continue
        shown = figure.value / 25.4 if unit == "inch" else figure.value
        assert any(near(v, shown) for v in sums_of(figure.working.split(" and ")[-1])) or figure.name == "bar", figure
