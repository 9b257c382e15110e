"""The line through readings, against the published example of JCGM 100:2008 and the standard library; the plan."""

import statistics
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.cuts import fit_line, plan_cuts, plan_words
from engine.shop.file import sample
from engine.shop.model import Slide

METRIC = sample("metric")

# JCGM 100:2008, table H.6: a thermometer's corrections in °C at eleven temperatures; results in H.3.3.
# Typed from memory: that the published results come out to every digit says that they were remembered right.
TEMPERATURES = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511]
CORRECTIONS = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160]


def test_the_published_line_of_the_guide_comes_out():
    line = fit_line([(t - 20, b) for t, b in zip(TEMPERATURES, CORRECTIONS, strict=True)])
    assert round(line.at(0), 4) == -0.1712  # y1
    assert round(line.slope, 5) == 0.00218  # y2
    assert round(line.uncertainty_at(0), 4) == 0.0029  # s(y1)
    assert round(line.slope_uncertainty, 5) == 0.00067  # s(y2)
    assert round(line.scatter, 4) == 0.0035  # s
    assert round(line.at(10), 4) == -0.1494  # the correction at 30 °C
    assert round(line.uncertainty_at(10), 4) == 0.0041


POINTS = st.lists(
    st.tuples(st.integers(0, 400).map(lambda n: n / 100), st.floats(5, 50)), min_size=2, max_size=8
).filter(lambda points: len({x for x, _ in points}) > 1)


@settings(max_examples=50)
@given(POINTS)
def test_the_line_is_that_of_the_standard_library(points):
    line = fit_line(points)
    other = statistics.linear_regression([x for x, _ in points], [y for _, y in points])
    assert line.slope == pytest.approx(other.slope, rel=1e-6, abs=1e-9)
    assert line.at(0) == pytest.approx(other.intercept, rel=1e-6, abs=1e-6)


def plan(readings, low, high, shop=METRIC, kind="diameter", slide="cross", **more):
    return plan_cuts(readings, low=low, high=high, kind=kind, slide=slide, shop=shop, **more)


@settings(max_examples=50)
@given(st.floats(0.6, 1.0), st.floats(0.2, 0.6), st.floats(0.05, 0.3))
def test_a_tool_that_takes_a_steady_share_ends_in_limits(share, step, half_band):
    """A simulated lathe that springs by a fixed share of every cut: the plan's dial settings are carried out on it."""

    def size(dial):
        return 30 - 2 * share * dial

    readings = [(0.5, size(0.5)), (0.5 + step, size(0.5 + step))]
    middle = size(0.5 + step) - 1.0
    found = plan(readings, middle - half_band, middle + half_band)
    assert found.share == pytest.approx(share, abs=1e-9)
    for cut in found.cuts:
        assert size(cut.travel + cut.setting.error) == pytest.approx(cut.expected, abs=1e-6)
    made = size(found.cuts[-1].travel + found.cuts[-1].setting.error)
    assert middle - half_band <= made <= middle + half_band


def test_close_limits_ask_for_a_reading_between_two_equal_cuts():
    found = plan([(0.5, 21.0), (0.7, 20.64)], 19.97, 20.03)
    first, last = found.cuts
    assert first.travel - 0.7 == pytest.approx(last.travel - first.travel)
    assert len(plan([(0.5, 21.0), (0.7, 20.64)], 19.5, 20.5).cuts) == 1


def test_a_third_reading_makes_it_surer():
    two = plan([(0.5, 21.0), (0.7, 20.64)], 19.97, 20.03)
    three = plan([(0.5, 21.0), (0.7, 20.64), (0.9, 20.28)], 19.97, 20.03)
    assert three.share_give_or_take < two.share_give_or_take
    assert three.likely > two.likely


def test_scatter_makes_it_less_sure():
    straight = plan([(0.5, 21.0), (0.7, 20.64), (0.9, 20.28)], 19.97, 20.03)
    crooked = plan([(0.5, 21.0), (0.7, 20.74), (0.9, 20.28)], 19.97, 20.03)
    assert crooked.share_give_or_take > straight.share_give_or_take


