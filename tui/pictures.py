"""By what pictures are drawn here: the glyphs of a console font, the finer ones of other fonts, or real images.

A terminal is never guessed to show images: it is asked (`Keyboard`), and has to answer. What a font holds cannot be
asked: the Linux console and what may run on it get the glyphs that every console font has. The shop's `pictures`
settles it: `images` as far as the terminal shows them, else `fine` or `plain`.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from typing import Literal

from engine.base.records import dataclass

Means = Literal["plain", "fine", "kitty", "sixel"]

# Source: ECMA-48 device attributes as terminals give them, 4 of them is sixel graphics (DEC STD 070); the cell's size in
# dots, CSI 16 t (xterm control sequences); the kitty graphics protocol's own query.
ASK = "\x1b[16t\x1b[c"
ASK_KITTY = "\x1b_Gi=31,s=1,v=1,a=q,t=d,f=24;AAAA\x1b\\"
_ANSWERS = r"\x1b\[\?([\d;]+)c|\x1b\[6;(\d+);(\d+)t|\x1b_Gi=31[^;]*;([^\x1b]*)\x1b\\"
_BEGUN = r"\x1b(?:\[(?:\?[\d;]*|6(?:;\d*){0,2})?|_(?:G[^\x1b]*(?:\x1b)?)?)?$"


@dataclass
class _Terminal:
    """What is known of the one terminal that this program draws on."""

    means: Means = "plain"
    glyphs: Means = "plain"
    cell: tuple[int, int] = (8, 16)  # dots across and down
    images: bool = True


_here = _Terminal()


def glyphs_for(environ: Mapping[str, str] = os.environ) -> Means:
    """Whether the font is likely to have braille patterns: not on a console, nor where a console may lie under it.

    >>> glyphs_for({"TERM": "linux"}), glyphs_for({"TERM": "xterm-256color"}), glyphs_for({"TERM": "screen"})
    ('plain', 'fine', 'plain')
    >>> glyphs_for({"TERM": "tmux-256color", "COLORTERM": "truecolor"})
    'fine'
    """
    term = environ.get("TERM", "")
    own = term.startswith("xterm") or bool(environ.get("COLORTERM"))
    return "fine" if own and term not in ("linux", "dumb", "") else "plain"


def begin_plainly(wanted: str | None, environ: Mapping[str, str] = os.environ) -> None:
    """Draw as the shop wants from now on, without images until the terminal has been asked."""
    _here.glyphs = glyphs_for(environ) if wanted != "plain" else "plain"
    _here.means = _here.glyphs
    _here.images = wanted in (None, "images")


def begin(wanted: str | None, environ: Mapping[str, str] = os.environ) -> str:
    """Draw as the shop wants from now on; what to ask the terminal for, "" for nothing.

    Images are asked for where they are wanted, can be made (Pillow is installed) and may be shown.
    """
    begin_plainly(wanted, environ)
    from importlib.util import find_spec  # nothing is asked before the first answer stands

    if not _here.images or glyphs_for(environ) == "plain" or find_spec("PIL") is None:
        return ""
    kitty = "kitty" in environ.get("TERM", "") or "KITTY_WINDOW_ID" in environ
    return (ASK_KITTY if kitty else "") + ASK


def answered(typed: str) -> tuple[str, str, bool]:
    """Take a terminal's answers out of what was typed: the keys, what may be the beginning of an answer, whether the
    means of drawing changed.

    >>> answered("a\\x1b[?62;22cb\\x1b[6;20")
    ('ab', '\\x1b[6;20', False)
    """
    before = _here.means
    keys = re.sub(_ANSWERS, _take, typed)
    begun = re.search(_BEGUN, keys)
    rest = keys[begun.start() :] if begun and len(keys) - begun.start() > 1 else ""  # a lone Escape is a key
    return keys[: len(keys) - len(rest)], rest, _here.means != before


def _take(found: re.Match[str]) -> str:
    attributes, high, wide, kitty = found.groups()
    if not _here.images:
        return ""
    if high and wide and 4 <= int(wide) <= 64 and 6 <= int(high) <= 128:
        _here.cell = int(wide), int(high)
    elif kitty == "OK":
        _here.means = "kitty"
    elif attributes and "4" in attributes.split(";")[1:] and _here.means != "kitty":
        _here.means = "sixel"
    return ""


def use(means: Means) -> None:
    """Draw by these means from now on."""
    _here.means = means


def means() -> Means:
    """By what pictures are drawn."""
    return _here.means


def cell() -> tuple[int, int]:
    """How many dots a cell has, across and down."""
    return _here.cell
