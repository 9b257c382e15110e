"""How wide words are in print, and how they are broken into lines. Lengths in mm, sizes in points."""

from __future__ import annotations

from functools import cache

from engine.base.tables import rows
from tui.output import nearest

POINT = 25.4 / 72  # mm
LEADING = 1.12  # a line is so many times as high as its letters


@cache
def _widths(bold: bool) -> dict[str, int]:
    table = rows("paper/letter_widths.csv")
    return {bytes([int(row["code"])]).decode("cp1252"): int(row["bold" if bold else "regular"]) for row in table}


@cache
def printable(text: str) -> str:
    """A text in the letters that every printer has: the nearest of them for the others.

    >>> printable("≤ 5 µm → in")
    '<= 5 µm -> in'
    """
    return nearest(text, "cp1252")


@cache
def width(text: str, size: float, bold: bool = False) -> float:
    """How wide a text is. [mm]

    >>> round(width("0.050", 10), 2)
    8.82
    """
    known = _widths(bold)
    return sum(known.get(letter, 556) for letter in printable(text)) / 1000 * size * POINT


def wrapped(text: str, room: float, size: float, bold: bool = False) -> list[str]:
    """A text in lines of at most this width; a word that is wider is broken.

    >>> wrapped("Face the end clean", 17, 10)
    ['Face the', 'end clean']
    """
    lines: list[str] = []
    now = ""
    for word in text.split():
        tried = f"{now} {word}" if now else word
        if width(tried, size, bold) <= room:
            now = tried
            continue
        lines += [now] if now else []
        while width(word, size, bold) > room and len(word) > 1:
            fits = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or width(word[:n], size, bold) <= room)
            lines.append(word[:fits])
            word = word[fits:]
        now = word
    return [*lines, now] if now else lines


def line_height(size: float) -> float:
    """How high a line of this size is. [mm]"""
    return size * POINT * LEADING
