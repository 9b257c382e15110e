"""The views that the lower part of a pane can show, by name. Each gives its lines, its title, a word at the right."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from engine.base.answer import Answer
from engine.base.words import write
from tui.lines import line, wrapped
from tui.panes.bench_state import BenchState, View
from tui.panes.cautions_view import caution_view, questions
from tui.panes.help_view import help_view
from tui.panes.large_view import large_view
from tui.panes.picture_view import marked_row
from tui.panes.trouble_view import trouble_lines
from tui.panes.working_view import working_lines
from tui.widgets.grid import one_row, tabled
from tui.widgets.picture import drawn

if TYPE_CHECKING:
    from tui.session import OpenOperation, Session


def _answer(one: OpenOperation) -> Answer:
    assert one.done is not None
    return one.done.answer


def _working(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    return View(working_lines(_answer(one), width - 2, session.unit), "Working")


def _trouble(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    assert one.done is not None
    lines = trouble_lines(one.done, session.shop, width - 2, session.unit)
    return View(lines, "What goes wrong, what to check first")


def _rows(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    tables = _answer(one).tables
    if not tables:
        return View([line("This answer has no table.")], "Table")
    table = tables[one.table]
    room = max(height - 3, 3)
    top = min(max(one.row - room // 2 - 1, 0), max(len(table.rows) - room, 0))
    lines = tabled(table, width, unit=session.unit, row=one.row, top=top, height=room + 2)
    where = f"row {one.row} of {len(table.rows)}"
    if len(tables) > 1:
        where += f"; r: table {(one.table + 1) % len(tables) + 1} of {len(tables)}"
    if height > 20 and len(table.columns) > 3 and table.rows:
        lines += [line(), *one_row(table, one.row, width, unit=session.unit)]
    return View(lines, table.label, where)


def _picture(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    answer = _answer(one)
    if not answer.pictures:
        return View([line("This answer has no picture.")], "Picture")
    picture = answer.pictures[0]
    marked = marked_row(answer, one.row)
    words = wrapped(write(picture.alt, session.unit), width, "hint")
    body = drawn(picture, width, max(height - len(words), 1), session.unit, row=marked)
    return View([*body, *words], picture.title, f"row {marked} marked" if marked else "")


def _cautions(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    cautions = one.done.answer.cautions if one.done else ()
    answered = one.done.answered if one.done else ()
    asking = questions(cautions)
    lines = caution_view(cautions, answered, width - 2, state.question, session.unit)
    marked = next((i for i, runs in enumerate(lines) if runs and runs[0][0] == "> "), 0)
    top = marked if state.follow else None  # bring the question just chosen into sight
    asked = asking[state.question % len(asking)] if asking else None
    says = "y or n answers, Tab: the next" if asking else ""
    return View(lines, "Cautions in full", says, top, asked, marked)


def _help(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    worked = session.example(one)
    return View(help_view(one.entry, one.form, worked, session.unit, width - 2), "Help", "PgDn for more")


def _large(session: Session, one: OpenOperation, state: BenchState, width: int, height: int) -> View:
    answer = _answer(one)
    table = answer.tables[one.table] if one.table < len(answer.tables) else None
    stepped = table if table is not None and table.count_noun and table.rows else None
    shown = large_view(answer, answer.cautions, width, height, session.unit, stepped, one.row)
    return View(shown.lines, one.entry.title, "Space the next" if stepped else "", asked=shown.asked)


VIEWS: dict[str, Callable[[Session, OpenOperation, BenchState, int, int], View]] = {
    "working": _working,
    "rows": _rows,
    "picture": _picture,
    "trouble": _trouble,
    "cautions": _cautions,
    "help": _help,
    "large": _large,
}
