"""The large-type view: one thing to set, readable from two metres, and the worst caution under it."""

from __future__ import annotations

from collections.abc import Sequence

from engine.answer import Answer, Caution, Table
from tui.glyphs import plain
from tui.lines import Line, centred, line, wrapped
from tui.show import cell_text, figure_text
from tui.widgets.big import can_draw, large
from tui.widgets.warn import worst


def setting_lines(label: str, text: str, width: int, height: int) -> list[Line]:
    """A label, and under it the text as large as the room allows: the number large, its unit beside it."""
    number, _, unit = plain(text).partition(" ")
    room = max(height - 2, 1)
    if unit and can_draw(number) and number[:1] in "0123456789+-.#Ø" and len(unit) <= 12:
        big = large(number, width - len(unit) - 1, room)
        big[-1] = [*big[-1], (f" {unit}", "strong")]
    else:
        big = large(text, width, room)
    if len(big) == 1:
        big = wrapped(text, width, "big")
    inset = max((width - max(len(runs[0][0]) for runs in big) - len(unit) - 1) // 2, 0)
    body = [[(" " * inset, "text"), *runs] for runs in big]
    return [centred([(plain(label), "strong")], width), line(), *body][:height]


def row_setting(table: Table, row: int, unit: str) -> list[tuple[str, str]]:
    """What is set on the machine for a row, most important first: (label, text)."""
    names = table.setting or tuple(c.name for c in table.columns[1:3])
    cells = {c.name: (c, v) for c, v in zip(table.columns, table.rows[row - 1], strict=True)}
    return [(cells[n][0].label, cell_text(cells[n][1], cells[n][0], unit)) for n in names if n in cells]


def large_view(
    answer: Answer,
    cautions: Sequence[Caution],
    width: int,
    height: int,
    unit: str,
    table: Table | None,
    row: int,
) -> list[Line]:
    """The lead figure large; or, with a countable table in hand, the setting of the row in hand."""
    foot = worst(cautions, width, 2)
    if table is not None:
        settings = row_setting(table, row, unit)
        head = f"{table.count_noun} {row} of {len(table.rows)}".capitalize()
        first, *others = settings or [("", "")]
        extra = [centred([(f"{label}: {plain(text)}", "strong")], width) for label, text in others]
        body = setting_lines(
            f"{head} · {first[0]}", first[1], width, max(height - len(foot) - len(extra) - 1, 3)
        )
        body += [line(), *extra] if extra else []
    else:
        lead = answer.lead
        body = setting_lines(lead.label, figure_text(lead, unit), width, max(height - len(foot) - 1, 3))
    gap = [line()] * max(height - len(body) - len(foot), 0)
    return [*body, *gap, *foot][:height]
