"""The card laid out for print: a grid of rows under a strip for each set-up, on two sides for each part, to be read at arm's
length.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from engine.base.answer import Label, Line, Picture, Pointer, Size
from engine.base.layout import extents
from engine.base.quantity import bounds_text
from engine.base.records import dataclass
from engine.base.words import Text
from engine.jobs.card import Card, Row, Strip
from engine.jobs.svg import MARGIN, pieces, sheet_of
from engine.jobs.ticks import Ticks
from tui.paper.flow import LETTER, Block, Box, Drawn, Mark, Paper, Rule, Words, moved, pages, stacked
from tui.paper.letters import POINT, line_height, width, wrapped
from tui.paper.true import TRUE_TEXT, true_strips
from tui.paper.words import (
    Say,
    before_words,
    cautions,
    head_words,
    laid_out_words,
    measured_words,
    tick_words,
    title_of,
)

SIZES = 9.5, 9.0, 8.5, 8.0, 7.5, 7.25  # pt: the largest that the sides hold; none smaller, it is read standing
SIDES = 2  # of paper, for each part
WIDE = 196.0  # mm: what A4 leaves, taken on Letter too
COLUMNS = (12.5, 71.5, 37.0, 47.0, 28.0)  # tick, step, drawing, tool and what is set, limits
HEADS = ("", "Step", "Drawing", "Tool, set", "Limits, reading")
_BETWEEN = 0.1  # mm between what stands in a row and its rules
_GAP = 1.0  # mm between what stands in a column and its rule
_READING = 4.6  # mm: the height of a place to write a reading, at the most
LONG = 2.2  # times as long as high: a part whose drawing gets more width
_WRITTEN = 13.0  # mm: how long a place to write is
_BOX = 2.4  # mm: the side of a box to tick, at the most
_DRAWN = 1.15, 1.6  # mm for a point of the letters: the height of a row's drawing, at the least and at the most
_BARE = 0.9  # the same of one without words

Group = tuple[float, tuple[Mark, ...]]  # so high, these marks


@dataclass(frozen=True, slots=True)
class Layout:
    """How a card is written: its words, its unit, its size of letters [pt]."""

    say: Say
    unit: str
    size: float

    @property
    def box(self) -> float:
        """The side of a box to tick. [mm]"""
        return min(_BOX, 0.4 * self.size)

    @property
    def reading(self) -> float:
        """The height of a place to write a reading. [mm]"""
        return min(_READING, 0.7 * self.size)

    @property
    def line(self) -> float:
        """The height of a line. [mm]"""
        return line_height(self.size)

    def words(self, text: str, room: float, *, bold: bool = False, size: float = 0.0) -> Group:
        """A text in lines."""
        size = size or self.size
        high = line_height(size)
        lines = wrapped(text, room, size, bold)
        marks = tuple(Words(0.0, (i + 0.8) * high, one, size, bold) for i, one in enumerate(lines))
        return high * len(lines), marks

    def picture(self, picture: Picture, wide: float, tall: float) -> Group:
        """A picture in so much room, with its words as high as the others."""
        text = self.size * 0.9 * POINT
        sheet = sheet_of(picture, self.unit, wide, tall, text)
        if sheet is None:
            return 0.0, ()
        return sheet.height + 2 * MARGIN, (Drawn(0.0, 0.0, sheet, -MARGIN, sheet.width + 2 * MARGIN, text),)


def small_room(row: Row, lay: Layout) -> tuple[float, float]:
    """The room of a row's drawing: as high as its words; one that has no words itself may be lower. [mm]"""
    shapes = row.picture.shapes if row.picture else ()
    least = _DRAWN[0] if any(isinstance(shape, Label | Pointer | Size) for shape in shapes) else _BARE
    words = max(cell[0] for cell in _worded(row, lay).values())
    return COLUMNS[2] - 2 * _GAP, min(max(words, least * lay.size), _DRAWN[1] * lay.size)


def step_room(row: Row) -> float:
    """How wide a step's words may be: over the drawing's column too where there is none, and over the others. [mm]"""
    return sum(COLUMNS[1 : 1 + step_columns(row)]) - _GAP


