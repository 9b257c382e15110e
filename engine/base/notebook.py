"""An answer as a piece of HTML, for a notebook that shows what a cell gives."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from typing import TYPE_CHECKING

from engine.base.showing import cell_text, figure_text, head_text, limits_text
from engine.base.words import write

if TYPE_CHECKING:
    from engine.base.answer import Table
    from engine.base.operation import Done


def as_html(done: Done) -> str:
    """Figures, tables, notes and cautions, every text escaped: nothing in it comes from elsewhere or runs."""
    answer, unit = done.answer, done.unit
    figures = ((f.label, figure_text(f, unit), limits_text(f, unit), write(f.working, unit)) for f in answer.figures)
    parts = [f"<h4>{escape(done.operation.title)}</h4>", _rows(("Figure", "", "Limits", "How"), figures)]
    parts += [_table(table, unit) for table in answer.tables]
    parts += [f"<p>{escape(write(note.text, unit))}</p>" for note in answer.notes]
    cautions = "".join(f"<li>{escape(f'{c.word}: {write(c.text, unit)}')}</li>" for c in answer.cautions)
    return "\n".join([*parts, f"<ul>{cautions}</ul>" if cautions else ""])


def _table(table: Table, unit: str) -> str:
    heads = [head_text(column, unit) for column in table.columns]
    rows = (
        [cell_text(cell, column, unit) for cell, column in zip(row, table.columns, strict=True)] for row in table.rows
    )
    return f"<h5>{escape(table.label)}</h5>{_rows(heads, rows)}"


def _rows(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    head = "".join(f"<th>{escape(text)}</th>" for text in heads)
    body = "".join(f"<tr>{''.join(f'<td>{escape(text)}</td>' for text in row)}</tr>" for row in rows)
    return f"<table><tr>{head}</tr>{body}</table>"
