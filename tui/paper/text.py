"""The card as lines of plain characters, for a console or a line printer: 78 wide, in pages with a form feed between."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from engine.base.answer import Picture
from engine.base.quantity import bounds_text
from engine.base.showing import cell_text, figure_text, head_text, limits_text
from engine.jobs.behind import Behind, Working
from engine.jobs.card import Card, Row, Strip
from engine.jobs.ticks import Ticks
from engine.safety import deferral
from tui.output import nearest
from tui.paper.words import Say, caution_words, cautions, foot_words, head_words, laid_out_words, tick_words
from tui.widgets.picture import drawn

WIDE = 78
_ROOM = 6  # columns that signs of one letter may need more in plain characters: degrees, diameters
LONG = 60  # lines on a page, its foot included
_DEEP = 16  # lines of a part's drawing
_IN = " " * 8  # what stands under a step
_LINE = "_" * 10  # a place to write
_GLUE = "\x1f"  # stands for a blank where a line must not be broken: a tick stays whole


def text(card: Card, say: Say, unit: str, *, foot: str, behind: Behind | None = None) -> str:
    """The whole card in characters that every printer has."""
    made = _Lines(say, unit)
    groups = [made.head(card)]
    for strip in card.strips:
        groups += made.strip(strip)
    groups.append(["", *textwrap.wrap(foot_words(say), WIDE)])
    groups += made.behind(behind) if behind else []
    return nearest(_paged(groups, foot))


def _paged(groups: list[list[str]], foot: str) -> str:
    """Groups of lines that stay together, on pages; the foot of each says which it is."""
    pages: list[list[str]] = [[]]
    room = LONG - 2
    for group in groups:
        if pages[-1] and len(pages[-1]) + len(group) > room:
            pages.append([])
        while len(group) > room:
            pages[-1], group = group[:room], group[room:]
            pages.append([])
        pages[-1] += group
    count = len(pages)
    ended = ["\n".join([*page, "", f"{foot}, page {n} of {count}"]) for n, page in enumerate(pages, 1)]
    return "\f\n".join(ended) + "\n"


def _box(done: bool) -> str:
    return "[x]" if done else "[ ]"


class _Lines:
    """Writes the parts of the card in one unit and one set of words."""

    def __init__(self, say: Say, unit: str) -> None:
        self.say, self.unit = say, unit

    def wrapped(self, text: str, indent: str = "", more: str | None = None) -> list[str]:
        again = indent if more is None else more
        return textwrap.wrap(
            nearest(text), WIDE, initial_indent=indent, subsequent_indent=again, break_on_hyphens=False
        )

    def picture(self, picture: Picture) -> list[str]:
        rows = drawn(picture, WIDE - _ROOM, _DEEP, self.unit)
        return ["".join(words for words, _ in row).rstrip() for row in rows]

    def head(self, card: Card) -> list[str]:
        lines = [nearest(self.say(card.title)).upper()]
        for part in card.parts:
            lines += self.picture(part)
        for told in head_words(card, self.say, self.unit):
            lines += self.wrapped(told)
        lines += ["Lay out, in the order of use:"] if card.lay_out else []
        for one in card.lay_out:
            lines += self.wrapped(f"[ ] {laid_out_words(one, self.say)}", "  ", "      ")
        return lines

    def strip(self, strip: Strip) -> Iterator[list[str]]:
        """The head of a strip with its first step, each other step, and its foot with the last of them."""
        groups = [self.row(row) for row in strip.rows]
        groups[0] = [*self.strip_head(strip), *groups[0]]
        for gate in strip.gates:
            groups[-1] += self.wrapped(
                f"[{'x' if gate.done else ' '}] DO NOT LET GO {self.say(gate.says)}", "    ", _IN
            )
        for line in (*strip.too_far, *strip.after):
            groups[-1] += self.wrapped(self.say(line), "    ")
        yield from groups

    def strip_head(self, strip: Strip) -> list[str]:
        told = [f"{self.say(name)} {self.say(value) or _LINE}" for name, value in strip.facts]
        title = f"SET-UP {strip.number}: {self.say(strip.title)}"
        return ["", "=" * WIDE, title, *self.wrapped("; ".join(told), "  "), "-" * WIDE]

    def row(self, row: Row) -> list[str]:
        boxes = "".join(_box(done) for done in row.done)
        tool = f"   ({self.say(row.tool)})" if row.tool else ""
        lines = self.wrapped(f"{row.number:>2} {boxes} {self.say(row.title)}{tool}", "", _IN)
        for line in row.do:
            lines += self.wrapped(self.say(line), _IN)
        for note in row.notes:
            lines += self.wrapped(note, _IN)
        if row.problem:
            lines += self.wrapped(f"CANNOT BE WORKED HERE: {self.say(row.problem)}", _IN)
        if row.sets:
            lines += self.wrapped(f"SET {'; '.join(self.say(one) for one in row.sets)}", _IN, _IN + "    ")
        lines += self.ticks(row.ticks) if row.ticks else []
        if row.measured:
            between = bounds_text(row.measured.low, row.measured.high, self.unit)
            places = "  ".join(self.say(reading) or _LINE for reading in row.measured.readings)
            lines += self.wrapped(f"MEASURE {self.say(row.measured.what)}: {between}   read {places}", _IN)
        for caution in cautions(row, self.say):
            lines += self.wrapped(caution, _IN, _IN + "  ")
        return lines

    def ticks(self, ticks: Ticks) -> list[str]:
        head, each = tick_words(ticks, self.say)
        told = [f"{number}{''.join(map(_box, done))}{' ' if words else ''}{words}" for number, done, words in each]
        glued = "  ".join(one.replace(" ", _GLUE) for one in told)
        lines = self.wrapped(f"{head}:", _IN) if head else []
        return [*lines, *(line.replace(_GLUE, " ") for line in self.wrapped(glued, _IN))]

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
