"""The keys of a job: what is typed is never taken for done, and what is done is told when it is taken back."""

from engine.jobs.card import card
from engine.jobs.places import Place
from tests.tui.test_job_screens import begin, press, read_all, run, shown, to_measure
from tui.desk import Desk


async def at(pilot, step_id, row=0):
    """A job of the nut, at a step of it."""
    job = await begin(pilot, "height-adjuster-nut")
    number = next(s.number for s in job.worked.steps if s.step.id == step_id)
    job.go(Place(number, row))
    await read_all(pilot)
    pilot.app.screen.redraw()
    return job


async def test_a_digit_begins_a_reading_and_enter_keeps_it():
    async with run() as pilot:
        job = await to_measure_of(pilot)
        here = job.place
        await press(pilot, "'25.9")
        assert job.place == here and "Reading" in shown(pilot.app) and "25.9" in shown(pilot.app)
        await press(pilot, "enter")
        assert job.last_reading.reading == 25.9 and job.place == here


async def to_measure_of(pilot):
    await begin(pilot, "height-adjuster-nut")
    return await to_measure(pilot)


async def test_a_digit_begins_a_place_where_nothing_is_measured():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "'12")
        assert "I am at" in shown(pilot.app) and job.place.row == 4
        await press(pilot, "enter")
        assert job.place.row == 12


async def test_nothing_is_done_while_something_is_typed():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "5", "pagedown")
        said = " ".join(shown(pilot.app).split())
        assert job.place.row == 4 and "Nothing is done while something is typed" in said
        await press(pilot, "space")
        await press(pilot, "escape")
        assert job.place.row == 4 and "I am at" not in shown(pilot.app).splitlines()[2]


async def test_m_says_where_nothing_is_measured():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "m")
        assert "Nothing is measured in this step." in shown(pilot.app)
        await press(pilot, "enter")  # and it was no typing: Enter ends the line
        assert job.place.row == 5


async def test_what_is_taken_back_is_told():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "backspace")
        assert job.place.row == 3 and "Taken back: line 3 is to be done again." in shown(pilot.app)
        await press(pilot, "z")
        assert job.place.row == 2
        job.go(Place(1, 1 if job.worked.steps[0].rows else 0))
        await press(pilot, "backspace")
        assert "there is nothing to take back" in shown(pilot.app)


async def test_a_note_stands_with_its_line_its_step_and_in_the_history():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "quotation_mark", "'shim of 0.3 under the head", "enter")
        assert "Kept with line 4." in shown(pilot.app) and "“shim of 0.3 under the head”" in shown(pilot.app)
        await press(pilot, "space")
        assert "shim of 0.3" not in shown(pilot.app)
        await press(pilot, "quotation_mark", "'half a hole off", "tab", "space", "enter")
        assert "Kept with step" in shown(pilot.app)
        await press(pilot, "space")
        assert "half a hole off" in shown(pilot.app)
        await press(pilot, "k")
        assert "shim of 0.3 under the head" in shown(pilot.app) and "line 4" in shown(pilot.app)
        again = Desk().open(job.job.id)
        assert [one.words for one in again.progress.notes] == ["shim of 0.3 under the head", "half a hole off"]
        rows = [row for strip in card(again.worked, progress=again.progress).strips for row in strip.rows]
        on_paper = [line for row in rows for line in row.notes]
        assert on_paper == ["line 4: “shim of 0.3 under the head”", "“half a hole off”"]


async def test_an_empty_note_is_no_note():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "quotation_mark", "enter")
        assert "There are no words yet" in shown(pilot.app) and not job.progress.notes


async def test_so_many_of_anything_are_counted_by_the_pedal():
    async with run() as pilot:
        job = await at(pilot, "countersink")
        assert not job.step.rows
        await press(pilot, "'3 turns", "enter")
        assert job.step.rows == 3 and "Turn 1 of 3 · Feed to" in shown(pilot.app)  # the setting stays the largest thing
        await press(pilot, "space", "space")
        assert job.place.row == 3
        assert Desk().open(job.job.id).place == job.place
        await press(pilot, "g", "'4 strokes", "enter")  # another count in its place
        assert job.step.rows == 4 and job.step.table.count_noun == "stroke"


async def test_a_step_that_counts_its_lines_counts_nothing_else():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "g", "'12 turns", "enter")
        assert "counts each line already" in " ".join(shown(pilot.app).split()) and job.step.rows == 30


async def test_large_fills_the_screen_and_the_pedal_goes_on():
    async with run() as pilot:
        job = await at(pilot, "lines", 4)
        await press(pilot, "l")
        assert sum("█" in row for row in shown(pilot.app).splitlines()) >= 14
        await press(pilot, "space")
        assert job.place.row == 5 and "Line 5 of 30" in shown(pilot.app)
        await press(pilot, "escape")
        assert job.place.row == 5 and "Cautions:" in shown(pilot.app)


async def test_other_words_in_the_place_lead_to_the_quick_line():
    async with run() as pilot:
        await at(pilot, "lines", 4)
        await press(pilot, "slash", "'M8 tap", "enter")
        assert type(pilot.app.screen).__name__ == "GotoScreen" and "Tapping drill" in shown(pilot.app)


async def test_after_a_reading_the_move_it_asks_for_is_the_largest_thing():
    async with run() as pilot:
        job = await to_measure_of(pilot)
        most = job.step.limits.high
        await press(pilot, f"'{most + 0.2:.3f}", "enter")
        text = shown(pilot.app)
        assert "TOO BIG by" in text and "cross slide further in" in text and job.next_move()[1] == "4 lines"
        await press(pilot, f"'{most - 0.01:.3f}", "enter")
        assert job.next_move() is None and "In limits" in shown(pilot.app)


async def test_a_note_is_found_again_in_the_next_job_of_the_same_recipe():
    async with run() as pilot:
        await at(pilot, "lines", 4)
        await press(pilot, "quotation_mark", "'shim of 0.3 under the head", "tab", "space", "enter", "escape", "escape")
        await at(pilot, "lines", 7)
        assert "Last time: “shim of 0.3 under the head”" in shown(pilot.app)
        await press(pilot, "k")
        assert "Your notes in earlier jobs" in shown(pilot.app) and "step 12: “shim of 0.3" in shown(pilot.app)
