"""F1: the field in hand, the open operation with its worked example, every key."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Answer
from engine.base.records import replace
from engine.base.register import Entry, load
from tui.commands import COMMANDS, Command
from tui.form import Form
from tui.keys import key_name, named
from tui.lines import Line, heading, line, wrapped
from tui.panes.form_view import accepts, empty_means
from tui.panes.working_view import working_lines

EDITING = (
    ("Tab ↓ Enter", "next field"),
    ("Shift+Tab ↑", "field before"),
    ("← → Home End", "move in the field; what is there is then kept"),
    ("Space", "in a field with a few choices: the next one"),
    ("Ctrl+U", "empty the field"),
    ("PgUp PgDn", "scroll the answer"),
)


def field_lines(form: Form, unit: str, width: int) -> list[Line]:
    """All about the field in hand."""
    ask = form.ask
    out = [heading(f"This field: {ask.label}", width)]
    out += wrapped(ask.help or ask.label, width)
    out += wrapped(f"Takes {accepts(ask, unit)}.", width)
    said = empty_means(ask, unit)
    out += wrapped(f"It is {said}." if said.startswith("needed") else f"Left empty: {said}.", width)
    if ask.sort.a_size:
        shown = "inches" if unit == "inch" else "millimetres"
        out += wrapped(
            f"A bare number is in {shown}, because the screen shows {shown}. 17 mm, 17,5, 3/8, .375\", 40 thou "
            "are read in either.", width)  # fmt: skip
    return out


def operation_lines(entry: Entry, form: Form, worked: Answer | None, unit: str, width: int) -> list[Line]:
    """All about the open operation; `worked` is the answer to its example."""
    out = [heading(f"This operation: {entry.title}", width)]
    operation = load(entry.id)
    out += wrapped(operation.help or entry.title, width)
    words = " ".join(f"{k}={_quoted(v)}" for k, v in operation.example.items())
    again = f"Worked example (the form shows it until you type; {named('clear')} brings it back), at the shell:"
    out += [line(), *wrapped(again, width)]
    out += wrapped(f"tommybar work {entry.id} {words}", width, "value", first="  ")
    if worked is not None:
        out += [line(), *working_lines(replace(worked, figures=worked.figures[:3], tables=()), width, unit)]
    return out


def _quoted(text: str) -> str:
    return text if text.replace(".", "").replace("/", "").isalnum() else "'" + text.replace("'", "'\\''") + "'"


def key_lines(width: int, commands: Sequence[Command] = COMMANDS) -> list[Line]:
    """Every command with every key."""
    out = [heading("Keys", width)]
    panes = ("F2 to F7", "the panes; pressed again, the pane's next operation")
    rows = [
        (" ".join(key_name(k) for k in c.keys), f"{c.label}: {c.help}")
        for c in commands
        if not c.id.startswith("pane-")
    ]
    for keys, text in [panes, *rows, *EDITING]:
        out += wrapped(text, width, first=f"{keys:<18} ", rest=" " * 19)
    return out


def help_view(entry: Entry, form: Form, worked: Answer | None, unit: str, width: int) -> list[Line]:
    """The whole of F1."""
    parts = (field_lines(form, unit, width), operation_lines(entry, form, worked, unit, width), key_lines(width))
    return [runs for part in parts for runs in (*part, line())]
