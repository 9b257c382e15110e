"""The characters a console font has. Everything that is drawn passes through `plain` first."""

from __future__ import annotations

import re

from tui.wording import spoken

_STEEL = re.compile(r"\bhss\b")  # a word of the files; on a screen in capitals

_DRAWING = "─│┌┐└┘├┤┬┴┼═║█░▒■▲▼←↑→↓•·±÷≤≥≈°²½¼µ×Øø–—’‘“”…£§¾³"
_LATIN = "".join(chr(c) for c in range(0xC0, 0x100) if c not in (0xD7, 0xF7))
SAFE = frozenset("".join(map(chr, range(32, 127))) + _DRAWING + _LATIN)

NO_CHARACTER = "\ufffd"  # what stands for a byte that is no UTF-8

# What is often typed or written and has no glyph on a console: the nearest that has one.
_NEAREST = {
    "\u2212": "-",
    "\u2010": "-",
    "\u2011": "-",
    "\u00a0": " ",
    "\u202f": " ",
    "\u2009": " ",
    "\t": " ",
    "\n": " ",
    "′": "'",
    "″": '"',
    "⌀": "Ø",
    "√": "root ",
    "Ω": "ohm",
    "μ": "µ",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
    "✓": "yes",
    "∠": "angle ",
}


def plain(text: str) -> str:
    """The text in the words of the shop, with only glyphs of a console font in it, each one cell wide.

    >>> plain("5′ \\x1b[31mred"), plain("Ø 6 × ½")
    ("5' ?[31mred", 'Ø 6 × ½')
    """
    text = spoken(text)
    if "hss" in text:
        text = _STEEL.sub("HSS", text)
    return text if text.isascii() and text.isprintable() else own(text)


def own(text: str) -> str:
    """The same of the person's own words, which stay as they were written.

    >>> own("by the vice ✓")
    'by the vice yes'
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(c if c in SAFE else _NEAREST.get(c, "?") for c in text)
