"""The bench, driven by its keys: answers follow the typing, nothing typed is lost, every view opens and closes."""

import time

import pytest
from textual.events import Key

from tests.tui.driving import driving
from tui.app import TommybarApp
from tui.session import OpenOperation


def open_operation(app: TommybarApp) -> OpenOperation:
    one = app.session.here()
    assert isinstance(one, OpenOperation)
    return one


async def test_an_answer_is_there_at_once_and_follows_the_typing():
    async with driving() as d:
        await d.press("f4")
        app = d.app
        await d.open("hand-dial")
        assert "example: type over it" in d.text and "■" in d.text
        # 17 mm at 2 mm a turn: arithmetic, 8 turns and 1.000 mm
        await d.type("17")
        figures = open_operation(app).done.answer
        assert (figures.figure("turns").value, figures.figure("reading").value) == (8, 1.0)
        await d.press("backspace")
        assert open_operation(app).done.answer.figure("turns").value == 0


async def test_bad_input_gets_one_sentence_and_marks_the_last_answer():
    async with driving() as d:
        await d.open("hand-dial")
        await d.type("17")
        await d.press("tab")
        await d.type("nonsense")
        assert "NOT for what is typed now" in d.text
        assert all("░" in row for row in d.text.splitlines() if "Whole turns " in row and "made" not in row)
        assert "nonsense" in d.text and open_operation(d.app).form.text("distance") == "17"
        await d.press("ctrl+u")
        assert "NOT for" not in d.text


async def test_what_was_typed_survives_pane_switches():
    async with driving() as d:
        await d.open("hand-dial")
        await d.type("12.34")
        await d.press("f6", "f5", "f4")
        assert "12.34" in d.text and "Hand dial" in d.text


async def test_a_pane_key_pressed_again_opens_the_next_operation():
    async with driving() as d:
        await d.press("f6", "f6")
        assert ">2" in d.text
        await d.press("shift+f6")
        assert ">1" in d.text
        await d.press("f6", "escape", "1")
        assert ">1" in d.text


@pytest.mark.parametrize(
    ("inside", "outside", "words"),
    [
        ("ctrl+w", "w", "Source:"),
        ("f11", "c", "Cautions in full"),
        ("ctrl+t", "t", "What goes wrong"),
        ("f1", "question_mark", "This field"),
        ("ctrl+l", "l", "██"),
        ("ctrl+r", "r", "row 1 of"),
        ("ctrl+p", "p", "jaws"),
    ],
)
async def test_every_view_opens_from_inside_a_field_and_from_outside(inside, outside, words):
    async with driving() as d:
        await d.open("bar-plan")
        await d.press(inside)
        assert words in d.text
        await d.press("escape")
        assert d.app.bench.state.view == "answer"
        await d.press("escape", outside)
        assert words in d.text
        await d.press(outside)
        assert d.app.bench.state.view == "answer"


async def test_the_unit_key_shows_inches_and_keeps_what_was_typed():
    async with driving() as d:
        await d.open("hand-dial")
        await d.type("17")
        await d.press("f9")
        form = open_operation(d.app).form
        assert form.text("distance") == "17 mm" and "inch" in d.text
        assert open_operation(d.app).done.inputs.distance == 17.0


async def test_the_working_follows_the_typing():
    async with driving() as d:
        await d.open("hand-dial")
        await d.press("ctrl+w")
        await d.type("6.5")
        assert "6.5" in d.text and "Source:" in d.text


async def test_a_question_is_answered_with_one_letter_and_remembered():
    async with driving() as d:
        await d.open("solder")
        before = [c.id for c in open_operation(d.app).done.answer.cautions if c.question]
        await d.press("f11", "n")
        assert {name: one.yes for name, one in d.app.session.told.items()} == {before[0]: False}
        after = [c.id for c in open_operation(d.app).done.answer.cautions if c.question]
        assert after == before[1:]
        await d.press("backspace")
        assert not d.app.session.told


async def test_the_quick_line_goes_to_the_place_with_the_answer_up():
    async with driving() as d:
        await d.press("slash")
        await d.type("div 37")
        await d.press("enter")
        assert open_operation(d.app).entry.id == "divide"
        assert open_operation(d.app).done.inputs.divisions == 37 and "■" in d.text
        await d.press("ctrl+g", "w", "o", "r", "k", "i", "n", "g", "enter")
        assert d.app.bench.state.view == "working"


