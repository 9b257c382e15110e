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
_FONT = {c: [row.split("|")[i] for row in _ROWS] for i, c in enumerate(_ORDER)}
_NARROW = ".,°':"  # drawn in three columns, so that a number stays short
_SCALES = ((8, 4), (6, 3), (5, 3), (4, 2), (3, 2), (2, 1), (1, 1))  # cells across and down for one block


def can_draw(text: str) -> bool:
    """Whether every character of a text has a large form."""
    return all(c in _FONT for c in plain(text).upper().replace("×", "X"))


def _glyph(c: str) -> list[str]:
    rows = _FONT[c]
    return [row[:3] for row in rows] if c in _NARROW else rows


def large(text: str, width: int, height: int, role: str = "big") -> list[Line]:
    """The text in the largest characters that fit, or as one plain line where none do.

    >>> [run[0][0] for run in large("1", 5, 7)][1]
    ' ██  '
    """
    shown = plain(text).upper().replace("×", "X").strip()
    if not shown or not can_draw(shown):
        return [[(plain(text), role)]]
    glyphs = [_glyph(c) for c in shown]
    columns = sum(len(g[0]) for g in glyphs) + len(glyphs) - 1
    for across, down in _SCALES:
        if columns * across <= width and 7 * down <= height:
            return [[(_row(glyphs, y, across), role)] for y in range(7) for _ in range(down)]
    return [[(plain(text), role)]]


def _row(glyphs: list[list[str]], y: int, across: int) -> str:
    pixels = " ".join(glyph[y] for glyph in glyphs)
    return "".join(("█" if pixel == "#" else " ") * across for pixel in pixels)
