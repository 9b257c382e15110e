"""Entering a reading, with where the dial stood; or a place. A few fields, edited in line. No Textual here."""

from __future__ import annotations

from dataclasses import dataclass, field

from tui.glyphs import plain
from tui.lines import Line, heading, line, wrapped

LONGEST = 60


@dataclass
class Entry:
    """A small form over the step: labels with what is typed in each."""

    title: str
    labels: tuple[str, ...]
    hints: tuple[str, ...]
    texts: list[str] = field(default_factory=list)
    at: int = 0
    refusal: str = ""
    choices: tuple[str, ...] = ()  # of the last field, when it is a choice

    def __post_init__(self) -> None:
        self.texts = self.texts or [""] * len(self.labels)

    def key(self, key: str, character: str | None) -> bool:
        """Act on an editing key; True if it was one."""
        if key in ("tab", "down", "up", "shift+tab"):
            self.at = (self.at + (1 if key in ("tab", "down") else -1)) % len(self.labels)
        elif self._is_choice():
            if key not in ("space", "left", "right"):
                return False
            ring = self.choices
            now = ring.index(self.texts[self.at]) if self.texts[self.at] in ring else -1
            self.texts[self.at] = ring[(now + (-1 if key == "left" else 1)) % len(ring)]
        elif key == "backspace":
            self.texts[self.at] = self.texts[self.at][:-1]
        elif key == "ctrl+u":
            self.texts[self.at] = ""
        elif character and character.isprintable():
            self.texts[self.at] = (self.texts[self.at] + character)[:LONGEST]
        else:
            return False
        self.refusal = ""
        return True

    def _is_choice(self) -> bool:
        return bool(self.choices) and self.at == len(self.labels) - 1

    def lines(self, width: int) -> list[Line]:
        """The entry as lines."""
        out: list[Line] = [heading(self.title, width, "Enter keeps it, Esc leaves"), line()]
        longest = max(map(len, self.labels))
        for i, (label, text) in enumerate(zip(self.labels, self.texts, strict=True)):
            here = i == self.at
            runs: Line = [(f"{'>' if here else ' '} {label:<{longest}} ", "strong" if here else "label")]
            shown = plain(text)[-24:]
            if here:
                runs += [
                    ("[", "strong"),
                    (f"{shown}", "on"),
                    (" ", "caret"),
                    (f"{'':<{24 - len(shown)}}", "on"),
                    ("]", "strong"),
                ]
            else:
                runs.append((f" {shown}", "value"))
            out.append(runs)
        out.append(line())
        if self.refusal:
            return [*out, *wrapped(f"! {self.refusal}", width, "bad", rest="  ")]
        return [*out, *wrapped(self.hints[self.at], width, "hint")]
