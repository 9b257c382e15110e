"""The quick line leads where a person means."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.register import CATALOG
from tests.rows import each_row
from tui.quick import destinations, given_for
from tui.session import Session


@each_row(
    ("text", "operation"),
    [
        ("M10", "thread-limits"),
        ("M10x1.25", "thread-limits"),
        ("3/8 unf", "thread-limits"),
        ("1/4-20", "thread-limits"),
        ("2BA", "thread-limits"),
        ("#8-32", "thread-limits"),
        ("Tr12x3", "thread-limits"),
        ("#7", "drill-size"),
        ("F", "drill-size"),
        ("13/64", "drill-size"),
        ("5.2", "drill-size"),
        ("37", "divide"),
        ("div 37", "divide"),
        ("knurl 18", "knurl-blank"),
        ("H7/g6", "fit"),
        ("tap M6", "tap-drill"),
        ("tapping size", "tap-drill"),
        ("how deep", "hole-plan"),
        ("binds", "thread-fit"),
        ("hexagon", "flats"),
        ("three-wires size=M10", "three-wires"),
    ],
)
def test_the_first_place_is_the_one_meant(text, operation):
    assert destinations(text)[0].operation == operation


def test_every_operation_is_found_by_each_of_its_words():
    for entry in CATALOG:
        for word in entry.words.split():
            found = [d.operation for d in destinations(word) if d.operation]
            assert entry.id in found or word[0].isdigit() or len(word) < 3, (entry.id, word)


def test_a_thread_goes_to_the_open_operation_if_it_asks_for_one():
    assert destinations("M8", here="three-wires")[0].operation == "three-wires"
    assert destinations("M8", here="divide")[0].operation == "thread-limits"


def test_an_empty_line_lists_the_open_pane_first():
    assert [d.operation for d in destinations("", "knurling")][:2] == ["knurl-blank", "knurl-passes"]


def test_values_go_to_the_fields_that_can_read_them():
    assert given_for(destinations("hand dial 4")[0], "mm") == {"distance": "4"}
    named = destinations("hand-dial distance=4 divisions=50")[0]
    assert given_for(named, "mm") == {"distance": "4", "divisions": "50"}


def test_commands_are_found_too():
    assert "working" in [d.command for d in destinations("working")]


@given(st.text(max_size=60))
@settings(max_examples=80)
def test_no_text_breaks_it(text):
    for place in destinations(text, "threads", "hand-dial"):
        assert place.operation or place.command


@pytest.mark.parametrize(
    ("typed", "title", "says"),
    [
        ("spindle bore", "Shop: Lathe: Spindle bore", "21 mm · sample"),
        ("collet", "Shop: Collets", "ER25: 1-16 x 1 · sample"),
        ("which collet", "Shop: Collets", "ER25: 1-16 x 1 · sample"),
    ],
)
def test_a_setting_by_its_own_name_comes_first_with_what_the_shop_says(typed, title, says, tmp_path, monkeypatch):
    """The metric sample bench has a bore of 21 and collets of 1 to 16: engine/shop/metric.toml."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    first = destinations(typed)[0]
    assert (first.title, first.where) == (title, "setting")
    assert Session().shop_says(first.setting) == says


@pytest.mark.parametrize("typed", ["drill sizes", "change wheels", "reamer 8", "taps", "parting", "bar"])
def test_an_operation_by_its_own_name_stays_before_the_shop(typed):
    assert destinations(typed)[0].operation
