"""Several parts of one file planned together: one bar, one stub, what is fitted after what it is fitted to."""

from __future__ import annotations

from pathlib import Path

import pytest

from engine.jobs import recipe
from engine.jobs.run import resolve
from engine.part.file import read, read_file
from engine.part.plan import plan
from engine.part.plan_drawn import drawn
from engine.part.plan_recipe import as_recipe
from engine.part.plan_text import as_text
from engine.part.together import in_order, needs_together, plan_all
from engine.shop.file import sample
from tests.engine.part.scenario import ROOT
from tests.engine.part.test_plan import check

METRIC = sample("metric")
NUTS = ROOT / "tests/data/parts/together/nuts.toml"
# A screw that is fitted to a nut, both from one bar and in the wrong order; each is fitted to the other.
PAIR = """
part_version = 1
unit = "mm"
material = "mild steel"
bar = "16"

[[part]]
title = "Screw"

[[part.outside]]
is = "thread"
size = "M8"
length = "20"
relief = true
mate = { part = "Nut", feature = "inside.1", aim = "the nut is cut first" }

[[part.outside]]
is = "diameter"
size = "15"
length = "8"

[[part]]
title = "Nut"

[[part.outside]]
is = "diameter"
size = "15"
length = "10"

[[part.inside]]
is = "thread"
size = "M8"
through = true
mate = { part = "Screw", feature = "outside.1", aim = "free" }
"""


def _kinds(plans):
    return [(number, step.kind) for number, step in in_order(plans) if step.round == 1]


def test_one_piece_is_sawn_for_all_and_the_stub_is_made_once_and_shortened():
    """Common practice: the longer nut is faced first, then the stub is shortened for the thinner one."""
    plans = plan_all(read_file(NUTS)[0].parts, METRIC)
    steps = in_order(plans)
    assert [step.title for _, step in steps if step.kind == "saw"] == ["Saw off a piece for 3 parts, 67.9 long"]
    stubs = [(number, step.title) for number, step in steps if step.kind == "stub"]
    assert stubs == [(0, "Turn and thread the stub"), (1, "Face the stub down to 4.5")]
    kinds = _kinds(plans)
    assert kinds.index((1, "part_off")) < kinds.index((0, "stub"))  # all that comes off the bar is made before
    assert needs_together(plans)[0].what.startswith("free-cutting brass, 28 round, 68 long")
    assert sum("stub" in need.what for need in needs_together(plans)) == 2  # the stub, and the piece it is made of


def test_it_takes_less_than_one_by_one_and_every_plan_stays_sound():
    parts = read_file(NUTS)[0].parts
    plans = plan_all(parts, METRIC)
    assert sum(one.minutes for one in plans) < sum(plan(part, METRIC).minutes for part in parts) - 25
    for one in plans:
        check(one)
    assert [(n, s.id) for n, s in in_order(plans)].count((0, plans[0].steps[0].id)) == 1
    assert len(in_order(plans)) == sum(len(one.steps) for one in plans)


def test_what_is_fitted_comes_after_what_it_is_fitted_to_and_nothing_is_tried_with_what_is_not_there():
    plans = plan_all(read(PAIR).parts, METRIC)
    kinds = _kinds(plans)
    assert kinds.index((1, "tap")) < kinds.index((0, "thread"))
    gates = [[words for one in each.set_ups for words in one.gate_words] for each in plans]
    assert any("with its mate, Nut" in words for words in gates[0])
    assert not any("mate" in words for words in gates[1])


def test_one_part_is_planned_as_by_itself():
    parts = read(PAIR.split("[[part]]")[0].replace("[[part.", "[[") + 'title = "Pin"\n[[outside]]\nis = "diameter"\n'
                 'size = "12"\nlength = "20"\n').parts  # fmt: skip
    (one,) = plan_all(parts, METRIC)
    assert one.steps == plan(parts[0], METRIC).steps


@pytest.mark.parametrize("text", [NUTS.read_text(), PAIR], ids=["nuts", "pair"])
def test_the_recipe_has_their_one_order_and_every_step_is_drawn(text):
    plans = plan_all(read(text).parts, METRIC)
    written = recipe.read(as_recipe(plans, text), Path("pair.toml"))
    worked = resolve(written, METRIC)
    assert not worked.problems
    own = [
        step for step in written.steps if step.count != "dry_run"
    ]  # the dry run before the lines is no step of the plan
    assert [step.title for step in own] == [step.title for _, step in in_order(plans)]
    ids = [step.id for step in written.steps]
    assert set(drawn(text, METRIC, ids)) == set(ids)


def test_the_text_numbers_the_holdings_of_all_parts_through():
    lines = as_text(plan_all(read_file(NUTS)[0].parts, METRIC))
    strips = [line.split()[0] for line in lines if line[:1].isdigit()]
    assert strips == [str(n) for n in range(1, 9)]
    assert "Height-adjuster nut, the same for the other 1: set-ups 1, 2, 3 for each piece; then 5, 7, each for all of " \
        "them." in lines  # fmt: skip


def test_a_stub_is_threaded_pass_by_pass_as_an_outside_thread_is():
    plans = plan_all(read_file(NUTS)[0].parts, METRIC)
    steps = {step.step.title: step for step in resolve(recipe.read(as_recipe(plans), Path("n.toml")), METRIC).steps}
    made, shortened = steps["Turn and thread the stub"], steps["Face the stub down to 4.5"]
    assert made.table is not None and made.table.name == "passes" and made.rows > 3
    kinds = made.table.column("kind")
    assert kinds.count("full depth") == 1 and set(kinds[kinds.index("full depth") + 1 :]) == {"spring"}
    assert made.answer is not None and made.table.column("set")[-1] == made.answer.figure("full_setting").setting
    said = " ".join(map(str, made.do))
    assert "Turn the blank to " in said and " driving, " in said
    assert shortened.table is None and not shortened.answer
