"""Figures and cells as text in the display unit: what the shell and the screen share."""

from __future__ import annotations

from engine.answer import Cell, Column, Figure
from engine.quantity import show, show_number


def figure_text(figure: Figure, unit: str) -> str:
    """A figure as it is shown."""
    if figure.value is None:
        return figure.text
    return show(figure.value, figure.dimension, unit, decimals=figure.decimals, side=figure.side)


def limits_text(figure: Figure, unit: str) -> str:
    """The limits of a figure, rounded so that a part made to them lies inside; empty if it has none."""
    low = None if figure.low is None else _bound(figure, figure.low, unit, "up")
    high = None if figure.high is None else _bound(figure, figure.high, unit, "down")
    if low and high:
        return f"{low} to {high}"
    return f"{low} or more" if low else f"{high} or less" if high else ""


def _bound(figure: Figure, value: float, unit: str, side: str) -> str:
    return show_number(value, figure.dimension, unit, decimals=figure.decimals, side=side)  # type: ignore[arg-type]


def cell_text(cell: Cell, column: Column, unit: str) -> str:
    """A table's cell as it is shown."""
    if cell is None:
        return ""
    if isinstance(cell, str) or column.dimension == "text":
        return str(cell)
    return show_number(cell, column.dimension, unit, decimals=column.decimals)
