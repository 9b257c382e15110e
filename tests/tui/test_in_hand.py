"""The part in hand at the bench: told once, taken by empty fields and shown there, offered by what is typed, remembered."""

from __future__ import annotations

import pytest

from tests.tui.test_part_screen import NUT, press, run, shown, until
from tui.screens.in_hand import InHandScreen
from tui.screens.job import JobScreen
from tui.session import Session

HELD = ("ctrl+b", "'brass", "tab", "'28", "tab", "'M14x1", "enter")


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_told_once_it_is_taken_by_empty_fields_and_shown(size):
    async with run(size) as pilot:
        await press(pilot, *HELD)
        assert "In hand: brass · bar 28 mm · M14x1" in shown(pilot.app)
        pilot.app.bench.open("thread-limits")
        await press(pilot)
        one = pilot.app.session.here()
        assert one.done_for["size"] == "M14x1" and "M14x1, in hand" in shown(pilot.app)
        pilot.app.bench.open("turn-to-size")
        await press(pilot, "tab", "'25")
        one = pilot.app.session.here()
        assert one.form.given()["from"] == "28 mm" and one.form.given()["material"] == "brass"
        pilot.app.bench.open("overhang")
        await press(pilot, "tab", "'40")
        assert "(brass" in shown(pilot.app) and "(shop's)" not in shown(
            pilot.app
        )  # where it does not fit whole as well


async def test_what_is_typed_wins_and_what_is_in_hand_stays():
    async with run() as pilot:
        await press(pilot, *HELD)
        pilot.app.bench.open("thread-limits")
        await press(pilot, "'M8")
        assert pilot.app.session.here().form.given()["size"] == "M8"
        assert pilot.app.session.in_hand.thread == "M14x1"


async def test_a_thread_typed_in_one_operation_is_offered_to_the_rest():
    async with run() as pilot:
        pilot.app.bench.open("thread-limits")
        await press(pilot, "'M10x1")
        pilot.app.bench.open("three-wires")
        await press(pilot)
        assert pilot.app.session.here().done_for["size"] == "M10x1"
        assert "In hand: M10x1" in shown(pilot.app)


async def test_it_is_remembered_between_runs():
    async with run() as pilot:
        await press(pilot, *HELD)
    again = Session()
    assert again.in_hand.words() == "brass · bar 28 mm · M14x1"


async def test_a_material_that_is_none_is_refused_in_one_sentence():
    async with run() as pilot:
        await press(pilot, "ctrl+b", "'unobtainium", "enter")
        assert isinstance(pilot.app.screen, InHandScreen) and "unobtainium" in shown(pilot.app)


async def test_nothing_in_hand_again_leaves_the_example():
    async with run() as pilot:
        await press(pilot, *HELD, "ctrl+b", "ctrl+x")
        pilot.app.bench.open("thread-limits")
        await press(pilot)
        assert "In hand" not in "\n".join(shown(pilot.app).splitlines()[:-1])
        assert pilot.app.session.here().form.shows_example


async def test_the_part_whose_job_is_begun_is_in_hand():
    async with run() as pilot:
        await press(pilot, *NUT, "enter")
        from tui.screens.plan import PlanScreen

        await until(pilot, PlanScreen)
        await press(pilot, "enter")
        await until(pilot, JobScreen)
        assert pilot.app.session.in_hand.words() == "brass · bar 28 mm · M14x1"
