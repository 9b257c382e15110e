"""What stands round every screen: the line of panes at the top, the line of keys at the foot."""

from __future__ import annotations

from collections.abc import Iterable

from engine.base.register import PANES
from tui.lines import Line, fitted, width_of, wrapped

_SHORT = {
    "joining": "Slots", "drilling": "Drill", "indexing": "Index", "knurling": "Knurl", "turning": "Turn"
}  # fmt: skip


def tabs(here: str, width: int, right: str = "") -> Line:
    """The panes with their keys; the open one stands in brackets."""
    titles = [(p.id, p.key.upper(), p.title) for p in PANES] + [("jobs", "F8", "Jobs"), ("shop", "F12", "Shop")]
    brief = [(pane, key, _SHORT.get(pane, title)) for pane, key, title in titles]
    bare = [(pane, key, title if pane == here else "") for pane, key, title in brief]
    for names, gap in ((titles, " "), (brief, " "), (brief, ""), (bare, "")):
        runs: Line = []
        for pane, key, name in names:
            words = f"{key} {name}".strip()
            runs.append((f"[{words}]", "bar-on") if pane == here else (f" {words}{gap}", "bar"))
        if width_of(runs) <= width:
            break
    room = width - width_of(runs)
    tail = f"{right} " if len(right) + 2 <= room else ""
    return fitted([*runs, (" " * (room - len(tail)), "bar"), (tail, "bar")], width, "bar")


def keys(commands: Iterable[tuple[str, str]], width: int) -> Line:
    """Keys and what they do, as many as fit; the last (how to leave) always does."""
    pairs = list(commands)
    last = pairs.pop()
    room = width - len(last[0]) - len(last[1]) - 4
    runs: Line = []
    for key, label in pairs:
        size = len(key) + len(label) + 3
        if size > room:
            continue
        room -= size
        runs += [(f" {key}", "bar-strong"), (f" {label} ", "bar")]
    runs += [(f" {last[0]}", "bar-strong"), (f" {last[1]} ", "bar")]
    return fitted(runs, width, "bar")


def said(message: str, width: int) -> list[Line]:
    """A sentence at the foot, in as many lines as it needs: a path that is cut off leads nowhere."""
    return [fitted(runs, width, "bar") for runs in wrapped(message, width - 1, "bar-strong", first=" ")[:4]]
