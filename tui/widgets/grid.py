"""A table of an answer as lines: columns as wide as their words, numbers to the right, the row in hand marked."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Cell, Column, Table
from engine.base.quantity import DIMENSIONS
from engine.base.showing import cell_text
from tui.glyphs import plain
from tui.lines import Line, fitted

_LEFT_OUT = " columns"
_ROOMY = 60  # cells from which the count has its noun


def _head(column: Column, unit: str) -> tuple[str, str]:
    kind = DIMENSIONS[column.dimension]
    return plain(column.label), plain(kind.inch if unit == "inch" else kind.metric)


def _is_number(column: Column, cells: tuple[Cell, ...]) -> bool:
    return column.dimension != "text" or all(isinstance(c, int | float) for c in cells if c is not None)


def tabled(table: Table, width: int, *, unit: str = "mm", row: int = 0, top: int = 0, height: int = 0) -> list[Line]:
    """Heads, and the rows from `top` (0 = the first) that fit in a height (0: all of them).

    `row` (from 1) is in hand: it has a `>` before it. Columns that do not fit are counted in the last head.
    """
    last = len(table.rows) if height <= 0 else min(top + max(height - 2, 1), len(table.rows))
    heads, columns, widths, used = [], [], [], 0
    for i, column in enumerate(table.columns):  # as far as the first that does not fit: the others are only counted
        heads.append(_head(column, unit))
        columns.append([plain(cell_text(r[i], column, unit)) for r in table.rows[top:last]])
        widths.append(max(map(len, (*heads[-1], *columns[-1]))))
        used += widths[-1] + 2
        if i and used > width:
            break
    numeric = [_is_number(c, tuple(r[i] for r in table.rows[:50])) for i, c in enumerate(table.columns[: len(widths)])]
    cells = list(zip(*columns, strict=True))
    count = _columns_that_fit(widths, width - 2)
    note = _LEFT_OUT if width >= _ROOMY else ""
    if count < len(table.columns):  # their number stands behind the last head
        count = _columns_that_fit(widths, width - 6 - len(note))
    left_out = len(table.columns) - count
    lines = [
        _row([h[0] for h in heads], widths, numeric, count, "head", " "),
        _row([h[1] for h in heads], widths, numeric, count, "hint", " "),
    ]
    if left_out:
        lines[0] = [*fitted(lines[0], max(width - 4 - len(note), 1)), (f" +{left_out}{note}", "hint")]
    for i, r in enumerate(cells, start=top + 1):
        held = i == row
        lines.append(_row(r, widths, numeric, count, "on" if held else "text", ">" if held else " "))
    return [fitted(runs, width) for runs in lines]


def _columns_that_fit(widths: list[int], room: int) -> int:
    used = 0
    for i, width in enumerate(widths):
        used += width + (2 if i else 0)
        if used > room and i:
            return i
    return len(widths)


def _row(texts: Sequence[str], widths: list[int], numeric: list[bool], count: int, role: str, mark: str) -> Line:
    parts = [texts[i].rjust(widths[i]) if numeric[i] else texts[i].ljust(widths[i]) for i in range(count)]
    return [(mark + " " + "  ".join(parts), role)]


def one_row(table: Table, row: int, width: int, *, unit: str = "mm") -> list[Line]:
    """Every cell of one row (from 1), each with its head: for a row too wide to read across."""
    heads = [", ".join(filter(None, _head(c, unit))) for c in table.columns]
    longest = min(max(map(len, heads)), width // 2)
    return [
        fitted([(f"{head[:longest]:<{longest}}  ", "label"), (plain(cell_text(value, column, unit)), "value")], width)
        for head, value, column in zip(heads, table.rows[row - 1], table.columns, strict=True)
    ]
