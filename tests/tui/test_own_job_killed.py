"""The real program: a job made from a part of one's own, measured wrong on purpose, killed at random, gone on with exactly."""

import random
import re
from contextlib import closing

from engine.part.own import own_parts
from tests.tui.test_killed import ENTER, F8, SPACE, Terminal, past_the_first_page, place
from tui.desk import Desk

PART = """part_version = 1
title = "Fence pin"
unit = "mm"
material = "mild steel"
bar = "20"

[[outside]]
is = "diameter"
size = "12 +0/-0.05"
length = "18"

[[outside]]
is = "diameter"
size = "16"
length = "8"
"""
GO, BACK, CORRECT, PLAN = b"g", b"z", b"e", b"\x0f"


def step_of(job, name):
    return next(step for step in job.worked.steps if step.step.id == name)


def go_to(terminal, number):
    terminal.press(GO, f"step {number}".encode(), ENTER)
    terminal.wait_for(rf"step {number} of")


def opened():
    """The job as another program finds it on the disk."""
    desk = Desk()
    return desk.open(desk.jobs()[0].id)


def test_a_job_of_ones_own_part_measured_wrong_and_killed_goes_on_exactly():
    own_parts().mkdir(parents=True, exist_ok=True)
    (own_parts() / "fence-pin.toml").write_text(PART, encoding="utf-8")
    keys = random.Random(7)
    with closing(Terminal()) as terminal:
        terminal.wait_for("F8 Jobs")
        terminal.press(F8)
        terminal.wait_for("> Fence pin")
        terminal.press(ENTER)
        terminal.wait_for("12")
        terminal.press(PLAN)
        terminal.wait_for("minutes")
        terminal.press(ENTER)
        past_the_first_page(terminal)
        terminal.wait_for("step 1 of")
        before = opened()
        rough = step_of(before, "rough-outside-1").number
        finish = step_of(before, "finish-outside-1").number
        assert not step_of(before, "finish-outside-1").measured
        cuts = step_of(before, "finish-outside-1").answer.tables[0].rows

        go_to(terminal, rough)
        terminal.press(b"13.30", ENTER)  # wrong on purpose: 12.30 was meant
        terminal.wait_for("Kept")
        after = step_of(opened(), "finish-outside-1")
        assert after.measured == {"from": 13.3} and after.answer.tables[0].rows != cuts
        terminal.press(CORRECT, b"12.30", ENTER)
        terminal.wait_for(r"12\.300")
        assert step_of(opened(), "finish-outside-1").measured == {"from": 12.3}

        go_to(terminal, finish)
        terminal.wait_for(r"From diameter: 12\.300 mm measured")
        for _ in range(keys.randrange(3, 9)):
            terminal.press(keys.choice((SPACE, SPACE, BACK)))
        terminal.press(SPACE)  # and the power goes before the screen answers
    killed = opened()

    with closing(Terminal()) as terminal:
        terminal.wait_for("Under way")
        terminal.press(ENTER)
        past_the_first_page(terminal)
        where = re.search(r"step (\d+) of", place(terminal)[0])
        assert int(where[1]) == killed.place.step
        if killed.place.step == finish:
            terminal.wait_for(r"From diameter: 12\.300 mm measured")
    again = opened()
    assert again.place == killed.place
    assert [(r.reading, r.was) for r in again.progress.readings] == [(12.3, (13.3,))]
