"""Jobs by the keyboard: started, stepped, measured, corrected, left, taken up, refused, edited, added to."""

import os
import sqlite3
import threading
from pathlib import Path

import pytest

from engine.jobs.library import own_folder, shelf
from tests.old_recipes import put_on_the_shelf
from tui.app import TommybarApp
from tui.desk import Desk
from tui.screens.job import JobScreen
from tui.screens.jobs import JobsScreen


def run(size=(80, 24)):
    return TommybarApp().run_test(size=size)


def shown(app):
    return app.screen.canvas.text


NAMES = {" ": "space", ",": "comma", ".": "full_stop", '"': "quotation_mark", "=": "equals_sign", "-": "minus"}


async def press(pilot, *keys):
    """Keys by name; a word after ' is typed."""
    for key in keys:
        if len(key) > 1 and key[0] == "'":
            await pilot.press(*[NAMES.get(c, c) for c in key[1:]])
        else:
            await pilot.press(key)
    await settled(pilot)


async def settled(pilot):
    """Wait until the job is worked out."""
    await pilot.pause()
    if isinstance(pilot.app.screen, JobScreen | JobsScreen):
        await pilot.app.screen.settled()
        await pilot.pause()


async def begin(pilot, name="hexagon-spacer"):
    """Start a job of a recipe."""
    kept = put_on_the_shelf(name)
    await press(pilot, "f8")
    screen = pilot.app.screen
    screen.at = next(i for i, one in enumerate(screen.choices) if getattr(one, "name", "") == kept)
    await press(pilot, "enter")
    return pilot.app.screen.job


async def read_all(pilot):
    """Say of every stop line that it is read."""
    while pilot.app.screen.job.unread:
        await press(pilot, "space")


async def to_measure(pilot):
    """Step on to the first step that is measured as one."""
    job = pilot.app.screen.job
    while job.step.limits is None or job.step.rows:
        await read_all(pilot)
        pilot.app.screen.warned = job.place
        await press(pilot, "space")
    return job


async def test_a_recipe_becomes_a_job_and_space_steps_it_on():
    async with run() as pilot:
        job = await begin(pilot)
        assert "step 1 of" in shown(pilot.app)
        await read_all(pilot)
        await press(pilot, "space")
        assert job.place.step == 2
        await press(pilot, "backspace")
        assert job.place.step == 1
        assert Desk().jobs()[0].state == "under way"


async def test_damage_on_the_disk_is_told_where_the_job_is_taken_up():
    async with run() as pilot:
        job = await begin(pilot)
        await press(pilot, "space")
        database = sqlite3.connect(job.journal.path, isolation_level=None)
        database.execute("DROP TRIGGER event_stays")
        database.execute("UPDATE event SET step = 7 WHERE kind = 'started'")
        database.close()
        job.journal._known.clear()
        await press(pilot, "escape", "enter")
        assert "1 entry of this job was damaged on the disk" in shown(pilot.app)
        await press(pilot, "k")
        assert "what it said is not known" in shown(pilot.app)


async def test_a_file_that_is_slow_to_open_holds_no_other_screen_up(monkeypatch):
    opens = threading.Event()
    real = Desk.jobs
    monkeypatch.setattr(Desk, "jobs", lambda self: opens.wait(10) and real(self))
    async with run() as pilot:
        await pilot.press("f8")
        await pilot.pause()
        await pilot.press("f3")
        await pilot.pause()
        assert "Tapping drill" in shown(pilot.app)
        opens.set()


async def test_left_and_taken_up_again_it_is_where_it_was():
    async with run() as pilot:
        job = await begin(pilot)
        await read_all(pilot)
        await press(pilot, "space", "escape")
        assert Desk().jobs()[0].state == "left"
    async with run() as pilot:
        await press(pilot, "f8", "enter")
        assert pilot.app.screen.job.place == job.place


async def test_a_stop_line_is_read_before_the_step_goes_on():
    async with run() as pilot:
        job = await begin(pilot)
        while not job.unread:
            pilot.app.screen.warned = job.place
            await press(pilot, "space")
        place, number = job.place, len(job.unread)
        await press(pilot, "space")  # the pedal's key says that the line is read; it does not step on
        assert job.place == place and len(job.unread) == number - 1 and "Read: " in shown(pilot.app)
        await read_all(pilot)
        await press(pilot, "space")
        assert job.place != place or "M measures" in shown(pilot.app)


async def test_rows_are_counted_one_at_a_time_and_shown_large():
    async with run() as pilot:
        job = await begin(pilot)
        while not job.step.table:
            await read_all(pilot)
            pilot.app.screen.warned = job.place
            await press(pilot, "space")
        noun = job.step.table.count_noun.capitalize()
        assert f"{noun} 1 of {job.step.rows}" in shown(pilot.app)
        await read_all(pilot)
        await press(pilot, "space")
        assert job.place.row == 2 and f"{noun} 2 of" in shown(pilot.app) and f"{noun.lower()} 1" in shown(pilot.app)
        assert "█" in shown(pilot.app)


