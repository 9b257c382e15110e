"""The line that goes anywhere: a size, a count, an operation by the words people use, or a command."""

from __future__ import annotations

from textual import events

from tui.commands import Command
from tui.editing import LineEdit, edited
from tui.glyphs import plain
from tui.lines import Line, fitted, heading, line
from tui.panes import frame
from tui.quick import Destination, arrive, destinations
from tui.screens.page import Page
from tui.session import OpenOperation

_EXAMPLES = "M10 tap · 3/8 unf · #7 · div 37 · knurl 18 · H7/g6 · how deep · binds"


class GotoScreen(Page):
    """Type, and take the first of the list with Enter or another with the arrows."""

    PLACE = "goto"
    COMMANDS = (
        Command("take", "Go", "Go to the marked place.", "goto", means="on"),
        Command("close", "Back", "Go back.", "goto", means="leave"),
    )

    def __init__(self, pane: str = "", typed: str = "") -> None:
        super().__init__()
        self.pane = pane
        self.line = LineEdit(typed)
        self.at = 0
        self.found: list[Destination] = []

    def on_mount(self) -> None:
        """Begin with every operation."""
        self._search()

    def _search(self) -> None:
        one = self.session.here()
        here = one.entry.id if isinstance(one, OpenOperation) else ""
        self.found = destinations(self.line.text, self.pane or self.session.pane, here)
        self.at = 0

    def body(self, width: int, height: int) -> list[Line]:
        """The line, and what it may mean."""
        out: list[Line] = [frame.tabs("", width, self.session.unit), heading("Go to", width)]
        out.append([("  ", "text"), *edited(self.line, width - 4)])
        out += [fitted([(f"  {_EXAMPLES}", "hint")], width), line()]
        if not self.found:
            out.append([("  Nothing is found by these words. Fewer letters find more.", "text")])
        room = max(height - len(out) - 1, 1)
        top = min(max(self.at - room // 2, 0), max(len(self.found) - room, 0))
        for i, place in enumerate(self.found[top : top + room], start=top):
            on = i == self.at
            left = f"{'>' if on else ' '} {plain(place.title)}"
            right = f"{self._beside(place, width - len(left) - 4)} "
            gap = max(width - len(left) - len(right) - 1, 1)
            out.append(fitted([(left + " " * gap, "on" if on else "text"), (right, "on" if on else "hint")], width))
        out += [line()] * max(height - len(out) - 1, 0)
        foot = self.message or ""
        if foot:
            return [*out, fitted([(f" {foot}", "bar-strong")], width, "bar")]
        return [*out, frame.keys([("Enter", "Go"), ("↑ ↓", "Choose"), ("Ctrl+U", "Empty"), ("Esc", "Back")], width)]

    def _beside(self, place: Destination, room: int) -> str:
        """Where a place is; of a setting of the shop what the file says there, so that nobody has to go."""
        if not place.setting:
            return place.where
        said = plain(self.session.shop_says(place.setting))
        return said if said and len(said) <= room else place.where

    def typed(self, event: events.Key) -> bool:
        """Letters go to the line, arrows through the list."""
        key = event.key
        if key in ("down", "tab", "up", "shift+tab"):
            self.at = (self.at + (1 if key in ("down", "tab") else -1)) % max(len(self.found), 1)
            return True
        if key == "enter":
            self.action_take()
            return True
        before = self.line.text
        if not self.line.key(key, event.character):
            return False
        if self.line.text != before:
            self._search()
        return True

    def pasted(self, text: str) -> None:
        """Pasted text is typed."""
        self.line.insert(text)
        self._search()

    def action_close(self) -> None:
        """Back to where one was."""
        self.dismiss()

    def action_take(self) -> None:
        """Go to the marked place, with its answer up."""
        if not self.found:
            return
        place = self.found[self.at]
        owner = self.owner
        if place.operation and place.command:
            owner.to_bench().open(place.operation)
            owner.call_later(owner.run_command, place.command)
            return
        if place.where == "setting":
            owner.to_bench()
            owner.call_later(owner.open_screen, "shop", place.title.partition(": ")[2])
            return
        if place.command:
            owner.to_bench()
            owner.call_later(owner.run_command, place.command)
            return
        arrive(self.session, place)
        owner.to_bench().opened()
