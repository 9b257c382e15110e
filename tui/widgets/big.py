"""Large characters that can be read from two metres, drawn with full blocks and blanks only."""

from __future__ import annotations

from tui.glyphs import plain
from tui.lines import Line

# Five columns by seven rows, one text per row of the letters in _ORDER; `#` is a block.
_ORDER = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ.,-+/#°'\"%:()= "
_ROWS = (
    " ### |  #  | ### | ### |   # |#####| ### |#####| ### | ### | ### |#### | ### |#### |#####|#####| ### |#   #| ### |"
    "  ###|#   #|#    |#   #|#   #| ### |#### | ### |#### | ####|#####|#   #|#   #|#   #|#   #|#   #|#####|"
    "     |     |     |     |     | # # | ##  |  #  | # # |##   |     |   # | #   |     |     ",
    "#   #| ##  |#   #|#   #|  ## |#    |#   #|    #|#   #|#   #|#   #|#   #|#   #|#   #|#    |#    |#   #|#   #|  #  |"
    "   # |#  # |#    |## ##|##  #|#   #|#   #|#   #|#   #|#    |  #  |#   #|#   #|#   #|#   #|#   #|    #|"
    "     |     |     |     |    #| # # |#  # |  #  | # # |##  #|     |  #  |  #  |     |     ",
    "#   #|  #  |    #|    #| # # |#### |#    |   # |#   #|#   #|#   #|#   #|#    |#   #|#    |#    |#    |#   #|  #  |"
    "   # |# #  |#    |# # #|# # #|#   #|#   #|#   #|#   #|#    |  #  |#   #|#   #|#   #| # # | # # |   # |"
    "     |     |     |  #  |   # |#####|#  # |     |     |   # |  #  | #   |   # |#####|     ",
    "#   #|  #  |   # |  ## |#  # |    #|#### |  #  | ### | ####|#####|#### |#    |#   #|#### |#### |# ###|#####|  #  |"
    "   # |##   |#    |# # #|#  ##|#   #|#### |# # #|#### | ### |  #  |#   #|#   #|# # #|  #  |  #  |  #  |"
    "     |     |#####|#####|  #  | # # | ##  |     |     |  #  |     | #   |   # |     |     ",
    "#   #|  #  |  #  |    #|#####|    #|#   #| #   |#   #|    #|#   #|#   #|#    |#   #|#    |#    |#   #|#   #|  #  |"
    "   # |# #  |#    |#   #|#   #|#   #|#    |#  # |# #  |    #|  #  |#   #|#   #|# # #| # # |  #  | #   |"
    "     |     |     |  #  | #   |#####|     |     |     | #   |     | #   |   # |#####|     ",
    "#   #|  #  | #   |#   #|   # |#   #|#   #| #   |#   #|   # |#   #|#   #|#   #|#   #|#    |#    |#   #|#   #|  #  |"
    "#  # |#  # |#    |#   #|#   #|#   #|#    | # # |#  # |    #|  #  |#   #| # # |## ##|#   #|  #  |#    |"
    " ##  | ##  |     |  #  |#    | # # |     |     |     |#  ##|  #  |  #  |  #  |     |     ",
    " ### | ### |#####| ### |   # | ### | ### | #   | ### | ##  |#   #|#### | ### |#### |#####|#    | ####|#   #| ### |"
    " ##  |#   #|#####|#   #|#   #| ### |#    |  # #|#   #|#### |  #  | ### |  #  |#   #|#   #|  #  |#####|"
    " ##  |  #  |     |     |     | # # |     |     |     |   ##|     |   # | #   |     |     ",
)
_FONT = dict(zip(_ORDER, map(list, zip(*(row.split("|") for row in _ROWS), strict=False)), strict=False))
_NARROW = ".,':"  # drawn in three columns, so that a number stays short
_SCALES = ((8, 4), (6, 4), (6, 3), (5, 3), (4, 3), (4, 2), (3, 2), (2, 2), (2, 1), (1, 1))  # cells for one block
_TALL = 7  # blocks in a letter's height

# Digits of lines, three rows high, for where there is no room for blocks.
_LINED = {
    "0": ("┌─┐", "│ │", "└─┘"), "1": (" ┐ ", " │ ", " │ "), "2": ("──┐", "┌─┘", "└──"), "3": ("──┐", " ─┤", "──┘"),
    "4": ("│ │", "└─┤", "  │"), "5": ("┌──", "└─┐", "──┘"), "6": ("┌──", "├─┐", "└─┘"), "7": ("──┐", "  │", "  │"),
    "8": ("┌─┐", "├─┤", "└─┘"), "9": ("┌─┐", "└─┤", "──┘"), ".": (" ", " ", "■"), "+": ("   ", "─┼─", "   "),
    "-": ("  ", "──", "  "), "/": ("  /", " / ", "/  "), "°": ("°", " ", " "), "'": ("'", " ", " "),
    '"': ('"', " ", " "),
}  # fmt: skip
LINED_TALL = 3


def can_draw(text: str) -> bool:
    """Whether every character of a text has a large form."""
    return all(c in _FONT for c in _letters(text))


def _letters(text: str) -> str:
    return plain(text).upper().replace("×", "X").strip()


def _glyph(c: str) -> list[str]:
    rows = _FONT[c]
    if c == "°":
        return [row[:4] for row in rows]
    return [row[:3] for row in rows] if c in _NARROW else rows


def large(text: str, width: int, height: int, role: str = "big") -> list[Line]:
    """The text in the largest characters that fit, or as one plain line where none do.

    >>> [run[0][0] for run in large("1", 5, 7)][1]
    ' ██  '
    """
    shown = _letters(text)
    if not shown or not can_draw(shown):
        return [[(plain(text), role)]]
    columns = columns_of(shown)
    for across, down in _SCALES:
        if columns * across <= width and _TALL * down <= height:
            return [[(row, role)] for row in drawn_at(shown, across, down)]
    return [[(plain(text), role)]]


def scales() -> tuple[tuple[int, int], ...]:
    """How many cells, across and down, a block may take; the largest first."""
    return _SCALES


def columns_of(text: str) -> int:
    """How many blocks a text is wide."""
    return sum(len(_glyph(c)[0]) for c in _letters(text)) + len(_letters(text)) - 1


def rows_at(down: int) -> int:
    """How many rows a letter takes when a block takes so many."""
    return _TALL * down


def drawn_at(text: str, across: int, down: int) -> list[str]:
    """A text in letters of one size."""
    glyphs = [_glyph(c) for c in _letters(text)]
    return [_row(glyphs, y, across) for y in range(_TALL) for _ in range(down)]


def _row(glyphs: list[list[str]], y: int, across: int) -> str:
    pixels = " ".join(glyph[y] for glyph in glyphs)
    return "".join(("█" if pixel == "#" else " ") * across for pixel in pixels)


def can_line(text: str) -> bool:
    """Whether a number can be drawn in lines, three rows high."""
    return bool(text) and all(c in _LINED for c in plain(text))


def lined(text: str) -> list[str]:
    """A number in lines, three rows high.

    >>> print("\\n".join(lined("2.5")))
    ──┐   ┌──
    ┌─┘   └─┐
    └── ■ ──┘
    """
    return [" ".join(_LINED[c][y] for c in plain(text)) for y in range(LINED_TALL)]
