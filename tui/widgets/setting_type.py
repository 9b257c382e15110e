"""A setting in large type: its numbers large, its words small beside them and in their own case.

`8 turns, dial 1.350` keeps every word: nothing that belongs to the setting is left out to make a number larger.
"""

from __future__ import annotations

import re

from tui.glyphs import plain
from tui.lines import Line, centred, width_of, wrapped
from tui.widgets.big import LINED_TALL, can_draw, can_line, columns_of, drawn_at, large, lined, rows_at, scales

_NUMBER = re.compile(r"[+-]?[#Ø]?\d[\d.,/°'\"]*%?|\+")

Piece = tuple[str, bool]  # words or a number, and whether it is drawn large
Group = list[Piece]  # what stays on one line


def head_and_setting(text: str) -> tuple[str, str]:
    """The wheel's name before the colon, and what is set on it.

    >>> head_and_setting("Cross slide in: 1 turn, dial 0.25"), head_and_setting("5.1 mm")
    (('Cross slide in', '1 turn, dial 0.25'), ('', '5.1 mm'))
    """
    head, colon, rest = text.partition(": ")
    return (head, rest) if colon and head[:1].isupper() and not re.search(r"\d", head) else ("", text)


def groups_of(text: str) -> list[Group]:
    """The pieces of a setting, in groups at whose ends a line may be broken.

    >>> groups_of("8 turns, dial 1.36")
    [[('8', True), ('turns,', False)], [('dial', False), ('1.36', True)]]
    >>> groups_of("1 turn + 13 holes of 39")
    [[('1', True), ('turn', False)], [('+', True), ('13', True), ('holes of 39', False)]]
    """
    groups: list[Group] = [[]]
    before = ""
    for word in plain(text).split():
        number = bool(_NUMBER.fullmatch(word)) and before != "of" and can_draw(word)
        if word == "+" or before.endswith((",", ";")):
            groups.append([])
        group = groups[-1]
        if group and not number and not group[-1][1]:
            group[-1] = (f"{group[-1][0]} {word}", False)
        else:
            group.append((word, number))
        before = word
    return [group for group in groups if group]


def has_number(text: str) -> bool:
    """Whether a setting has a number that is drawn large."""
    return any(is_large for group in groups_of(text) for _, is_large in group)


def typed_large(text: str, width: int, height: int, word: str = "") -> list[Line]:
    """A setting as large as its room allows, broken over lines where that makes it larger; words without a number
    likewise. `word` (long, short) stands large before it."""
    groups = groups_of(text)
    if not has_number(text) or text[:1].islower():
        return _words_large(" ".join(filter(None, (word, plain(text)))), width, height)
    if word:
        groups = [[(word, True)], *groups]
    ways = [[[p for group in groups for p in group]], *([groups] if len(groups) > 1 else [])]
    if len(groups) > 2:
        ways.insert(1, [groups[0], [p for group in groups[1:] for p in group]])
    for across, down in scales():
        for rows in ways:
            tall = rows_at(down) * len(rows) + len(rows) - 1
            if tall <= height and max(_width(row, across) for row in rows) <= width:
                return _stacked([_blocks(row, across, down) for row in rows], width)
    return typed_lined(text, width, height)


def _width(row: Group, across: int) -> int:
    return sum(columns_of(t) * across if large_ else len(t) for t, large_ in row) + _gap(across) * (len(row) - 1)


def _gap(across: int) -> int:
    return max(2, across)


def _blocks(row: Group, across: int, down: int) -> list[Line]:
    tall = rows_at(down)
    lines: list[Line] = [[] for _ in range(tall)]
    for i, (text, is_large) in enumerate(row):
        gap = " " * _gap(across) if i else ""
        body = drawn_at(text, across, down) if is_large else [" " * len(text)] * (tall - 1) + [text]
        for y, part in enumerate(body):
            lines[y].append((gap + part, "big" if is_large else "strong"))
    return lines


def typed_lined(text: str, width: int, height: int) -> list[Line]:
    """A setting with its numbers three rows high, drawn in lines; plain where not even that has room."""
    row = [piece for group in groups_of(text) for piece in group]
    if height < LINED_TALL or not all(can_line(t) for t, is_large in row if is_large):
        return _plain(text, width, height)
    lines: list[Line] = [[] for _ in range(LINED_TALL)]
    for i, (words, is_large) in enumerate(row):
        gap = "  " if i else ""
        body = lined(words) if is_large else [" " * len(words), " " * len(words), words]
        for y, part in enumerate(body):
            lines[y].append((gap + part, "lead" if is_large else "strong"))
    return lines if width_of(lines[0]) <= width else _plain(text, width, height)


def _plain(text: str, width: int, height: int) -> list[Line]:
    return [centred(runs, width) for runs in wrapped(text, width, "big")][: max(height, 1)]


def _words_large(text: str, width: int, height: int) -> list[Line]:
    """Words in large letters, on the number of lines that makes them largest."""
    if can_draw(text):
        words = text.split()
        for across, down in scales():
            rows: list[str] = []
            for word in words:
                joined = f"{rows[-1]} {word}" if rows else word
                if rows and columns_of(joined) * across <= width:
                    rows[-1] = joined
                else:
                    rows.append(word)
            fits = all(columns_of(row) * across <= width for row in rows)
            if rows and fits and rows_at(down) * len(rows) + len(rows) - 1 <= height:
                return _stacked([large(row, columns_of(row) * across, rows_at(down)) for row in rows], width)
    return _plain(text, width, height)


def _stacked(blocks: list[list[Line]], width: int) -> list[Line]:
    """Rows of large type under one another, each in the middle."""
    out: list[Line] = []
    for block in blocks:
        inset = max((width - max(map(width_of, block))) // 2, 0)
        out += [[]] if out else []
        out += [[(" " * inset, "text"), *runs] for runs in block]
    return out
