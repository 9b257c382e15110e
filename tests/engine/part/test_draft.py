"""A part typed in lines: what order they may come in, and what is said before it is whole."""

from __future__ import annotations

import pytest

from engine.part.draft import Draft, Row, worked

HEAD = (("Nut", "title"), ("brass", "material"), ("30", "bar"), ("1", "make"), ("mm", "unit"))


def typed(*lines):
    """What these features make, typed one a line."""
    return worked(Draft((*(Row(text, head) for text, head in HEAD), *map(Row, lines), Row(""))))


@pytest.mark.parametrize(
    "lines",
    [
        ("25x10", "scale .05", "knurl 30x12", "M14x1"),
        ("25x10", "20 lines", "knurl 30x12", "M14x1"),
        ("25x10", "knurl 30x12", "M14x1", "scale 20 lines"),
        ("25x10", "knurl 30x12", "scale .05", "M14x1"),
        ("25x10", "knurl 30x12", "M14x1", "scale .05"),
        ("M14x1", "25x10", "knurl 30x12", "scale .05 on M14x1", "figures every 10 high 1.5"),
    ],
)
def test_a_scale_stands_on_the_plain_feature_wherever_its_line_is_typed(lines):
    found = typed(*lines)
    assert not found.problems
    spigot, knurl = found.file.part.outside
    assert spigot.scale.lines == 20 and knurl.scale is None and knurl.figures is None


def test_what_is_not_typed_yet_is_asked_for_in_words_of_the_trade_at_its_line():
    assert typed().problems == {5: "no outside feature is given yet, such as 25 x 5 or knurl 26 x 8."}
    waiting = typed("25x10", "scale .05").problems
    assert list(waiting) == [6] and "a thread's line, such as M12x1.5" in waiting[6]


def test_the_unit_is_taken_as_people_write_it():
    """in, inches and " are the inch (ISO 80000-3 and common practice)."""
    for typed in ("in", "inches", '"', "inch"):
        head = (("Knob", "title"), ("brass", "material"), ("3/4", "bar"), ("1", "make"), (typed, "unit"))
        found = worked(Draft((*(Row(*one) for one in head), Row("0.5 x 0.25"))))
        assert not found.problems and found.file.part.unit == "inch"


def test_a_line_after_a_feature_that_cannot_have_it_says_where_it_goes():
    wrong = typed("thread M14x1 x 45", "ball 4 out 1", "slot 1.6 x 2").problems[7]
    assert wrong == (
        "a ball cannot have slot: its line follows that of the feature it is on, or says which end it goes across, "
        "as slot 1.5 x 2 across back."
    )
    assert not typed("thread M14x1 x 45", "ball 4 out 1", "slot 1.6 x 2 back end").problems
