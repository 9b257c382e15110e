"""Forms keep their last values between runs: on the disk, bounded, whatever the file holds."""

import json

import pytest

from engine.shop.file import data_folder
from tui.kept import MOST, Keeper, path_of, read
from tui.session import Session


def typed(session, operation, **texts):
    one = session.open_by_id(operation)
    for name, text in texts.items():
        one.form.go(one.form.names.index(name))
        one.form.insert(text)
        session.reckon(one)
    session.keeper.settled()
    return one


def test_the_next_run_begins_with_what_was_typed():
    typed(Session(), "tap-drill", size="M8", depth="20")
    form = Session().open_by_id("tap-drill").form
    assert form.texts == {"size": "M8", "depth": "20"} and not form.shows_example


def test_it_survives_a_kill_since_it_is_written_as_it_is_typed():
    session = Session()
    typed(session, "tap-drill", size="M8")
    assert read()["tap-drill"].texts == {"size": "M8"}


def test_a_bare_number_keeps_its_unit_on_a_screen_of_the_other():
    typed(Session(), "hand-dial", distance="17.35")
    session = Session()
    session.unit = "inch"
    assert session.open_by_id("hand-dial").form.texts["distance"] == "17.35 mm"


def test_a_form_that_was_emptied_shows_its_example_again():
    session = Session()
    one = typed(session, "tap-drill", size="M8")
    one.form.clear()
    session.reckon(one)
    session.keeper.settled()
    assert Session().open_by_id("tap-drill").form.shows_example


def test_no_more_is_kept_than_there_is_room_for():
    keeper = Keeper()
    for n in range(MOST + 5):
        keeper.keep(f"op-{n}", "mm", {"size": "M8"})
    keeper.settled()
    assert len(read()) == MOST and "op-0" not in read()


@pytest.mark.parametrize(
    "text",
    ["", "{", "[]", '{"a": 1}', '{"a": {"unit": "ell", "texts": {}}}', "\x00", '{"a": {"unit": "mm", "texts": [1]}}'],
)
def test_a_file_that_cannot_be_used_is_as_none(text):
    data_folder().mkdir(parents=True, exist_ok=True)
    path_of().write_text(text)
    assert read() == {}


def test_a_field_of_another_version_is_left_out():
    data_folder().mkdir(parents=True, exist_ok=True)
    path_of().write_text(json.dumps({"tap-drill": {"unit": "mm", "texts": {"gone": "1", "size": "M8\x1b[2J"}}}))
    form = Session().open_by_id("tap-drill").form
    assert form.texts == {"size": "M8 [2J"}
