"""The part in hand at the bench: its material, bar and thread."""

from __future__ import annotations

from collections.abc import Callable

from textual import events

from engine.base.refusals import BadInput
from tui.commands import Command
from tui.form import Form
from tui.in_hand import InHand, InHandInputs, checked
from tui.lines import Line, heading, line, wrapped
from tui.panes import frame
from tui.panes.form_view import form_lines, hint_lines
from tui.screens.page import Page


class InHandScreen(Page):
    """Three fields: Enter keeps them, Esc leaves them as they were."""

    PLACE = "in-hand"
    COMMANDS = (
        Command("keep", "Keep", "Keep it: empty fields of every operation take it.", "in-hand", means="on"),
        Command("empty", "Nothing in hand", "Empty all of it.", "in-hand", means="take_out"),
        Command("close", "Leave", "Leave it as it was.", "in-hand", means="leave"),
    )

    def __init__(self, now: InHand, unit: str, keep: Callable[[InHand], None]) -> None:
        super().__init__()
        self.unit, self.keep = unit, keep
        self.form = Form(InHandInputs, {}, unit)
        self.form.fill({"material": now.material, "bar": now.bar, "thread": now.thread})
        self.form.go(0)
        self.refusal = self.refused = ""

    def body(self, width: int, height: int) -> list[Line]:
        """The form, and what it is for."""
        out = [heading("Part in hand", width, self.unit)]
        out += form_lines(self.form, width, self.unit, editing=True, refused=self.refused)
        out += hint_lines(self.form, self.unit, width, self.refusal, 3)
        says = "Every operation whose field for it is empty takes it, and shows that it did."
        out += [line(), *wrapped(says, width, "hint")]
        keys = [("Enter", "Keep"), ("Tab", "Next"), ("Ctrl+X", "Nothing in hand"), ("Esc", "Leave it as it was")]
        foot = frame.said(self.message, width) if self.message else [frame.keys(keys, width)]
        room = height - len(foot)
        return [*out[:room], *[line()] * (room - len(out)), *foot]

    def typed(self, event: events.Key) -> bool:
        """Editing keys, and those that go from field to field."""
        key = event.key
        if key in ("tab", "down", "shift+tab", "up"):
            self.form.step(1 if key in ("tab", "down") else -1)
        elif not self.form.key(key, event.character):
            return False
        self.refusal = self.refused = ""
        return True

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text is typed into the field."""
        event.stop()
        if event.text:
            self.form.insert(event.text.splitlines()[0])
            self.redraw()

    def action_empty(self) -> None:
        """Nothing in hand."""
        self.dismiss()
        self.keep(InHand())

    def action_keep(self) -> None:
        """Keep what stands in the form, unless it cannot be used."""
        try:
            held = checked(self.form.given(), self.unit)
        except BadInput as refusal:
            self.refusal, self.refused = refusal.written(self.unit), refusal.field
            self.form.go(self.form.names.index(refusal.field))
            self.redraw()
            return
        self.dismiss()
        self.keep(held)

    def action_close(self) -> None:
        """Leave it as it was."""
        self.dismiss()
