"""The picture of an answer as lines: beside or under the answer, or alone in the room."""

from __future__ import annotations

from engine.base.answer import Answer
from engine.base.words import write
from tui.lines import Line, heading, wrapped
from tui.widgets.picture import drawn

WORDS_FROM = 16  # rows from which the picture's sentence stands under it


def marked_row(answer: Answer, row: int) -> int:
    """The row that is marked in the picture: that in hand, where the picture belongs to a table."""
    return row if any(table.name == answer.pictures[0].table for table in answer.tables) else 0


def picture_lines(answer: Answer, row: int, width: int, height: int, unit: str) -> list[Line]:
    """The first picture under its title, the row in hand marked."""
    picture = answer.pictures[0]
    words = wrapped(write(picture.alt, unit), width, "hint") if height >= WORDS_FROM else []
    marked = marked_row(answer, row)
    note = f"row {marked} marked" if marked else ""
    body = drawn(picture, width, max(height - 1 - len(words), 1), unit, row=marked)
    return [heading(picture.title, width, note), *body, *words][:height]