async def test_a_slash_in_a_field_that_holds_something_is_a_fraction():
    async with driving() as d:
        await d.open("hand-dial")
        await d.type("3/8")
        assert open_operation(d.app).done.inputs.distance == 9.525  # 3/8 in, exact


async def test_a_row_is_stepped_in_large_type_as_by_a_foot_pedal():
    async with driving(size=(80, 24)) as d:
        await d.open("bar-plan")
        await d.press("ctrl+l")
        assert "Cut 1 of 3" in d.text
        await d.press("space", "pagedown", "enter")
        assert "Cut 3 of 3" in d.text
        await d.press("backspace")
        assert "Cut 2 of 3" in d.text


async def test_pasting_types_one_line():
    async with driving() as d:
        await d.open("hand-dial")
        from textual.events import Paste

        d.app.post_message(Paste("4.5\nrm -rf"))
        await d.pilot.pause()
        assert open_operation(d.app).form.text("distance") == "4.5"


async def test_an_operation_that_fails_is_one_sentence_and_a_report(monkeypatch):
    import tui.session

    def broken(*args, **kwargs):
        raise ZeroDivisionError("a mistake of ours")

    async with driving() as d:
        await d.open("hand-dial")
        monkeypatch.setattr(tui.session, "run", broken)
        await d.type("1")
        assert "the fault is" in d.text
        from tui.report import report_path

        assert "a mistake of ours" in report_path().read_text()
        monkeypatch.undo()


async def test_the_look_changes_and_comes_back():
    async with driving() as d:
        dark = {s.style.bgcolor.name for s in d.segments if s.style and s.style.bgcolor}
        await d.press("ctrl+d")
        light = {s.style.bgcolor.name for s in d.segments if s.style and s.style.bgcolor}
        assert "black" in dark and "white" in light and dark != light


async def test_escape_and_a_letter_that_arrive_as_one_are_taken_as_two():
    async with driving() as d:
        await d.open("hand-dial")
        await d.press("alt+w")
        assert d.app.bench.state.view == "working"


async def test_control_c_says_how_to_leave():
    async with driving() as d:
        await d.press("ctrl+c")
        assert "F10 leaves the program." in d.text and d.app.is_running


async def test_a_click_opens_a_pane_and_an_operation():
    async with driving() as d:
        x = d.text.splitlines()[0].index("F6") + 4
        await d.pilot.click(offset=(x, 0))
        await d.pilot.click(offset=(5, 3))
        await d.settled()
        assert open_operation(d.app).entry == d.app.session.entries("turning")[1]


async def test_help_gives_the_worked_example_with_its_answer():
    async with driving() as d:
        await d.open("hand-dial")
        await d.type("1")
        await d.press("f1")
        # 17.35 mm at 2 mm a turn: 8 turns and 1.35 mm, the example of the operation
        assert "distance=17.35" in d.text and "Whole turns  8" in d.text


async def test_keys_typed_ahead_of_a_slow_screen_act_in_their_order():
    async with driving() as d:
        await d.open("hand-dial")
        for key, character in (
            ("f6", None),
            ("4", "4"),
            ("0", "0"),
            ("f9", None),
            ("slash", "/"),
            ("d", "d"),
            ("enter", None),
        ):
            d.app.post_message(Key(key, character))
        await d.settled()
        first = d.app.session.entries("turning")[0].id
        one = d.app.session.opened[first]
        assert isinstance(one, OpenOperation)
        assert one.form.text(one.form.names[0]) == "40 mm"
        assert open_operation(d.app).entry.id != first  # the quick line went where “d” led
        dial = d.app.session.opened["hand-dial"]
        assert isinstance(dial, OpenOperation) and not dial.form.touched


async def test_escape_ends_a_search_with_the_best_so_far(monkeypatch):
    import tui.session
    from engine.base.stopping import stop_asked

    real = tui.session.run

    def slow(*args, **kwargs):
        while not stop_asked():
            time.sleep(0.002)
        return real(*args, **kwargs)

    async with driving() as d:
        await d.open("hand-dial")
        monkeypatch.setattr(tui.session, "run", slow)
        await d.pilot.press("7")
        assert open_operation(d.app).working and "Esc ends a search" in d.text
        await d.press("escape")
        assert not open_operation(d.app).working and d.app.bench.state.editing
        assert open_operation(d.app).done_for == {"distance": "7"}
