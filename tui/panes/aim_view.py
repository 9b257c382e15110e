"""What the cuts aim at, and what is known for them, as lines: one of them in hand."""

from __future__ import annotations

from engine.base.words import write
from tui.aiming import Row
from tui.desk import OpenJob
from tui.glyphs import plain
from tui.keys import named
from tui.lines import Line, heading, line, wrapped
from tui.panes.step_view import where

_LABEL = 15  # cells of a label


def aim_lines(job: OpenJob, at: int, width: int) -> list[Line]:
    """The rows, the one in hand marked, with what it takes under them."""
    rows = job.aims.rows()
    out: list[Line] = [heading(f"Aim: {plain(job.step.step.title)}", width, where(job)), line()]
    if not rows:
        return [*out, *wrapped("Nothing is measured here, and nothing has been learned of a tool yet.", width)]
    for number, row in enumerate(rows):
        out += _row(job, row, number == at, width)
    words = job.aims.came_out()
    if words:
        out += [line(), *wrapped(write(words, job.unit), width)]
    here = rows[min(at, len(rows) - 1)]
    forget = f" {named('take_out')}: forget it." if here.forget else ""
    return [*out, line(), *wrapped(f"{here.hint}{forget}", width, "hint")]


def _row(job: OpenJob, row: Row, here: bool, width: int) -> list[Line]:
    mark = "> " if here else "  "
    first, *rest = wrapped(plain(write(row.says, job.unit)), width - _LABEL - 2)
    out: list[Line] = [[(f"{mark}{row.label:<{_LABEL}}", "strong" if here else "label"), *first]]
    return [*out, *([(" " * (_LABEL + 2), "text"), *runs] for runs in rest)]
