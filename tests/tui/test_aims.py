"""A job that knows what its cuts aim at: the mate, trials, the tool's spring, the clock, gates, and what came out before."""

from __future__ import annotations

import pytest

from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.card import card
from engine.jobs.places import Place
from engine.shop.file import sample
from tests.tui.test_job_screens import press, run, settled, shown
from tui.desk import Desk
from tui.panes.step_view import end_words
from tui.paper.text import text
from tui.screens.job import JobScreen

HEAD = """schema_version = 3
title = "{title}"
part = "Pin"
stock = "Steel"
unit = "mm"
{more}
[sizes]
rough = "12.5"
[[set_ups]]
machine = "lathe"
held_by = "collet"
[[set_ups]]
machine = "lathe"
held_by = "three-jaw"
run_out = "0.03"
within = "0.05"
gate = ["the bush has been tried on the pin"]
"""
ROUGH = """
[[steps]]
id = "rough"
title = "Rough the pin"
set_up = 0
operation = "turn-to-size"
inputs = { from = "16", to = "12.5", length = "18", material = "mild steel" }
measure = { what = "Roughed to", kind = "diameter", low = "12.4", high = "12.6", size = "rough" }
"""
FINISH = """
[[steps]]
id = "finish"
title = "Finish the pin"
set_up = 1
operation = "turn-to-size"
inputs = { from = { size = "rough" }, low = "11.95", high = "12.0", length = "18", material = "mild steel" }
makes = ["outside.1"]
measure = { what = "Pin", kind = "diameter", low = "11.95", high = "12.0"MORE }
"""
MATE = ', aim = "mate", mate = { part = "fence-bush.toml", feature = "inside.1" }'
BUSH = """
[[steps]]
id = "bore"
title = "Bore the bush"
operation = "bore-to-size"
inputs = { hole = "10", low = "12", high = "12.05", depth = "18" }
makes = ["inside.1"]
measure = { what = "Bore", kind = "bore", low = "12.0", high = "12.05" }
"""


PIN = ROUGH + FINISH.replace("MORE", "")


def begun(steps=PIN, title="Fence pin", more="", name="fence-pin", desk=None):
    plan = HEAD.replace("{title}", title).replace("{more}", more) + steps
    return (desk or Desk()).start_text(plan, name, sample("metric"))


def says(job):
    return [write(text) for text in job.measured().says]


def table(job, step):
    cells = job.worked.steps[step - 1].answer.tables[0].column("set")
    return [cell.turns * 2 + cell.on_dial for cell in cells]


def rough(job, first="13.5", second="12.82"):
    """Two readings with the cross slide at one turn, and 0.4 on: the tool takes 0.85 of what the dial says."""
    job.keep(first, "1", "0", "cross", "mm", None)
    job.keep(second, "1", "0.4", "cross", "mm", None)


def test_what_a_cut_aims_at_is_chosen_and_its_cuts_and_its_answer_take_it():
    job = begun()
    job.go(Place(2, 0))
    assert job.step.answer.figure("target").value == pytest.approx(11.975)
    middle = says_after(job, "12.06")
    assert "for the middle" in middle[0]
    job.aims.next_aim()  # smallest
    assert job.step.limits.aim.where == "smallest"
    assert job.step.answer.figure("target").value == pytest.approx(11.956)
    assert "0.104 mm on the diameter for the smallest size" in says(job)[0]
    job.aims.next_aim()
    job.aims.next_aim()  # largest
    assert job.step.answer.figure("target").value == pytest.approx(11.994)
    assert job.progress.aims[2].where == "largest"
    again = Desk().open(job.job.id)
    assert again.step.limits.aim.where == "largest"


def says_after(job, reading):
    job.keep(reading, "", "", "", "mm", None)
    return says(job)


def test_the_spring_is_learned_kept_and_used_by_the_next_cut_the_passes_and_the_next_job():
    job = begun()
    rough(job)
    (spring,) = job.aims.springs
    assert (spring.share, spring.slide, spring.material, spring.diameter) == (0.85, "cross", "mild steel", 12.8)
    job.go(Place(2, 0))
    takes = job.step.inputs["takes"]
    assert 0.85 < takes <= 1.0  # as much as it may take: the cuts rather end short
    plain = begun(desk=Desk(job.journal.path.parent / "other.db"))
    assert table(job, 2)[-1] > table(plain, 2)[-1]  # farther in by the dial than where nothing is known
    assert "The tool takes 0.85 of what the dial says" in " ".join(says_after_dial(job, "12.06", "0", "0.5"))
    other = begun()
    assert other.aims.springs == (spring,)
    other.go(Place(2, 0))
    assert "2 lines further in" in " ".join(says_after(other, "12.06"))


