"""Changing a recipe in the app: its text, checked whenever it is saved, every mistake with its line."""

from __future__ import annotations

import asyncio
from pathlib import Path

from textual import events

from engine.base.files import BadFile, Problem
from engine.base.refusals import BadInput
from engine.jobs.library import Listed, own_folder, own_text, save
from tui.commands import Command
from tui.glyphs import own, plain
from tui.lines import Line, fitted, heading, line, wrapped
from tui.panes import frame
from tui.screens.page import Page
from tui.text import Text

_MOVES = ("left", "right", "up", "down", "home", "end", "pageup", "pagedown")


class RecipeScreen(Page):
    """A text editor that knows a recipe from a shopping list."""

    PLACE = "recipe"
    MANY_LINES = True
    COMMANDS = (
        Command("save", "Save", "Check the recipe and save it.", "recipe", means="write"),
        Command("next_problem", "Next mistake", "Go to the line of the next mistake.", "recipe", means="trouble"),
        Command("close", "Back", "Go back; asks once if something is not saved.", "recipe", means="leave"),
    )  # fmt: skip

    def __init__(self, listed: Listed) -> None:
        super().__init__()
        self.path, text = _own_copy(listed)
        self.text = Text.of(text)
        self.saved = text if listed.path else ""
        self.problems: tuple[Problem, ...] = ()
        self.at_problem = -1
        self.sure = False

    @property
    def changed(self) -> bool:
        """Whether something is typed that is not on the disk."""
        return str(self.text) != self.saved

    def body(self, width: int, height: int) -> list[Line]:
        """The text, its mistakes under it."""
        says = [runs for p in self.problems[:4] for runs in wrapped(str(p), width, "bad", rest="  ")][:6]
        if len(self.problems) > 4:
            says.append(line(f"… and {len(self.problems) - 4} more mistakes", "bad"))
        room = max(height - 3 - len(says), 3)
        top = min(max(self.text.row - room // 2, 0), max(len(self.text.lines) - room, 0))
        shown = [self._line(i, width) for i in range(top, min(top + room, len(self.text.lines)))]
        state = "not saved" if self.changed else "saved"
        head = heading(self.path.name, width, f"line {self.text.row + 1} · {state}")
        foot = frame.keys([("Ctrl+S", "Check and save"), ("Ctrl+T", "Next mistake"), ("Esc", "Back")], width)
        if self.message:
            foot = fitted([(f" {plain(self.message)}", "bar-strong")], width, "bar")
        gap = [line()] * (room - len(shown))
        return [frame.tabs("jobs", width, self.session.unit), head, *shown, *gap, *says, foot]

    def _line(self, index: int, width: int) -> Line:
        text, here = own(self.text.lines[index]), index == self.text.row
        bad = any(p.line == index + 1 for p in self.problems)
        number: Line = [(f"{'!' if bad else ' '}{index + 1:>3} ", "bad" if bad else "hint")]
        room = width - 5
        if not here:
            return [*number, (text[:room], "text")]
        start = max(self.text.column - room + 1, 0)
        shown, at = f"{text[start : start + room]} ", self.text.column - start
        return [*number, (shown[:at], "strong"), (shown[at : at + 1], "caret"), (shown[at + 1 :], "strong")]

    def typed(self, event: events.Key) -> bool:
        """Everything that is not a command is typing."""
        key = event.key
        if key != "escape":
            self.sure = False
        if key in _MOVES:
            self.text.move(key, max(self.size.height - 6, 1))
        elif key in ("backspace", "delete"):
            self.text.rub_out(forward=key == "delete")
        elif key == "enter":
            self.text.insert("\n")
        elif key == "tab":
            self.text.insert("    ")
        elif event.is_printable and event.character:
            self.text.insert(event.character)
        else:
            return False
        return True

    def pasted(self, text: str) -> None:
        """Pasted text is typed."""
        self.text.insert(text)

    async def action_save(self) -> None:
        """Check and save."""
        text = str(self.text)
        try:
            await asyncio.to_thread(save, self.path, text)
        except BadFile as refusal:
            self.problems, self.at_problem = refusal.problems, -1
            count = len(refusal.problems)
            self.message = f"NOT SAVED: {count} mistake{'s' if count > 1 else ''}. Ctrl+T goes to the next."
        except BadInput as refusal:
            self.problems, self.message = (), str(refusal)
        else:
            self.saved, self.problems, self.message = text, (), f"Saved: {self.path}"
        self.redraw()

    def action_next_problem(self) -> None:
        """To the next mistake's line."""
        with_line = [p for p in self.problems if p.line]
        if with_line:
            self.at_problem = (self.at_problem + 1) % len(with_line)
            problem = with_line[self.at_problem]
            self.text.go(problem.line or 1)
            self.message = problem.text
        self.redraw()

    def action_close(self) -> None:
        """Back; asked once when something would be lost."""
        if self.changed and not self.sure:
            self.sure, self.message = (True, "This is not saved. Ctrl+S saves it; Esc once more leaves it behind.")
            self.redraw()
            return
        self.dismiss()


def _own_copy(listed: Listed) -> tuple[Path, str]:
    """Where a recipe is changed: in place if it is the person's own, else under a fresh name in their folder."""
    if listed.path is not None:
        return listed.path, own_text(listed.path)
    import recipes

    path, number = own_folder() / f"my-{listed.name}.toml", 2
    while path.exists():
        path, number = own_folder() / f"my-{listed.name}-{number}.toml", number + 1
    return path, recipes.text(listed.name)
