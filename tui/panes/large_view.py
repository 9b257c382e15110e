"""The large-type view: one thing to set, readable from two metres, and the worst caution under it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import NamedTuple

from engine.base.answer import Answer, Caution, Cell, Column, Figure, Table
from engine.base.quantity import show
from engine.base.setting import Setting, setting_text
from engine.base.showing import cell_text, figure_text
from tui.glyphs import plain
from tui.lines import Line, centred, line, wrapped
from tui.widgets.setting_type import has_number, head_and_setting, typed_large
from tui.widgets.warn import Shown, worst

_TURNS = re.compile(r"[,:]? (?:whole )?turns$")
_SHORT = 10  # letters of words with a number in them (line 12) that stand large
_WORD = 8  # letters of a word (long, short) that stands large before its setting
_SAMPLE = 60  # rows that are looked at to see which setting changes
_LARGE = 8  # rows of a large setting with its label
_SECOND = 8  # rows that a second block of large type needs, with its label


def setting_lines(label: str, text: str, width: int, height: int, word: str = "") -> list[Line]:
    """A label with the wheel's name, and under it the setting as large as the room allows."""
    wheel, setting = head_and_setting(plain(text))
    gap = [line()] if 9 <= height <= 14 or height >= 17 else []  # 14 rows of type come first
    head = " · ".join(_without_echo([*plain(label).split(" · "), wheel]))
    body = typed_large(setting, width, max(height - 1 - len(gap), 1), word)
    widest = max(sum(len(t) for t, _ in runs) for runs in body)
    if len(body) <= 3:  # not in blocks: in the middle
        body = [[(" " * max((width - widest) // 2, 0), "text"), *runs] for runs in body]
    return [centred([(head, "strong")], width), *gap, *body][:height]


def _without_echo(words: Sequence[str]) -> list[str]:
    """Words in a row, without those that the one after them says again: `Saddle` before `Saddle in`."""
    kept = [word for word in words if word]
    return [w for i, w in enumerate(kept) if not any(w.casefold() in later.casefold() for later in kept[i + 1 :])]


def row_setting(table: Table, row: int, unit: str) -> list[tuple[str, str]]:
    """What is set on the machine for a row, most important first: (label, text with its unit).

    Turns and the dial's reading that follows them are one setting: 21 turns, dial 0.400 mm.
    """
    names = table.setting or tuple(c.name for c in table.columns[1:3])
    cells = {c.name: (c, v) for c, v in zip(table.columns, table.rows[row - 1], strict=True)}
    found: list[tuple[str, str]] = []
    turns: Column | None = None
    for column, cell in (cells[n] for n in names if n in cells):
        text = _with_unit(column, cell, unit)
        if turns is not None and column.dimension == "length":
            label, before = found.pop()
            noun = "turn" if before in ("1", "-1") else "turns"
            found.append((_TURNS.sub("", label), f"{before} {noun}, dial {text}"))
        else:
            found.append((column.label, text))
        turns = column if column.name.endswith("turns") else None
    return [(label, text) for label, text in found if text]


def _with_unit(column: Column, cell: Cell, unit: str) -> str:
    if isinstance(cell, Setting):
        return setting_text(cell, unit=unit)
    if not isinstance(cell, int | float) or column.dimension == "text":
        return cell_text(cell, column, unit)
    return show(cell, column.dimension, unit, decimals=column.decimals)


def settings_lines(settings: Sequence[tuple[str, str]], width: int, height: int) -> list[Line]:
    """Several settings: each large if there is room for all, else the first large and the others in a line each."""
    if not settings:
        return []
    each = height // len(settings)
    if each >= _SECOND:
        return [runs for label, text in settings for runs in _block(label, text, width, each)]
    (label, text), *others = settings
    extra = [centred([(f"{plain(a)}: {plain(b)}", "strong")], width) for a, b in others]
    room = max(height - len(extra), 3)
    return [*setting_lines(label, text, width, room), *extra][:height]


def _block(label: str, text: str, width: int, height: int) -> list[Line]:
    lines = setting_lines(label, text, width, height)
    return [*lines, *[line()] * (height - len(lines))]


def _changing(table: Table, row: int, unit: str, settings: Sequence[tuple[str, str]]) -> set[str]:
    """The labels of the settings that are not the same in every row after the first."""
    last = min(len(table.rows), _SAMPLE)
    seen = [dict(row_setting(table, r, unit)) for r in {*range(2, last + 1), row}]
    return {label for label, _ in settings if len({one.get(label) for one in seen}) > 1}


class _Parts(NamedTuple):
    """A row's settings as they stand on the screen: the largest with its word, a second one where there is room, the
    rest in a line each."""

    main: tuple[str, str]
    word: str
    second: tuple[str, str] | None
    small: list[Line]


def _parts(table: Table, row: int, unit: str, width: int, settings: Sequence[tuple[str, str]]) -> _Parts:
    moving = _changing(table, row, unit, settings)
    main = next((s for s in settings if s[0] in moving and _can_be_large(s[1])), settings[0])
    word = next((t for _, t in settings if t.isalpha() and len(t) <= _WORD and (_, t) != main), "")
    rest = [s for s in settings if s != main and s[1] != word]
    turned = [s for s in rest if _is_turned(s[1])]
    second = next((s for s in turned if s[0] in moving), turned[0] if turned else None)
    before = _before(table, row, unit)
    small = [runs for s in rest if s != second for runs in _other(s, before, width)]
    # In a dry run the place that a move leads to is another each time; the move alone can change.
    small += _since(table, row, settings[0] if table.aside else main, word, before, width)
    return _Parts(main, word, second, small)


def _in_rows(lines: Sequence[Line], room: int, width: int) -> list[Line]:
    """Lines centred; where there are more than the room has, those that fit side by side share one."""
    out: list[Line] = []
    for runs in lines:
        beside = [*out[-1], ("   ", "text"), *runs] if out else runs
        if out and len(lines) > room and sum(len(text) for text, _ in beside) <= width:
            out[-1] = beside
        else:
            out.append(runs)
    return [centred(runs, width) for runs in out]


def _is_turned(text: str) -> bool:
    """Whether the hand turns a wheel or a crank for a setting."""
    first = head_and_setting(text)[1][:1]
    return (first.isdigit() or first == "-") and ("turn" in text or "hole" in text)


def row_lines(table: Table, row: int, unit: str, width: int, height: int) -> list[Line]:
    """The row in hand: what changes from row to row is the largest, what stays is a line, and what the row before
    was is said."""
    settings = row_setting(table, row, unit)
    if height < 2:
        return []
    if not settings:
        count = f"{row} of {len(table.rows)}"
        return setting_lines(f"{table.count_noun} {count} · by hand".capitalize(), count, width, height)
    main, word, second, small = _parts(table, row, unit, width, settings)
    label = f"{f'{table.count_noun} {row} of {len(table.rows)}'.capitalize()} · {main[0]}"
    room = height - len(small)
    if second and room >= 2 * _SECOND:
        above = setting_lines(label, main[1], width, room // 2, word)
        above += [line()] * (room // 2 - len(above))
        small = _in_rows(small, len(small), width)
        return [*above, *setting_lines(*second, width, room - room // 2), *small][:height]
    if second:
        small = [*_other(second, _before(table, row, unit), width), *small]
    small = _in_rows(small, height - _LARGE, width)
    room = max(height - len(small), min(height, _LARGE))
    return [*setting_lines(label, main[1], width, room, word), *small][:height]


def _before(table: Table, row: int, unit: str) -> dict[str, str]:
    return dict(row_setting(table, row - 1, unit)) if row > 1 else {}


def _can_be_large(text: str) -> bool:
    """Whether a setting has a number that is drawn large: of words with one in them only the shortest."""
    return has_number(text) and (not text[:1].islower() or len(text) <= _SHORT)


def _other(setting: tuple[str, str], before: dict[str, str], width: int) -> list[Line]:
    label, text = setting
    if text.startswith(label) and ":" in text:  # the wheel says what it is
        same = " · as before" if before.get(label) == text else ""
        return wrapped(f"{text}{same}", width, "strong")
    same = " · as before" if before.get(label) == text else ""
    return wrapped(f"{label}: {text}{same}", width, "strong")


def _since(table: Table, row: int, main: tuple[str, str], word: str, before: dict[str, str], width: int) -> list[Line]:
    """What differs from the row before."""
    if not before:
        return []
    was = before.get(main[0], "")
    words = next((t for t in before.values() if t.isalpha() and len(t) <= _WORD), "")
    last = f"{table.count_noun} {row - 1}"
    if was == main[1] and words == word:
        return wrapped(f"the same as {last}", width, "hint")
    said = ", ".join(filter(None, (words, head_and_setting(was)[1])))
    return wrapped(f"CHANGED: {last} was {said}" if said else "", width, "caution")


def large_view(
    answer: Answer, cautions: Sequence[Caution], width: int, height: int, unit: str, table: Table | None, row: int
) -> Shown:
    """The lead figure large, other settings under it; or, with a countable table in hand, the row's settings, the
    count and the next row."""
    warned = worst(cautions, width, 2, unit)
    foot = warned.lines
    room = max(height - len(foot), 3)
    body = _figures(answer, width, room, unit) if table is None else counted_lines(table, row, width, room, unit)
    gap = [line()] * max(height - len(body) - len(foot), 0)
    return Shown([*body, *gap, *foot][:height], warned.asked)


def _figures(answer: Answer, width: int, room: int, unit: str) -> list[Line]:
    lead = answer.lead
    others: list[Figure] = [f for f in answer.figures[1:] if f.setting is not None]
    others += [f for f in answer.figures[1:3] if f not in others]
    each = (wrapped(f"{f.label}: {figure_text(f, unit)}", width, "strong") for f in others[:3])
    extra = [centred(runs, width) for rows in each for runs in rows]
    body = setting_lines(lead.label, figure_text(lead, unit), width, max(room - len(extra) - 1, 3))
    return [*body, line(), *extra][:room]


def counted_lines(table: Table, row: int, width: int, room: int, unit: str) -> list[Line]:
    """The row in hand as large as it goes, the count large where there is room, and the next row."""
    following: list[Line] = []
    said = "; ".join(text for _, text in row_setting(table, row + 1, unit)) if row < len(table.rows) else ""
    if said:
        following = [centred(runs, width) for runs in wrapped(f"Next {table.count_noun}: {said}", width, "hint")[:2]]
    left = room - len(following)
    settings = row_setting(table, row, unit)
    count: list[Line] = []
    if settings:
        parts = _parts(table, row, unit, width, settings)
        # A second setting stands large before the count does, which is in the head too.
        if left - len(parts.small) - (parts.second is not None) >= (3 if parts.second else 2) * _SECOND + 2:
            count = [line(), *typed_large(f"{row} of {len(table.rows)}", width, max(left // 4, 7))]
    body = [*row_lines(table, row, unit, width, left - len(count)), *count]
    gap = [line()] if len(body) < left else []
    return [*body, *gap, *following][:room]