def says_after_dial(job, reading, turns, dial):
    job.keep(reading, turns, dial, "cross", "mm", None)
    return says(job)


def test_the_owner_looks_at_a_spring_puts_it_right_and_forgets_it():
    job = begun()
    rough(job)
    row = next(row for row in job.aims.rows() if row.label == "Tool takes")
    assert write(row.says).startswith("The cross slide takes 0.85 of what its dial says, give or take")
    row.use("0.9")
    assert [(one.share, one.readings) for one in begun().aims.springs] == [(0.9, 0)]
    with pytest.raises(BadInput, match=r"takes: 9 cannot be used; accepted: 0.3 to 1.25"):
        next(row for row in job.aims.rows() if row.label == "Tool takes").use("9")
    next(row for row in job.aims.rows() if row.label == "Tool takes").forget()
    assert begun().aims.springs == ()
    assert "takes" not in job.worked.steps[1].inputs


def test_a_pin_aims_at_the_bush_that_was_measured_in_its_own_job():
    bush = begun(BUSH, title="Fence bush", name="fence-bush")
    bush.keep("12.033", "", "", "", "mm", None)
    pin = begun(ROUGH + FINISH.replace("MORE", MATE))
    pin.go(Place(2, 0))
    aim = pin.step.limits.aim
    assert (aim.where, aim.mate, aim.of) == ("mate", 12.033, "Fence bush: Bore")
    assert pin.aims.spare_words() == "Aims at its mate (Fence bush: Bore), 12.033 mm: 12.023 mm."
    assert "0.037 mm on the diameter for its mate" in says_after(pin, "12.06")[0]
    assert pin.judged(12.024).state == "in limits"  # of its own limits it would be too big
    bush.keep("12.041", "", "", "", "mm", bush.last_reading)
    assert begun(ROUGH + FINISH.replace("MORE", MATE)).worked.steps[1].limits.aim.mate == 12.041


def test_a_trial_in_words_gives_the_cut_to_take_off():
    job = begun()
    job.go(Place(2, 0))
    job.keep("12.06", "", "", "", "mm", None)
    job.keep("binds after 6 mm", "", "", "", "mm", None)
    assert "Take off 0.050 mm on the diameter for its mate" in says(job)[0] and "Tried: binds after 6 mm." in says(job)
    assert "take off 0.050 mm and try again" in says(job)[-1]
    job.keep("12.02", "", "", "", "mm", None)
    assert "Tried" not in " ".join(says(job))  # it was measured since
    job.keep("binds after 9 mm", "", "", "", "mm", None)
    assert any(line.startswith("Take off 0.050 mm: by the trials before") for line in says(job))


def test_a_pin_that_goes_on_its_mate_is_done_whatever_its_own_limits_say():
    job = begun()
    job.go(Place(2, 0))
    job.keep("12.02", "", "", "", "mm", None)
    assert job.unmeasured
    job.keep("free", "", "", "", "mm", None)
    assert not job.unmeasured and says(job)[0] == "In limits: 12.020 mm."


def test_a_loose_trial_says_that_it_is_past_its_mate_and_what_the_next_piece_can_aim_at():
    job = begun()
    job.go(Place(2, 0))
    job.keep("11.97", "", "", "", "mm", None)
    job.keep("0.05 loose", "", "", "", "mm", None)
    assert any("past its mate: 0.050 mm lies between the two" in line for line in says(job))
    assert job.step.limits.aim.mate == pytest.approx(12.02)


def test_the_clock_enters_the_allowance_that_is_left():
    job = begun()
    job.go(Place(2, 0))
    assert job.aims.clock_due
    assert "0.050 mm of it is left for this one" in write(job.aims.clock_says())
    job.keep_clock("0.02")
    assert write(job.aims.clock_says()) == "The clock showed 0.020 mm: 0.030 mm of the 0.050 mm allowed is left."
    job.keep_clock("0.07")
    assert "0.020 mm more than is left" in write(job.aims.clock_says())


async def test_the_work_is_not_let_go_before_what_the_set_up_asks_for_is_found():
    async with run() as pilot:
        job = begun()
        job.go(Place(2, 0))
        job.keep("11.97", "", "", "", "mm", None)
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        while job.unread:
            await press(pilot, "space")
        await press(pilot, "space")
        assert "Do not let go before the bush has been tried on the pin" in " ".join(shown(pilot.app).split())
        await press(pilot, "enter")
        assert "found: '' cannot be used" in shown(pilot.app) or "accepted: what was found" in shown(pilot.app)
        await press(pilot, "escape")
        assert not job.finished
        await press(pilot, "space", *"free", "enter", "space")
        assert job.finished
        assert job.progress.gates == {"2 the bush has been tried on the pin": "free"}


