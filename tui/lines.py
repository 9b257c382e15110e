"""A screen as lines of text with roles. What a role looks like is decided in look.py; nothing here knows Textual.

A line is a list of (text, role) runs. Every screen part is a function that returns such lines, so it can be tried,
tested and put together without a terminal.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import lru_cache

from tui.glyphs import plain

Run = tuple[str, str]
Line = list[Run]


def line(text: str = "", role: str = "text") -> Line:
    """One line in one role."""
    return [(plain(text), role)]


def width_of(runs: Line) -> int:
    """How many cells a line takes."""
    cells = 0
    for text, _ in runs:  # asked a hundred times a key: a generator takes twice as long
        cells += len(text)
    return cells


def fitted(runs: Line, width: int, fill: str = "text") -> Line:
    """The line cut (with a … as its last cell) or filled with blanks to a width.

    >>> fitted([("abcdef", "text")], 4), fitted([("ab", "value")], 4)
    ([('abc…', 'text')], [('ab', 'value'), ('  ', 'text')])
    """
    used = width_of(runs)
    if used == width:
        return runs
    if used < width:
        return [*runs, (" " * (width - used), fill)]
    kept: Line = []
    room = width
    for text, role in runs:
        if len(text) >= room:
            cut = text[: max(room - 1, 0)] + "…" if room else ""
            return [*kept, (cut[:room], role)] if room else kept
        kept.append((text, role))
        room -= len(text)
    return kept


def wrapped(text: str, width: int, role: str = "text", first: str = "", rest: str | None = None) -> list[Line]:
    """Words broken into lines; `first` begins the first line, `rest` the others (blanks of its length if None).

    >>> [run[0][0] for run in wrapped("one two three", 9, first="- ")]
    ['- one two', '  three']
    """
    later = " " * len(first) if rest is None else rest
    return [[(broken, role)] for broken in _broken(plain(text), width, first, later)]


@lru_cache(512)  # most of what a key paints stood there before it
def _broken(text: str, width: int, lead: str, later: str) -> tuple[str, ...]:
    words, begun = "", False  # what is gathered for a line, and whether anything is
    out: list[str] = []
    for word in text.split(" "):
        while len(word) > max(width - len(lead), 1):
            room = max(width - len(lead) - (len(words) + 1 if begun else 0), 0)
            if room < 8 and begun:
                out.append(lead + words)
            else:
                at = max(room, 1)
                out.append(f"{lead}{words} {word[:at]}" if begun else lead + word[:at])
                word = word[at:]
            lead, words, begun = later, "", False
        if begun and len(lead) + len(words) + 1 + len(word) > width:
            out.append(lead + words)
            lead, begun = later, False
        words, begun = f"{words} {word}" if begun else word, True
    out.append(lead + words)
    return tuple(out)


def cut(text: str, width: int) -> str:
    """Text no longer than a width, with … where it was cut.

    >>> cut("tailstock", 5), cut("jaws", 5)
    ('tail…', 'jaws')
    """
    return text if len(text) <= width else text[: max(width - 1, 0)] + "…"[: max(width, 0)]


def beside(columns: Iterable[tuple[Sequence[Line], int]], height: int, rule: str = "│") -> list[Line]:
    """Columns of (lines, width) set beside one another with a rule between, cut or filled to a height."""
    blocks = [(list(lines)[:height], width) for lines, width in columns]
    out: list[Line] = []
    for y in range(height):
        row: Line = []
        for i, (block, width) in enumerate(blocks):
            if i and rule:
                row.append((rule, "rule"))
            row.extend(fitted(block[y] if y < len(block) else [], width))
        out.append(row)
    return out


def heading(text: str, width: int, right: str = "", role: str = "head") -> Line:
    """A rule with words in it: `── Answer ───── mm ──`."""
    tail = f" {plain(right)} ──" if right else ""
    if len(tail) + 16 > width or (len(tail) + len(text) + 5 > width >= len(text) + 5):
        tail = ""  # the title whole is worth more
    front = cut(f"── {plain(text)}", max(width - len(tail) - 2, 1)) + " "
    front = front[: max(width, 0)]
    return [(front, role), ("─" * max(width - len(front) - len(tail), 0), "rule"), (tail, "rule")]


def centred(runs: Line, width: int) -> Line:
    """The line with blanks before it so that it stands in the middle."""
    return [(" " * max((width - width_of(runs)) // 2, 0), "text"), *runs]


def window(lines: Sequence[Line], top: int, height: int, width: int) -> tuple[list[Line], int]:
    """The lines that show in a height from a scroll position, with a bar at the right if some do not; and the
    position as it was allowed."""
    most = max(len(lines) - height, 0)
    top = min(max(top, 0), most)
    if not most or width < 4 or height < 1:
        return [fitted(runs, width) for runs in lines[top : top + height]], top
    shown = list(lines[top : top + height])
    size = max(height * height // len(lines), 1)
    start = (height - size) * top // most
    for y, runs in enumerate(shown):
        inside = start <= y < start + size
        mark = "█" if inside else "│"
        if y == 0 and top and not inside:
            mark = "▲"
        elif y == height - 1 and top < most and not inside:
            mark = "▼"
        shown[y] = [*fitted(runs, width - 2), (" ", "text"), (mark, "rule")]
    return shown, top
