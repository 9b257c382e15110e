"""The sides of a card for print with what stands in their margins, and behind it workings, cautions and sources."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from engine.base.answer import Caution, Table
from engine.base.showing import cell_text, figure_text, head_text, limits_text
from engine.jobs.behind import Behind, Working
from engine.jobs.card import Card
from engine.safety import deferral
from tui.paper.card_flow import WIDE, Group, Layout, card_pages, fitted
from tui.paper.flow import Block, Mark, Paper, Words, moved, pages, stacked
from tui.paper.words import Say, caution_words

_SIZE = 8.0  # pt
_FOOT = 7.0  # pt
_INDENT = 4.0  # mm


def sides(card: Card, behind: Behind | None, say: Say, unit: str, paper: Paper, foot: str) -> list[list[Mark]]:
    """Every side, each with its foot: shop, date and version, and which page it is."""
    found = card_pages(card, say, unit, paper, fitted(card, say, unit, paper))
    found += pages(_behind(behind, Layout(say, unit, _SIZE)), paper) if behind else []
    for number, marks in enumerate(found, 1):
        y, right = paper.high - 6.0, paper.wide - paper.side
        page = Words(right, y, f"Page {number} of {len(found)}", _FOOT, anchor="end")
        marks += [Words(paper.side, y, foot, _FOOT), page]
    return found


def _behind(behind: Behind, lay: Layout) -> Iterator[Block]:
    yield Block(*lay.words("Workings, cautions and sources", WIDE, bold=True, size=_SIZE * 1.7))
    yield _head("Before any work", lay)
    yield from _cautions(behind.rules, lay)
    yield _line(lay.say(deferral()), lay)
    for working in behind.workings:
        yield _head(f"{working.number}. {lay.say(working.title)}", lay)
        yield from _working(working, behind, lay)
    yield _head("Sources", lay)
    for source, number in behind.sources.items():
        yield _line(f"[{number}] {source}", lay)


def _head(text: str, lay: Layout) -> Block:
    return Block(*stacked(((2.0, ()), lay.words(text, WIDE, bold=True, size=lay.size * 1.2))), keep=True)


def _line(text: str, lay: Layout, indent: float = 0.0) -> Block:
    high, marks = lay.words(text, WIDE - indent)
    return Block(high + 0.3, tuple(moved(mark, indent, 0.0) for mark in marks))


def _cautions(ones: Iterable[Caution], lay: Layout) -> Iterator[Block]:
    for one in ones:
        yield _line(lay.say(caution_words(one, lay.unit)), lay, _INDENT)


def _working(one: Working, behind: Behind, lay: Layout) -> Iterator[Block]:
    for figure in one.figures:
        limits = limits_text(figure, lay.unit)
        value = f"{figure.label}: {figure_text(figure, lay.unit)}{f' ({limits})' if limits else ''}"
        how = lay.say(figure.working)
        mark = f" [{behind.sources[figure.source]}]" if figure.source else ""
        yield _line(lay.say(f"{value}{f' = {how}' if how else ''}{mark}"), lay, _INDENT)
    for note in one.notes:
        yield _line(lay.say(note), lay, _INDENT)
    for table in one.tables:
        yield _line(lay.say(table.label), lay, _INDENT)
        yield from _table(table, lay)
    yield from _cautions(one.cautions, lay)


def _table(table: Table, lay: Layout) -> Iterator[Block]:
    """A table in columns of one width, its empty columns left out."""
    kept = [column for column in table.columns if any(cell not in (None, "") for cell in table.column(column.name))]
    room = (WIDE - _INDENT) / max(len(kept), 1)
    yield Block(*_cells([lay.say(head_text(column, lay.unit)) for column in kept], room, lay, bold=True), keep=True)
    for row in table.rows:
        known = dict(zip([column.name for column in table.columns], row, strict=True))
        cells = [lay.say(cell_text(known[column.name], column, lay.unit)) for column in kept]
        yield Block(*_cells(cells, room, lay))


def _cells(texts: list[str], room: float, lay: Layout, *, bold: bool = False) -> Group:
    groups = [lay.words(text, room - 1.5, bold=bold) for text in texts]
    marks = [moved(mark, _INDENT + i * room, 0.0) for i, (_, ones) in enumerate(groups) for mark in ones]
    return max((high for high, _ in groups), default=0.0), tuple(marks)
