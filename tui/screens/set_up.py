"""How the work is held now: told once a set-up, and read by every caution."""

from __future__ import annotations

from collections.abc import Callable

from textual import events

from engine.base.declare import read
from engine.base.quantity import show_plain
from engine.base.records import fields
from engine.base.refusals import BadInput
from engine.set_up import SetUp
from tui.commands import Command
from tui.form import Form
from tui.lines import Line, heading, line, wrapped
from tui.panes import frame
from tui.panes.form_view import form_lines, hint_lines
from tui.screens.page import Page


class SetUpScreen(Page):
    """A form of its own over the bench or a job: Enter keeps it, Esc leaves it as it was."""

    PLACE = "set-up"
    COMMANDS = (
        Command("keep", "Keep", "Keep the set-up; the cautions are chosen anew.", "set-up", means="on"),
        Command("close", "Leave", "Leave it as it was.", "set-up", means="leave"),
    )

    def __init__(self, now: SetUp, unit: str, missing: str, keep: Callable[[SetUp], None]) -> None:
        super().__init__()
        self.now, self.unit, self.missing, self.keep = now, unit, missing, keep
        self.form = Form(SetUp, {}, unit)
        self.form.fill({f.name: _typed(getattr(now, f.name), unit) for f in fields(SetUp)})
        self.form.go(0)
        self.before = self.form.given()
        self.refusal = self.refused = ""

    def body(self, width: int, height: int) -> list[Line]:
        """The form, what is wanted of it, the hint of the field in hand."""
        out = [heading("Set-up", width, self.unit)]
        out += form_lines(self.form, width, self.unit, editing=True, refused=self.refused, most=max(height - 8, 1))
        out += hint_lines(self.form, self.unit, width, self.refusal, 3)
        if self.missing and height > 16:
            out += [
                line(),
                *wrapped(f"Cautions can be worked out once these are told: {self.missing}.", width, "strong"),
            ]
        if height > 18:
            says = "Empty: not told. What is told lasts until it is changed, and answers to questions last with it."
            out += wrapped(says, width, "hint")
        keys = [("Enter", "Keep"), ("Tab", "Next"), ("Space", "Choices"), ("Esc", "Leave it as it was")]
        foot = frame.said(self.message, width) if self.message else [frame.keys(keys, width)]
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

    def on_paste(self, event: events.Paste) -> None:
        """Pasted text is typed into the field."""
        event.stop()
        if event.text:
            self.form.insert(event.text.splitlines()[0])
            self.redraw()

    def action_keep(self) -> None:
        """Keep what stands in the form, unless it cannot be used."""
        try:
            told = self._told()
        except BadInput as refusal:
            self.refusal, self.refused = refusal.written(self.unit), refusal.field
            self.form.go(self.form.names.index(refusal.field))
            self.redraw()
            return
        self.dismiss()
        self.keep(told)

    def _told(self) -> SetUp:
        """What was typed; a field that nobody touched keeps its exact value."""
        given: dict[str, object] = dict(self.form.given())
        same = {name: getattr(self.now, name) for name, text in given.items() if self.before.get(name) == text}
        return read(SetUp, given | same, unit=self.unit)

    def action_close(self) -> None:
        """Leave it as it was."""
        self.dismiss()


def _typed(value: str | float | bool | None, unit: str) -> str:
    """A value as it would be typed."""
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return show_plain(value, "length", unit)
