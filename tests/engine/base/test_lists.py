"""Lists as people write them."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.base.kinds import Ask
from engine.base.lists import read_counts, read_drills, read_groups, read_lengths, read_numbers, read_words
from engine.base.refusals import BadInput
from tests.rows import each_row


def ask(low=0.0, high=1000.0):
    return Ask(label="List", kind="", help="", example="1, 2", required=True, low=low, high=high)


@pytest.mark.parametrize(
    "typed, counts",
    [
        ("20 25 30, 65, 127", (20, 25, 30, 65, 127)),
        ("20-35 x 5", (20, 25, 30, 35)),
        ("20 to 22", (20, 21, 22)),
        ("20,20,24", (20, 20, 24)),
        ([20, "25-30 x 5"], (20, 25, 30)),
    ],
)
def test_counts(typed, counts):
    assert read_counts(typed, ask(), "mm") == counts


def test_plates():
    assert read_groups("15,16,17; 21,23", ask(), "mm") == ((15, 16, 17), (21, 23))
    assert read_groups([[15, 16], [21]], ask(), "mm") == ((15, 16), (21,))


def test_drills_of_every_series():
    names = [t.name for t in read_drills("1-3 x 0.5, 10.2, #58-#60, A-C, 1/16-1/8 x 1/64", ask(), "mm")]
    assert names == [
        "1", "1.5", "2", "2.5", "3", "10.2", "#58", "#59", "#60", "A", "B", "C", "1/16", "5/64", "3/32", "7/64", "1/8",
    ]  # fmt: skip


def test_lengths_do_not_drift_over_a_range():
    assert read_lengths("0.1-1 x 0.1", ask(), "mm") == (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)


def test_speeds_are_sorted_and_words_kept():
    assert read_numbers("1000 130, 300", ask(low=1, high=20000), "mm") == (130.0, 300.0, 1000.0)
    assert read_words("M4, 1/4 UNC", ask(), "mm") == ("M4", "1/4 UNC")


@each_row("reader", [read_counts, read_groups, read_drills, read_numbers])
@each_row("typed", ["?, b!", "1-1000000000 x 0.0001", "5-1", "1--2", "10 x 0", "1e9", "-4"])
def test_a_bad_entry_is_refused(reader, typed):
    with pytest.raises(BadInput) as caught:
        reader(typed, ask(), "mm")
    assert "\n" not in str(caught.value)


@given(st.text(max_size=40))
def test_any_text_is_a_list_or_one_refusal(typed):
    for reader in (read_counts, read_groups, read_drills, read_lengths, read_numbers, read_words):
        with suppress(BadInput):
            assert isinstance(reader(typed, ask(), "mm"), tuple)
