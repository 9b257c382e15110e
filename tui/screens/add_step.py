"""Adding the operation on the bench to a recipe: one of the person's own, or a new one."""

from __future__ import annotations

import asyncio
from pathlib import Path

from textual import events

from engine.base.files import stem_of
from engine.jobs.library import Listed, new_text, own_folder, own_text, save, shelf, with_step
from tui.commands import Command
from tui.desk import Refusal, one_line
from tui.editing import LineEdit, edited
from tui.glyphs import own, plain
from tui.lines import Line, fitted, heading, line, wrapped
from tui.panes import frame
from tui.screens.page import Page
from tui.session import OpenOperation


class AddStepScreen(Page):
    """Choose a recipe, or type the title of a new one."""

    PLACE = "add_step"
    COMMANDS = (
        Command("add", "Add", "Add the operation as the recipe's last step.", "add_step", means="on"),
        Command("close", "Back", "Go back without adding.", "add_step", means="leave"),
    )

    def __init__(self) -> None:
        super().__init__()
        self.own: tuple[Listed, ...] = ()
        self.at = 0
        self.title_line = LineEdit(longest=60)

    def on_mount(self) -> None:
        """Read the list of one's own recipes."""
        self.own = tuple(one for one in shelf() if one.path and not one.problem)

    def body(self, width: int, height: int) -> list[Line]:
        """The recipes, the new one first."""
        one = self.session.here()
        out: list[Line] = [
            frame.tabs("jobs", width, self.session.unit),
            heading(f"Add to a recipe: {one.entry.title}", width),
        ]
        out += wrapped("The operation goes in as it stands in the form, as the recipe's last step.", width, "hint")
        out.append(line())
        on = self.at == 0
        named: Line = edited(self.title_line, width - 26) if on else [(f" {own(self.title_line.text)}", "value")]
        out.append([(f"{'>' if on else ' '} A new recipe, titled ", "on" if on else "text"), *named])
        for i, listed in enumerate(self.own, 1):
            out.append([(f"{'>' if i == self.at else ' '} {own(listed.title)}", "on" if i == self.at else "text")])
        foot = frame.keys([("Enter", "Add"), ("↑ ↓", "Choose"), ("Esc", "Back")], width)
        if self.message:
            foot = fitted([(f" {plain(self.message)}", "bar-strong")], width, "bar")
        return [*out[: height - 1], *[line()] * (height - 1 - len(out)), foot]

    def typed(self, event: events.Key) -> bool:
        """Arrows choose; typing names the new recipe."""
        key = event.key
        if key in ("down", "tab", "up", "shift+tab"):
            self.at = (self.at + (1 if key in ("down", "tab") else -1)) % (len(self.own) + 1)
        else:
            return self.at == 0 and self.title_line.key(key, event.character)
        return True

    def pasted(self, text: str) -> None:
        """Pasted text is typed."""
        if self.at == 0:
            self.title_line.insert(text)

    def action_close(self) -> None:
        """Go back without adding."""
        self.dismiss()

    async def action_add(self) -> None:
        """Write the step into the recipe."""
        one = self.session.here()
        if not isinstance(one, OpenOperation):
            return
        given, unit = one.form.given(), self.session.unit

        def write() -> Path:
            path, text = self._target(unit)
            answer = one.done.answer if one.fresh and one.done else None
            save(path, with_step(text, one.entry.id, given, unit=unit, answer=answer))
            return path

        try:
            path = await asyncio.to_thread(write)
        except Refusal as error:
            self.message = one_line(error)
            self.redraw()
            return
        self.dismiss()
        self.owner.bench.message = f"Added to {path}. F8 shows the recipes."

    def _target(self, unit: str) -> tuple[Path, str]:
        if self.at:
            path = self.own[self.at - 1].path
            assert path is not None
            return path, own_text(path)
        title = self.title_line.text.strip() or "New part"
        stem = stem_of(title)
        path, number = own_folder() / f"{stem}.toml", 2
        while path.exists():
            path, number = own_folder() / f"{stem}-{number}.toml", number + 1
        return path, new_text(title, unit)