def step_columns(row: Row) -> int:
    """How many columns a step's words take: where nothing is set or measured all of them, its tool beside its title."""
    if row.picture:
        return 1
    return 2 if row.sets or row.measured else 4


def held_room(size: float) -> tuple[float, float]:
    """The room of a strip's drawing beside letters of this size. [mm]"""
    return 6.0 * line_height(size) + 20.0, 2.5 * line_height(size)


def drawn_rooms(card: Card, size: float) -> tuple[float, float]:
    """The room of the drawing of each part: one has the left side, more of it where it is long; two stand beside one
    another. [mm]"""
    if len(card.parts) > 1:
        return 60.0, 5.0 * size
    wide = max(60.0, 8.0 * size)  # larger letters want more room beside the part, or they shrink it to nothing
    return (118.0, 5.0 * size) if card.parts and is_long(card.parts[0]) else (wide, 5.6 * size)


def is_long(picture: Picture) -> bool:
    """Whether the outline of a part is much longer than it is high."""
    bounds = extents(shape for shape in picture.shapes if isinstance(shape, Line) and shape.weight == 1)
    return bounds is not None and bounds[2] - bounds[0] > LONG * (bounds[3] - bounds[1])


def fitted(card: Card, say: Say, unit: str, paper: Paper = LETTER) -> float:
    """The largest letters with which the card takes its sides; the smallest of all where it takes more. [pt]"""
    most = most_sides(card)
    return next((size for size in SIZES if len(card_pages(card, say, unit, paper, size)) <= most), SIZES[-1])


def most_sides(card: Card) -> int:
    """How many sides of paper a card may take: two for each part."""
    return SIDES * max(sum(picture.name == "part" for picture in card.parts), 1)


def card_pages(card: Card, say: Say, unit: str, paper: Paper, size: float) -> list[list[Mark]]:
    """The pages of a card in letters of this size, without what stands in their margins."""
    lay = Layout(say, unit, size)
    return pages(blocks(card, lay), paper, Block(*_column_heads(lay)))


def blocks(card: Card, lay: Layout) -> Iterator[Block]:
    """The card from its head to its true strips."""
    yield Block(*_head(card, lay), keep=True)
    yield Block(*_before(lay), keep=True)
    yield Block(*_column_heads(lay), keep=True)
    for strip in card.strips:
        yield from _strip(strip, lay)
    yield from _true(card, lay)


# The head: title, drawings, stock, what to lay out


def _head(card: Card, lay: Layout) -> Group:
    """The drawings, and beside them what is made of what and what to lay out; in two columns where there is none."""
    wide, tall = drawn_rooms(card, lay.size)
    title = lay.words(lay.say(title_of(card)), WIDE, bold=True, size=lay.size * 1.7)
    drawn = [lay.picture(one, wide, tall) for one in card.parts]
    if drawn:
        left = (wide + 1.5) * min(len(drawn), 2)
        rows = [_side_by_side(drawn[i : i + 2], wide + 1.5) for i in range(0, len(drawn), 2)]
        told = stacked((title, *_told(card, WIDE - left - 1.5, lay, columns=2 if WIDE - left > 90.0 else 1)))
        return _side_by_side([stacked(rows), told], left + 1.5)
    lines = _told(card, WIDE / 2 - 2.0, lay)
    middle = (len(lines) + 1) // 2
    return stacked((title, _side_by_side([stacked(lines[:middle]), stacked(lines[middle:])], WIDE / 2)))


def _before(lay: Layout) -> Group:
    return lay.words(before_words(lay.say), WIDE)


def _side_by_side(groups: Sequence[Group], step: float) -> Group:
    marks = tuple(moved(mark, i * step, 0.0) for i, (_, ones) in enumerate(groups) for mark in ones)
    return max(high for high, _ in groups) + 1.0, marks


