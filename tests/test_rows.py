"""A table asked in one test hides nothing: every row is asked, and each that fails is named with what was wrong."""

from inspect import signature

import pytest

from tests.rows import each_row


def outcome(test, **fixtures):
    with pytest.raises(pytest.fail.Exception) as caught:
        test(**fixtures)
    return str(caught.value)


def test_every_row_is_asked_and_each_that_fails_is_named():
    asked = []

    @each_row(("part", "whole"), [(1, 2), (3, 3), (5, 4), (7, 8)])
    def test(part, whole):
        asked.append(part)
        assert part < whole, "more than there is"

    text = outcome(test)
    assert asked == [1, 3, 5, 7]
    assert text.startswith("2 of 4 rows")
    assert "[3-3]" in text and "assert 3 < 3" in text
    assert "[5-4]" in text and "assert 5 < 4" in text
    assert text.count("more than there is") == 2 * 2  # the line, and what it says
    assert "[1-2]" not in text and "rows.py" not in text.replace("test_rows.py", "")


def test_rows_that_hold_pass():
    @each_row("n", range(3))
    def test(n):
        assert n < 3

    test()


@pytest.mark.parametrize(
    "wrong", [lambda: 1 / 0, lambda: pytest.fail("said so"), lambda: pytest.skip("not here"), lambda: {}["missing"]]
)
def test_nothing_but_an_end_without_fault_is_a_pass(wrong):
    @each_row("row", ["first", "second"])
    def test(row):
        if row == "first":
            wrong()

    assert outcome(test).startswith("1 of 2 rows\n\n[first]")


def test_a_table_without_rows_is_no_pass():
    @each_row("row", [])
    def test(row):
        pass

    assert outcome(test) == "0 of 0 rows"


def test_tables_stacked_are_asked_in_every_pair_in_the_order_of_pytest():
    asked = []

    @each_row("outer", ["a", "b"])
    @each_row("inner", [1, 2])
    def test(outer, inner):
        asked.append(f"{inner}-{outer}")
        pytest.fail("no")

    text = outcome(test)
    assert asked == ["1-a", "1-b", "2-a", "2-b"]
    assert [name for name in asked if f"[{name}]" in text] == asked


def test_what_is_not_in_the_table_is_a_fixture():
    seen = []

    @each_row("row", [1, 2])
    def test(row, shop):
        """Its text."""
        seen.append((row, shop))

    assert list(signature(test).parameters) == ["shop"]
    assert (test.__name__, test.__doc__) == ("test", "Its text.")
    test(shop="kept")
    assert seen == [(1, "kept"), (2, "kept")]


@pytest.mark.parametrize(
    ("table", "ids", "name"),
    [
        ([pytest.param("x", id="own")], None, "own"),
        (["x"], ["listed"], "listed"),
        (["x"], str.upper, "X"),
        (["x"], lambda value: None, "x"),
        ([object()], None, "row0"),
    ],
)
def test_a_row_has_the_name_that_pytest_would_give(table, ids, name):
    @each_row("row", table, ids=ids)
    def test(row):
        pytest.fail("no")

    assert f"[{name}]" in outcome(test)


def test_a_row_with_a_mark_and_one_that_is_too_short_are_refused():
    with pytest.raises(ValueError, match="row 0 has a mark"):
        each_row("row", [pytest.param(1, marks=pytest.mark.skip)])
    with pytest.raises(ValueError, match="zip"):
        each_row(("a", "b"), [(1,)])
