"""The card as data: what is put together, what is said once, what is left open to write in."""

from pathlib import Path

import pytest

import recipes
from engine.base.answer import Column, Table
from engine.base.setting import Setting
from engine.base.tables import rows as rows_of
from engine.base.words import write
from engine.jobs.card import card
from engine.jobs.journal import Journal
from engine.jobs.library import open_recipe
from engine.jobs.recipe import read
from engine.jobs.run import resolve
from engine.jobs.ticks import ticks
from engine.part.file import read as read_part
from engine.part.library import read_shipped
from engine.part.plan_card import planned
from engine.part.plan_recipe import as_recipe
from engine.part.rules import vocabulary
from engine.part.sizes import number
from engine.part.together import plan_all
from engine.shop.file import sample

HEAD = 'schema_version = 3\ntitle = "Stop"\npart = "Stop"\nstock = "Bar, 90 long"\nunit = "mm"\n'


def worked(steps, shop="metric"):
    return resolve(read(HEAD + steps, Path("stop.toml")), sample(shop))


def of_part(name):
    text = read_shipped(name)[1]
    shop = sample("metric")
    recipe = read(as_recipe(plan_all(read_part(text).parts, shop), text), Path(name))
    done = resolve(recipe, shop)
    return card(done, planned(text, shop, [step.step.id for step in done.steps]))


@pytest.fixture(scope="module")
def spacer():
    return of_part("hexagon-spacer")


def test_what_is_done_to_the_next_piece_is_one_row_with_a_tick_for_each(spacer):
    rows = [row for strip in spacer.strips for row in strip.rows]
    titles = [(strip.number, row.title) for strip in spacer.strips for row in strip.rows]
    assert len(set(titles)) == len(titles)
    assert all(len(row.done) == 2 for row in rows if row.title.startswith(("Tap", "Mill", "Part off", "Deburr")))
    assert [row.number for row in rows] == list(range(1, len(rows) + 1))


def test_a_strip_says_how_the_work_is_held_and_what_is_left_to_write(spacer):
    facts = dict(spacer.strips[0].facts)
    assert write(facts["Grip"]).endswith(" of the bar, 16")
    assert facts["Out"] and facts["Zero on"] and facts["Run-out to reach"]
    assert facts["read"] == ""  # to be written at the machine


def test_a_piece_is_turned_round_on_paper_only_when_it_is_in_the_hand():
    """Told again in the set-ups that follow, it would be turned back: the screw lies the same way from the second on."""
    turned = [dict(strip.facts).get("Turned round") for strip in of_part("height-adjuster-screw").strips]
    assert turned[:5] == [None, "yes", None, None, None]
    turned = [dict(strip.facts).get("Turned round") for strip in of_part("bearing-flange").strips]
    assert turned[:4] == [None, None, "yes", None]  # the arbor of the second set-up is another piece


def test_what_is_turned_for_a_knurl_or_drilled_on_a_circle_has_its_speed_on_paper():
    """Whoever stands at the machine with the card alone reads no speed from a screen; x and y need their zero there."""
    rows = {row.title: row.do for strip in of_part("bearing-flange").strips for row in strip.rows}
    words = " ".join(write(line) for line in rows["Drill 5 holes 4.3 on a 54 circle"])
    assert "over the middle" in words and "through" in words and "rev/min" in words
    nut = [row for strip in of_part("lock-nut").strips for row in strip.rows if row.title.endswith("for the knurl")]
    assert "rev/min" in " ".join(write(line) for line in nut[0].do)


def test_the_batch_is_told_before_the_next_set_up(spacer):
    said = [line for strip in spacer.strips for line in strip.after]
    assert any(line.startswith("Then set-up 2 with the same piece") for line in said)
    assert any("from set-up 1; after all 2" in line for line in said)


def test_the_sizes_with_limits_are_ringed_and_no_others(spacer):
    labels = [shape for shape in spacer.parts[0].shapes if hasattr(shape, "ringed")]
    ringed = {str(one.text) for one in labels if one.ringed}
    # ISO 129-1: a dimension with its own limits is what is inspected; the drawing of the part file names them.
    assert any("16 ±0.05" in text for text in ringed)
    assert not any("x 45" in text for text in ringed)
    assert len(ringed) < len(labels)


def test_stock_has_its_saw_length_and_what_is_not_owned_says_what_could_stand_in(spacer):
    assert "long" in write(spacer.stock[0])
    assert spacer.lay_out
    assert all(one.owned or one.instead for one in spacer.lay_out)


def test_settings_that_repeat_are_said_once():
    cells = tuple((n, Setting("Crank", 1, holes=13, circle=39), "long" if n % 3 == 1 else "short") for n in range(1, 7))
    columns = (Column("number", "Line", "count"), Column("set", "Set"), Column("class", "Class"))
    found = ticks(Table("lines", "Lines", columns, cells, "line", ("set", "class")), lambda piece, row: False)
    assert [write(text) for text in found.always] == ["Crank: 1 turn + 13 holes of 39"]
    assert [list(map(write, tick.words)) for tick in found.rows] == [["long"], ["short"], [], ["long"], ["short"], []]


@pytest.mark.parametrize("name", recipes.NAMES)
def test_every_row_that_is_counted_is_there_and_every_setting_of_it(name):
    done = resolve(open_recipe(name)[0], sample("metric"))
    made = card(done)
    counted = [row.ticks for strip in made.strips for row in strip.rows if row.ticks]
    tables = {step.step.title: step.table for step in done.steps if step.table}
    assert sum(len(one.rows) for one in counted) >= sum(len(table.rows) for table in tables.values())