def _told(card: Card, room: float, lay: Layout, columns: int = 1) -> list[Group]:
    """What is made, of what, where a job stands, and what to lay out."""
    told = head_words(card, lay.say, lay.unit)
    words = [lay.words(text, room) for text in told]
    words += [lay.words("Lay out, in the order of use:", room, bold=True)] if card.lay_out else []
    each = [_laid_out(laid_out_words(one, lay.say), room / columns - 1.5, lay) for one in card.lay_out]
    if columns == 1:
        return [*words, *each]
    cuts = [(stacked(each[:i]), stacked(each[i:])) for i in range(len(each) + 1)]
    both = min(cuts, key=lambda cut: max(cut[0][0], cut[1][0]))
    return [*words, _side_by_side(both, room / columns)]


def _laid_out(text: str, room: float, lay: Layout) -> Group:
    high, marks = lay.words(text, room - lay.box - 1.0)
    return high, (_tick(0.0, 0.0, lay), *(moved(mark, lay.box + 1.0, 0.0) for mark in marks))


def _tick(x: float, y: float, lay: Layout, done: bool = False) -> Box:
    return Box(x, y + (lay.line - lay.box) / 2, lay.box, lay.box, done)


# A strip


def _strip(strip: Strip, lay: Layout) -> Iterator[Block]:
    high, marks = _strip_head(strip, lay)
    yield Block(high, marks, keep=True)
    rows = [_row(row, lay) for row in strip.rows]
    foot = _strip_foot(strip, lay)
    for i, (row_high, row_marks) in enumerate(rows):
        yield Block(row_high, row_marks, keep=i == len(rows) - 1 and bool(foot[0]))
    if foot[0]:
        yield Block(*foot)


def _strip_head(strip: Strip, lay: Layout) -> Group:
    drawn = lay.picture(strip.picture, *held_room(lay.size)) if strip.picture and strip.facts else (0.0, ())
    left = max((mark.wide for mark in drawn[1] if isinstance(mark, Drawn)), default=-3.0) + 3.0
    told = _facts(f"{strip.number}  {lay.say(strip.title)}", strip.facts, WIDE - left, lay)
    high = max(drawn[0], told[0]) + 0.8
    beside = tuple(moved(mark, left, 0.6) for mark in told[1])
    above = (Rule(0, 0.2, WIDE, 0.2, 0.5), *(moved(mark, 0.0, 0.8) for mark in drawn[1]), *beside)
    return high, (*above, Rule(0, high, WIDE, high))


def _facts(title: str, facts: Sequence[tuple[str, Text]], room: float, lay: Layout) -> Group:
    """The title, then names and values in a row, broken where it is full; a line to write on for what is not told."""
    high = lay.line * 1.25
    marks: list[Mark] = [Words(0.0, lay.line, title, lay.size * 1.2, True)]
    x, y = width(title, lay.size * 1.2, True) + 4.0, 0.0
    for name, value in facts:
        said, named = lay.say(value), width(f"{lay.say(name)} ", lay.size, True)
        need = named + (width(said, lay.size) if said else _WRITTEN) + 3.0
        if x and x + need > room:
            x, y = 0.0, y + high
        base = y + lay.line
        marks.append(Words(x, base, lay.say(name), lay.size, True))
        if not said:
            marks.append(Rule(x + named, base + 0.3, x + need - 3.0, base + 0.3))
        for i, line in enumerate(wrapped(said, room - named, lay.size)):
            marks.append(Words(x + named, base + i * high, line, lay.size))
            y += high if i else 0.0
        x += need
    return y + high, tuple(marks)


def _column_heads(lay: Layout) -> Group:
    marks = [
        Words(x + _GAP / 2, lay.line * 0.8, head, lay.size * 0.9, True)
        for x, head in zip(_starts(), HEADS, strict=True)
    ]
    return lay.line * 1.1, (*marks, Rule(0, lay.line * 1.1, WIDE, lay.line * 1.1, 0.25))


def _starts() -> list[float]:
    return [sum(COLUMNS[:i]) for i in range(len(COLUMNS))]


def _strip_foot(strip: Strip, lay: Layout) -> Group:
    told = [f"Do not let go {lay.say(gate.says)}" for gate in strip.gates]
    if told:
        told[-1] = " ".join((told[-1], *map(lay.say, strip.after)))
    gates = [_gate(words, True, lay, done=gate.done) for words, gate in zip(told, strip.gates, strict=True)]
    too_far = _gate(" ".join(lay.say(line) for line in strip.too_far), None, lay) if strip.too_far else (0.0, ())
    then = (_gate(lay.say(line), False, lay) for line in strip.after if not told)
    return stacked((*gates, *then, too_far))


