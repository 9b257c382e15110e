"""A plan as data, as text, as a recipe and as drawings of its steps."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.jobs import recipe
from engine.jobs.run import resolve
from engine.jobs.svg import svg
from engine.part.file import read, read_file
from engine.part.plan import plan
from engine.part.plan_json import as_json
from engine.part.plan_recipe import as_recipe
from engine.part.plan_states import states
from engine.part.plan_text import as_text
from engine.part.work import step_drawing
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, SHIPPED

FILES = (*FOURTEEN, *SHIPPED)
METRIC = sample("metric")


def _plans(path):
    return [plan(part, METRIC) for part in read_file(path)[0].parts]


def test_the_data_has_every_key_of_the_contract():
    found = as_json(_plans(FOURTEEN[0])[0])
    assert {"part", "needs", "set_ups", "steps", "minutes", "best", "runner_up"} <= set(found)
    assert {"what", "owned", "instead"} == set(found["needs"][0])
    assert {
        "machine", "held_by", "grips", "grip_length", "between", "stick_out", "support", "turned_round", "zero",
        "run_out",
    } <= set(found["set_ups"][0])  # fmt: skip
    assert {"planned", "limit"} <= set(found["set_ups"][0]["run_out"])
    assert {"id", "title", "set_up", "round", "each", "operation", "inputs", "makes", "why"} <= set(found["steps"][0])
    assert all({"rule", "text", "source"} <= set(why) for step in found["steps"] for why in step["why"])
    assert all(step["each"] in ("part", "bar", "lot") for step in found["steps"])


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_a_plan_is_a_recipe_that_can_be_worked(path):
    text = as_recipe(_plans(path))
    worked = resolve(recipe.read(text, Path("plan.toml")), METRIC)
    assert not worked.problems


@pytest.mark.parametrize("path", FILES, ids=[path.stem for path in FILES])
def test_every_step_can_be_drawn_as_the_work_lies(path):
    for found in _plans(path):
        for state in states(found):
            assert svg(step_drawing(state))


def test_the_piece_is_drawn_turned_round_after_it_was():
    found = _plans(FOURTEEN[0])[0]
    by_set_up = dict(zip((step.set_up for step in found.steps), states(found), strict=True))
    assert not by_set_up[0].turned_round and by_set_up[3].turned_round
    assert by_set_up[3].holding == "threaded stub" and by_set_up[3].earlier_end == "front"


def test_the_centre_is_drawn_only_while_it_is_up():
    found = _plans(FOURTEEN[0])[0]
    drawn = {
        step.kind: state.support for step, state in zip(found.steps, states(found), strict=True) if step.round == 1
    }
    assert drawn["knurl"] == "centre" and drawn["drill"] == drawn["face"] == "none"


def test_the_text_says_holding_steps_gates_and_what_repeats():
    text = "\n".join(as_text(_plans(FOURTEEN[0]), why=True))
    assert "Lathe, three-jaw; grips 24 of the bar" in text
    assert "DO NOT LET GO before the last line has closed on the first." in text
    assert "set-ups 1, 2, 3 for each piece; then 4, 5, each for all of them" in text
    assert "why (R016): drilling before tapping: the tap needs its hole" in text
    assert "Next best: " in text


NUT = """part_version = 1
title = "Nut"
unit = "mm"
material = "mild steel"
bar = "30"
[[outside]]
is = "diameter"
size = "25"
length = "10"
[outside.scale]
per_line = "0.025"
size = "M8x1"
[[outside]]
is = "knurl"
near = "30"
length = "12"
[[inside]]
is = "thread"
size = "M8x1"
through = true
"""


def test_each_step_of_a_turned_nut_knows_its_machine_its_support_and_the_hole_that_was_drilled():
    found = plan(read(NUT).part, METRIC)
    worked = resolve(recipe.read(as_recipe([found]), Path("nut.toml")), METRIC).steps
    steps = {step.step.id: step for step in worked}
    drill, tap = steps["drill-inside-1"], steps["tap-inside-1"]
    assert dict(drill.inputs)["diameter"] == "7.1" and tap.answer.figure("drill_diameter").value == 7.1
    assert steps["countersink-inside-1-mouth"].done.moment.machine == "lathe"
    assert dict(steps["rough-outside-1"].inputs)["support"] == "centre"
    moves = steps["knurl-outside-2"].answer.tables[0].rows
    assert [row[2] for row in moves] == [
        18.0,
        22.0,
    ]  # from the front face, where the dial is zeroed: it runs from 10 to 22
    assert "support" not in steps["finish-outside-1"].inputs  # the centre is away by then
    raised = {step.step.id: {one.id for one in step.cautions} for step in worked}
    assert not any("CHK-04" in raised[name] for name in ("centre-front", "support", "tap-inside-1"))  # 28.5 out of 30
    assert "GRD-01" not in raised["lines-outside-1-scale"]  # the head stands on the mill
    assert any("grip it so" in line for line in map(str, steps["face-front"].do))  # a piece was sawn off
