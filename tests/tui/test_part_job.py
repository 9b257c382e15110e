"""A job that was planned from a part: its set-ups, its readings, its drawings."""

from __future__ import annotations

from engine.part.file import read
from engine.part.plan import plan
from engine.part.plan_recipe import as_recipe
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN
from tests.tui.test_job_screens import press, run, settled, shown
from tui.desk import Desk
from tui.screens.job import JobScreen

NUT = FOURTEEN[0]


def begun():
    """A job of the height nut, just started."""
    text = NUT.read_text(encoding="utf-8")
    shop = sample("metric")
    recipe = as_recipe([plan(one, shop) for one in read(text).parts], text)
    return Desk().start_text(recipe, "height-nut", shop)


def to(job, name):
    """Go to a step by its id."""
    from engine.jobs.places import Place

    number = next(i for i, step in enumerate(job.plan.steps, 1) if step.id == name)
    row = 1 if job.worked.steps[number - 1].rows else 0
    job.go(Place(number, row))


def test_every_step_of_a_plan_has_its_drawing_and_its_set_up():
    job = begun()
    assert set(job.moments) == {step.id for step in job.plan.steps}
    assert all(isinstance(step.set_up, int) for step in job.plan.steps)
    assert job.worked.steps[0].held.grips == "the bar, 28"


def test_a_reading_goes_on_to_the_step_that_starts_from_it():
    job = begun()
    to(job, "rough-outside-1")
    job.keep("25.74", "", "", "", "mm", None)
    finish = next(step for step in job.worked.steps if step.step.id == "finish-outside-1")
    assert finish.measured == {"from": 25.74}
    other = next(step for step in job.worked.steps if step.step.id == "finish-outside-1-2")
    assert not other.measured  # the second piece has its own sizes


async def test_the_work_is_drawn_beside_the_setting_and_by_a_key_where_there_is_no_room():
    for size in ((120, 40), (80, 24)):
        async with run(size) as pilot:
            job = begun()
            to(job, "tap-inside-1")
            pilot.app.push_screen(JobScreen(job))
            await settled(pilot)
            if size[0] < 100:
                await press(pilot, "p")
            assert "three-jaw" in shown(pilot.app) and "M12x1.5" in shown(pilot.app)


async def test_the_working_says_why_a_step_stands_where_it_does():
    async with run() as pilot:
        job = begun()
        to(job, "tap-inside-1")
        pilot.app.push_screen(JobScreen(job))
        await press(pilot, "w")
        assert "the tap needs its hole" in " ".join(shown(pilot.app).split())


def test_the_sheet_draws_each_holding_and_the_steps_in_it():
    job = begun()
    text = job.save_sheet("mm").read_text(encoding="utf-8")
    assert text.count("<svg") > 2 * len(job.plan.set_ups)  # one row serves all pieces


async def test_head_work_is_seen_from_its_end_too():
    for size in ((120, 40), (80, 24)):
        async with run(size) as pilot:
            job = begun()
            to(job, "lines-outside-1-scale")
            pilot.app.push_screen(JobScreen(job))
            await settled(pilot)
            await press(pilot, "p")
            assert "turn →" in shown(pilot.app)


async def test_a_job_that_ships_is_planned_for_the_shop_and_started_by_one_key():
    async with run((120, 40)) as pilot:
        await press(pilot, "f8", "enter")
        await settled(pilot)
        screen = pilot.app.screen
        steps = screen.job.worked.steps
        assert steps[0].step.title == "Saw off a piece for 2 parts, 59.6 long" and not screen.job.worked.problems
        assert set(screen.job.moments) >= {step.step.id for step in steps if not step.step.id.startswith("dry")}
