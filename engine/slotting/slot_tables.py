"""The passes of a slot as they are set on the mill's dials."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.answer import Cell, Column, Table
from engine.indexing.dials import slide_setting
from engine.shop.model import Mill


@dataclass(frozen=True, slots=True)
class Cuts:
    """The depths of every pass [mm]: down the middle, then down each side (empty: none is cut)."""

    middle: tuple[float, ...]
    sides: tuple[float, ...]


def passes_table(cuts: Cuts, *, width: float, cutter: float, mill: Mill | None) -> Table:
    """Write the passes as a countable table.

    Parameters
    ----------
    cuts : Cuts
        Depths from the top.
    width : float
        Of the slot. [mm]
    cutter : float
        Diameter of the cutter. [mm]
    mill : Mill or None
        Whose dials are set; without one the depths stand alone.

    Returns
    -------
    table : Table
        A row for each pass: down the middle, down one side, down the other. The cross dial's zero is the second
        side, so that every cross reading is come to from the same side. Depths stop short of their line, the last
        one at the nearest; the first side stops short, so that the slot does not get too wide.

    Raises
    ------
    OutOfRange
        If a depth is negative.

    Sources
    -------
    Arithmetic; each setting rounded by itself.

    Examples
    --------
    >>> table = passes_table(Cuts((0.5, 1.0), (1.0,)), width=2.0, cutter=1.5, mill=None)
    >>> [row[:4] for row in table.rows][-1]
    (4, 'second side', 1.0, 0.0)
    """
    offset = max((width - cutter) / 2, 0.0)
    every = [("middle", depth, offset) for depth in cuts.middle]
    every += [("first side", depth, 2 * offset) for depth in cuts.sides]
    every += [("second side", depth, 0.0) for depth in cuts.sides]
    sides = bool(cuts.sides)
    columns = [Column("pass", "Pass", "count"), Column("place", "Where"), Column("depth", "Depth", "length")]
    if sides or mill is None:
        columns.append(Column("offset", "Cross", "length"))
    if mill:
        columns += [Column("turns", "Down, turns", "count"), Column("dial", "then to", "length")]
        if sides:
            columns += [
                Column("cross_turns", "Cross, turns", "count"),
                Column("cross_dial", "then to", "length"),
            ]
    last = cuts.middle[-1]
    rows = tuple(_row(number, cut, sides=sides, last=last, mill=mill) for number, cut in enumerate(every, 1))
    setting = ("turns", "dial", *(("cross_turns", "cross_dial") if sides else ())) if mill else ("depth",)
    return Table("passes", "Passes", tuple(columns), rows, "pass", setting, "arithmetic on the owned dials")


def _row(
    number: int, cut: tuple[str, float, float], *, sides: bool, last: float, mill: Mill | None
) -> tuple[Cell, ...]:
    place, depth, offset = cut
    row: list[Cell] = [number, place, depth]
    if sides or mill is None:
        row.append(offset)
    if mill:
        down = slide_setting(mill.z, depth, towards="nearest" if depth == last else "short")
        row += [down.turns, down.reading]
        if sides:
            across = slide_setting(mill.y, offset, towards="short" if place == "first side" else "nearest")
            row += [across.turns, across.reading]
    return tuple(row)
