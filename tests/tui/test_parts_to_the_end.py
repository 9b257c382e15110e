"""Six parts stepped from their first step to the end, with every reading in limits and every question answered."""

from __future__ import annotations

import re

import pytest

from engine.base.words import write
from engine.jobs.places import Place
from engine.part.file import read
from engine.part.plan_recipe import as_recipe
from engine.part.together import plan_all
from engine.shop.file import sample
from tests.engine.part.scenario import FOURTEEN, SHIPPED
from tests.tui.test_job_screens import press, run, settled, shown
from tui.desk import Desk
from tui.screens.job import JobScreen

NAMES = ("01-height-nut", "03-shouldered-screw", "06-long-screw", "08-feed-drum", "09-bearing-bush", "hexagon-spacer")
PATHS = {path.stem: path for path in (*FOURTEEN, *SHIPPED)}


def begun(name):
    """A job of one piece of a part, just started."""
    text = re.sub(r"(?m)^make = .*$", "make = 1", PATHS[name].read_text(encoding="utf-8"))
    shop = sample("metric")
    return Desk().start_text(as_recipe(list(plan_all(read(text).parts, shop)), text), name, shop)


def middle(limits):
    """A reading in limits: their middle, or what is planned where there is but one."""
    if limits.low is not None and limits.high is not None:
        return (limits.low + limits.high) / 2
    return limits.planned if limits.planned is not None else (limits.low or limits.high) + 0.01


@pytest.mark.parametrize("name", NAMES)
def test_a_part_is_stepped_to_the_end_with_its_readings_in_limits(name):
    job = begun(name)
    read_, proved, left = set(), [], len(job.worked.steps)
    while not job.finished:
        if job.step.rows > 1:  # counted through by the keys below
            job.go(Place(job.step.number, job.step.rows))
        step, place = job.step, job.place
        assert not step.problem and step.step.id in job.moments | dict.fromkeys([step.step.id])
        if step.limits is not None and place.row == step.rows:
            job.keep(f"{middle(step.limits):.4f}", "", "", "", "mm", None)
            assert not job.unmeasured, step.step.id
            read_.add(step.step.id)
        for words in job.aims.gates if place.row == step.rows else ():
            assert "part-off" not in step.step.id  # the blade has not let it go yet
            job.aims.answer_gate(words, "it is so")
            proved.append(words)
        job.done()
        left -= 1
    assert left == 0
    assert read_ == {step.step.id for step in job.worked.steps if step.limits}
    assert len(proved) == sum(
        len(held.gate) for held in {s.holding: s.held for s in job.worked.steps if s.held}.values()
    )
    assert job.worked.problems == ()


async def test_by_the_keys_alone_in_eighty_columns():
    """The shouldered screw: Space, the readings by `m`, what was found at the gate, Space; the end is said."""
    async with run((80, 24)) as pilot:
        job = begun("03-shouldered-screw")
        pilot.app.push_screen(JobScreen(job))
        await settled(pilot)
        await press(pilot, "space")  # the five things
        for _ in range(200):
            if job.finished:
                break
            if "Before the work is let go" in shown(pilot.app):
                await press(pilot, "f", "i", "n", "e", "enter")
                continue
            limits, place = job.step.limits, job.place
            if limits is not None and place.row == job.step.rows and job.unmeasured:
                names = {".": "full_stop"}
                await press(pilot, "m", *(names.get(c, c) for c in f"{middle(limits):.3f}"), "enter")
                assert not job.unmeasured, write(job.step.step.title)
            await press(pilot, "space")
        assert job.finished and "Every step is done" in shown(pilot.app)
