"""The part in hand at the bench: its material, bar and thread."""

from __future__ import annotations

from collections.abc import Callable

from engine.base.records import asdict
from tui.commands import Command
from tui.in_hand import InHand, InHandInputs, checked
from tui.lines import Line, line, wrapped
from tui.screens.form_page import FormPage


class InHandScreen(FormPage[InHand]):
    """Three fields that the empty ones of every operation take."""

    PLACE = "in-hand"
    COMMANDS = (
        Command("keep", "Keep", "Keep it: empty fields of every operation take it.", "in-hand", means="on"),
        Command("empty", "Nothing in hand", "Empty all of it.", "in-hand", means="take_out"),
        Command("close", "Leave", "Leave it as it was.", "in-hand", means="leave"),
    )
    HEADING = "Part in hand"
    FOOT = (("Enter", "Keep"), ("Tab", "Next"), ("Ctrl+X", "Nothing in hand"), ("Esc", "Leave it as it was"))

    def __init__(self, now: InHand, unit: str, keep: Callable[[InHand], None]) -> None:
        super().__init__(InHandInputs, asdict(now), unit, keep)

    def said(self, width: int, height: int) -> list[Line]:
        """What it is for."""
        says = "Every operation whose field for it is empty takes it, and shows that it did."
        return [line(), *wrapped(says, width, "hint")]

    def told(self) -> InHand:
        """The part in hand, checked."""
        return checked(self.form.given(), self.unit)

    def action_empty(self) -> None:
        """Nothing in hand."""
        self.dismiss()
        self.keep(InHand())
