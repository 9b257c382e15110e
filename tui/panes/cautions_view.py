"""The cautions in full, with what each rests on; and the questions that they ask."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Caution
from engine.base.words import write
from engine.safety import deferral, general_rules, quiet_line
from tui.lines import Line, heading, line, wrapped
from tui.widgets.warn import answer_words, caution_lines


def questions(cautions: Sequence[Caution]) -> list[Caution]:
    """The cautions that ask something."""
    return [c for c in cautions if c.question]


def caution_view(
    cautions: Sequence[Caution], answered: Sequence[tuple[Caution, bool]], width: int, at: int, unit: str
) -> list[Line]:
    """Every caution; the question in hand (`at`, from 0, among the questions) is marked. `answered` are the questions
    that have their answer."""
    open_questions = questions(cautions)
    out: list[Line] = []
    if not cautions:
        out += [*wrapped(quiet_line(), width), line()]
    for caution in cautions:
        here = caution.question and caution is open_questions[at % len(open_questions)]
        block = caution_lines(caution, width - 2, unit, "y or n?" if here else "")
        mark = "> " if here else "  "
        out += [[(mark if i == 0 else "  ", "strong"), *runs] for i, runs in enumerate(block)]
        if caution.question and caution.text:
            out += wrapped(f"If so: {write(caution.text, unit)}", width, "text", first="    ")
        if caution.source:
            out += wrapped(f"Source: {caution.source}", width, "hint", first="    ")
        out.append(line())
    if answered:
        out.append(heading("Answered; Backspace takes the last back", width))
        for caution, yes in answered:
            out += wrapped(answer_words(caution, yes, unit), width, first="  ")
        out.append(line())
    out += wrapped(deferral(), width, "strong")
    out += [line(), heading("General rules, once a session", width)]
    for rule in general_rules():
        out += caution_lines(rule, width, unit)
    return out
