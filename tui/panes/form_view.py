"""An operation's form as lines."""

from __future__ import annotations

from engine.base.declare import Ask
from engine.base.reading import accepted
from engine.base.words import write
from tui.editing import edited
from tui.form import Form
from tui.glyphs import plain
from tui.lines import Line, cut, fitted, window, wrapped


def empty_means(ask: Ask, unit: str) -> str:
    """What leaving a field empty means."""
    if ask.required and ask.from_shop is None:
        return f"needed, such as {ask.example}" if ask.example else "needed"
    return write(ask.empty, unit) or "may be left out"


def accepts(ask: Ask, unit: str) -> str:
    """What a field takes, in words."""
    if ask.sort.bounded:
        return accepted(ask, unit)
    return (ask.sort.takes or ask.sort.what) + (f" (such as {ask.example})" if ask.example else "")


def hint(form: Form, unit: str) -> str:
    """One or two sentences about the field in hand."""
    ask = form.ask
    said = ask.help.rstrip(".").casefold()
    about = ask.help if said and said != ask.label.casefold() else f"takes {accepts(ask, unit)}."
    parts = [f"{ask.label}: {about}"]
    if ask.choices:
        parts.append(f"One of {', '.join(ask.choices)} (Space goes through them).")
    if not (ask.required and ask.from_shop is None):
        parts.append(f"Empty: {empty_means(ask, unit)}.")
    return " ".join(parts)


def form_lines(
    form: Form,
    width: int,
    unit: str = "mm",
    *,
    editing: bool,
    refused: str = "",
    columns: int = 1,
    most: int = 0,
) -> list[Line]:
    """The fields, in `most` rows at the most (0: all of them), so that the one in hand is among them.

    `refused` names the field that cannot be used.
    """
    if most == 1:
        return [_field(form, form.at, width, _label_width(form, width), editing, refused, unit)]
    tall = bool(most) and -(-len(form.names) // columns) > most  # a bar at the right takes two cells
    each = (width - 2 * (columns - 1) - (2 if tall else 0)) // columns
    label = _label_width(form, each)
    cells = [_field(form, i, each, label, editing, refused, unit) for i in range(len(form.names))]
    deep = -(-len(cells) // columns)
    lines: list[Line] = []
    for y in range(deep):
        runs: Line = []
        for x in range(columns):
            if x * deep + y < len(cells):
                runs += [("  ", "text")] if x else []
                runs += fitted(cells[x * deep + y], each)
        lines.append(runs)
    if most and deep > most:
        lines, _ = window(lines, form.at % deep - most // 2, most, width)
    return lines


def _label_width(form: Form, width: int) -> int:
    longest = max(len(ask.label) for ask in form.asks.values())
    return min(longest, max(width - 18 if width < 50 else width // 2, 10))


def _field(
    form: Form, index: int, width: int, label_width: int, editing: bool, refused: str, unit: str
) -> Line:
    name = form.names[index]
    ask, text = form.asks[name], plain(form.text(name))
    here = index == form.at
    mark = ">" if here else " "
    mark = "!" if name == refused else mark
    label = f"{cut(plain(ask.label), label_width):<{label_width}} "
    runs: Line = [(f"{mark} ", "bad" if mark == "!" else "strong"), (label, "label")]
    room = max(width - label_width - 3, 4)
    if here and editing:
        return [*runs, *edited(form.line, room, empty_means(ask, unit))]
    if text:
        return [*runs, (" ", "text"), (cut(text, room - 2), "value" if form.touched else "hint")]
    return [*runs, (" ", "text"), (cut(f"({empty_means(ask, unit)})", room - 1), "hint")]


def hint_lines(form: Form, unit: str, width: int, refusal: str, most: int) -> list[Line]:
    """The hint for the field in hand, or the sentence that refuses what was typed."""
    if refusal:
        lines = wrapped(f"! {refusal}", width, "bad", rest="  ")
    else:
        lines = wrapped(hint(form, unit), width, "hint")
    if len(lines) > most:
        text, role = lines[most - 1][0]
        lines = [*lines[: most - 1], [(text[: width - 2].rstrip() + " …", role)]]
    return [fitted(runs, width) for runs in lines]
