"""Figures, limits and cells as text in the display unit: what the shell, the screen and the sheet share."""

from __future__ import annotations

from engine.base.answer import Cell, Column, Figure
from engine.base.quantity import DIMENSIONS, bounds_text, show, show_number
from engine.base.setting import Setting, setting_text
from engine.base.words import Text, shown, write


def figure_text(figure: Figure, unit: str) -> str:
    """Return a figure as it is shown.

    >>> figure_text(Figure("drill", "Drill", 8.8629, "length", "", "", side="down"), "mm")
    '8.862 mm'
    """
    if figure.setting is not None:
        return setting_text(figure.setting, unit=unit)
    if figure.value is None:
        return write(figure.text, unit)
    return show(figure.value, figure.dimension, unit, decimals=figure.decimals, side=figure.side)


def text_of(figure: Figure) -> Text:
    """A figure as a text that a door writes later: its number with its unit, its words or its setting."""
    if figure.setting is not None:
        return setting_text(figure.setting)
    if figure.value is None:
        return figure.text
    return shown(figure.value, figure.dimension, decimals=figure.decimals, side=figure.side)


def limits_text(figure: Figure, unit: str) -> str:
    """Return the limits of a figure, rounded so that a part made to them lies inside; empty if it has none.

    >>> limits_text(Figure("blank", "Blank", 20.0, "length", "", "", low=19.9804, high=20.0196), "mm")
    '19.981 to 20.019'
    """
    return bounds_text(figure.low, figure.high, unit, figure.dimension, figure.decimals)


def cell_text(cell: Cell, column: Column, unit: str) -> str:
    """Return a table's cell as it is shown.

    >>> cell_text(1.5, Column("depth", "Depth", "length"), "mm")
    '1.500'
    """
    if cell is None:
        return ""
    if isinstance(cell, Setting):
        return setting_text(cell, wheel=False, unit=unit)
    if not isinstance(cell, int | float):
        return write(cell, unit)
    if column.dimension == "text":
        return str(cell)
    return show_number(cell, column.dimension, unit, decimals=column.decimals)


def head_text(column: Column, unit: str) -> str:
    """Return the head of a column with the unit of its cells.

    >>> head_text(Column("depth", "Depth", "length"), "inch")
    'Depth, in'
    """
    kind = DIMENSIONS[column.dimension]
    name = kind.inch if unit == "inch" else kind.metric
    return f"{column.label}, {name}" if name else column.label
