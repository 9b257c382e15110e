"""The cautions in full, with what each rests on; and the questions that they ask."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.base.answer import Caution
from engine.base.words import Text, write
from engine.safety import deferral, general_rules, quiet_line
from engine.safety.told import Told
from tui.lines import Line, heading, line, wrapped
from tui.widgets.warn import caution_lines


def questions(cautions: Sequence[Caution]) -> list[Caution]:
    """The cautions that ask something."""
    return [c for c in cautions if c.question]


def caution_view(
    cautions: Sequence[Caution],
    told: Mapping[str, Told],
    asked: Mapping[str, Text],
    width: int,
    at: int,
    unit: str,
) -> list[Line]:
    """Every caution; the question in hand (`at`, from 0, among the questions) is marked.

    `told` and `asked` are the answers given before and the questions as they were put, by caution.
    """
    open_questions = questions(cautions)
    out: list[Line] = []
    if not cautions:
        out += [*wrapped(quiet_line(), width), line()]
    for caution in cautions:
        block = caution_lines(caution, width - 2, unit)
        here = caution.question and caution is open_questions[at % len(open_questions)]
        mark = "> " if here else "  "
        out += [[(mark if i == 0 else "  ", "strong"), *runs] for i, runs in enumerate(block)]
        if caution.question and caution.text:
            out += wrapped(f"If so: {write(caution.text, unit)}", width, "text", first="    ")
        if caution.source:
            out += wrapped(f"Source: {caution.source}", width, "hint", first="    ")
        out.append(line())
    if told:
        out.append(heading("Answered; Backspace forgets these", width))
        for name, answer in told.items():
            out += wrapped(
                f"{write(asked.get(name, name), unit)}  {'Yes' if answer.yes else 'No'}.", width, first="  "
            )
        out.append(line())
    out += wrapped(deferral(), width, "strong")
    out += [line(), heading("General rules, once a session", width)]
    for rule in general_rules():
        out += caution_lines(rule, width, unit)
    return out
