"""An operation's form as lines."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from engine.base.declare import told
from engine.base.kinds import Ask
from engine.base.operation import Done
from engine.base.quantity import show_plain
from engine.base.reading import accepted
from engine.base.words import write
from tui.editing import edited
from tui.form import Form
from tui.glyphs import own, plain
from tui.lines import Line, cut, fitted, window, wrapped

IN_HAND = ", in hand"  # behind what the part in hand says for an empty field
_CLAUSE = r"[,;:] | \("


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


def stands_for(ask: Ask, value: object, unit: str) -> str:
    """The value that an empty field was taken as, as short as it can be said; "" where there is none to show.

    >>> from engine.base.declare import asks
    >>> from engine.indexing.hand_dial import HandDialInputs
    >>> stands_for(asks(HandDialInputs)["backlash"], 0.5, "mm")
    '0.5 mm'
    """
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float | Fraction):
        if ask.dimension in ("", "count", "ratio"):
            return f"{float(value):g}"
        return show_plain(float(value), ask.dimension, unit)
    if isinstance(value, str):
        return value
    name = getattr(value, "name", "")
    return name if isinstance(name, str) else ""


def taken(form: Form, done: Done | None, done_for: Mapping[str, str], unit: str) -> dict[str, str]:
    """What each field that was left empty was taken as, by the last answer."""
    if done is None:
        return {}
    empty = [name for name in form.names if name not in done_for]
    return {name: stands_for(form.asks[name], told(done.inputs, name), unit) for name in empty}


def hint(form: Form, unit: str, values: Mapping[str, str] | None = None) -> list[str]:
    """Sentences about the field in hand, the first the most wanted."""
    ask = form.ask
    said = ask.help.rstrip(".").casefold()
    about = ask.help if said and said != ask.label.casefold() else f"takes {accepts(ask, unit)}."
    parts = [f"{ask.label}: {about}"]
    if not (ask.required and ask.from_shop is None):
        means, value = empty_means(ask, unit), (values or {}).get(form.name, "")
        parts.append(f"Empty: {means} ({value})." if value and value not in means else f"Empty: {means}.")
    if ask.choices:
        parts.append(f"One of {', '.join(ask.choices)} (Space goes through them).")
    return parts


def form_lines(
    form: Form,
    width: int,
    unit: str = "mm",
    *,
    editing: bool,
    refused: str = "",
    columns: int = 1,
    most: int = 0,
    values: Mapping[str, str] | None = None,
) -> list[Line]:
    """The fields, in `most` rows at the most (0: all of them), so that the one in hand is among them.

    `refused` names the field that cannot be used; `values` says what the empty ones were taken as.
    """
    values = values or {}
    if most == 1:
        return [_field(form, form.at, width, _label_width(form, width), editing, refused, unit, values)]
    tall = bool(most) and -(-len(form.names) // columns) > most  # a bar at the right takes two cells
    each = (width - 2 * (columns - 1) - (2 if tall else 0)) // columns
    label = _label_width(form, each)
    cells = [_field(form, i, each, label, editing, refused, unit, values) for i in range(len(form.names))]
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
    return min(longest, max(width - 17 if width < 50 else width // 2, 10))


def _field(
    form: Form,
    index: int,
    width: int,
    label_width: int,
    editing: bool,
    refused: str,
    unit: str,
    values: Mapping[str, str],
) -> Line:
    name = form.names[index]
    ask = form.asks[name]
    text = plain(form.text(name)) if ask.choices else own(form.text(name))
    here = index == form.at
    mark = ">" if here else " "
    mark = "!" if name == refused else mark
    label = f"{cut(plain(ask.label), label_width):<{label_width}} "
    runs: Line = [(f"{mark} ", "bad" if mark == "!" else "strong"), (label, "label")]
    room = max(width - label_width - 3, 4)
    means = plain(values.get(name) or empty_means(ask, unit))
    if here and editing:
        return [*runs, *edited(form.line, room, fit_words(means, room - 6, ask.from_shop is not None))]
    if text:
        return [*runs, (" ", "text"), (cut(text, room - 2), "value" if form.touched else "hint")]
    short = fit_words(means, room - 3, ask.from_shop is not None)
    return [*runs, (" ", "text"), (f"({short})" if short else "", "hint")]


def fit_words(text: str, room: int, of_shop: bool = False) -> str:
    """A text that fits whole, without its article where that is too much; else nothing, or who says it: the shop, or
    what is in hand.

    >>> fit_words("the dividing head's", 15), fit_words("the dividing head's", 9, True), fit_words("worked out", 3)
    ("dividing head's", "shop's", '')
    >>> [fit_words("brass, in hand", room, True) for room in (14, 12)], fit_words("free-cutting brass, in hand", 12, True)
    (['brass, in hand', 'brass'], 'in hand')
    """
    bare = text.removesuffix(IN_HAND)
    fits = next((one for one in (text, text.removeprefix("the "), bare) if len(one) <= room), "")
    if fits or bare != text:
        return fits or ("in hand" if room >= 7 else "")
    return "shop's" if of_shop and room >= 6 else ""


def _to_a_clause(text: str) -> str:
    """A sentence that goes on, cut behind a clause where one ends in its second half, else behind a word.

    >>> _to_a_clause("Deepest pass: The depth is split into equal passes, no deeper"), _to_a_clause("Width of the gr")
    ('Deepest pass: The depth is split into equal passes …', 'Width of the …')
    """
    ends = [found.start() for found in re.finditer(_CLAUSE, text) if found.start() > len(text) // 2]
    return f"{text[: ends[-1]] if ends else text.rpartition(' ')[0]} …"


def hint_lines(
    form: Form, unit: str, width: int, refusal: str, most: int, values: Mapping[str, str] | None = None
) -> list[Line]:
    """The hint for the field in hand, or the sentence that refuses what was typed."""
    if refusal:
        lines = wrapped(f"! {refusal}", width, "bad", rest="  ")
    else:
        parts = hint(form, unit, values)
        while len(parts) > 1 and len(wrapped(" ".join(parts), width)) > most:
            parts.pop()  # F1 has them all
        lines = wrapped(" ".join(parts), width, "hint")
    if len(lines) > most:
        text, role = lines[most - 1][0]
        lines = [*lines[: most - 1], [(_to_a_clause(text[: width - 2]), role)]]
    return [fitted(runs, width) for runs in lines]