def test_a_dial_that_reads_diameter_is_set_to_twice_the_travel():
    slide = Slide(travel_per_turn=Fraction(2), divisions=100, reads_diameter=True)
    shop = replace(METRIC, lathe=replace(METRIC.lathe, cross_slide=slide))
    cut = plan([(0.5, 21.0), (1.0, 20.0)], 18.9, 19.1, shop=shop).cuts[-1]
    assert cut.travel == pytest.approx(1.5)
    assert cut.setting.reading == pytest.approx(3.0)


def test_a_bore_grows():
    found = plan([(0.5, 19.0), (1.0, 19.9)], 20.4, 20.6, kind="bore")
    assert found.share == pytest.approx(0.9)
    assert found.cuts[-1].expected == pytest.approx(20.5, abs=0.03)


def test_a_dial_that_falls_as_the_bore_grows_is_the_same_plan():
    up = plan([(0.5, 19.0), (1.0, 19.9)], 20.4, 20.6, kind="bore")
    down = plan([(3.5, 19.0), (3.0, 19.9)], 20.4, 20.6, kind="bore")
    assert down.share == pytest.approx(up.share)
    assert down.cuts[-1].travel == pytest.approx(4.0 - up.cuts[-1].travel)
    assert down.cuts[-1].expected == pytest.approx(up.cuts[-1].expected, abs=0.05)


def test_a_stop_below_the_dials_zero_counts_turns_back():
    cut = plan([(0.6, 19.0), (0.1, 19.9)], 20.4, 20.6, kind="bore").cuts[-1]
    assert cut.travel == pytest.approx(-0.2333, abs=1e-3)
    assert cut.setting.turns == -1
    assert cut.setting.turns * 2 + cut.setting.reading == pytest.approx(cut.travel, abs=0.0126)
    words = tuple(map(write, plan_words(plan([(0.6, 19.0), (0.1, 19.9)], 20.4, 20.6, kind="bore"))))
    assert any("1 turn below zero and 71 lines" in line for line in words)


@pytest.mark.parametrize(
    ("readings", "said"),
    [
        ([(0.5, 21.0)], "Two readings at two dial settings are needed."),
        ([(0.5, 21.0), (0.5, 20.9)], "Two readings at two dial settings are needed."),
        ([(0.5, 21.0), (1.0, 20.9)], "takes 0.10 of what the dial says"),
        ([(0.5, 21.0), (1.0, 21.4)], "that is no spring"),
        ([(0.5, 20.28), (0.525, 20.235)], "too close together"),
        ([(0.5, 21.0), (1.0, 20.0)], "in limits"),
        ([(0.5, 21.0), (1.0, 19.9)], "over-cut"),
    ],
)
def test_what_cannot_be_planned_says_why(readings, said):
    found = plan(readings, 19.98, 20.02)
    assert said in write(found.problem)
    assert found.cuts == ()
    assert tuple(map(write, plan_words(found))) == (write(found.problem),)


def test_a_slide_that_is_not_owned_is_refused():
    with pytest.raises(BadInput, match=r"slide: saddle cannot be used; accepted: cross or top"):
        plan(
            [(0.5, 21.0), (1.0, 20.1)],
            19.0,
            19.2,
            shop=replace(METRIC, lathe=replace(METRIC.lathe, saddle=None)),
            slide="saddle",
        )


def test_the_words_say_the_dial_the_size_and_how_sure():
    words = tuple(map(write, plan_words(plan([(0.5, 21.0), (1.0, 20.1)], 18.9, 19.3))))
    assert words[0].startswith("The tool takes 0.90 of what the dial says, give or take 0.0")
    assert words[1].startswith("Last cut: dial to 22 lines") or "1.550 mm" in words[1]
    assert words[-1] == "In limits about 99 times in 100."
