"""Several pieces in one job: whose steps they are, and what goes from one to the next."""

from pathlib import Path

import pytest

from engine.base.files import BadFile
from engine.jobs.pieces import finished_pieces, piece_words
from engine.jobs.recipe import read
from engine.jobs.run import resolve
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD

MAKE = HEAD.replace("[[steps]]", "") + 'make = 3\nbatch = "{batch}"\n'
STEPS = """
[sizes]
bore = "12"
[[set_ups]]
held_by = "collet"
gate = ["the bore has been gauged"]
[[steps]]
id = "saw"
title = "Saw the bar"
each = "lot"
[[steps]]
id = "bore"
title = "Bore"
set_up = 0
measure = { what = "Bore", kind = "bore", low = 12, high = 12.02, size = "bore" }
[[steps]]
id = "move"
title = "Move by the bore"
operation = "hand-dial"
do = ["Turn {turns} turns, as for {move.turns}."]
inputs = { distance = { size = "bore" } }
"""


def several(batch):
    return read((MAKE + STEPS.replace(", as for {move.turns}", "")).replace("{batch}", batch), Path("x.toml"))


@pytest.mark.parametrize(
    ("batch", "order"),
    [("rounds", "saw bore move bore-2 move-2 bore-3 move-3"), ("steps", "saw bore bore-2 bore-3 move move-2 move-3")],
)
def test_the_steps_of_every_piece_stand_in_the_order_asked_for(batch, order):
    assert [step.id for step in several(batch).steps] == order.split()


def test_each_piece_takes_its_own_reading():
    found = resolve(several("rounds"), sample("metric"), readings={"bore-2": 12.013})
    by_id = {step.step.id: step for step in found.steps}
    assert found.problems == ()
    assert by_id["move-2"].measured == {"distance": 12.013}
    assert not by_id["move"].measured and not by_id["move-3"].measured


def test_a_piece_is_held_anew_though_it_is_held_as_the_one_before():
    found = resolve(several("rounds"), sample("metric"))
    assert [step.holding for step in found.steps] == [0, 1, 1, 2, 2, 3, 3]


def test_pieces_are_counted_as_they_are_finished():
    recipe = several("rounds")
    assert [finished_pieces(recipe, step) for step in range(1, 9)] == [0, 0, 0, 1, 1, 2, 2, 3]
    assert piece_words(recipe, 4) == "piece 2 of 3, 1 finished"
    assert [finished_pieces(several("steps"), step) for step in (6, 7, 8)] == [1, 2, 3]


def test_more_steps_than_a_recipe_has_are_refused():
    text = (
        (MAKE + STEPS)
        .replace("{batch}", "rounds")
        .replace("make = 3", "make = 400")
        .replace(", as for {move.turns}", "")
    )
    with pytest.raises(BadFile, match="fewer pieces at a time would do"):
        read(text, Path("x.toml"))
