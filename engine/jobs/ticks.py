"""The rows of a countable table as ticks for paper: what is the same for all is said once, then only what changes."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from engine.base.answer import Cell, Column, Table
from engine.base.quantity import DIMENSIONS
from engine.base.records import dataclass
from engine.base.setting import Setting, setting_text
from engine.base.words import Text, bare, say


@dataclass(frozen=True, slots=True)
class Tick:
    """One row: its number, what is set or made otherwise than at the row before, and for each piece whether it is done."""

    number: int
    words: tuple[Text, ...]
    done: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Ticks:
    """Rows to tick off: what they are, what holds for all of them, what stands in a row, the rows, and their tools."""

    noun: str
    always: tuple[Text, ...]
    columns: tuple[Text, ...]
    rows: tuple[Tick, ...]
    tools: tuple[Text, ...] = ()


def ticks(table: Table, done: Callable[[int, int], bool], pieces: int = 1) -> Ticks:
    """The rows of a table as ticks; `done` says of a piece (from 0) and a row (from 1) whether it is done.

    >>> columns = (Column("number", "Line", "count"), Column("class", "Class"))
    >>> table = Table("lines", "Lines", columns, ((1, "long"), (2, "short"), (3, "short")), "line", ("class",))
    >>> [tick.words for tick in ticks(table, lambda piece, row: row == 1).rows]
    [('long',), ('short',), ()]
    """
    columns = _shown(table)
    held = {column.name: table.column(column.name) for column in columns}
    fixed = [c for c in columns if len(table.rows) > 1 and all(one == held[c.name][0] for one in held[c.name])]
    told = [column for column in columns if column not in fixed]
    rows, before = [], dict[str, Cell]()
    for number, cells in enumerate(table.rows, 1):
        now = dict(zip([column.name for column in table.columns], cells, strict=True))
        words = tuple(_said(c, now[c.name], table) for c in told if _changed(c, now, before, table))
        rows.append(Tick(number, words, tuple(done(piece, number) for piece in range(pieces))))
        before = now
    always = tuple(_named(column, table.column(column.name)[0]) for column in fixed)
    heads = tuple(_head(column, table) for column in told if not _rare(column, table))
    tools = [_text(column, cell) for column in columns if column.name == "tool" for cell in table.column("tool")]
    return Ticks(table.count_noun, always, heads if len(table.rows) > 1 else (), tuple(rows), tuple(tools))


def settings_of(table: Table) -> frozenset[Setting]:
    """Every setting that stands in a table."""
    return frozenset(cell for row in table.rows for cell in row if isinstance(cell, Setting))


def _shown(table: Table) -> tuple[Column, ...]:
    """The columns for paper: what is set, in the order of the table's `setting`, then its words.

    Where a whole setting stands in another column, the bare numbers that it is made of are left out. Of a dry run only
    what is set is kept: it makes nothing.
    """
    named = [column for name in table.setting for column in table.columns if column.name == name]
    whole = [column for column in table.columns if _holds_settings(column, table)]
    if table.aside:
        return tuple(named[:1])
    if whole and not any(column in whole for column in named):
        named = [*whole, *(column for column in named if column.dimension in ("text", "speed"))]
    rest = [column for column in table.columns if column.dimension == "text" and column not in whole]
    first = table.columns[0]
    kept = [column for column in dict.fromkeys([*named, *rest]) if column is not first]
    return tuple(column for column in kept if any(cell not in (None, "") for cell in table.column(column.name)))


def _holds_settings(column: Column, table: Table) -> bool:
    return any(isinstance(cell, Setting) for cell in table.column(column.name))


def _rare(column: Column, table: Table) -> bool:
    """Whether most rows have nothing in this column: its word then goes with each."""
    cells = table.column(column.name)
    return not _holds_settings(column, table) and sum(cell in (None, "") for cell in cells) * 2 > len(cells)


def _changed(column: Column, now: dict[str, Cell], before: dict[str, Cell], table: Table) -> bool:
    """Whether a cell has to be said; a bare number always, since only its place tells what it is; all of it for another
    tool."""
    cell = now[column.name]
    if cell in (None, ""):
        return False
    anew = now.get("tool") != before.get("tool")
    return anew or column.dimension != "text" or _rare(column, table) or cell != before.get(column.name)


def _said(column: Column, cell: Cell, table: Table) -> Text:
    alone = len(table.rows) == 1 or _rare(column, table)
    return _named(column, cell) if alone else _text(column, cell)


def _text(column: Column, cell: Cell) -> Text:
    if isinstance(cell, Setting):  # paper is narrow: no whole turn is not said
        return setting_text(cell, wheel=False).removeprefix("0 turns, ")
    if isinstance(cell, int | float):
        return bare(cell, column.dimension, decimals=column.decimals) if column.dimension != "text" else str(cell)
    return cell or ""


def _named(column: Column, cell: Cell) -> Text:
    """A cell with what it is: a setting with its wheel, a number with its column's words."""
    if isinstance(cell, Setting):
        return setting_text(cell)
    return say(f"{_safe(column.label)} {{value}}", value=_text(column, cell))


def _head(column: Column, table: Table) -> Text:
    """What stands in a column of the ticks: the wheel of its settings, else the column's own words."""
    found: Sequence[Cell] = table.column(column.name)
    wheels = {" ".join(filter(None, (cell.wheel, cell.way))) for cell in found if isinstance(cell, Setting)}
    if len(wheels) == 1 and (wheel := wheels.pop()):
        return wheel
    unit = DIMENSIONS[column.dimension]
    return f"{column.label}, {unit.metric}" if unit.metric and unit.metric == unit.inch else column.label


def _safe(label: str) -> str:
    """A label inside a template, where braces have a meaning."""
    return label.replace("{", "(").replace("}", ")")
