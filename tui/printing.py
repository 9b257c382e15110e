"""An answer printed at the shell in columns. No library draws it: that would take longer than the answer."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from engine.base.answer import Answer, Column, Figure, Table
from engine.base.quantity import DIMENSIONS
from engine.base.showing import cell_text, figure_text, limits_text
from engine.base.words import write
from tui.output import size
from tui.wording import spoken

_GAP = "  "


def print_answer(answer: Answer, unit: str) -> None:
    """Figures, tables and notes on stdout, as wide as the terminal; in a file every row stays on its line."""
    terminal = sys.stdout.isatty()
    width = size()[0] if terminal else 10_000
    bold = terminal and "NO_COLOR" not in os.environ and os.environ.get("TERM") != "dumb"
    lines = [*_figures(answer.figures, unit, width, bold)]
    for table in answer.tables:
        if table.aside:
            continue
        lines += ["", spoken(table.label), *_table(table, unit, width)]
    for note in answer.notes:
        lines += _wrapped(("! " if note.level == "warning" else "") + spoken(write(note.text, unit)), width)
    print("\n".join(lines))


def head(column: Column, unit: str) -> str:
    """A column's label with its unit."""
    kind = DIMENSIONS[column.dimension]
    name = kind.inch if unit == "inch" else kind.metric
    label = spoken(column.label)
    return f"{label}, {name}" if name else label


def with_limits(figure: Figure, unit: str) -> str:
    """A figure's value, and what it may lie between where it has limits: the least alone would be read as the size."""
    limits = limits_text(figure, unit)
    return f"{figure_text(figure, unit)}  ({limits})" if limits else figure_text(figure, unit)


def _figures(figures: Sequence[Figure], unit: str, width: int, bold: bool) -> list[str]:
    indent = max((len(spoken(figure.label)) for figure in figures), default=0) + len(_GAP)
    on, off = ("\x1b[1m", "\x1b[0m") if bold else ("", "")
    lines = []
    for figure in figures:
        first, *rest = _wrapped(spoken(with_limits(figure, unit)), max(width - indent, 12))
        lines.append(f"{spoken(figure.label):<{indent}}{on}{first}{off}")
        lines += [f"{'':<{indent}}{on}{more}{off}" for more in rest]
    return lines


def _table(table: Table, unit: str, width: int) -> list[str]:
    """Columns; where they do not fit, with broken heads; where not even those fit, each row as words."""
    rows = [[spoken(cell_text(v, c, unit)) for v, c in zip(row, table.columns, strict=True)] for row in table.rows]
    heads = [head(column, unit) for column in table.columns]
    widest = [max((len(row[i]) for row in rows), default=0) for i in range(len(heads))]
    room = width - len(_GAP) * (len(heads) - 1)
    widths = [max(w, len(h)) for w, h in zip(widest, heads, strict=True)]
    if sum(widths) > room:
        widths = [max(w, *map(len, h.split())) for w, h in zip(widest, heads, strict=True)]
    if sum(widths) > room:
        return [
            line
            for row in rows
            for line in _wrapped("; ".join(f"{h}: {v}" for h, v in zip(heads, row, strict=True) if v), width)
        ]
    broken = [_wrapped(h, w) for h, w in zip(heads, widths, strict=True)]
    deep = max(map(len, broken))
    above = [[""] * (deep - len(lines)) + lines for lines in broken]
    left = [column.dimension == "text" for column in table.columns]
    lines = [_row([lines[y] for lines in above], widths, left) for y in range(deep)]
    return [*lines, _GAP.join("─" * w for w in widths), *(_row(row, widths, left) for row in rows)]


def _row(cells: Sequence[str], widths: Sequence[int], left: Sequence[bool]) -> str:
    placed = [c.ljust(w) if to_left else c.rjust(w) for c, w, to_left in zip(cells, widths, left, strict=True)]
    return _GAP.join(placed).rstrip()


def _wrapped(text: str, width: int) -> list[str]:
    if len(text) <= width and "\n" not in text:
        return [text]
    from textwrap import wrap  # only where a line is too long

    return wrap(text, width, break_on_hyphens=False) or [""]