async def test_the_figure_that_the_recipe_chose_is_shown_large():
    async with run() as pilot:
        job = await begin(pilot, "height-adjuster-nut")
        number = next(s.number for s in job.worked.steps if s.step.large == "stick_out")
        await press(pilot, "g", f"'step {number}", "enter")
        lines = shown(pilot.app).split("\n")
        label = job.step.answer.figure("stick_out").label
        assert any(line.strip() == label for line in lines)


async def test_a_reading_of_another_flat_is_told_where_none_is_taken_yet():
    async with run() as pilot:
        job = await begin(pilot)
        number = next(s.number for s in job.worked.steps if s.rows and s.limits)
        await press(pilot, "g", f"'step {number}", "enter", "g", "'flat 4", "enter", "m", "'12.9", "enter")
        assert "In limits: 12.900 mm" in shown(pilot.app)
        await press(pilot, "g", "'flat 5", "enter")
        assert "flat 4: 12.900 mm" in shown(pilot.app) and job.last_reading is None


async def test_i_am_at_moves_to_a_line_and_refuses_what_is_not_there():
    async with run() as pilot:
        job = await begin(pilot)
        while not job.step.table:
            await read_all(pilot)
            pilot.app.screen.warned = job.place
            await press(pilot, "space")
        last = job.step.rows
        await press(pilot, "g", f"'{last}", "enter")
        assert job.place.row == last
        await press(pilot, "g", "'999", "enter")
        assert job.place.row == last and "999" in shown(pilot.app) and "cannot be used" in shown(pilot.app)
        await press(pilot, "escape", "g", f"'{job.step.table.count_noun} 1", "enter")
        assert job.place.row == 1
        await press(pilot, "g", "'step 1", "enter")
        assert job.place.step == 1


async def test_a_reading_is_judged_corrected_and_kept():
    async with run() as pilot:
        await begin(pilot, "height-adjuster-nut")
        job = await to_measure(pilot)
        limits = job.step.limits
        await press(pilot, "space")
        assert "has not been measured" in shown(pilot.app)
        wide = f"{limits.high + 0.5:.2f}"
        await press(pilot, "m", f"'{wide}", "enter")
        assert "Too big" in shown(pilot.app) and "Cross slide" in shown(pilot.app)
        good = f"{(limits.low + limits.high) / 2:.3f}"
        await press(pilot, "e", f"'{good}", "enter")
        assert "In limits" in shown(pilot.app)
        reading = job.last_reading
        assert reading.reading == pytest.approx(float(good)) and reading.was == (pytest.approx(float(wide)),)
        await press(pilot, "k")
        assert "put right" in shown(pilot.app) and wide in shown(pilot.app)


async def test_two_readings_with_their_dial_settings_plan_the_last_cuts():
    async with run((100, 40)) as pilot:
        await begin(pilot, "height-adjuster-nut")
        job = await to_measure(pilot)
        high = job.step.limits.high
        for dial, over in (("0.5", 1.5), ("1.0", 0.6)):
            await press(pilot, "m", f"'{high + over:.2f}", "down", "down", f"'{dial}", "enter")
        assert "The tool takes 0.90 of what the dial says" in shown(pilot.app)
        assert "times in 100" in shown(pilot.app) and "Cross slide:" not in shown(pilot.app)


async def test_over_cut_is_said_plainly():
    async with run((100, 40)) as pilot:
        await begin(pilot, "height-adjuster-nut")
        job = await to_measure(pilot)
        await press(pilot, "m", f"'{job.step.limits.low - 0.2:.2f}", "enter")
        assert "Over-cut" in shown(pilot.app) and "scrap" in shown(pilot.app)


@pytest.mark.parametrize("typed", ["", "wide", "-3", "1e99", "0"])
async def test_a_reading_that_is_none_is_refused_and_not_lost(typed):
    async with run() as pilot:
        await begin(pilot, "height-adjuster-nut")
        job = await to_measure(pilot)
        await press(pilot, "m", *([f"'{typed}"] if typed else []), "enter")
        assert "! reading:" in shown(pilot.app) and not job.readings
        assert f"[{typed}" in shown(pilot.app)


async def test_a_question_is_answered_for_the_whole_job():
    async with run((120, 40)) as pilot:
        job = await begin(pilot, "height-adjuster-screw")
        while not job.questions:
            assert not job.finished
            await read_all(pilot)
            pilot.app.screen.warned = job.place
            await press(pilot, "space")
        asked = job.questions[0].id
        await press(pilot, "c", "n")
        if "This is the question" in shown(pilot.app):  # it stood below what the screen shows
            await press(pilot, "n")
        assert job.progress.told[asked].yes is False and asked not in [c.id for c in job.questions]
        assert Desk().open(job.job.id).progress.told[asked].yes is False


