"""What a step cuts, drawn large: the size that is cut, where it is cut, and no more of the work than is needed."""

import pytest

from engine.base.answer import Line, Pointer, Size
from engine.part.detail import detail
from engine.part.plan_drawn import moments_of
from engine.part.plan_recipe import step_id
from engine.part.together import plan_all
from engine.shop.file import sample
from tests.engine.part.scenario import SHIPPED, load

UNSEEN = {"saw", "seat", "set_true", "withdraw", "stub", "part_groove", "deburr", "measure", "zero_line"}  # nothing cut


def steps_of(stem):
    plans = plan_all(load(next(path for path in SHIPPED if path.stem == stem)).parts, sample("metric"))
    ids = [step_id(step, 0) for step in plans[0].steps if step.round == 1]
    return {step.title: (step, state, detail(step, state)) for _, step, state in moments_of(plans, ids)}


NUT, SCREW = steps_of("height-adjuster-nut"), steps_of("height-adjuster-screw")


def said(drawn):
    return [shape for shape in drawn.shapes if isinstance(shape, Size | Pointer)]


@pytest.mark.parametrize("stem", [path.stem for path in SHIPPED])
def test_every_step_that_cuts_is_drawn_with_one_size_at_the_most(stem):
    for step, _, drawn in steps_of(stem).values():
        assert (drawn is None) == (step.kind in UNSEEN), step.title
        assert drawn is None or len(said(drawn)) <= 1


def test_the_words_point_to_the_surface_at_the_radius_they_name():
    for title, diameter in (("Rough to 26.441 x 13", 26.441), ("Turn 25 +0.05/-0.1 x 5", 25), ("Knurl 26 x 8", 26)):
        (one,) = said(NUT[title][2])
        assert one.text == f"Ø{diameter}" and one.y == pytest.approx(-diameter / 2)
    (hole,) = said(NUT["Drill 10.5, 20.3 deep"][2])
    assert (hole.text, hole.y) == ("Ø10.5 x 20.3", 5.25)


def test_a_length_is_measured_over_the_whole_part_and_drawn_interrupted_where_it_is_long():
    (short,) = said(NUT["Face the back end to 13 +0.1/-0.2 long"][2])
    assert short.x2 - short.x1 == pytest.approx(13)
    drawn = SCREW["Face the front end to 82 +-0.2 long"][2]
    (long,) = said(drawn)
    assert long.text == "82 ±0.2" and long.x2 - long.x1 < 40  # two ends of a bar of 16 and the gap between them


def test_half_of_the_work_is_shown_from_the_side_that_is_cut():
    for title, side in (("Rough to 25.8 x 5", -1), ("Tap M12x1.5", 1)):
        lines = [shape for shape in NUT[title][2].shapes if isinstance(shape, Line)]
        assert all(side * y >= -1e-9 for line in lines for y in (line.y1, line.y2))


def test_flats_are_measured_across_them_from_the_end():
    (across,) = said(steps_of("hexagon-spacer")["Mill 6 flats 13 +0/-0.2 across"][2])
    assert across.y2 - across.y1 == pytest.approx(13)
