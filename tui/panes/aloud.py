"""What a voice says of what is in hand: the count, and what is set next."""

from __future__ import annotations

from engine.base.answer import Table
from engine.base.showing import figure_text
from engine.base.words import write
from tui.desk import OpenJob
from tui.glyphs import plain
from tui.panes.large_view import row_setting
from tui.session import OpenOperation
from tui.voice import Aloud


def row_words(table: Table, row: int, unit: str) -> str:
    """A row of a count: which it is, then what is set."""
    settings = [f"{plain(text)}" for _, text in row_setting(table, row, unit)]
    return ". ".join([f"{table.count_noun.capitalize()} {row} of {len(table.rows)}", *settings])


def job_aloud(job: OpenJob, unit: str) -> Aloud:
    """The row or the step of a job in hand."""
    if job.finished:
        return Aloud(("finished", 0), "The job is done.")
    step, place = job.step, job.place
    if step.table is not None and step.rows:
        return Aloud((place.step, place.row), row_words(step.table, place.row, unit), place.row == step.rows)
    words = [plain(step.step.title)]
    if step.answer is not None and step.lead is not None:
        words += [f"{plain(step.lead.label)}: {plain(figure_text(step.lead, unit))}"]
    elif step.do:
        words += [write(step.do[0], unit)]
    return Aloud((place.step, place.row), ". ".join(words))


def bench_aloud(one: OpenOperation, unit: str) -> Aloud | None:
    """The row that is counted in large type, else the main figure."""
    if one.done is None or not one.fresh:
        return None
    answer = one.done.answer
    table = answer.tables[one.table] if one.table < len(answer.tables) else None
    if table is not None and table.count_noun and table.rows:
        last = one.row == len(table.rows)
        return Aloud((one.entry.id, one.row), row_words(table, one.row, unit), rings=last)
    return Aloud((one.entry.id, 0), f"{plain(answer.lead.label)}: {plain(figure_text(answer.lead, unit))}")
