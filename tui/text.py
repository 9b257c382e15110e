"""A text of several lines under a caret: what the recipe editor types into. No Textual here."""

from __future__ import annotations

from engine.base.records import dataclass, field

MOST = 250_000  # characters: more than any recipe may have


@dataclass
class Text:
    """Lines, and where the caret stands."""

    lines: list[str] = field(default_factory=lambda: [""])
    row: int = 0
    column: int = 0

    @classmethod
    def of(cls, text: str) -> Text:
        """From one text."""
        return cls(text.split("\n") or [""])

    def __str__(self) -> str:
        return "\n".join(self.lines)

    def insert(self, typed: str) -> None:
        """Type at the caret; a line break breaks the line."""
        if sum(map(len, self.lines)) + len(typed) > MOST:
            return
        first, *rest = ["".join(c if c.isprintable() else " " for c in part) for part in typed.split("\n")]
        line = self.lines[self.row]
        before, after = line[: self.column], line[self.column :]
        if not rest:
            self.lines[self.row] = before + first + after
            self.column += len(first)
            return
        self.lines[self.row : self.row + 1] = [before + first, *rest[:-1], rest[-1] + after]
        self.row += len(rest)
        self.column = len(rest[-1])

    def rub_out(self, forward: bool = False) -> None:
        """Backspace, or Delete; at the edge of a line it joins two."""
        if forward:
            at = (self.row, self.column)
            self.move("right")
            if (self.row, self.column) == at:
                return
        line = self.lines[self.row]
        if self.column:
            self.lines[self.row] = line[: self.column - 1] + line[self.column :]
            self.column -= 1
        elif self.row:
            self.column = len(self.lines[self.row - 1])
            self.lines[self.row - 1 : self.row + 1] = [self.lines[self.row - 1] + line]
            self.row -= 1

    def move(self, key: str, page: int = 10) -> None:
        """Move the caret by a key's name."""
        last = len(self.lines) - 1
        if key == "left" and self.column == 0 and self.row:
            self.row, self.column = self.row - 1, len(self.lines[self.row - 1])
        elif key == "right" and self.column == len(self.lines[self.row]) and self.row < last:
            self.row, self.column = self.row + 1, 0
        else:
            across = {"left": -1, "right": 1}.get(key, 0)
            down = {"up": -1, "down": 1, "pageup": -page, "pagedown": page}.get(key, 0)
            self.row = min(max(self.row + down, 0), last)
            ends = {"home": 0, "end": len(self.lines[self.row])}
            self.column = ends.get(key, min(self.column + across, len(self.lines[self.row])))

    def go(self, number: int) -> None:
        """To the beginning of a line, counted from 1."""
        self.row, self.column = min(max(number - 1, 0), len(self.lines) - 1), 0
