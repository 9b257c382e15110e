"""The large-type view: one thing to set, readable from two metres, and the worst caution under it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from engine.base.answer import Answer, Caution, Cell, Column, Table
from engine.base.quantity import show
from engine.base.setting import Setting, setting_text
from engine.base.showing import cell_text, figure_text
from tui.glyphs import plain
from tui.lines import Line, centred, line, wrapped
from tui.widgets.big import can_draw, large
from tui.widgets.warn import Shown, worst

_WORDS = re.compile(r"\bof \d+\b|[A-Za-z]+")


def numbers_of(text: str) -> str:
    """The numbers of a setting alone, to be drawn large over its words; empty if they do not tell it.

    >>> numbers_of("6 turns + 26 holes of 39"), numbers_of("start: pin in the marked hole")
    ('6 + 26', '')
    """
    bare = " ".join(_WORDS.sub(" ", text).split())
    return bare if re.fullmatch(r"[+-]?[\d.]+(?: [+-] [\d.]+)*", bare) else ""


def setting_lines(label: str, text: str, width: int, height: int) -> list[Line]:
    """A label, and under it the text as large as the room allows: the number large, its unit beside it; of a
    setting too long for that the numbers large and its words under them."""
    number, _, unit = plain(text).partition(" ")
    gap = [line()] if height >= 9 else []
    room = max(height - 1 - len(gap), 1)
    if unit and can_draw(number) and number[:1] in "0123456789+-.#Ø" and len(unit) <= 12 and "+" not in unit:
        big = large(number, width - len(unit) - 1, room)
        big[-1] = [*big[-1], (f" {unit}", "strong")]
    else:
        unit = ""
        big = large(text, width, room)
        if len(big) == 1 and (numbers := numbers_of(text)):
            big = large(numbers, width, room - 1)
            gap = [*gap, centred([(plain(text), "big")], width)]
    if len(big) == 1:
        return [centred([(plain(label), "strong")], width), *gap[:1], *_middled(text, width)][:height]
    inset = max((width - max(len(runs[0][0]) for runs in big) - len(unit) - 1) // 2, 0)
    body = [[(" " * inset, "text"), *runs] for runs in big]
    return [centred([(plain(label), "strong")], width), *gap, *body][:height]


def _middled(text: str, width: int) -> list[Line]:
    """Words too long to be drawn large, in the middle."""
    return [centred(runs, width) for runs in wrapped(text, width, "big")]


def row_setting(table: Table, row: int, unit: str) -> list[tuple[str, str]]:
    """What is set on the machine for a row, most important first: (label, text with its unit).

    Turns and the dial's reading that follows them are one setting: 21 + 0.400 mm.
    """
    names = table.setting or tuple(c.name for c in table.columns[1:3])
    cells = {c.name: (c, v) for c, v in zip(table.columns, table.rows[row - 1], strict=True)}
    found: list[tuple[str, str]] = []
    turns: Column | None = None
    for column, cell in (cells[n] for n in names if n in cells):
        text = _with_unit(column, cell, unit)
        if turns is not None and column.dimension == "length":
            label, before = found.pop()
            found.append((f"{label}, {column.label[:1].lower()}{column.label[1:]}", f"{before} + {text}"))
        else:
            found.append((column.label, text))
        turns = column if column.name.endswith("turns") else None
    return found


def _with_unit(column: Column, cell: Cell, unit: str) -> str:
    if isinstance(cell, Setting):
        return setting_text(cell)
    if not isinstance(cell, int | float) or column.dimension == "text":
        return cell_text(cell, column, unit)
    return show(cell, column.dimension, unit, decimals=column.decimals)


def settings_lines(settings: Sequence[tuple[str, str]], width: int, height: int) -> list[Line]:
    """Several settings: each large if there is room for all, else the first large and the others in a line each."""
    if not settings:
        return []
    each = height // len(settings)
    if each >= 8:
        return [runs for label, text in settings for runs in _block(label, text, width, each)]
    (label, text), *others = settings
    extra = [centred([(f"{plain(a)}: {plain(b)}", "strong")], width) for a, b in others]
    room = max(height - len(extra), 3)
    return [*setting_lines(label, text, width, room), *extra][:height]


def _block(label: str, text: str, width: int, height: int) -> list[Line]:
    lines = setting_lines(label, text, width, height)
    return [*lines, *[line()] * (height - len(lines))]


def large_view(
    answer: Answer,
    cautions: Sequence[Caution],
    width: int,
    height: int,
    unit: str,
    table: Table | None,
    row: int,
) -> Shown:
    """The lead figure large; or, with a countable table in hand, the settings of the row in hand."""
    warned = worst(cautions, width, 2, unit)
    foot = warned.lines
    room = max(height - len(foot) - 1, 3)
    if table is not None:
        head = f"{table.count_noun} {row} of {len(table.rows)}".capitalize()
        body = [
            centred([(head, "head")], width),
            *settings_lines(row_setting(table, row, unit), width, room - 1),
        ]
    else:
        body = setting_lines(answer.lead.label, figure_text(answer.lead, unit), width, room)
    gap = [line()] * max(height - len(body) - len(foot), 0)
    return Shown([*body, *gap, *foot][:height], warned.asked)
