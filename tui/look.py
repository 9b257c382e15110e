"""What each role looks like: three looks that use the named colours only, so that 8 backgrounds are enough.

No state is told by colour alone: a role that means something also has a word, a bracket or a mark in the text.
"""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from rich.style import Style

LOOKS = ("dark", "light", "mono")

# role: (foreground, background, bold) in the dark look, then in the light one
_COLOURS: dict[str, tuple[tuple[str, str, bool], tuple[str, str, bool]]] = {
    "text": (("white", "black", False), ("black", "white", False)),
    "strong": (("white", "black", True), ("black", "white", True)),
    "label": (("white", "black", False), ("black", "white", False)),
    "value": (("white", "black", True), ("black", "white", True)),
    "lead": (("green", "black", True), ("blue", "white", True)),
    "big": (("white", "black", True), ("black", "white", True)),
    "hint": (("cyan", "black", False), ("blue", "white", False)),
    "rule": (("cyan", "black", False), ("blue", "white", False)),
    "head": (("cyan", "black", True), ("blue", "white", True)),
    "bar": (("cyan", "black", False), ("blue", "white", False)),
    "bar-strong": (("white", "black", True), ("black", "white", True)),
    "bar-on": (("black", "green", False), ("white", "green", True)),
    "on": (("black", "green", False), ("white", "green", True)),
    "caret": (("black", "white", False), ("black", "yellow", False)),
    "bad": (("white", "red", True), ("white", "red", True)),
    "danger": (("white", "red", True), ("white", "red", True)),
    "warning": (("yellow", "black", True), ("red", "white", True)),
    "caution": (("yellow", "black", False), ("magenta", "white", True)),
    "question": (("magenta", "black", True), ("magenta", "white", True)),
    "stale": (("cyan", "black", False), ("blue", "white", False)),
    "mark": (("black", "green", False), ("white", "green", True)),
}
_REVERSED = {"bar-on", "on", "caret", "bad", "danger", "mark"}


def look_of(wanted: str) -> str:
    """The look asked for, unless the person wants no colour anywhere."""
    return "mono" if "NO_COLOR" in os.environ else wanted


def styles(look: str) -> dict[str, Style]:
    """Rich styles by role, for `dark`, `light` or `mono`."""
    from rich.style import Style

    if look == "mono":
        return {
            role: Style(bold=both[0][2] or None, reverse=role in _REVERSED or None) for role, both in _COLOURS.items()
        }
    which = 1 if look == "light" else 0
    return {
        role: Style(color=both[which][0], bgcolor=both[which][1], bold=both[which][2])
        for role, both in _COLOURS.items()
    }


_NUMBERS = {"black": 0, "red": 1, "green": 2, "yellow": 3, "blue": 4, "magenta": 5, "cyan": 6, "white": 7}


def codes(look: str) -> dict[str, str]:
    """The same looks as escape codes, for what is painted before Rich is loaded.

    >>> codes("dark")["lead"], codes("mono")["on"]
    ('\\x1b[0;1;32;40m', '\\x1b[0;7m')
    """
    if look == "mono":
        return {
            role: f"\x1b[0{';1' if both[0][2] else ''}{';7' if role in _REVERSED else ''}m"
            for role, both in _COLOURS.items()
        }
    found = {}
    for role, both in _COLOURS.items():
        front, back, bold = both[1 if look == "light" else 0]
        found[role] = f"\x1b[0{';1' if bold else ''};{30 + _NUMBERS[front]};{40 + _NUMBERS[back]}m"
    return found
