"""How the work is held now: told once a set-up, and read by every caution."""

from __future__ import annotations

from collections.abc import Callable

from engine.base.declare import read
from engine.base.quantity import show_plain
from engine.base.records import fields
from engine.set_up import SetUp
from tui.commands import Command
from tui.lines import Line, line, wrapped
from tui.screens.form_page import FormPage


class SetUpScreen(FormPage[SetUp]):
    """The set-up, with what the cautions still miss of it."""

    PLACE = "set-up"
    COMMANDS = (
        Command("keep", "Keep", "Keep the set-up; the cautions are chosen anew.", "set-up", means="on"),
        Command("close", "Leave", "Leave it as it was.", "set-up", means="leave"),
    )
    HEADING = "Set-up"
    FOOT = (("Enter", "Keep"), ("Tab", "Next"), ("Space", "Choices"), ("Esc", "Leave it as it was"))

    def __init__(self, now: SetUp, unit: str, missing: str, keep: Callable[[SetUp], None]) -> None:
        super().__init__(SetUp, {f.name: _typed(getattr(now, f.name), unit) for f in fields(SetUp)}, unit, keep)
        self.now, self.missing = now, missing
        self.before = self.form.given()

    def said(self, width: int, height: int) -> list[Line]:
        """What is wanted of it, where there is room."""
        out: list[Line] = []
        if self.missing and height > 16:
            wanted = f"Cautions can be worked out once these are told: {self.missing}."
            out += [line(), *wrapped(wanted, width, "strong")]
        if height > 18:
            says = "Empty: not told. What is told lasts until it is changed, and answers to questions last with it."
            out += wrapped(says, width, "hint")
        return out

    def told(self) -> SetUp:
        """What was typed; a field that nobody touched keeps its exact value."""
        given: dict[str, object] = dict(self.form.given())
        same = {name: getattr(self.now, name) for name, text in given.items() if self.before.get(name) == text}
        return read(SetUp, given | same, unit=self.unit)


def _typed(value: str | float | bool | None, unit: str) -> str:
    """A value as it would be typed."""
    if value is None or isinstance(value, str):
        return value or ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return show_plain(value, "length", unit)