async def test_the_view_of_the_aims_is_changed_by_its_keys():
    async with run((120, 40)) as pilot:
        job = begun()
        rough(job)
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        await press(pilot, "f", "enter")
        assert job.step.limits.aim.where == "smallest" and "Aims at the smallest size" in shown(pilot.app)
        await press(pilot, "down", "enter", *"free", "enter")
        assert job.aims.trials[-1].kind == "free"
        await press(pilot, "down", "down", "down", "x")
        assert job.aims.springs == ()
        await press(pilot, "escape")
        assert "Rough the pin" in shown(pilot.app)


def test_what_came_out_before_is_said_where_the_operation_is_planned_again():
    for reading in ("12.53", "12.55"):
        job = begun()
        job.keep(reading, "", "", "", "mm", None)
    assert write(begun().aims.came_out()) == (
        "The last 2 times it came out 0.040 mm larger than planned, give or take 0.028 (mild steel)."
    )


async def test_pieces_are_counted_in_the_title():
    async with run() as pilot:
        job = begun(more='make = 2\nbatch = "rounds"')
        job.go(Place(3, 0))
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        assert "piece 2 of 2, 1 finished" in shown(pilot.app)


async def test_a_measured_size_is_named_where_a_later_step_takes_it():
    async with run() as pilot:
        job = begun()
        job.keep("12.57", "", "", "", "mm", None)
        job.go(Place(2, 0))
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        assert "From diameter: 12.570 mm measured" in shown(pilot.app)


def test_a_step_that_is_done_stays_as_it_was_and_is_worked_out_anew_once_it_is_in_hand_again():
    job = begun()
    job.keep("12.57", "", "", "", "mm", None)
    job.done()
    job.done()  # the finish was turned from 12.57
    job.go(Place(1, 0))
    job.keep("12.40", "", "", "", "mm", None)
    assert job.worked.steps[1].measured == {"from": 12.40}  # it is to be done again
    job.done()
    job.done()
    job.journal.corrected(job.job.id, job.progress.readings[-1].seq, 12.43)
    again = Desk().open(job.job.id)
    assert again.finished and again.worked.steps[1].measured == {"from": 12.40}


def test_a_reading_that_a_later_step_cannot_bear_is_told_at_once_with_what_could_be_done():
    job = begun()
    job.keep("11.9", "", "", "", "mm", None)
    told = says(job)[-1]
    assert told.startswith("This reading leaves step 2, Finish the pin, without an answer:")
    assert told.endswith("Measure again and put the reading right; else change that step, or begin this piece anew.")


async def test_the_history_sets_what_was_measured_against_what_was_planned():
    begun().keep("12.53", "", "", "", "mm", None)
    async with run((100, 40)) as pilot:
        pilot.app.push_screen(JobScreen(begun()))
        await settled(pilot)
        await press(pilot, "k")
        words = " ".join(shown(pilot.app).split())
        assert (
            "Turn to size, Sample metric bench, lathe: The last time it came out 0.030 mm larger than planned" in words
        )


CLOCKED = PIN.replace('measure = { what = "Pin", kind = "diameter", low = "11.95", high = "12.0" }', "")


async def test_work_set_true_is_clocked_again_and_a_point_begins_a_reading_not_a_place():
    async with run() as pilot:
        job = begun(CLOCKED)
        job.go(Place(2, 0))
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        await press(pilot, "full_stop", "2", "enter")
        assert job.progress.clocked == {2: 0.2}
        assert "m: clock it again" in " ".join(shown(pilot.app).split())
        await press(pilot, "m", *"0.02", "enter")
        assert job.progress.clocked == {2: 0.02} and "clock it again" not in shown(pilot.app)
        await press(pilot, "e", *"0.03", "enter")
        assert job.progress.clocked == {2: 0.03}
        place = job.place
        await press(pilot, "2", "5", "full_stop", "1", "enter")  # a size where none is taken is no place and no search
        assert job.place == place and "Clock shows [25.1" in shown(pilot.app)


async def test_a_slipped_decimal_point_is_refused_and_typed_over():
    async with run() as pilot:
        job = begun()
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        await press(pilot, *"125", "enter")
        assert "reading: 125 cannot be used; accepted: a size nearer to 12.500" in " ".join(shown(pilot.app).split())
        await press(pilot, *"12.5", "enter")
        assert [one.reading for one in job.progress.readings] == [12.5]


