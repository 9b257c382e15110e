"""A plan as data, as text, as a recipe and as drawings of its steps."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.base.answer import Label
from engine.base.words import write
from engine.jobs import recipe
from engine.jobs.holdings import allowance, gate_key, gates
from engine.jobs.run import resolve
from engine.jobs.svg import svg
from engine.part.file import read
from engine.part.plan import plan
from engine.part.plan_json import as_json
from engine.part.plan_recipe import as_recipe
from engine.part.plan_states import states
from engine.part.plan_text import as_text
from engine.part.work import step_drawing
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, SHIPPED, TOGETHER, load, planned

FILES = (*FOURTEEN, *SHIPPED, *TOGETHER)
METRIC = sample("metric")


def _plans(path):
    return [planned(part, METRIC) for part in load(path).parts]


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
    assert by_set_up[3].holding == "threaded stub" and by_set_up[3].earlier_end == "the front end"


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
    spigot, long = steps["finish-outside-1"].limits, steps["face2-back"].limits
    assert (spigot.low, spigot.high, long.low, long.high) == (
        24.8,
        25.2,
        21.8,
        22.2,
    )  # ISO 2768-1, medium, over 6 to 30
    assert (spigot.what, long.what) == ("Diameter, ISO 2768-m", "Length, ISO 2768-m")
    parts = " ".join(map(str, steps["part-off-part"].do))  # a blade of 2
    setting = steps["part-off-part"].answer.figure("saddle")
    assert "zero: the blade's tailstock side level" in parts and "chuck side touched there, 2 more" in parts
    assert "tailstock side level" in write(setting.source)  # one zero for the words and for the setting
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


def test_a_knurl_has_its_centre_in_the_job_and_what_comes_before_and_after_has_not():
    """The centre is there for the knurl alone: the cautions of that step know it, and those of the drill know it is gone."""
    worked = resolve(recipe.read(as_recipe(_plans(FOURTEEN[0])), Path("plan.toml")), METRIC)
    by_id = {one.step.id: one for one in worked.steps}
    assert by_id["knurl-outside-2"].set_up.support == by_id["blank-outside-2"].set_up.support == "centre"
    assert by_id["face-front"].set_up.support == by_id["drill-inside-1"].set_up.support == "none"
    finish = by_id["finish-outside-1"]
    assert finish.set_up.support == "none" and "support" not in finish.step.inputs
    assert len({by_id[name].holding for name in ("face-front", "knurl-outside-2", "finish-outside-1")}) == 1


def test_what_is_not_owned_is_said_before_anything_is_laid_out():
    text = as_text(_plans(FOURTEEN[6]))  # the knob: a diamond knurl, and the sample owns a straight one
    assert "NOT OWNED: knurl wheel, diamond (a straight knurl)" in text[: text.index("Lay out")]


def test_what_has_to_be_proved_is_asked_for_before_the_blade_lets_the_piece_go():
    """Parting is letting go: a bore that is gauged afterwards cannot be reamed again where it runs true."""
    found = _plans(FOURTEEN[8])[0]
    text = as_text([found])
    gate, parted = (next(i for i, row in enumerate(text) if words in row) for words in ("been gauged", "Part off"))
    assert gate < parted
    steps = resolve(recipe.read(as_recipe([found]), Path("plan.toml")), METRIC).steps
    place = next(number for number, one in enumerate(steps, 1) if one.step.id.startswith("ream"))
    assert gates(steps, place, {}) == ("the bore has been gauged",)
    assert gates(steps, place, {gate_key(steps[place - 1].holding, "the bore has been gauged"): "10.01"}) == ()


def test_what_the_blade_leaves_is_reckoned_with():
    """Parted 0.3 long: the back edge is cut so much longer, and a bore goes past the end, or its rim stops the reamer."""
    nut, drum = _plans(FOURTEEN[0])[0], _plans(FOURTEEN[7])[0]
    edge = next(step for step in nut.steps if step.kind == "chamfer_back")
    assert edge.title.startswith("Chamfer 0.4 ") and "Cut it 0.7 long" in edge.do[0]
    bored = next(step for step in drum.steps if step.kind == "bore")
    assert float(dict(bored.inputs)["depth"]) > drum.part.overall + 0.3


def test_a_hole_through_one_wall_is_as_deep_as_the_wall():
    drum = _plans(FOURTEEN[7])[0]  # a hub of 22 with a bore of 10
    assert [dict(s.inputs)["depth"] for s in drum.steps if s.kind in ("cross_drill", "cross_tap")] == ["6", "6"]


BUTTON = """part_version = 1
title = "Button screw"
material = "silver steel"
bar = "20"
unit = "mm"
[[outside]]
is = "thread"
size = "M14x1"
length = "25"
[[outside]]
is = "knurl"
near = "20"
length = "12"
[[inside]]
is = "ball"
ball = "6"
stand_out = "1.5"
"""


def test_a_step_on_the_centre_is_not_warned_of_work_without_support_and_those_before_and_after_are():
    """Short enough to stand by itself for turning, too long for a knurl: the centre comes, and goes for the hole."""
    parts = read(BUTTON).parts
    worked = resolve(recipe.read(as_recipe([planned(part, METRIC) for part in parts]), Path("button.toml")), METRIC)
    support = {step.step.id.partition("-")[0]: step.set_up.support for step in worked.steps}
    assert (support["face"], support["knurl"], support["drill"]) == ("none", "centre", "none")
    knurl = next(step for step in worked.steps if step.step.operation == "knurl-passes")
    assert not [c for c in knurl.cautions if "stands out" in write(c.text)]


def test_only_what_was_turned_round_is_called_so():
    """The drum is made back end first: the back end is at the tailstock, and nobody has turned it yet."""
    found = _plans(FOURTEEN[7])[0]
    said = dict(zip((step.kind for step in found.steps), map(_legend_of, states(found)), strict=True))
    assert "The back end is at the tailstock." in said["knurl"] and "Turned round" not in said["knurl"]
    assert "Turned round: the back end is at the headstock now." in said["face2"]
    assert not any(words in said["deburr"] for words in ("Turned round", "tailstock"))


def _legend_of(state):
    return " ".join(one.text for one in step_drawing(state).shapes if isinstance(one, Label))


def test_what_the_clock_may_show_counts_from_the_holding_that_made_what_is_to_run_true():
    """The long screw: its journals run true to each other; the chuck that only faced the ends has no part in that."""
    found = _plans(FOURTEEN[5])[0]
    steps = resolve(recipe.read(as_recipe([found]), Path("screw.toml")), METRIC).steps
    said = {one.step.id: allowance(steps, number, {}, "mm") for number, one in enumerate(steps, 1)}
    assert said["face2-back"] is None and said["finish-outside-3"] is None  # nothing to be true to is made by then
    last = said["finish-outside-1"]
    assert (last.within, last.used, last.left) == (0.02, 0.0, 0.02)


def test_the_reamer_is_set_by_its_speed_and_not_by_the_drill_before_it():
    steps = resolve(recipe.read(as_recipe(_plans(FOURTEEN[8])), Path("bush.toml")), METRIC).steps
    assert {one.lead.name for one in steps if one.step.operation == "ream"} == {"rpm"}


BALL = """part_version = 1
title = "Nut screw"
unit = "mm"
material = "steel"
bar = "16"
[[outside]]
is = "thread"
size = "M14x1"
length = "45"
[[inside]]
is = "ball"
ball = "4"
stand_out = "1"
"""


def test_a_ball_in_a_drilled_hole_shows_the_depth_that_was_drilled_large():
    """On a 118 degree point to full diameter: 2 - 1 + 2/sin 59 - 2/tan 59 = 2.13, not the 3 of a flat bottom (geometry)."""
    made = recipe.read(as_recipe([plan(read(BALL).part, METRIC)]), Path("nut-screw.toml"))
    step = next(one for one in resolve(made, METRIC).steps if one.step.operation == "ball-seat")
    assert step.lead.value == pytest.approx(2.132, abs=5e-4)
