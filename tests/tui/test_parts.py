"""The drawn parts: large characters, pictures, tables, cautions."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.base.answer import Caution, Circle, Column, Label, Line, Picture, Polygon, Table
from engine.base.setting import Setting
from engine.indexing.positions import dry_run_back
from tests.rows import each_row
from tui.lines import width_of
from tui.panes.large_view import row_lines, setting_lines, settings_lines
from tui.widgets.big import can_draw, large
from tui.widgets.grid import one_row, tabled
from tui.widgets.picture import drawn
from tui.widgets.warn import Keys, Watch, column, strip, worst


def text_of(lines) -> list[str]:
    return ["".join(text for text, _ in runs) for runs in lines]


@given(st.text(alphabet="0123456789.-/#M ", min_size=1, max_size=12), st.integers(1, 200), st.integers(1, 60))
@settings(max_examples=60)
def test_large_text_fits_its_room_and_uses_blocks_and_blanks(text, width, height):
    lines = text_of(large(text, width, height))
    if len(lines) > 1:
        assert len(lines) <= height and max(map(len, lines)) <= width
        assert set("".join(lines)) <= {"█", " "}


def test_every_letter_a_setting_needs_can_be_drawn():
    assert can_draw("0123456789.,-+/#°'\"%:= M10x1.25 too big in limits 3/8 UNF")


def test_two_settings_are_both_large_on_eighty_by_twenty_four():
    lines = text_of(settings_lines([("Turns", "3"), ("then to", "8.50 mm")], 80, 18))
    assert sum("█" in row for row in lines) == 14


@each_row(
    ("text", "words"),
    [
        ("Handwheel: 8 turns, dial 1.350", ["turns,", "dial"]),
        ("Crank: 6 turns + 26 holes of 39", ["turns", "holes of 39"]),
        ("Table: 12 turns, dial 3° 26'", ["turns,", "dial"]),
        ("0.30 mm", ["mm"]),
        ("13/64", []),
    ],
)
@each_row(("width", "height"), [(80, 17), (120, 34), (83, 20)])
def test_a_whole_setting_is_large_and_its_words_keep_their_case(text, words, width, height):
    rows = text_of(setting_lines("Turn to", text, width, height))
    assert sum("█" in row for row in rows) >= (14 if height > 30 or "turns, dial" in text else 7)
    assert max(map(len, rows)) <= width and len(rows) <= height
    assert all(any(word in row for row in rows) for word in words)


def test_degrees_are_drawn_whole():
    ring = text_of(large("°", 4, 7))
    assert ring[:2] == [" ██ ", "█  █"] and "█" not in ring[4]


ROWS = Table(
    "lines", "Lines", (Column("n", "No.", "count"), Column("feed", "Feed"), Column("class", "Class")),
    tuple((n, Setting("Mill x", n % 3, "in", on_dial=0.5), "long" if n % 3 else "short") for n in range(1, 10)),
    "line", ("feed", "class"),
)  # fmt: skip


@pytest.mark.parametrize(("width", "height"), [(80, 12), (83, 26)])
def test_a_row_says_its_class_large_and_what_the_row_before_was(width, height):
    rows = text_of(row_lines(ROWS, 3, "mm", width, height))
    said = "\n".join(rows)
    assert "Line 3 of 9" in said and "CHANGED: line 2 was long, 2 turns, dial 0.50" in said
    assert sum("█" in row for row in rows) >= 7


def test_a_dry_run_says_changed_only_where_the_move_is_another():
    (table,) = dry_run_back([Setting("Mill x", n) for n in (1, 1, 1, 3)], "line")
    said = ["\n".join(text_of(row_lines(table, row, "mm", 80, 14))) for row in (2, 3)]
    assert "the same as dry move 1" in said[0] and "CHANGED" not in said[0]
    assert "CHANGED: dry move 2 was 1 turn" in said[1]


def test_a_box_has_corners_and_a_line_across_it_joints():
    box = Picture("p", "p", (Polygon(((0, 0), (20, 0), (20, 10), (0, 10))), Line(0, 5, 20, 5)), "a box")
    rows = text_of(drawn(box, 41, 11))
    joined = "\n".join(rows)
    assert all(c in joined for c in "┌┐└┘├┤") and "│" in joined


def test_a_circle_is_round_on_cells_twice_as_tall_as_wide():
    rows = text_of(drawn(Picture("p", "p", (Circle(0, 0, 10, filled=True),), "disc"), 60, 21))
    wide = max(row.count("▒") for row in rows)
    tall = sum("▒" in row for row in rows)
    assert wide == pytest.approx(2 * tall, abs=3)


def test_the_row_in_hand_is_marked_by_glyph_and_bracket():
    shapes = [Circle(10 * n, 0, 0.1, row=n) for n in (1, 2, 3)] + [Label(10 * n, 3, str(n), row=n) for n in (1, 2, 3)]
    rows = "\n".join(text_of(drawn(Picture("p", "p", tuple(shapes), "holes"), 40, 8, row=2)))
    assert rows.count("■") == 1 and "[2]" in rows and "[1]" not in rows


number = st.floats(-1e6, 1e6) | st.sampled_from([float("inf"), float("nan"), 1e300])
shape = st.one_of(
    st.builds(Line, number, number, number, number, st.integers(0, 2)),
    st.builds(Circle, number, number, number.map(abs), st.booleans(), st.integers(0, 3)),
    st.builds(Label, number, number, st.text(max_size=9)),
    st.builds(Polygon, st.lists(st.tuples(number, number), min_size=1, max_size=5).map(tuple), st.booleans()),
)


@given(st.lists(shape, max_size=6), st.integers(1, 90), st.integers(1, 30), st.integers(0, 3))
@settings(max_examples=80, deadline=None)
def test_no_picture_breaks_the_drawing(shapes, width, height, row):
    lines = drawn(Picture("p", "p", tuple(shapes), "nothing"), width, height, row=row)
    assert len(lines) <= max(height, 1)


TABLE = Table(
    "cuts", "Cuts", (Column("n", "No.", "count"), Column("to", "To", "length", 2), Column("by", "By")),
    tuple((n, n * 1.5, "word") for n in range(1, 101)), "cut", ("to",),
)  # fmt: skip


def test_a_table_shows_heads_units_and_the_row_in_hand():
    rows = text_of(tabled(TABLE, 60, row=3, top=1, height=6))
    assert rows[0].split() == ["No.", "To", "By"] and rows[1].split() == ["mm"]
    assert len(rows) == 6 and rows[3].startswith(">") and rows[3].split()[1:3] == ["3", "4.50"]
    assert all(width_of(r) == 60 for r in tabled(TABLE, 60, height=9))


def test_columns_that_do_not_fit_are_counted():
    # No head is cut to make room for the count.
    assert text_of(tabled(TABLE, 12, height=5))[0].rstrip().endswith("+2")
    assert len(one_row(TABLE, 7, 40)) == 3


def many(count: int) -> list[Caution]:
    return [
        Caution(f"C-{n}", "WARNING", f"Hazard {n} is here and it is said at some length.", "5") for n in range(count)
    ]


def test_a_strip_shows_the_first_cautions_and_counts_the_rest():
    rows = text_of(strip(Watch(many(9)), 80, 4, keys=Keys("F11")).lines)
    assert "of 9" in rows[0] and "F11" in rows[0] and rows[1].startswith("[WARNING] Hazard 0")
    assert len(rows) == 4


def test_no_screen_shows_more_than_five_cautions():
    stops = [Caution(f"S-{n}", "DANGER", "Stop.", "1", acknowledge=True) for n in range(12)]
    shown = sum("[DANGER]" in row for row in text_of(column(Watch(stops), 40, 60).lines))
    assert shown == 5


def test_a_caution_that_is_cut_says_so():
    rows = text_of(strip(Watch(many(3)), 30, 2).lines)
    assert rows[-1].rstrip().endswith("…")
    assert text_of(worst(many(1), 30, 1).lines)[0].rstrip().endswith("…")


def test_no_caution_is_never_called_safe():
    none = (column(Watch(), 60, 10), strip(Watch(), 60, 5), worst([], 60))
    words = " ".join(row for shown in none for row in text_of(shown.lines))
    assert "None of these comes from your numbers" in words and "safe" not in words.lower()
