"""One line under a caret: by itself, and by the keyboard in every place that takes typing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from textual.events import Paste

from tests.old_recipes import put_on_the_shelf
from tests.tui.driving import driving
from tui.editing import MOVES, LineEdit, edited
from tui.lines import width_of

KEYS = st.sampled_from([*MOVES, "backspace", "delete", "ctrl+u"])


@given(st.text(max_size=30), st.lists(KEYS | st.text(min_size=1, max_size=3), max_size=40), st.integers(3, 40))
def test_no_sequence_of_keys_leaves_the_caret_outside_the_text_or_the_line_too_long(text, keys, room):
    edit = LineEdit(text[:20], longest=20, fresh=True)
    for key in keys:
        edit.key(key, key if len(key) == 1 else None) or edit.insert(key)
        assert 0 <= edit.caret <= len(edit.text) <= 20
        assert width_of(edited(edit, room)) == room


def test_a_blank_begins_nothing_and_takes_nothing_away():
    edit = LineEdit("M10x1.25", fresh=True)
    assert edit.key("space", " ") and (edit.text, edit.fresh) == ("M10x1.25", True)
    for key in (" ", "m", "i", "l", "d", " ", "s"):
        edit.key("space" if key == " " else key, key)
    assert edit.text == "mild s"


async def test_a_space_on_the_bench_leaves_the_example_and_its_answer():
    async with driving((80, 24)) as d:
        d.app.session.first_page_read = True
        await d.open("thread-limits")
        await d.press("space")
        one = d.app.session.here()
        assert one.form.shows_example and not one.refusal


def test_the_caret_goes_from_word_to_word():
    edit = LineEdit("M10 x 1.25")
    stops = []
    for key in ("ctrl+left", "ctrl+left", "ctrl+left", "ctrl+left", "ctrl+right", "ctrl+right", "ctrl+right"):
        edit.key(key)
        stops.append(edit.caret)
    assert stops == [6, 4, 0, 0, 4, 6, 10]


def test_a_text_just_arrived_at_is_replaced_or_emptied_or_edited_after_a_move():
    typed, emptied, moved = (LineEdit("24", fresh=True) for _ in range(3))
    typed.insert("7")
    emptied.key("delete")
    moved.key("end")
    moved.insert("7")
    assert (typed.text, emptied.text, moved.text) == ("7", "", "247")


async def bench(d):
    await d.open("hand-dial")
    return lambda: d.app.session.here().form.text("distance")


async def quick_line(d):
    await d.press("ctrl+g")
    return lambda: d.app.screen.line.text


async def shop(d):
    await d.press("f12", "3")
    hand = d.app.screen.hand
    hand.open(("name",))
    return lambda: hand.line.text


async def add_step(d):
    await d.press("ctrl+n")
    return lambda: d.app.screen.title_line.text


async def reading(d):
    kept = put_on_the_shelf("hexagon-spacer")
    await d.press("f8")
    screen = d.app.screen
    screen.at = next(i for i, c in enumerate(screen.choices) if getattr(c, "name", "") == kept)
    await d.press("enter")
    job = d.app.screen.job
    number = next(step.number for step in job.worked.steps if step.limits)
    job.progress = job.journal.move(job.job.id, job.progress.seq, type(job.place)(number, 0))
    await d.press("m")
    return lambda: d.app.screen.entry.texts[0]


async def place(d):
    await reading(d)
    await d.press("escape", "g")
    return lambda: d.app.screen.entry.texts[0]


@pytest.mark.parametrize("opened", [bench, quick_line, shop, add_step, reading, place], ids=lambda o: o.__name__)
async def test_every_place_that_takes_typing_edits_alike(opened):
    async with driving(size=(100, 30)) as d:
        text = await opened(d)
        await d.type("1234")
        await d.press("left", "left", "delete")
        assert text() == "124"
        await d.press("home", "9", "end", "backspace")
        assert text() == "912"
        await d.press("ctrl+left", "7")
        assert text() == "7912"
        await d.press("ctrl+u")
        assert text() == ""
        d.app.post_message(Paste("4.5\nrest"))
        await d.settled()
        assert text() in ("4.5", "4.5, rest")  # a list of drills may be pasted into the shop
        assert "4.5" in d.text
