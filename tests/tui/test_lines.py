"""Lines: cutting, wrapping, columns, scrolling; and the glyphs that are allowed in them."""

from pathlib import Path

from hypothesis import given, settings
from hypothesis import strategies as st

from tui.glyphs import SAFE, plain
from tui.lines import beside, cut, fitted, heading, line, width_of, window, wrapped

# Source: named in the file's first line.
CONSOLE = set((Path(__file__).parents[1] / "data/tui/console_glyphs.txt").read_text(encoding="utf-8").split("\n", 1)[1])


def test_every_glyph_in_use_is_in_every_console_font():
    assert SAFE <= CONSOLE


@given(st.text())
@settings(max_examples=60)
def test_plain_text_holds_only_safe_glyphs(text):
    assert set(plain(text)) <= SAFE


@given(st.text(max_size=80), st.integers(0, 60))
@settings(max_examples=60)
def test_a_fitted_line_has_the_width_asked_for(text, width):
    assert width_of(fitted(line(text), width)) == width


@given(st.text(max_size=200), st.integers(1, 60), st.text(alphabet="-> ", max_size=3))
@settings(max_examples=80)
def test_wrapped_lines_keep_every_letter_and_no_line_is_too_long(text, width, first):
    wide = width + len(first) + 1
    lines = wrapped(text, wide, first=first)
    assert all(width_of(runs) <= wide for runs in lines)
    kept = "".join(runs[0][0][len(first) :] for runs in lines).replace(" ", "")
    assert kept == plain(text).replace(" ", "")


def test_columns_are_cut_and_filled_to_their_width():
    rows = beside([([line("abcdef")], 4), ([line("x"), line("y")], 3)], 3)
    assert ["".join(text for text, _ in runs) for runs in rows] == ["abc…│x  ", "    │y  ", "    │   "]


def test_a_window_shows_a_bar_only_when_there_is_more():
    lines = [line(str(n)) for n in range(10)]
    all_of_it, top = window(lines, 5, 20, 10)
    assert top == 0 and all(runs[-1][0] not in "█│▲▼" for runs in all_of_it)
    part, top = window(lines, 99, 4, 10)
    assert top == 6 and part[0][0][0] == "6" and part[-1][-1][0] == "█"


def test_a_long_heading_is_cut_with_an_ellipsis():
    assert "".join(t for t, _ in heading("a heading that is far too long", 12)) == "── a head… ─"
    assert cut("abc", 0) == ""


def test_two_jobs_of_one_title_are_told_apart_in_the_list():
    from engine.jobs.progress import JobLine
    from tui.panes.jobs_view import choice_lines

    jobs = [JobLine(n, "Scale nut", 1, f"2026-11-26T06:0{n}:00+00:00", "", "left", "step 2") for n in (1, 2)]
    jobs.append(JobLine(3, "Lock nut", 1, "2026-11-26T06:03:00+00:00", "", "left", "step 1"))
    said = ["".join(text for text, _ in runs) for runs in choice_lines(jobs, 0, 80, 10)]
    assert sum("job 1" in one and "Nov 2026" in one for one in said) == 1
    assert sum("job 2" in one for one in said) == 1 and not any("job 3" in one for one in said)
