"""The form: the example that stands in it first, typing, and what F9 does to bare numbers."""

import string

from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.register import load
from tui.editing import LONGEST
from tui.form import Form


def hand_dial() -> Form:
    return form_of("hand-dial")


def form_of(operation_id):
    operation = load(operation_id)
    return Form(operation.inputs, operation.example)


def test_it_begins_with_the_example_and_the_first_key_clears_all_of_it():
    form = hand_dial()
    assert form.given() == dict(load("hand-dial").example)
    form.insert("3")
    assert form.given() == {"distance": "3"}


def test_a_field_arrived_at_is_replaced_by_typing_and_kept_after_an_arrow():
    form = hand_dial()
    form.insert("12")
    form.step(1)
    form.step(-1)
    form.insert("7")
    assert form.text("distance") == "7"
    form.go(0)
    form.key("home")
    form.insert("1")
    assert form.text("distance") == "17"


def test_clearing_can_be_taken_back():
    form = hand_dial()
    form.insert("12")
    form.clear()
    assert not form.touched and form.text("distance") == "17.35"
    form.clear()
    assert form.given() == {"distance": "12"}


def test_a_choice_is_gone_through_with_one_key():
    form = form_of("turning-speed")
    form.go(form.names.index("tool"))
    choices = form.ask.choices
    seen = []
    for _ in range(len(choices) + 1):
        form.cycle(choices)
        seen.append(form.text("tool"))
    assert seen == [*choices, ""]


def test_what_was_typed_keeps_its_meaning_when_the_unit_changes():
    form = hand_dial()
    form.insert("3,5")
    form.step(2)
    form.insert("100")
    form.change_unit("mm")
    assert form.given() == {"distance": "3,5 mm", "divisions": "100"}
    form.change_unit("inch")
    assert form.given()["distance"] == "3,5 mm"


KEYS = st.sampled_from(["left", "right", "home", "end", "backspace", "delete", "ctrl+u", "next", "clear", "cycle"])


@given(st.lists(KEYS | st.sampled_from(string.printable), max_size=60))
@settings(max_examples=60)
def test_no_sequence_of_keys_leaves_the_caret_outside_the_text(keys):
    form = hand_dial()
    for key in keys:
        match key:
            case "left" | "right" | "home" | "end" | "backspace" | "delete" | "ctrl+u":
                form.key(key)
            case "next":
                form.step(1)
            case "clear":
                form.clear()
            case "cycle":
                form.cycle(("one", "two"))
            case _:
                form.insert(key)
        assert form.line.text == form.text(form.name)
        assert 0 <= form.line.caret <= len(form.text(form.name)) <= LONGEST
        assert all(text.isprintable() for text in form.texts.values())
