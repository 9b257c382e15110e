"""Cautions by the keyboard: the set-up line, questions, the first page, nothing cut, at 80x24 and 120x40."""

import re

import pytest

from engine.base.register import CATALOG
from tests.tui.driving import driving
from tests.tui.test_job_screens import begin, press, run, shown
from tui.desk import Desk
from tui.early import Early
from tui.session import Session

SIZES = ((80, 24), (120, 40))
sizes = pytest.mark.parametrize("size", SIZES, ids=lambda s: f"{s[0]}x{s[1]}")


def joined(text):
    """The screen as one line of words, without the rules between columns."""
    return " ".join(text.replace("│", " ").split())


def pane(text):
    """The cautions' pane as one line of words."""
    rows = text.splitlines()
    head = next((y for y, row in enumerate(rows) if "── Cautions" in row and "in full ──" not in row[:30]), None)
    if head is None:  # the large type, with the worst of them alone
        return joined(text)
    column = rows[head].index("── Cautions")
    return " ".join(" ".join(row[column:] for row in rows[head + 1 : -1]).split())


@sizes
async def test_the_set_up_stands_at_the_head_and_one_key_changes_it(size):
    async with driving(size) as d:
        await d.open("part-off")
        assert "support, rear: not told" in pane(d.text) and "Ctrl+A changes" in pane(d.text)
        await d.press("escape")
        assert "s changes" in pane(d.text)
        await d.press("s")
        await d.press("tab", "space", "tab")  # held by: the first of the choices
        await d.type("20")
        await d.press("tab")
        await d.type("1.5in")
        await d.press("enter")
        held = d.app.session.set_up
        assert (held.held_by, held.grip, held.stick_out) == ("three-jaw", 20.0, 38.1)
        assert "three-jaw, grip 20.0, out 38.1" in pane(d.text) and "Set-up kept." in d.text
        await d.press("f9")
        assert "grip 0.79, out 1.50" in pane(d.text)
        await d.open("turning-speed")  # told once: the next operation knows it
        assert "three-jaw, grip 0.79" in pane(d.text)


async def test_a_set_up_that_cannot_be_used_is_said_and_esc_leaves_it_as_it_was():
    async with driving((80, 24)) as d:
        await d.open("part-off")
        await d.press("ctrl+a", "tab", "tab")
        await d.type("many")
        await d.press("enter")
        assert "! grip: many cannot be used" in d.text
        await d.press("escape")
        assert d.app.session.set_up.grip is None and "Part off" in d.text


async def test_lengths_kept_in_another_unit_keep_their_exact_value():
    async with driving((80, 24)) as d:
        await d.open("part-off")
        await d.press("ctrl+a", "tab", "tab")
        await d.type("17.3")
        await d.press("enter", "f9", "ctrl+a", "enter")
        assert d.app.session.set_up.grip == 17.3


@sizes
async def test_an_answer_acts_on_what_is_asked_on_the_screen_and_is_taken_back(size):
    async with driving(size) as d:
        await d.open("solder")
        assert "Esc, then y or n?" in pane(d.text)  # in a field letters are typed
        await d.press("escape")
        assert "y or n?" in pane(d.text) and "Esc, then" not in pane(d.text)
        await d.press("n")
        assert len(d.app.session.told) == 1
        assert "Answered: Is there a closed hollow in it?" in joined(d.text)
        assert "Backspace takes it back." in joined(d.text)
        assert "1 answered" in d.text or "Answered: Is there" in pane(d.text)
        await d.press("backspace")
        assert not d.app.session.told and "asked again" in d.text


@sizes
async def test_y_and_n_do_nothing_where_nothing_is_asked(size):
    async with driving(size) as d:
        for entry in CATALOG:
            await d.open(entry.id)
            await d.press("escape")
            asks = "y or n?" in pane(d.text)
            before = dict(d.app.session.told)
            await d.press("n")
            assert (d.app.session.told != before) == asks, entry.id


@sizes
async def test_at_most_one_question_is_in_view(size):
    async with driving(size) as d:
        for entry in CATALOG:
            await d.open(entry.id)
            await d.press("escape")
            for view in ("", "l", "c"):
                if view:
                    await d.press(view)
                assert d.text.count("y or n?") <= 1, (entry.id, view)
                assert d.app.bench.state.asked is None or view or "n?" in d.text, entry.id
                if view:
                    await d.press(view)


