"""What each role looks like: three looks that use the named colours only, so that 8 backgrounds are enough.

No state is told by colour alone: a role that means something also has a word, a bracket or a mark in the text.
"""

from __future__ import annotations

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
    "bar": (("white", "blue", False), ("white", "blue", False)),
    "bar-strong": (("white", "blue", True), ("white", "blue", True)),
    "bar-on": (("black", "cyan", False), ("black", "cyan", False)),
    "on": (("black", "cyan", False), ("white", "blue", True)),
    "caret": (("black", "white", False), ("black", "yellow", False)),
    "bad": (("white", "red", True), ("white", "red", True)),
    "danger": (("white", "red", True), ("white", "red", True)),
    "warning": (("yellow", "black", True), ("red", "white", True)),
    "caution": (("yellow", "black", False), ("magenta", "white", True)),
    "question": (("magenta", "black", True), ("magenta", "white", True)),
    "stale": (("cyan", "black", False), ("blue", "white", False)),
    "mark": (("black", "green", True), ("white", "green", True)),
}
_REVERSED = {"bar", "bar-strong", "on", "bad", "danger", "mark"}


def styles(look: str) -> dict[str, Style]:
    """Rich styles by role, for `dark`, `light` or `mono`."""
    if look == "mono":
        return {
            role: Style(bold=both[0][2] or None, reverse=role in _REVERSED or None)
            for role, both in _COLOURS.items()
        }
    which = 1 if look == "light" else 0
    return {
        role: Style(color=both[which][0], bgcolor=both[which][1], bold=both[which][2])
        for role, both in _COLOURS.items()
    }
