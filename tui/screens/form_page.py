"""A screen that is one form: Enter keeps what stands in it, Esc leaves it as it was."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import ClassVar, Generic, TypeVar

from textual import events

from engine.base.refusals import BadInput
from tui.commands import Command
from tui.form import Form
from tui.lines import Line, heading, line
from tui.panes import frame
from tui.panes.form_view import form_lines, hint_lines
from tui.screens.page import Page

Kept = TypeVar("Kept")


class FormPage(Page, Generic[Kept]):
    """A form over the bench or a job, with what is said under it and its keys at the foot."""

    COMMANDS: ClassVar[tuple[Command, ...]]
    HEADING: ClassVar[str]
    FOOT: ClassVar[tuple[tuple[str, str], ...]]

    def __init__(self, model: type, now: Mapping[str, str], unit: str, keep: Callable[[Kept], None]) -> None:
        super().__init__()
        self.unit, self.keep = unit, keep
        self.form = Form(model, {}, unit)
        self.form.fill(dict(now))
        self.form.go(0)
        self.refusal = self.refused = ""

    def told(self) -> Kept:
        """What stands in the form; BadInput, naming the field, if it cannot be used."""
        raise NotImplementedError

    def said(self, width: int, height: int) -> list[Line]:
        """What it is for, under the hint of the field in hand."""
        return []

    def body(self, width: int, height: int) -> list[Line]:
        """The form, the hint of the field in hand, what it is for."""
        most = max(height - 8, 1)
        out = [heading(self.HEADING, width, self.unit)]
        out += form_lines(self.form, width, self.unit, editing=True, refused=self.refused, most=most)
        out += hint_lines(self.form, self.unit, width, self.refusal, 3)
        out += self.said(width, height)
        foot = frame.said(self.message, width) if self.message else [frame.keys(list(self.FOOT), width)]
        room = height - len(foot)
        return [*out[:room], *[line()] * (room - len(out)), *foot]

    def typed(self, event: events.Key) -> bool:
        """Editing keys, and those that go from field to field."""
        key, form = event.key, self.form
        if key in ("tab", "down", "shift+tab", "up"):
            form.step(1 if key in ("tab", "down") else -1)
        elif key == "space" and form.ask.choices:
            form.cycle(form.ask.choices)
        elif not form.key(key, event.character):
            return False
        self.refusal = self.refused = ""
        return True

    def pasted(self, text: str) -> None:
        """Pasted text is typed into the field."""
        self.form.insert(text)

    def action_keep(self) -> None:
        """Keep what stands in the form, unless it cannot be used."""
        try:
            told = self.told()
        except BadInput as refusal:
            self.refusal, self.refused = refusal.written(self.unit), refusal.field
            self.form.go(self.form.names.index(refusal.field))
            self.redraw()
            return
        self.dismiss()
        self.keep(told)

    def action_close(self) -> None:
        """Leave it as it was."""
        self.dismiss()
