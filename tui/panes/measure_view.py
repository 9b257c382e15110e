"""Entering a reading, with where the dial stood; or a place. A few fields, edited in line. No Textual here."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tui.editing import LineEdit, edited
from tui.glyphs import own
from tui.lines import Line, heading, line, wrapped

LONGEST = 60
_ROOM = 26  # cells of a short field, its brackets counted


class Entry:
    """A small form over the step: labels with what is typed in each; `choices` are those of the last field, `use` takes
    what was typed where the screen does not know it."""

    def __init__(
        self,
        title: str,
        labels: Sequence[str],
        hints: Sequence[str],
        texts: Sequence[str] = (),
        choices: Sequence[str] = (),
        longest: int = LONGEST,
        use: Callable[..., None] | None = None,
    ) -> None:
        self.title, self.labels, self.hints, self.choices = title, labels, hints, choices
        self.room = _ROOM if longest == LONGEST else longest
        self.lines_typed = [LineEdit(text, longest) for text in texts or [""] * len(labels)]
        self.at = 0
        self.refusal = ""
        self.use = use

    @property
    def texts(self) -> list[str]:
        """What is typed in each field."""
        return [one.text for one in self.lines_typed]

    def key(self, key: str, character: str | None) -> bool:
        """Act on an editing key; True if it was one."""
        here = self.lines_typed[self.at]
        if key in ("tab", "down", "up", "shift+tab"):
            self.at = (self.at + (1 if key in ("tab", "down") else -1)) % len(self.labels)
        elif not self._is_choice():
            if not here.key(key, character):
                return False
        elif key in ("space", "left", "right"):
            now = self.choices.index(here.text) if here.text in self.choices else -1
            here.put(self.choices[(now + (-1 if key == "left" else 1)) % len(self.choices)])
        else:
            return False
        self.refusal = ""
        return True

    def refuse(self, why: str) -> None:
        """Say why what is typed cannot be used; the next key types over it."""
        self.refusal = why
        self.lines_typed[self.at].fresh = True

    def insert(self, typed: str) -> None:
        """Paste into the field in hand."""
        if not self._is_choice():
            self.lines_typed[self.at].insert(typed)
            self.refusal = ""

    def _is_choice(self) -> bool:
        return bool(self.choices) and self.at == len(self.labels) - 1

    def lines(self, width: int) -> list[Line]:
        """The entry as lines."""
        out: list[Line] = [heading(self.title, width, "Enter keeps it, Esc leaves"), line()]
        longest = max(map(len, self.labels))
        room = min(self.room, width - longest - 4)
        for i, (label, typed) in enumerate(zip(self.labels, self.lines_typed, strict=True)):
            here = i == self.at
            runs: Line = [(f"{'>' if here else ' '} {label:<{longest}} ", "strong" if here else "label")]
            runs += edited(typed, room) if here else [(f" {own(typed.text)[: room - 2]}", "value")]
            out.append(runs)
        out.append(line())
        if self.refusal:
            return [*out, *wrapped(f"! {self.refusal}", width, "bad", rest="  ")]
        return [*out, *wrapped(self.hints[self.at], width, "hint")]
