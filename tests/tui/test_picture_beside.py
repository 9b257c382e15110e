"""The picture beside the answer: there all the time where there is room, the row in hand marked; glyphs that are there."""

import pytest

from engine.base.answer import Circle, Line, Picture, Polygon, Size
from engine.base.register import CATALOG
from tests.tui.test_parts import text_of
from tui import pictures
from tui.panes.bench_state import BenchState
from tui.panes.bench_view import bench_lines
from tui.session import Session
from tui.widgets.picture import drawn


@pytest.fixture(autouse=True)
def as_before():
    yield
    pictures.use("plain")


def painted(tmp_path, monkeypatch, operation, width, height, view="answer", row=1):
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    session = Session()
    session.open_by_id(operation)
    session.here().row = row
    return text_of(bench_lines(session, BenchState(view=view), width, height).lines)


@pytest.mark.parametrize("operation", [entry.id for entry in CATALOG])
def test_at_120_by_40_the_picture_stands_under_the_answer(tmp_path, monkeypatch, operation):
    rows = painted(tmp_path, monkeypatch, operation, 120, 40)
    answer = next(y for y, row in enumerate(rows) if "── Answer" in row)
    titles = [y for y, row in enumerate(rows) if y > answer and "│── " in row and row[26:30] == "│── "]
    assert titles and max(titles) < 40 - 8  # its title, with rows for the drawing under it


def test_on_a_wide_screen_it_stands_beside_the_answer(tmp_path, monkeypatch):
    rows = painted(tmp_path, monkeypatch, "tap-drill", 200, 45)
    assert any("── Answer" in row and "── The tapped hole in section" in row for row in rows)
    assert not any("The tapped hole" in row for row in painted(tmp_path, monkeypatch, "tap-drill", 80, 24))


def test_under_the_cursor_of_a_table_its_row_is_marked(tmp_path, monkeypatch):
    rows = "\n".join(painted(tmp_path, monkeypatch, "turn-to-size", 120, 40, view="rows", row=3))
    assert "[cut 3: Ø" in rows and "row 3 marked" in rows


def box():
    square = Polygon(((0, 0), (20, 0), (20, 10), (0, 10)), cut=True)
    return Picture(
        "p", "p", (square, Line(0, 0, 20, 10, 1), Circle(10, 5, 4), Size(0, 0, 20, 0, "20", "below")), "a box"
    )


def test_finer_glyphs_only_where_they_were_asked_for():
    for means, braille in (("plain", False), ("fine", True)):
        pictures.use(means)
        text = "".join(text_of(drawn(box(), 60, 20)))
        assert any(0x2800 < ord(c) <= 0x28FF for c in text) == braille
        assert "20" in text and "└" in text  # dimensions keep their box lines


def test_a_dimension_has_its_words_in_its_line_and_stands_clear():
    pictures.use("plain")
    rows = text_of(drawn(box(), 60, 20))
    (line,) = [row for row in rows if "20" in row]
    assert line.strip().startswith("└─") and line.strip().endswith("─┘")
    assert "░" not in line
