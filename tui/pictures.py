"""By what pictures are drawn here: the glyphs of a console font, the finer ones of other fonts, or real images.

A terminal is never guessed to show images: it has said so itself (terminal.py asks it). What a font holds cannot be
asked: the Linux console and what may run on it get the glyphs that every console font has.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import Literal

Means = Literal["plain", "fine", "kitty", "sixel"]
_FINE = ("xterm", "rxvt", "alacritty", "foot", "tmux-256color", "screen-256color", "konsole", "vte", "st-256color")
_means: Means = "plain"


def glyphs_for(environ: Mapping[str, str] = os.environ) -> Means:
    """Whether the font is likely to have braille patterns: not on a console, nor where a console may lie under it.

    >>> glyphs_for({"TERM": "linux"}), glyphs_for({"TERM": "xterm-256color"}), glyphs_for({"TERM": "screen"})
    ('plain', 'fine', 'plain')
    """
    return "fine" if environ.get("TERM", "").startswith(_FINE) else "plain"


def use(means: Means) -> None:
    """Draw by these means from now on: one program draws on one terminal."""
    global _means
    _means = means


def means() -> Means:
    """By what pictures are drawn."""
    return _means
