"""Working a recipe out: figures carried on, and steps that cannot be worked without losing the rest."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from engine.base.files import BadFile
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.recipe import read
from engine.jobs.run import resolve, stock_words
from engine.shop.file import sample
from tests.engine.jobs.plans import HEAD, worked

BLANK = """
[[steps]]
id = "blank"
title = "Blank"
operation = "knurl-blank"
inputs = { near = 26 }
"""


def dial(value, more=""):
    return f'[[steps]]\nid = "move"\ntitle = "Move"\noperation = "hand-dial"\n{more}inputs = {{ distance = {value} }}\n'


def test_a_figure_is_carried_on_unrounded():
    found = worked(HEAD + BLANK + dial('{ from = "blank", figure = "blank_diameter" }'))
    assert found.problems == ()
    assert found.steps[1].inputs["distance"] == found.steps[0].answer.figure("blank_diameter").value


def test_a_figure_of_another_kind_is_refused():
    found = worked(HEAD + BLANK + dial('{ from = "blank", figure = "teeth" }'))
    assert "teeth is a count, not a length" in found.steps[1].problem


def test_a_figure_that_is_not_there_offers_the_nearest():
    found = worked(HEAD + BLANK + dial('{ from = "blank", figure = "blank_diametr" }'))
    assert "Did you mean 'blank_diameter'?" in found.steps[1].problem


def test_a_step_that_cannot_be_worked_leaves_the_others():
    by_hand = '[[steps]]\nid = "file"\ntitle = "File"\n'
    text = HEAD + BLANK + dial('{ from = "blank", figure = "blank_diameter" }') + by_hand
    found = resolve(read(text, Path("a.toml")), replace(sample("metric"), knurls=()))
    assert found.steps[0].problem
    assert found.steps[0].remedy.startswith("Change ")
    assert "step blank, which could not be worked" in found.steps[1].problem
    assert found.steps[1].remedy == "Step blank has to be put right first."
    assert found.steps[2].problem == ""
    assert len(found.problems) == 2


def test_a_table_that_is_not_there_is_named_with_those_that_are():
    found = worked(HEAD + dial("3", 'count = "lines"\n'))
    assert found.steps[0].problem.startswith("there is no table 'lines' to be counted here; there are: ")
    assert found.steps[0].answer is not None  # the figures are shown all the same


def test_the_words_name_figures_of_this_shop_in_the_display_unit():
    text = HEAD + BLANK + 'do = ["{teeth} teeth; {no such} thing."]\n'
    text += '[[steps]]\nid = "knurl"\ntitle = "Knurl"\ndo = ["On {blank.blank_diameter}."]\n'
    plan = read(text, Path("a.toml"))
    blank, knurl = resolve(plan, sample("metric")).steps
    # A wheel of 20 mm with 78 teeth closes on a blank of 101 teeth: 20 x 101 ÷ 78 = 25.897 mm = 1.0196 in.
    assert tuple(write(line, "inch") for line in blank.do) == ("101 teeth; {no such} thing.",)
    assert tuple(write(line, "inch") for line in knurl.do) == ("On 1.0196 in.",)
    [line] = resolve(plan, replace(sample("metric"), knurls=())).steps[1].do
    assert write(line) == "On (not worked out)."


def test_a_figure_named_in_words_that_is_not_there_is_told():
    found = worked(HEAD + BLANK + 'do = ["To {blank_diametr}."]\n')
    assert "Did you mean 'blank_diameter'?" in found.steps[0].problem


@pytest.mark.parametrize(("large", "lead"), [("", "blank_diameter"), ("teeth", "teeth"), ("limits", None)])
def test_the_large_figure_is_the_recipes_choice(large, lead):
    measure = MEASURE + "low = 12\nhigh = 13\n"
    step = worked(HEAD + BLANK + (f'large = "{large}"\n' if large else "") + measure).steps[0]
    assert (step.lead.name if step.lead else None) == lead


MEASURE = '[steps.measure]\nwhat = "Size"\n'


@pytest.mark.parametrize(
    ("measure", "low", "high"),
    [
        ('low = "1/2in"\nhigh = 12.75\n', 12.7, 12.75),  # 1 in = 25.4 mm exactly
        ('figure = "blank_diameter"\nwithin = "0.02"\n', -0.02, 0.02),
        ('high = { figure = "finished_diameter" }\n', None, None),
        ('low = { size = "least" }\nhigh = { size = "most" }\n', 12.7, 12.75),
    ],
)
def test_limits_come_from_the_recipe_or_from_a_figure(measure, low, high):
    sizes = '[sizes]\nleast = "1/2in"\nmost = 12.75\n' if "size" in measure else ""
    step = worked(HEAD + sizes + BLANK + MEASURE + measure).steps[0]
    assert step.problem == ""
    figure = step.answer.figure
    if "within" in measure:
        blank = figure("blank_diameter").value
        low, high = blank + low, blank + high
    elif "finished" in measure:
        high = figure("finished_diameter").value
    assert step.limits.low == (None if low is None else pytest.approx(low))
    assert step.limits.high == pytest.approx(high)


@pytest.mark.parametrize(
    ("measure", "said"),
    [
        ('figure = "teeth"\n', "figure 'teeth' has no limits to measure by"),
        ('low = { figure = "teeth" }\n', "figure 'teeth' is not a length"),
        ("low = 13\nhigh = 12\n", "its low limit lies above its high limit"),
    ],
)
def test_limits_that_cannot_be_say_why(measure, said):
    step = worked(HEAD + BLANK + MEASURE + measure).steps[0]
    assert said in step.problem


def test_an_answer_to_a_question_changes_the_cautions_of_a_hand_step():
    text = HEAD + '[[steps]]\nid = "a"\ntitle = "Tin"\nhazards = ["soldering"]\n'
    plan = read(text, Path("a.toml"))
    asked = [c for c in resolve(plan, sample("metric")).steps[0].cautions if c.question]
    assert asked
    told = resolve(plan, sample("metric"), told={asked[0].id: True})
    assert asked[0].id not in [c.id for c in told.steps[0].cautions if c.question]


def test_cautions_are_written_in_the_display_unit():
    text = HEAD + '[[steps]]\nid = "a"\ntitle = "Part"\noperation = "part-off"\ninputs = { diameter = 40 }\n'
    plan = read(text, Path("a.toml"))
    words = " ".join(write(c.text, "inch") for c in resolve(plan, sample("metric")).steps[0].cautions)
    assert " in" in words


CHAIN = """
[sizes]
bore = "10.2"
[[set_ups]]
machine = "lathe"
held_by = "three-jaw"
grip = "18"
stick_out = "80"
support = "none"
gate = ["the bore is gauged"]
[[steps]]
id = "bore"
title = "Bore"
operation = "turning-speed"
set_up = 0
inputs = { diameter = 20 }
measure = { what = "Bore", kind = "bore", low = "10.0", high = "10.5", size = "bore" }
[[steps]]
id = "move"
title = "Move by the bore"
operation = "hand-dial"
inputs = { distance = { size = "bore" } }
[[steps]]
id = "taps"
title = "Start the tap"
counts = { noun = "turn", rows = 4 }
"""


def test_a_named_size_takes_its_reading_where_there_is_one():
    plan = read(HEAD + CHAIN, Path("a.toml"))
    planned, measured = (resolve(plan, sample("metric")), resolve(plan, sample("metric"), readings={"bore": 10.31}))
    assert planned.steps[1].done.inputs.distance == 10.2 and not planned.steps[1].measured
    assert measured.steps[1].done.inputs.distance == 10.31 and measured.steps[1].measured == {"distance": 10.31}


def test_a_figure_carried_on_takes_the_reading_of_the_step_that_measures_it():
    text = HEAD + BLANK + 'measure = { what = "Blank", figure = "blank_diameter", within = "0.02" }\n'
    text += '[[steps]]\nid = "turn"\ntitle = "Turn"\noperation = "turning-speed"\n'
    text += 'inputs = { diameter = { from = "blank", figure = "blank_diameter" } }\n'
    plan = read(text, Path("a.toml"))
    assert resolve(plan, sample("metric"), readings={"blank": 25.91}).steps[1].done.inputs.diameter == 25.91


def test_a_set_up_answers_what_the_cautions_would_ask():
    step = resolve(read(HEAD + CHAIN, Path("a.toml")), sample("metric")).steps[0]
    assert step.held.gate == ("the bore is gauged",)
    overhang = next(c for c in step.cautions if c.id == "CHK-04")
    assert "80.0 mm" in write(overhang.text) and overhang.because  # four diameters of 20 mm


def test_work_by_hand_is_counted():
    step = resolve(read(HEAD + CHAIN, Path("a.toml")), sample("metric")).steps[2]
    assert step.rows == 4 and step.table.count_noun == "turn"


@pytest.mark.parametrize(
    "wrong, said",
    [
        ("set_up = 1", "there are 1 set-ups, counted from 0: set_up 1 is none of them"),
        ('inputs = { distance = { size = "boer" } }', "Did you mean 'bore'?"),
    ],
)
def test_a_set_up_and_a_size_that_are_not_there_are_named(wrong, said):
    old = "set_up = 0" if "set_up" in wrong else 'inputs = { distance = { size = "bore" } }'
    with pytest.raises(BadFile, match=re.escape(said)):
        read(HEAD + CHAIN.replace(old, wrong), Path("a.toml"))


BY_FIGURE = (
    HEAD
    + """
[[steps]]
id = "choose"
title = "Choose the drill"
operation = "tap-drill"
inputs = { size = "M10", depth = "17" }

[[steps]]
id = "tap"
title = "Tap by hand"
counts = { noun = "turn", rows = { from = "choose", figure = "tap_turns" } }
"""
)


def test_turns_are_counted_to_the_number_that_a_figure_says():
    choose, tap = worked(BY_FIGURE).steps
    assert tap.rows == choose.answer.figure("tap_turns").value == 14 and tap.table.count_noun == "turn"


def test_a_figure_of_no_earlier_step_counts_nothing():
    with pytest.raises(BadInput, match="no earlier step"):
        worked(BY_FIGURE.replace('from = "choose"', 'from = "chose"'))


def test_the_stock_takes_the_sizes_it_names_and_nothing_else():
    text = (
        HEAD.replace('stock = "', 'stock = "{sizes.wide} wide, {rpm} as written: ', 1) + "[sizes]\nwide = 20\n" + BLANK
    )
    assert write(stock_words(worked(text).recipe)).startswith("20.000 mm wide, {rpm} as written: ")
