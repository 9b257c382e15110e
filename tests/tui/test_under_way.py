"""The first screen after a stop says what is under way, and Enter goes on with it."""

import asyncio

from engine.jobs.places import Place
from engine.shop.file import sample
from tests.old_recipes import put_on_the_shelf
from tests.tui.driving import driving
from tui.desk import Desk
from tui.under_way import newest


def begun(name="height-adjuster-nut", step="lines", row=19):
    """A job under way at a row of a step, as a power cut would leave it."""
    desk, shelf_name = Desk(), put_on_the_shelf(name)
    job = desk.start(next(one for one in desk.recipes() if one.name == shelf_name), sample("metric"))
    number = next(s.number for s in job.worked.steps if s.step.id == step)
    job.go(Place(number, row))
    return job


async def offered(d):
    """Wait for the thread that looks."""
    for _ in range(200):
        if "Under way" in d.text:
            return
        await asyncio.sleep(0.01)
        await d.pilot.pause()


async def test_enter_goes_on_where_it_stood():
    job = begun()
    async with driving((80, 24)) as d:
        await offered(d)
        assert "Under way: Height-adjuster nut, line 19 of 30. Enter goes on." in d.text
        await d.press("enter")
        for _ in range(200):
            if type(d.app.screen).__name__ == "JobScreen":
                break
            await asyncio.sleep(0.01)
            await d.pilot.pause()
        assert "Line 19 of 30" in d.text and d.app.screen.job.job.id == job.job.id


async def test_another_key_does_what_it_always_does():
    begun()
    async with driving((80, 24)) as d:
        await offered(d)
        await d.press("f3", "enter")
        assert type(d.app.screen).__name__ == "BenchScreen" and "Under way" not in d.text


def test_a_job_that_is_finished_or_put_away_is_not_offered():
    job = begun()
    assert newest().id == job.job.id
    job.journal.put_away(job.job.id)
    assert newest() is None


async def test_damage_of_the_jobs_file_is_told_at_the_start_and_where_the_jobs_are():
    job = begun()
    job.journal.close()
    job.journal.path.write_bytes(b"no file of jobs" * 400)
    async with driving((80, 24)) as d:
        await offered(d)
        assert "Disk damage: F8. Under way: Height-adjuster nut, line 19 of 30." in d.text  # put back, and offered
        await d.press("f8")
        for _ in range(200):
            if "damaged" in d.text:
                break
            await asyncio.sleep(0.01)
            await d.pilot.pause()
        assert "The file of jobs was damaged" in d.text
