"""Passes of a single-point thread: published examples, and what must hold for any thread and any dial."""

from fractions import Fraction
from math import cos, radians, tan

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from engine.base.refusals import BadInput, OutOfRange
from engine.threads.infeed import Tool, area, depth_of, plan_depths
from engine.threads.passes import passes_on_dial, side_relief, slide_travel
from tests.engine.threads.published import published
from tests.rows import each_row

SHARP = Tool(half_angle=30, flat=0)


def equal_areas(depth, count):
    """Depths of equal areas for a sharp tool: depth times the square root of k/n."""
    return tuple(depth * (k / count) ** 0.5 for k in range(1, count + 1))


@each_row("row", published("infeed_example"), ids=lambda row: f"{row['depth']} pass {row['pass']}")
def test_published_infeed(row):
    depth, count, number = float(row["depth"]), int(row["passes"]), int(row["pass"])
    # The last cut of so many equal areas, a hair less of it, so that the plan comes to that count.
    last = depth - equal_areas(depth, count)[-2]
    planned = plan_depths(tool=SHARP, depth=depth, first_cut=depth, last_cut=last * (1 - 1e-6))
    assert len(planned) == count
    assert planned[number - 1] == pytest.approx(float(row["equal_area"]), abs=5.1e-5)


@each_row("row", published("compound_slide"), ids=lambda row: f"{row['form']} {row['slide_angle']}")
def test_published_slide_travel(row):
    found = slide_travel(
        depth=float(row["depth"]), slide_angle=float(row["slide_angle"]), half_angle=float(row["included_angle"]) / 2
    )
    # Printed to five decimals of the pitch.
    assert found.travel == pytest.approx(float(row["travel"]), abs=1.1e-5)
    assert found.sideways == pytest.approx(float(row["sideways"]), abs=1.1e-5)
    assert found.shave == pytest.approx(float(row["shave"]), abs=1.1e-5)


def test_side_relief_of_the_navys_example_form():
    """Turning and Boring, 1914, pp. 149-150: its tangent is the lead over the circumference; 1 in on 1 in: 17.66."""
    assert float(side_relief(lead=25.4, diameter=25.4)) == pytest.approx(17.657, abs=0.001)


tools = st.builds(
    lambda half_angle, flat: Tool(half_angle=half_angle, flat=flat),
    st.sampled_from([0.0, 14.5, 15.0, 23.75, 27.5, 30.0]),
    st.floats(0.01, 3),
)
cuts = st.floats(0.01, 0.5)


@settings(max_examples=60, deadline=None)
@given(tools, st.floats(0.05, 6), cuts, cuts)
def test_passes_sum_to_the_depth_and_none_exceeds_the_largest_cut(tool, depth, one, other):
    first, last = max(one, other), min(one, other)
    assume(depth / last < 150)
    depths = plan_depths(tool=tool, depth=depth, first_cut=first, last_cut=last)
    each = [after - before for before, after in zip((0.0, *depths), depths, strict=False)]
    assert sum(each) == pytest.approx(depth, abs=1e-9)
    assert max(each) <= first + 1e-9
    if depth >= 2 * first >= 4 * last:
        assert min(each) >= last - 1e-6
    areas = [area(tool=tool, depth=d) for d in depths]
    taken = [after - before for before, after in zip((0.0, *areas), areas, strict=False)]
    # Every pass that the largest cut does not hold back removes the same area.
    free = [a for a, cut in zip(taken, each, strict=True) if cut < first - 1e-6]
    if free:
        assert max(free) - min(free) <= 1e-5 * max(1, areas[-1]) + 1e-6
        assert max(taken) <= max(free) + 1e-5


@settings(max_examples=60, deadline=None)
@given(
    st.floats(0.05, 6),
    st.integers(1, 60),
    st.floats(0.03, 0.4),
    st.floats(0.1, 1),
    st.integers(10, 200),
    st.fractions(Fraction(1, 2), 5, max_denominator=20),
    st.sampled_from([0.0, 14.5, 29.5]),
    st.integers(0, 3),
)
def test_dial_never_overshoots(depth, count, first, share, divisions, travel, angle, springs):
    depths = equal_areas(depth, count)
    line = travel / divisions
    deep = float(line) * cos(radians(angle))

    def worked():
        return passes_on_dial(
            depths=depths, first_cut=first, last_cut=share * first, line=line, slide_angle=angle, spring_passes=springs
        )

    if deep > first:
        with pytest.raises(BadInput, match="first_cut"):
            worked()
        return
    if deep > depth:
        with pytest.raises(BadInput, match="slide"):
            worked()
        return
    passes = worked()
    reached = passes[-1].lines * deep
    assert sum(p.cut for p in passes) == pytest.approx(reached, abs=1e-9)
    assert passes[-1].depth == pytest.approx(reached)
    each = [p.cut for p in passes if p.cut]
    assert each == sorted(each, reverse=True)
    assert max(p.cut for p in passes) <= first + 1e-8
    lines = [p.lines for p in passes]
    assert lines == sorted(lines)
    assert depth - deep - 1e-9 <= lines[-1] * deep <= depth + 1e-8
    assert [p.cut for p in passes[-springs:]] == [0.0] * springs if springs else passes[-1].cut > 0
    if depth > 2 * first and share * first + 2 * deep < first / 2:
        assert min(p.cut for p in passes if p.cut) >= share * first - 1e-8
    set_cuts = [(b - a) * deep for a, b in zip([0, *lines], lines, strict=False)]
    assert max(set_cuts) <= first + 1e-8


@settings(max_examples=50, deadline=None)
@given(tools, st.floats(0.001, 10))
def test_depth_is_the_inverse_of_area(tool, depth):
    assert depth_of(tool=tool, area=area(tool=tool, depth=depth)) == pytest.approx(depth, rel=1e-9)


def test_refusals():
    with pytest.raises(OutOfRange, match="slide_angle"):
        slide_travel(depth=1, slide_angle=31, half_angle=30)
    with pytest.raises(OutOfRange, match="last_cut"):
        plan_depths(tool=SHARP, depth=1, first_cut=0.1, last_cut=0.2)
    with pytest.raises(OutOfRange, match="more than 200 passes"):
        plan_depths(tool=SHARP, depth=10, first_cut=0.01, last_cut=0.01)


def test_leading_flank_keeps_its_angle_at_the_flank_angle_itself():
    found = slide_travel(depth=0.5, slide_angle=30, half_angle=30)
    assert found.shave == pytest.approx(0, abs=1e-15)
    assert found.sideways == pytest.approx(0.5 * tan(radians(30)))