@sizes
async def test_no_caution_in_view_is_cut(size):
    async with driving(size) as d:
        for entry in CATALOG:
            await d.open(entry.id)
            assert "…" not in pane(d.text), entry.id
            for line in re.split(r"\[(?:DANGER|WARNING|CAUTION|NOTICE)\??\] ", pane(d.text))[1:]:
                assert re.search(r"[.?)]", line), (entry.id, line)


@sizes
async def test_the_screen_is_full_whatever_there_is_to_warn_of(size):
    async with driving(size) as d:
        for entry in CATALOG:
            await d.open(entry.id)
            assert len(d.text.splitlines()) == size[1], entry.id


async def test_five_cautions_are_shown_where_there_is_room():
    async with driving((120, 40)) as d:
        await d.open("part-off")
        assert "Cautions: 5 of" in d.text


async def test_an_answer_lapses_with_the_set_up():
    async with driving((120, 40)) as d:
        await d.open("solder")
        await d.press("escape", "n")
        told = next(iter(d.app.session.told))
        asked = [c.id for c in d.app.session.here().done.answer.cautions if c.question]
        await d.press("s", "tab", "space", "enter")
        again = [c.id for c in d.app.session.here().done.answer.cautions if c.question]
        assert told not in asked and told in again and "asked anew" in d.text


@pytest.mark.first_page
@sizes
async def test_the_first_page_stands_before_the_first_work_at_a_machine_and_never_again(size):
    async with driving(size) as d:
        assert "five things" not in d.text  # a look-up: nothing turns
        await d.open("part-off")
        words = joined(d.text)
        assert "five things" in words and words.count("[WARNING]") == 5 and "Space Done, go on" in words
        for rule in ("Key, handle or pin", "eye protection", "Gloves", "by hand before power", "Stop button"):
            assert rule in words
        await d.press("4", "x")
        assert "five things" in d.text and "Space goes on" in d.text
        await d.press("enter")
        assert "five things" not in d.text and "Part off" in d.text
        assert d.app.session.here().form.given().items() >= {"diameter": "20"}.items()  # nothing was typed under it
        await d.open("turning-speed")
        assert "five things" not in d.text


@pytest.mark.first_page
async def test_the_first_page_does_not_stop_the_first_paint(monkeypatch):
    from tui import early

    session, painted = Session(), []
    session.open_by_id("part-off")
    assert session.first_page_due
    monkeypatch.setattr(early, "_write", painted.append)
    one = object.__new__(Early)
    one.shown = False
    one.paint(session, "dark")
    assert one.shown and "Set the spindle to" in painted[0] and "five things" not in painted[0]


@pytest.mark.first_page
@sizes
async def test_the_first_page_stands_before_each_job_once(size):
    async with run(size) as pilot:
        await press(pilot, "f8", "enter")
        job = pilot.app.screen.job
        assert "Before this job: five things" in shown(pilot.app)
        await press(pilot, "n", "y")
        assert "five things" in shown(pilot.app) and not job.progress.told
        await press(pilot, "pagedown")
        assert "five things" not in shown(pilot.app) and job.place.step == 1
        await press(pilot, "escape", "enter")
        assert pilot.app.screen.job.job.id == job.job.id and "five things" not in shown(pilot.app)


@sizes
async def test_a_job_keeps_its_set_up_on_the_disk(size):
    async with run(size) as pilot:
        job = await begin(pilot)
        await press(pilot, "s", "tab", "tab", "'22", "enter")
        assert job.step.set_up.grip == 22.0
        assert Desk().open(job.job.id).step.set_up.grip == 22.0
        await press(pilot, "k")
        assert "set-up: " in shown(pilot.app) and "grip 22.0" in shown(pilot.app)


async def test_in_a_job_an_answer_says_what_it_did_and_is_taken_back():
    async with run((120, 40)) as pilot:
        job = await begin(pilot, "height-adjuster-screw")
        screen = pilot.app.screen
        while not job.questions:
            assert not job.finished
            while job.unread:
                await press(pilot, "space")
            screen.warned = job.place
            await press(pilot, "space")
        asked, place = job.questions[0].id, job.place
        await press(pilot, *([] if "y or n?" in shown(pilot.app) else ["c"]))
        await press(pilot, "n")
        if "This is the question" in shown(pilot.app):  # it stood below: it is shown before it can be answered
            assert not job.progress.told and "y or n?" in shown(pilot.app)
            await press(pilot, "n")
        assert "Answered: " in shown(pilot.app) and job.progress.told[asked].yes is False
        await press(pilot, "backspace")
        assert asked not in job.progress.told and job.place == place
        assert asked not in Desk().open(job.job.id).progress.told
