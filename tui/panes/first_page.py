"""The first page of a session at a machine and of a job: the five rules whose breach maims or kills."""

from __future__ import annotations

from engine.base.words import write
from engine.safety import deferral, first_page
from tui.lines import Line, heading, line, wrapped
from tui.panes import frame
from tui.widgets.warn import caution_lines

SAY = "Space goes on, once the five are done."
ON = ("space", "enter", "pagedown")  # what goes on from the first page: a foot pedal's keys
FIRST_PAGE_KEYS = {*ON, "tab", "backspace", "escape", "up", "down", "left", "right", "pageup", "delete"}


def first_page_lines(width: int, height: int, unit: str, what: str, message: str = "") -> list[Line]:
    """The whole screen: the five as full as there is room for, and the one key."""
    rules = first_page()
    foot = [*(frame.said(message, width) if message else []), frame.keys([("Space", "Done, go on")], width)]
    room = height - len(foot) - 1
    for brief, airy in ((False, True), (False, False), (True, False)):
        body: list[Line] = []
        for rule in rules:
            says = write(rule.brief, unit)
            block = wrapped(says, width - 2, first="- ") if brief else caution_lines(rule, width, unit)
            body += [*block, *([line()] if airy else [])]
        body += [] if brief else wrapped(deferral(), width, "hint")
        if len(body) <= room:
            break
    head = heading(f"Before {what}: five things", width, role="warning")
    return [*[head, *body][: height - len(foot)], *[line()] * max(room - len(body), 0), *foot]