def _gate(text: str, tick: bool | None, lay: Layout, *, done: bool = False) -> Group:
    """A line under a strip: with a tick, or without; what only helps (None) is not heavy."""
    high, marks = lay.words(text, WIDE - COLUMNS[0], bold=tick is not None)
    box = (_tick(4.2, 0.3, lay, done),) if tick else ()
    return high + 0.4, (*box, *(moved(mark, COLUMNS[0], 0.2) for mark in marks))


# A row


def _row(row: Row, lay: Layout) -> Group:
    inside, cells = told_inside(row, lay), _worded(row, lay)
    cells[1] = stacked((cells[1], _caution(row, lay, step_room(row)))) if inside else cells[1]
    cells[2] = lay.picture(row.picture, *small_room(row, lay)) if row.picture else (0.0, ())
    high = max(cell[0] for cell in cells.values())
    marks: list[Mark] = []
    for i, x in enumerate(_starts()):
        marks += [moved(mark, x + _GAP / 2, _BETWEEN / 2) for mark in cells[i][1]]
    warned = (0.0, ()) if inside else _caution(row, lay, WIDE - COLUMNS[0] - _GAP)
    warned = warned[0], tuple(moved(mark, COLUMNS[0] + _GAP / 2, 0.0) for mark in warned[1])
    below = stacked((warned, _ticks(row.ticks, lay) if row.ticks else (0.0, ())))
    marks += [moved(mark, 0.0, high + _BETWEEN / 2) for mark in below[1]]
    whole = high + below[0] + _BETWEEN
    return whole, (*marks, Rule(0, whole, WIDE, whole))


def told_inside(row: Row, lay: Layout) -> bool:
    """Whether a row's caution stands under its words: where that is no higher than a line of its own below the row."""
    words, others = _worded(row, lay), lay.picture(row.picture, *small_room(row, lay))[0] if row.picture else 0.0
    others = max(others, *(cell[0] for i, cell in words.items() if i != 1))
    inside = max(others, words[1][0] + _caution(row, lay, step_room(row))[0])
    return inside <= max(others, words[1][0]) + _caution(row, lay, WIDE - COLUMNS[0] - _GAP)[0]


def _caution(row: Row, lay: Layout, room: float) -> Group:
    return stacked(lay.words(text, room) for text in cautions(row, lay.say))


def _worded(row: Row, lay: Layout) -> dict[int, Group]:
    """Every cell but the drawing, by its column."""
    tool = lay.words(lay.say(row.tool) if step_columns(row) < 4 else "", COLUMNS[3] - _GAP)
    return {0: _number(row, lay), 1: _step(row, lay), 3: stacked((tool, _sets(row, lay))), 4: _limits(row, lay)}


