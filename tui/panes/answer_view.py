"""An answer as lines: the lead figure, the figures, the notes, the beginning of each table."""

from __future__ import annotations

from collections.abc import Mapping

from engine.base.answer import Answer, Figure, Note
from engine.base.operation import Done
from engine.base.showing import figure_text, limits_text
from engine.base.words import write
from tui.glyphs import plain
from tui.lines import Line, cut, fitted, heading, line, width_of, wrapped
from tui.panes.card import group_lines, lead_lines
from tui.widgets.grid import tabled

ROWS_SHOWN = 8  # of each table; the table view has the rest
STALE = "░ "  # before every line of an answer that does not belong to what stands in the form


def figure_lines(figures: tuple[Figure, ...], width: int, unit: str, lead: bool = True) -> list[Line]:
    """One line each: label, value, limits; the first stands out."""
    if not figures:
        return []
    texts = [plain(figure_text(f, unit)) for f in figures]
    numbers = [t.split(" ")[0] for f, t in zip(figures, texts, strict=True) if f.value is not None]
    before_point = max((len(n.split(".")[0]) for n in numbers), default=0)
    texts = [
        " " * (before_point - len(t.split(" ")[0].split(".")[0])) + t if f.value is not None else t
        for f, t in zip(figures, texts, strict=True)
    ]
    longest = max(len(plain(f.label)) for f in figures)
    widest = max((len(t) for f, t in zip(figures, texts, strict=True) if f.value is not None), default=0)
    label_width = min(longest, max(width - max(widest, 12) - 4, width // 3))
    out: list[Line] = []
    for i, (figure, text) in enumerate(zip(figures, texts, strict=True)):
        first = lead and i == 0
        limits = limits_text(figure, unit)
        runs: Line = [
            ("■ " if first else "  ", "lead"),
            (f"{cut(plain(figure.label), label_width):<{label_width}}  ", "lead" if first else "label"),
        ]
        room = width - label_width - 4
        if len(text) > room and figure.value is None:
            first_line, *more = wrapped(text, max(room, 8), "lead" if first else "value")
            out.append([*runs, *first_line])
            out += [[(" " * (label_width + 4), "text"), *extra] for extra in more]
            continue
        runs.append((text, "lead" if first else "value"))
        out.append(runs)
        if limits and width_of(runs) + len(limits) + 2 <= width:
            runs.append((f"  {limits}", "hint"))
        elif limits:  # a number is never cut short: it has a line of its own
            out.append([(f"{limits:>{width - 1}}", "hint")])
    return out


def answer_lines(
    answer: Answer, width: int, unit: str, room: int = 0, unfolded: bool = False, key: str = "v"
) -> list[Line]:
    """The whole answer as a card, as long as it is; the caller scrolls it. `key` unfolds what it keeps behind."""
    out = lead_lines(answer.lead, width, unit, room)
    out += [runs for n in answer.notes if n.level == "warning" for runs in _note(n, width, unit)]
    out += group_lines(answer.figures, width, unit, unfolded, key)
    out += [runs for n in answer.notes if n.level != "warning" for runs in _note(n, width, unit)]
    for table in answer.tables:
        out.append(line())
        more = len(table.rows) - ROWS_SHOWN
        out.append(heading(table.label, width, "r shows it all" if more > 0 else ""))
        out += tabled(table, width, unit=unit, height=ROWS_SHOWN + 2)
        if more > 0:
            out.append([(f"  … and {more} more", "hint")])
    return out


def _note(note: Note, width: int, unit: str) -> list[Line]:
    mark, role = ("! ", "caution") if note.level == "warning" else ("· ", "text")
    return wrapped(write(note.text, unit), width, role, first=mark, rest="  ")


def summary(given: Mapping[str, str]) -> str:
    """What an answer was the answer to, in a few words."""
    return ", ".join(f"{name} {text}" for name, text in given.items()) or "an empty form"


def stale_lines(done: Done, done_for: Mapping[str, str], width: int, unit: str) -> list[Line]:
    """The last good answer, marked on every line as not belonging to what stands in the form."""
    head = wrapped(f"NOT for what is typed now. This was for {summary(done_for)}:", width, "stale", first=STALE,
                   rest=STALE)  # fmt: skip
    body = figure_lines(done.answer.figures, width - 2, unit)
    return head + [[(STALE, "stale"), *[(text, "stale") for text, _ in fitted(runs, width - 2)]] for runs in body]
