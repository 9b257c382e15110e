"""One line of text under a caret: what every field, reading and quick line types into. No Textual here."""

from __future__ import annotations

from engine.base.records import dataclass
from tui.glyphs import NO_CHARACTER, own
from tui.lines import Line

LONGEST = 200  # characters in a field
MOVES = frozenset({"left", "right", "home", "end", "ctrl+left", "ctrl+right", "ctrl+home", "ctrl+end"})


@dataclass
class LineEdit:
    """A text, where its caret stands, and whether the next character typed replaces all of it (`fresh`).

    >>> edit = LineEdit("24 mm", fresh=True)
    >>> edit.key("home"), edit.key("3", "3"), edit.text
    (True, True, '324 mm')
    """

    text: str = ""
    longest: int = LONGEST
    fresh: bool = False
    caret: int = -1

    def __post_init__(self) -> None:
        if self.caret < 0:
            self.caret = len(self.text)

    def put(self, text: str) -> None:
        """Hold another text, all of it chosen."""
        self.text = text[: self.longest]
        self.caret, self.fresh = len(self.text), True

    def key(self, key: str, character: str | None = None) -> bool:
        """Act on a key by Textual's name, or on the character it types; True if it was one of editing."""
        if key in MOVES:
            self._move({"ctrl+home": "home", "ctrl+end": "end"}.get(key, key))
        elif key in ("backspace", "delete"):
            self._rub_out(forward=key == "delete")
        elif key == "ctrl+u":
            self.put("")
        elif character == " " and (self.fresh or not self.text[: self.caret].strip()):
            return (
                True  # the pedal, or a Space meant for a job: nothing begins with a blank, and nothing is lost by one
            )
        elif character and character.isprintable():
            self.insert(character)
        else:
            return False
        return True

    def insert(self, typed: str) -> None:
        """Type or paste at the caret: one line, as much of it as there is room for."""
        if self.fresh:
            self.put("")
        self.fresh = False
        known = typed.replace(NO_CHARACTER, "")
        clean = "".join(c if c.isprintable() else " " for c in known)[: self.longest - len(self.text)]
        self.text = self.text[: self.caret] + clean + self.text[self.caret :]
        self.caret += len(clean)

    def _move(self, key: str) -> None:
        self.fresh = False
        before, after = self.text[: self.caret], self.text[self.caret :]
        if key == "ctrl+left":
            self.caret = before.rstrip().rfind(" ") + 1
        elif key == "ctrl+right":
            word = after.find(" ")
            rest = after[word:].lstrip() if word >= 0 else ""
            self.caret = len(self.text) - len(rest)
        else:
            ends = {"left": self.caret - 1, "right": self.caret + 1, "home": 0, "end": len(self.text)}
            self.caret = min(max(ends[key], 0), len(self.text))

    def _rub_out(self, forward: bool) -> None:
        if forward and self.fresh:
            self.put("")
            return
        self.fresh = False
        at = self.caret if forward else self.caret - 1
        if 0 <= at < len(self.text):
            self.text, self.caret = self.text[:at] + self.text[at + 1 :], at


def edited(edit: LineEdit, room: int, empty: str = "") -> Line:
    """The text in brackets, the caret's cell apart, long text moved along; `empty` says what emptiness means."""
    text = "".join(own(c)[:1] for c in edit.text)  # a cell a character, so that the caret stands where it types
    inner = max(room - 2, 1)
    start = max(min(edit.caret - inner + 1, len(text) + 1 - inner), 0) if len(text) >= inner else 0
    shown = f"{text[start : start + inner]:<{inner}}"
    at = edit.caret - start
    if edit.fresh and text:  # all of it is chosen: the next key replaces it
        end = min(len(text) - start, inner)
        return [("[", "strong"), (shown[:end], "caret"), (shown[end:], "on"), ("]", "strong")]
    before, cell, after = shown[:at], shown[at : at + 1] or " ", shown[at + 1 :]
    if not text:
        words = f"({empty})" if empty and len(empty) + 4 <= inner else ""
        after = f"{words:>{max(inner - 1, 0)}}"
    return [("[", "strong"), (before, "on"), (cell, "caret"), (after, "on"), ("]", "strong")]
