"""How each figure was worked out, with the numbers put in, and the source it rests on."""

from __future__ import annotations

from engine.base.answer import Answer
from engine.base.showing import figure_text
from engine.base.words import write
from tui.glyphs import plain
from tui.lines import Line, heading, line, wrapped


def working_lines(answer: Answer, width: int, unit: str) -> list[Line]:
    """Every figure: its value, its working, its source; then the sources of the tables."""
    out: list[Line] = []
    for figure in answer.figures:
        out.append([(f"{plain(figure.label)}  ", "label"), (plain(figure_text(figure, unit)), "value")])
        out += wrapped(write(figure.working, unit) or "as given", width, "text", first="  = ")
        out += wrapped(figure.source or "no source", width, "hint", first="  Source: ", rest="    ")
        out.append(line())
    for table in answer.tables:
        if table.source:
            out.append(heading(table.label, width))
            out += wrapped(table.source, width, "hint", first="  Source: ", rest="    ")
    return out