def test_the_one_caution_of_a_row_has_its_harm_in_that_step_and_is_not_told_twice():
    rows = {row.title: row for strip in of_part("height-adjuster-nut").strips for row in strip.rows}
    ids = {title: [one.id for one in row.cautions] for title, row in rows.items()}
    assert ids["Knurl 26 x 8"] == ["KNU-02"] and ids["Tap M12x1.5"] == ["TAP-01"]
    assert ids["Cut 30 lines"] == ["DIV-03"] and ids["Dry run: Cut 30 lines"] == []  # nothing is cut in it
    assert ids["Take the tailstock centre away"] == ids["Measure the finished part"] == []
    standing = [one.id for row in rows.values() for one in row.cautions if not one.because]
    assert len(standing) == len(set(standing))


def test_every_kind_of_a_plan_says_which_cautions_belong_to_it_and_they_exist():
    belonging = {row["work"]: row["cautions"].split() for row in rows_of("safety/belonging.csv")}
    assert set(vocabulary()) <= set(belonging)
    known = {row["id"] for row in rows_of("safety/cautions.csv")}
    assert {one for ids in belonging.values() for one in ids} <= known


def test_a_caution_is_told_once_in_a_strip():
    steps = "".join(
        f'[[steps]]\nid = "s{n}"\ntitle = "Saw {n}"\nhazards = ["hand-work", "deburring"]\n' for n in range(4)
    )
    rows = card(worked(steps)).strips[0].rows
    told = [caution.id for row in rows for caution in row.cautions]
    assert told and len(told) == len(set(told))
    assert all(len(row.cautions) <= 1 for row in rows)


def test_a_job_brings_its_readings_and_its_place(tmp_path):
    steps = (
        '[[steps]]\nid = "a"\ntitle = "Turn"\nmeasure = { what = "Width", low = 10, high = "10.1" }\n'
        '[[steps]]\nid = "b"\ntitle = "Saw"\n'
    )
    done = worked(steps)
    journal = Journal(tmp_path / "jobs.db")
    job = journal.start(done, HEAD + steps, "stop.toml")
    journal.measured(job.id, 1, 10.04)
    progress = journal.done(job.id, job.progress.seq)
    made = card(done, progress=progress)
    first, second = made.strips[0].rows
    assert (first.done, second.done) == ((True,), (False,))
    assert [write(one) for one in first.measured.readings] == ["10.040 mm"]
    assert "step 2 of 2, Saw" in made.stands


def test_a_step_that_cannot_be_worked_says_so():
    steps = '[[steps]]\nid = "a"\ntitle = "A"\noperation = "hand-dial"\ncount = "none"\ninputs = { distance = 3 }\n'
    assert "no table 'none'" in write(card(worked(steps)).strips[0].rows[0].problem)


@pytest.mark.parametrize("name", sorted(recipes.PARTS))
def test_a_tap_is_never_told_another_drill_than_its_hole_was_drilled_with(name):
    recipe, shop = open_recipe(name, sample("metric"))[0], sample("metric")
    steps = resolve(recipe, shop).steps
    drilled = [s.step.title for s in steps if s.step.title.startswith("Drill ")]
    for step in (s for s in steps if s.step.operation == "tap-drill"):
        tapping = {number(step.answer.figure("drill_diameter").value, unit, 3) for unit in ("mm", "inch")}
        assert any(tapping & set(title.replace(",", "").split()) for title in drilled), drilled


def test_the_row_of_a_tap_sets_nothing_and_says_once_how_the_work_is_held():
    rows = [row for strip in of_part("hexagon-spacer").strips for row in strip.rows]
    tap = next(row for row in rows if row.title == "Tap M8")
    assert tap.sets == () and "Measure the thread: its screw goes in by the fingers." in tap.do
    every = [line for name in recipes.PARTS for s in of_part(name).strips for row in s.rows for line in row.do]
    assert not [line for line in every if str(line).startswith("Set-up: ")]


def test_another_tool_has_its_whole_setting_and_what_stands_in_few_rows_has_its_name():
    columns = (Column("number", "Peck", "count"), Column("tool", "Tool"), Column("set", "Set"),
               Column("foot", "Foot at", "length", 2))  # fmt: skip
    first, same = Setting("Tailstock", 4, "in", on_dial=0.9), Setting("Tailstock", 8, "in", on_dial=0.9)
    cells = ((1, "pilot", first, None), (2, "pilot", same, 4.75), (3, "drill", same, None))
    rows = ticks(Table("pecks", "Pecks", columns, cells, "peck", ("set", "tool", "foot")), lambda *_: False).rows
    written = [[write(text, "mm") for text in row.words] for row in rows]
    assert written[0] == ["4 turns, dial 0.90", "pilot"]
    assert written[1:] == [["8 turns, dial 0.90", "Foot at 4.75"], ["8 turns, dial 0.90", "drill"]]


def test_two_settings_on_one_wheel_are_told_by_name():
    steps = '[[steps]]\nid = "a"\ntitle = "Thread"\noperation = "screwcutting"\ninputs = { size = "M14x1" }\n'
    sets = [write(text) for text in card(worked(steps)).strips[0].rows[0].sets]
    assert sets[1] == "Slide set to 29.5°"  # before any dial of it is read
    assert [one.split(" 0 turns")[0] for one in sets[2:]] == ["First cut Top slide in:", "At full depth Top slide in:"]