async def test_another_unit_is_only_written_and_works_nothing_out_again(monkeypatch):
    async with run() as pilot:
        job = await begin(pilot, "height-adjuster-nut")
        before = job.worked
        monkeypatch.setattr("tui.desk.resolve", lambda *a, **k: pytest.fail("worked out again"))
        await press(pilot, "f9")
        assert job.unit == "inch" and job.worked is before


async def test_two_programs_on_one_job_do_not_double_a_step():
    async with run() as pilot:
        job = await begin(pilot)
        await read_all(pilot)
        other = Desk().open(job.job.id)
        other.done()
        await press(pilot, "space")
        assert "moved on" in shown(pilot.app)
        assert job.place == other.place and job.place.step == 2


async def test_a_full_disk_is_said_and_nothing_moves(monkeypatch):
    async with run() as pilot:
        job = await begin(pilot)
        await read_all(pilot)
        place = job.place
        database = Desk().journal.path
        os.rename(database, database.with_suffix(".away"))
        await press(pilot, "space")
        assert job.place == place and "NOT SAVED" in shown(pilot.app)


async def test_the_sheet_is_written_and_said_where():
    async with run((140, 40)) as pilot:
        job = await begin(pilot)
        await press(pilot, "i")
        path = next((Path(os.environ["XDG_DATA_HOME"]) / "tommybar" / "sheets").iterdir())
        assert job.job.title in path.read_text(encoding="utf-8")
        assert "Sheet:" in shown(pilot.app)


async def test_where_the_sheet_is_can_be_read_to_its_end():
    async with run((40, 20)) as pilot:
        await begin(pilot)
        await press(pilot, "i")
        lines = shown(pilot.app).split("\n")
        assert len(lines) == 20 and max(map(len, lines)) <= 40
        assert "".join(line.strip() for line in lines).endswith(".html")


async def test_every_view_opens_and_closes():
    async with run() as pilot:
        await begin(pilot)
        for key in ("o", "c", "w", "r", "p", "t", "v", "l", "k", "quotation_mark", "question_mark"):
            before = shown(pilot.app)
            await press(pilot, key)
            assert shown(pilot.app) != before, key
            await press(pilot, "escape")
        assert type(pilot.app.screen).__name__ == "JobScreen"


@pytest.mark.parametrize("size", [(40, 10), (60, 16), (80, 24), (120, 40), (200, 60)])
async def test_it_fits_every_size(size):
    async with run(size) as pilot:
        job = await begin(pilot, "height-adjuster-nut")
        for number in range(1, len(job.worked.steps) + 1):
            job.progress = job.journal.move(job.job.id, job.progress.seq, type(job.place)(number, 0))
            pilot.app.screen.redraw()
            lines = shown(pilot.app).split("\n")
            assert len(lines) == size[1] and max(map(len, lines)) <= size[0]


async def test_a_ready_made_recipe_is_copied_to_be_changed_and_mistakes_are_told():
    async with run() as pilot:
        await press(pilot, "f8", *["down"] * 6, "e")
        screen = pilot.app.screen
        assert type(screen).__name__ == "RecipeScreen" and not own_folder().exists()
        await press(pilot, "'x", "ctrl+s")
        assert "NOT SAVED" in shown(pilot.app) and not list(own_folder().glob("*"))
        await press(pilot, "backspace", "ctrl+s")
        assert [p.name for p in own_folder().iterdir()] == ["my-fence-scale.toml"]
        await press(pilot, "escape")
        assert "yours" in shown(pilot.app)


async def test_unsaved_typing_is_not_lost_at_one_escape():
    async with run() as pilot:
        await press(pilot, "f8", *["down"] * 6, "e", "'x", "escape")
        assert "Esc once more" in shown(pilot.app) and type(pilot.app.screen).__name__ == "RecipeScreen"


async def test_the_open_operation_is_added_to_a_recipe():
    async with run() as pilot:
        await press(pilot, "f4", "ctrl+n", "'Lift collar", "enter")
        assert "Added to" in shown(pilot.app)
        path = own_folder() / "lift-collar.toml"
        assert 'operation = "divide"' in path.read_text()
        await press(pilot, "ctrl+n", "down", "enter")
        assert path.read_text().count('operation = "divide"') == 4
        assert "Lift collar" in [one.title for one in shelf()]


async def test_h_says_in_a_job_what_is_being_made():
    async with run() as pilot:
        job = await begin(pilot)
        await press(pilot, "space", "h")
        assert f"Being made: {job.plan.part}" in " ".join(shown(pilot.app).split())
