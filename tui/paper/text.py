"""The card as lines of plain characters, for a console or a line printer: 79 wide, in pages with a form feed between."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from engine.base.answer import Label, Picture, Pointer, Size
from engine.base.quantity import bounds_text
from engine.base.records import replace
from engine.base.showing import cell_text, figure_text, head_text, limits_text
from engine.base.words import write
from engine.jobs.behind import Behind, Working
from engine.jobs.card import Card, Row, Strip
from engine.jobs.ticks import Ticks
from engine.safety import deferral
from tui.output import nearest
from tui.paper.card_flow import is_long
from tui.paper.words import (
    Say,
    before_words,
    caution_words,
    cautions,
    head_words,
    laid_out_words,
    measured_words,
    tick_words,
    title_of,
)
from tui.widgets.picture import drawn

WIDE = 79
LONG = 66  # lines on a page, its foot included: 11 in at 6 lines an inch, as line printers have it
_DEEP = 13  # lines of a part's drawing
_IN = " " * 5  # what stands under a step
_BREAKS = 7  # lines: a step that has more may go on over the page
_LEAST = 3  # lines of it on each side of the break
_LINE = "_" * 8  # a place to write
_GLUE = "\x1f"  # stands for a blank where a line must not be broken: a tick stays whole


def text(card: Card, say: Say, unit: str, *, foot: str, behind: Behind | None = None) -> str:
    """The whole card in characters that every printer has."""
    made = _Lines(say, unit)
    groups = [[*made.head(card), *textwrap.wrap(before_words(say), WIDE)]]
    for strip in card.strips:
        groups += made.strip(strip)
    groups += made.behind(behind) if behind else []
    return nearest(_paged(groups, foot))


def _paged(groups: list[list[str]], foot: str) -> str:
    """Groups of lines that stay together, on pages; the foot of each says which it is."""
    pages: list[list[str]] = [[]]
    room = LONG - 1
    for group in groups:
        free = room - len(pages[-1])
        if pages[-1] and len(group) > free:
            if len(group) > _BREAKS and free >= _LEAST:
                free = min(free, len(group) - _LEAST)
                pages[-1], group = [*pages[-1], *group[:free]], group[free:]
            pages.append([])
        while len(group) > room:
            pages[-1], group = group[:room], group[room:]
            pages.append([])
        pages[-1] += group
    count = len(pages)
    ended = ["\n".join([*page, f"{foot}, page {n} of {count}"]) for n, page in enumerate(pages, 1)]
    return "\f\n".join(ended) + "\n"


def _box(done: bool) -> str:
    return "[x]" if done else "[ ]"


class _Lines:
    """Writes the parts of the card in one unit and one set of words."""

    def __init__(self, say: Say, unit: str) -> None:
        self.say, self.unit = say, unit

    def wrapped(self, text: str, indent: str = "", more: str | None = None) -> list[str]:
        again = indent if more is None else more
        lines = textwrap.wrap(
            nearest(text), WIDE, initial_indent=indent, subsequent_indent=again, break_on_hyphens=False
        )
        return [line.replace(_GLUE, " ") for line in lines]

    def picture(self, picture: Picture) -> list[str]:
        shapes = tuple(
            replace(shape, text=nearest(write(shape.text, self.unit)))
            if isinstance(shape, Label | Size | Pointer)
            else shape
            for shape in picture.shapes
        )
        rows = drawn(replace(picture, shapes=shapes), WIDE, _DEEP, self.unit)
        return ["".join(words for words, _ in row).rstrip() for row in rows]

    def head(self, card: Card) -> list[str]:
        lines = [nearest(self.say(title_of(card))).upper()]
        for part in card.parts:  # a short one would be a few letters wide: it is told
            lines += self.picture(part) if is_long(part) else self.wrapped(self.say(part.alt))
        lines += self.wrapped(" ".join(head_words(card, self.say, self.unit)))
        told = ["Lay out, in the order of use:"] if card.lay_out else []
        told += [self.glued(f"[ ] {laid_out_words(one, self.say)}") for one in card.lay_out]
        return [*lines, *self.wrapped("  ".join(told), "", "    ")]

    def glued(self, text: str) -> str:
        """Words that stay together on a line, where one holds them."""
        return text.replace(" ", _GLUE) if len(nearest(text)) <= WIDE - len(_IN) else text

    def strip(self, strip: Strip) -> Iterator[list[str]]:
        """The head of a strip with its first step, each other step, and its foot with the last of them."""
        groups = [self.row(row) for row in strip.rows]
        groups[0] = [*self.strip_head(strip), *groups[0]]
        for gate in strip.gates:
            groups[-1] += self.wrapped(f"{_box(gate.done)} DO NOT LET GO {self.say(gate.says)}", " ", _IN)
        groups[-1] += self.wrapped(" ".join(self.say(line) for line in (*strip.after, *strip.too_far)), _IN)
        yield from groups

    def strip_head(self, strip: Strip) -> list[str]:
        told = [f"{self.say(name)} {self.say(value) or _LINE}" for name, value in strip.facts]
        title = f"SET-UP {strip.number}: {self.say(strip.title)}"
        return self.wrapped("; ".join((title, *told)), "=== ", _IN)

    def row(self, row: Row) -> list[str]:
        boxes = "".join(_box(done) for done in row.done)
        tool = f" ({self.say(row.tool)})" if row.tool else ""
        sets = f"SET {'; '.join(self.say(one) for one in row.sets)}." if row.sets else ""
        told = (sets, *(self.say(line) for line in row.do), *cautions(row, self.say))
        title = f"{row.number:>2} {boxes} {self.say(row.title)}{tool}."
        lines = self.wrapped(" ".join(filter(None, (title, *told))), "", _IN)
        for note in row.notes:
            lines += self.wrapped(note, _IN)
        if row.problem:
            lines += self.wrapped(f"CANNOT BE WORKED HERE: {self.say(row.problem)}", _IN)
        lines += self.ticks(row.ticks) if row.ticks else []
        if row.measured:
            between = bounds_text(row.measured.low, row.measured.high, self.unit)
            places = "  ".join(self.say(reading) or _LINE for reading in row.measured.readings)
            what = measured_words(row, self.say)
            lines += self.wrapped(f"MEASURE {f'{what}: ' if what else ''}{between}, read {places}", _IN)
        return lines

    def ticks(self, ticks: Ticks) -> list[str]:
        head, each = tick_words(ticks, self.say)
        between = "  " if any(tick.words for tick in ticks.rows) else " "
        marks = {True: "x", False: "_"}
        told = [f"{n}{''.join(marks[one] for one in done)}{' ' if words else ''}{words}" for n, done, words in each]
        return self.wrapped(between.join((f"{head}:", *map(self.glued, told))), _IN)

    # What stands behind it

    def behind(self, behind: Behind) -> Iterator[list[str]]:
        yield ["", "=" * WIDE, "WORKINGS, CAUTIONS AND SOURCES"]
        yield ["BEFORE ANY WORK"]
        for rule in behind.rules:
            yield self.wrapped(self.say(caution_words(rule, self.unit)), "  ", "    ")
        yield self.wrapped(self.say(deferral()))
        for working in behind.workings:
            yield from self.working(working, behind)
        yield ["", "SOURCES"]
        for source, number in behind.sources.items():
            yield self.wrapped(f"[{number}] {source}", "  ", "      ")

    def working(self, one: Working, behind: Behind) -> Iterator[list[str]]:
        yield ["", f"{one.number}. {self.say(one.title)}"]
        for figure in one.figures:
            limits = limits_text(figure, self.unit)
            words = f"{figure.label}: {figure_text(figure, self.unit)}{f' ({limits})' if limits else ''}"
            how = self.say(figure.working)
            mark = f" [{behind.sources[figure.source]}]" if figure.source else ""
            yield self.wrapped(self.say(f"{words}{f' = {how}' if how else ''}{mark}"), "  ", "      ")
        for table in one.tables:
            yield self.wrapped(self.say(table.label), "  ")
            heads = [self.say(head_text(column, self.unit)) for column in table.columns]
            for row in table.rows:
                cells = [cell_text(cell, column, self.unit) for cell, column in zip(row, table.columns, strict=True)]
                told = "; ".join(f"{head} {self.say(cell)}" for head, cell in zip(heads, cells, strict=True) if cell)
                yield self.wrapped(told, "    ", "      ")
        for note in one.notes:
            yield self.wrapped(self.say(note), "  ")
        for caution in one.cautions:
            yield self.wrapped(self.say(caution_words(caution, self.unit)), "  ", "    ")