async def test_what_is_typed_in_the_view_of_the_aims_goes_into_its_row_and_leads_nowhere_else():
    async with run() as pilot:
        job = begun()
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        await press(pilot, "f", "down", *"binds", "space", *"4", "space", *"turns", "enter")  # b is the shop elsewhere
        assert isinstance(pilot.app.screen, JobScreen)
        assert job.aims.trials[-1].told == "binds 4 turns"
        assert "m Measure" not in shown(pilot.app)  # letters are typed here
        await press(pilot, "down", *"12.51", "enter")
        assert (job.step.limits.aim.mate, job.progress.readings) == (12.51, ())


def test_a_mate_once_told_stays_told_and_one_of_another_measure_is_refused():
    job = begun()
    job.go(Place(2, 0))
    with pytest.raises(BadInput, match=r"mate: 1\.2 cannot be used; accepted: a size near 11\.950 mm"):
        job.aims.mate_measures("1.2")
    job.aims.mate_measures("12.02")
    job.aims.next_aim()
    assert job.step.limits.aim.where == "largest" and job.step.limits.aimed.high == 12.0
    assert write(next(row for row in job.aims.rows() if row.label == "Mate measures").says) == "12.020 mm (as you said)"
    for _ in range(3):
        job.aims.next_aim()
    assert (job.step.limits.aim.where, job.step.limits.aim.mate) == ("mate", 12.02)


async def test_a_mate_that_binds_is_said_before_the_work_is_let_go():
    async with run() as pilot:
        job = begun()
        job.go(Place(2, 0))
        job.keep("11.97", "", "", "", "mm", None)
        job.keep("binds after 4 mm", "", "", "", "mm", None)
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        while job.unread:
            await press(pilot, "space")
        job.keep("11.96", "", "", "", "mm", None)
        await press(pilot, "space")
        assert "Last tried: binds after 4 mm." in " ".join(shown(pilot.app).split())
        await press(pilot, *"binds", "space", *"5mm", "enter")
        assert "It does not go yet: take more off before the work is let go" in " ".join(shown(pilot.app).split())


async def test_the_move_after_a_reading_is_never_cut_however_long_the_measure_is_named():
    async with run() as pilot:
        job = begun(ROUGH.replace('"Roughed to"', '"Over the outside, where the jaws end"'))
        job.keep("12.9", "", "", "", "mm", None)
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        assert "12.900 mm: TOO BIG by 0.400 mm · cross slide further in" in shown(pilot.app)


def test_the_card_of_a_job_ticks_what_was_found_before_the_work_was_let_go():
    job = begun()
    gates = card(job.worked, progress=job.progress).strips[1].gates
    assert [(gate.done, gate.says) for gate in gates] == [(False, "before the bush has been tried on the pin.")]
    for found, done in (("not done", False), ("free, no shake", True)):
        job.go(Place(2, 0))
        job.aims.answer_gate("the bush has been tried on the pin", found)
        (gate,) = card(job.worked, progress=job.progress).strips[1].gates
        assert (gate.done, gate.says) == (done, f"before the bush has been tried on the pin. Found: {found}")
        made = text(card(job.worked, progress=job.progress), lambda words: write(words, "mm"), "mm", foot="")
        assert f"[{'x' if done else ' '}] DO NOT LET GO before the bush" in made


def test_cuts_done_after_a_reading_leave_the_next_step_at_the_planned_size_not_at_the_reading():
    """Roughed to 12.5 in many cuts, read after the first: the finish begins at 12.5, not at what was read (arithmetic)."""
    job = begun(ROUGH.replace("measure =", 'count = "cuts"\nmeasure =') + FINISH.replace("MORE", ""))
    first = job.place
    job.keep("14.9", "", "", "", "mm", None)
    while job.place.step == first.step:
        job.done()
    assert job.step.inputs["from"] == "12.5" and not job.step.measured
    job.back()
    job.keep("12.56", "", "", "", "mm", None)
    job.done()
    assert job.step.inputs["from"] == 12.56


def test_a_knurl_that_is_too_small_is_rolled_on_not_taken_off():
    knurl = '[[steps]]\nid = "roll"\ntitle = "Knurl"\n'
    knurl += 'measure = { what = "Crests", kind = "knurl", low = "16.46", high = "16.66" }\n'
    job = begun(knurl)
    job.keep("16.3", "", "", "", "mm", None)
    assert job.next_move()[0] == "roll on"


def test_the_end_of_a_job_names_what_was_read_out_of_its_limits():
    job = begun()
    for reading in ("12.51", "12.2"):  # the second one is over-size for 11.95 to 12.0
        job.keep(reading, "", "", "", "mm", None)
        job.done()
    assert end_words(job) == ("Every step is done.", "Not in limits as read last: 2 Finish the pin.")