def _number(row: Row, lay: Layout) -> Group:
    """The number, and a tick for each piece beside it, more of them below."""
    number = lay.words(str(row.number), COLUMNS[0], bold=True)
    ticks = [_tick(4.2 + (i % 2) * 3.0, (i // 2) * 3.0, lay, done) for i, done in enumerate(row.done)]
    return max(number[0], (len(ticks) + 1) // 2 * 3.0), (*number[1], *ticks)


def _step(row: Row, lay: Layout) -> Group:
    room = step_room(row)
    beside = f" ({lay.say(row.tool)})" if row.tool and step_columns(row) == 4 else ""
    words = [lay.words(f"{lay.say(row.title)}{beside}", room, bold=True)]
    words += [lay.words(" ".join(lay.say(line) for line in row.do), room)] if row.do else []
    words += [lay.words(note, room) for note in row.notes]
    words += [lay.words(f"Cannot be worked here: {lay.say(row.problem)}", room, bold=True)] if row.problem else []
    return stacked(words)


def _sets(row: Row, lay: Layout) -> Group:
    """What is set, the first heavy; as many on a line as it holds."""
    room, x, y = COLUMNS[3] - _GAP, 0.0, 0.0
    marks: list[Mark] = []
    for i, text in enumerate(map(lay.say, row.sets)):
        wide = width(text, lay.size, i == 0)
        if x and x + wide > room:
            x, y = 0.0, y + lay.line
        high, ones = lay.words(text, room - x, bold=i == 0)
        marks += [moved(mark, x, y) for mark in ones]
        y += high - lay.line
        x = x + wide + 2.0 if high <= lay.line else room
    return (y + lay.line if marks else 0.0), tuple(marks)


def _limits(row: Row, lay: Layout) -> Group:
    if row.measured is None:
        return 0.0, ()
    measured, room = row.measured, COLUMNS[4] - _GAP
    words = [lay.words(measured_words(row, lay.say), room)]
    words += [lay.words(bounds_text(measured.low, measured.high, lay.unit), room, bold=True)]
    wide = room / min(len(measured.readings), 2)
    places: list[Mark] = []
    for i, reading in enumerate(measured.readings):
        x, y = (i % 2) * wide, (i // 2) * lay.reading
        places.append(Rule(x, y + lay.reading - 0.8, x + wide - 2.0, y + lay.reading - 0.8))
        places.append(Words(x + 0.5, y + lay.reading - 1.3, lay.say(reading), lay.size))
    words.append(((len(measured.readings) + 1) // 2 * lay.reading, tuple(places)))
    return stacked(words)


# Ticks


def _ticks(ticks: Ticks, lay: Layout) -> Group:
    head, each = tick_words(ticks, lay.say)
    left, room = COLUMNS[0] + _GAP / 2, WIDE - COLUMNS[0] - _GAP
    lines: list[list[Mark]] = [[]]
    x = 0.0
    if head:
        first = lay.words(head, room, bold=True, size=lay.size * 0.95)
        lines = [[mark] for mark in first[1]]
        lines = [[moved(mark, 0.0, -i * line_height(lay.size * 0.95))] for i, (mark,) in enumerate(lines)]
        x = width(str(getattr(first[1][-1], "text", "")), lay.size * 0.95, True) + 3.0
    high = max(lay.line, lay.box + 0.4) + 0.3
    for number, done, words in each:
        label = f"{number}"
        need = width(label, lay.size * 0.9, True) + 0.7 + len(done) * (lay.box + 0.5) + 0.5
        need += width(words, lay.size) + 1.6 if words else 0.6
        if x and x + need > room:
            lines.append([])
            x = 0.0
        lines[-1] += _one_tick(x, label, done, words, lay)
        x += need
    return stacked((high, tuple(moved(mark, left, 0.0) for mark in line)) for line in lines)


def _one_tick(x: float, label: str, done: Iterable[bool], words: str, lay: Layout) -> list[Mark]:
    marks: list[Mark] = [Words(x, lay.line * 0.8, label, lay.size * 0.9, True)]
    x += width(label, lay.size * 0.9, True) + 0.7
    for one in done:
        marks.append(_tick(x, 0.0, lay, one))
        x += lay.box + 0.5
    return [*marks, Words(x + 0.3, lay.line * 0.8, words, lay.size)] if words else marks


# The end


def _true(card: Card, lay: Layout) -> Iterator[Block]:
    """The strips that are printed 1:1, after a line of known length; beside one another where there is room."""
    x, high, marks = 0.0, 0.0, list[Mark]()
    for one, words in true_strips(card.true, lay.unit):
        sheet = sheet_of(one, lay.unit, WIDE, 70.0, TRUE_TEXT)
        for piece, (start, wide) in enumerate(pieces(one, sheet, WIDE) if sheet else ()):
            if x and x + wide > WIDE:
                yield Block(high, tuple(marks))
                x, high, marks = 0.0, 0.0, []
            drawn = Drawn(0.0, 0.0, sheet, start, wide, TRUE_TEXT) if sheet else None
            tall = sheet.height + 2 * MARGIN if sheet else 0.0
            said = lay.words(lay.say(words) if piece == 0 else "", max(wide, 60.0))
            both = stacked(((tall, (drawn,) if drawn else ()), said))
            marks += [moved(mark, x, 0.0) for mark in both[1]]
            x, high = x + wide + 4.0, max(high, both[0])
    if marks:
        yield Block(high, tuple(marks))
