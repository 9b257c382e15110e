"""A part's lines, its drawing, and what is wrong with it, as lines of the screen."""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from engine.base.words import write
from engine.part.draft import LABELS, Draft, Row, Worked, unit_meant
from engine.part.drawing import drawing, row_of
from engine.part.part import Part
from tui.editing import LineEdit, edited
from tui.glyphs import own, plain
from tui.lines import Line, cut, heading, line, wrapped
from tui.widgets.picture import drawn


class PartShown(Protocol):
    """What is shown of a part: its lines, the one in hand, and whether it is being typed."""

    draft: Draft
    found: Worked
    at: int
    edit: LineEdit
    editing: bool


_LABEL = 9
_WANTED = {
    "title": "what it is called",
    "material": "such as free-cutting brass or mild steel",
    "bar": "such as 28, hex 17, square 20",
    "make": "how many of it",
    "unit": "mm or inch, for bare numbers",
}
_STANDS_ON = ("scale", "figures", "flats", "slot", "keyway", "fits", "chamfer", "radius", "fillet", "finish", "turned")
_EXAMPLES = {
    "mm": "A feature from the front end on: 25 x 5 chamfer 0.5 · knurl 26 x 8 · taper 12 to 8 x 20 · thread M12x1.5 x 18 · "
    "M12x1.5 · hole 8 H7 depth 20 · scale 0.05. Empty and Enter: the plan.",
    "inch": "A feature from the front end on: 1 x 3/16 chamfer 1/64 · knurl 3/4 x 5/8 · taper 0.5 x 1 angle 1 in 20 · "
    "thread 1/2-13 x 3/4 · 1/4-20 depth 5/8 · dome 0.8. Empty and Enter: the plan.",
}


def head_line(draft: Draft, path: Path, width: int) -> Line:
    """The title, and where it is kept."""
    title = next((row.text for row in draft.rows if row.head == "title"), "")
    return heading(plain(title) or "A part of my own", width, f"kept in {path.name}")


def changes_lines(typed: LineEdit, width: int) -> list[Line]:
    """Where one types what becomes what in another size."""
    example = "What becomes what: M14 to M10, 25 to 20, brass to mild steel. The part that is there stays as it is."
    return [
        heading("Another size", width),
        [("  ", "text"), *edited(typed, width - 4)],
        *wrapped(example, width, "hint"),
    ]


def row_lines(screen: PartShown, width: int, height: int) -> list[Line]:
    """The lines, scrolled to the one in hand."""
    rows = screen.draft.rows
    top = min(max(screen.at - height // 2, 0), max(len(rows) - height, 0))
    return [_row(screen, i, width) for i in range(top, min(top + height, len(rows)))]


def _row(screen: PartShown, index: int, width: int) -> Line:
    row = screen.draft.rows[index]
    here, wrong = index == screen.at, index in screen.found.problems
    mark = "!" if wrong and (row.text or row.head) else ">" if here else " "
    label = _label(row)
    runs: Line = [(f"{mark} ", "bad" if mark == "!" else "strong"), (f"{label:<{len(label)}}", "label")]
    room = max(width - len(label) - 2, 6)
    if here and screen.editing:
        return [*runs, *edited(screen.edit, room, _WANTED.get(row.head, ""))]
    role = "on" if here else "bad" if mark == "!" else "value"
    return [*runs, (f" {cut(own(row.text), room - 2)}", role)]


def _label(row: Row) -> str:
    if row.head == "part":
        return f"{'Also':<{_LABEL}}"
    if row.head:
        return f"{LABELS[row.head]:<{_LABEL}}"
    word = row.text.split()[0].lower() if row.text.split() else ""
    return "    " if word in _STANDS_ON else "  "


def said_lines(draft: Draft, found: Worked, at: int, width: int) -> list[Line]:
    """What is wrong, of the line in hand first; else what may be typed here."""
    row = draft.rows[at]
    wrong = {i: text for i, text in found.problems.items() if draft.rows[i].text or draft.rows[i].head}
    if at in wrong and row.text:
        return _most(wrapped(f"! {plain(wrong[at])}", width, "bad", rest="  "))
    others = [i for i in wrong if draft.rows[i].text and not draft.rows[i].head]
    if not row.head and not row.text and not others:
        unit = next((unit_meant(one.text.strip()) for one in draft.rows if one.head == "unit"), "mm")
        return _most(wrapped(_EXAMPLES.get(unit, _EXAMPLES["mm"]), width, "hint"))
    if row.head in _WANTED:
        return wrapped(f"{LABELS[row.head]}: {_WANTED[row.head]}.", width, "hint")[:1]
    others = others or [i for i in wrong if draft.rows[i].text]
    if others:
        first = others[0]
        return _most(
            wrapped(f"! {plain(cut(draft.rows[first].text, 24))}: {plain(wrong[first])}", width, "bad", rest="  ")
        )
    return []


def _most(lines: list[Line]) -> list[Line]:
    return lines[:3]


def drawing_lines(part: Part | None, name: str, width: int, height: int, *, stale: bool) -> list[Line]:
    """The half-section, the feature of the line in hand marked."""
    if part is None or not part.outside:
        return [line(), *wrapped("The drawing comes with the first feature.", width - 2, "hint", first="  ")]
    said = [line(" As it was before the line that is marked.", "hint")] if stale else []
    picture = drawing(part, columns=width, rows=height - len(said))
    row = row_of(part, name) or row_of(part, ".".join(name.split(".")[:2]))
    picture_lines = drawn(picture, width, height - len(said), part.unit, row=row)
    return [*said, *picture_lines] if picture_lines else [line(write(picture.alt, part.unit))]
