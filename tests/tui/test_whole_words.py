"""At 80x24 no label, no value and no number of a form or an answer is cut."""

import pytest

from engine.base.register import CATALOG
from tui.panes.bench_state import BenchState
from tui.panes.bench_view import bench_lines
from tui.session import OpenOperation, Session


@pytest.fixture(scope="module")
def session():
    return Session()


def screen(session, view="answer", width=80, height=24) -> list[str]:
    lines = bench_lines(session, BenchState(view=view), width, height).lines
    return ["".join(text for text, _ in runs) for runs in lines]


@pytest.mark.parametrize("entry", CATALOG, ids=lambda e: e.id)
@pytest.mark.parametrize("unit", ["mm", "inch"])
def test_no_label_and_no_value_is_cut(session, entry, unit):
    if session.unit != unit:
        session.switch_unit()
    one = session.open(entry)
    assert isinstance(one, OpenOperation)
    cut = [row for row in screen(session) if "…" in row]
    # A long hint may end in one; a search says that it is still going on.
    assert all(any(row.startswith(f"{ask.label}:") for ask in one.form.asks.values()) or "Working it" in row
               for row in cut), cut  # fmt: skip
    assert not [row for row in screen(session, "large") if "…" in row and "Working it" not in row]


@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
def test_the_whole_setting_stands_on_the_bench_and_in_large_type(size):
    session = Session()
    session.open_by_id("hand-dial", {"distance": "17.35", "per_turn": "2", "divisions": "100"})
    for view in ("answer", "large"):
        rows = "\n".join(screen(session, view, *size))
        assert "turns" in rows and "dial" in rows and "Handwheel" in rows


def test_what_is_behind_the_card_is_counted_and_one_key_away():
    session = Session()
    session.open_by_id("three-wires", {"size": "M10", "wire": "0.895", "reading": "10.42"})
    folded = bench_lines(session, BenchState(), 120, 60).lines
    unfolded = bench_lines(session, BenchState(unfolded=True), 120, 60).lines
    text = ["\n".join("".join(t for t, _ in runs) for runs in lines) for lines in (folded, unfolded)]
    assert "more: " in text[0] and "At the very worst" not in text[0] and "At the very worst" in text[1]
    assert "├─────┤ ■" in text[0]  # the pitch diameter, over its upper limit
