"""A step drawn as the work lies: the piece as it is by then, only this step's sizes, legible in few cells."""

from __future__ import annotations

import pytest

from engine.base.answer import Label, Line
from engine.base.words import write
from engine.part.plan_drawn import drawn
from engine.part.plan_states import states
from engine.part.plan_steps import put_in
from engine.part.work import step_drawing
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, SHIPPED, load, planned
from tui.widgets.picture import drawn as cells

METRIC = sample("metric")
SCREW = FOURTEEN[2]


def _moments(path):
    found = planned(load(path).part, METRIC)
    return found, dict(zip((step.id for step in found.steps), states(found), strict=True))


def _said(picture):
    return [write(shape.text, "mm") for shape in picture.shapes if isinstance(shape, Label)]


def test_a_roughing_step_shows_what_it_leaves_and_not_the_finished_size():
    _, moments = _moments(SCREW)
    rough = moments["rough-outside-2"]
    said = _said(step_drawing(rough))
    assert "Ø10.6" in said and not any("f7" in words for words in said)
    assert dict(rough.now) == {"outside.1": 10.6, "outside.2": 10.6}  # the tool comes from the face, over both
    finish = _said(step_drawing(moments["finish-outside-2"]))
    assert "Ø10 f7" in finish


def test_the_piece_is_drawn_as_it_is_by_then():
    """Before the thread's diameter is roughed the front stands at 10.6, and no line is drawn at the bar there."""
    _, moments = _moments(SCREW)
    picture = step_drawing(moments["rough-outside-2"])
    flat = [s for s in picture.shapes if isinstance(s, Line) and s.weight != 2 and abs(s.y1 - s.y2) < 1e-9]
    front = [s for s in flat if -13 < (s.x1 + s.x2) / 2 < -1 and s.y1 > 0]
    assert 5.3 in {round(s.y1, 3) for s in front} and 8.0 not in {round(s.y1, 3) for s in front}


def test_a_drill_and_the_blade_are_dimensioned_by_how_far_they_go():
    _, moments = _moments(FOURTEEN[0])
    assert "20.3" in _said(step_drawing(moments["drill-inside-1"]))  # solid bar behind it: room for the tap's lead
    assert "13.3" in _said(step_drawing(moments["part-off-part"]))


@pytest.mark.parametrize("path", [*FOURTEEN, *SHIPPED], ids=lambda path: path.stem)
def test_in_eighty_cells_no_words_lie_on_others_or_are_cut(path):
    for part in load(path).parts:
        found = planned(part, METRIC)
        for moment in states(found):
            picture = step_drawing(moment, columns=80, rows=19)
            text = "\n".join("".join(run for run, _ in row) for row in cells(picture, 80, 19, part.unit))
            for words in _said(picture):
                assert " ".join(words.split()) in " ".join(text.split()) or words in text, (words, text)


def test_a_step_of_ones_own_is_drawn_as_the_step_before_left_the_work():
    found, _ = _moments(SCREW)
    step = next(s for s in found.steps if s.id == "rough-outside-2")
    changed = put_in(found, step, "Check the slide")
    moments = dict(zip((s.id for s in changed.steps), states(changed), strict=True))
    own = moments["own-1"]
    assert own.made == moments["rough-outside-1"].made and own.making == () and dict(own.now)["outside.2"] == 10.6
    assert step_drawing(own).shapes


def test_and_so_it_is_in_the_job_wherever_it_stands():
    text = SCREW.read_text()
    ids = [s.id for s in planned(load(SCREW).part, METRIC).steps]
    order = ["mine", *ids[:3], "my-check", *ids[3:], "last"]
    moments = drawn(text, METRIC, order)
    assert set(moments) == set(order)
    assert moments["my-check"].made == moments[ids[3]].made and not moments["my-check"].making
    assert not moments["mine"].made and "part" in moments["last"].made
