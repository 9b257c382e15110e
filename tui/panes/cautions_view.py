"""The cautions in full, with what each rests on; and the questions that they ask."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from engine.answer import Caution
from tui.lines import Line, line, wrapped
from tui.widgets.warn import QUIET, caution_lines

DEFERRAL = (
    "The machine's own manual, the marking on chuck, wheel or cutter, the safety data sheet, local law and fire rules, "
    "and a licensed trade where one is needed, all outrank this program."
)


def questions(cautions: Sequence[Caution]) -> list[Caution]:
    """The cautions that ask something."""
    return [c for c in cautions if c.question]


def caution_view(cautions: Sequence[Caution], told: Mapping[str, bool], width: int, at: int) -> list[Line]:
    """Every caution; the question in hand (`at`, from 0, among the questions) is marked."""
    asked = questions(cautions)
    out: list[Line] = []
    if not cautions:
        out += [*wrapped(QUIET, width), line()]
    for caution in cautions:
        block = caution_lines(caution, width - 2)
        here = caution.question and asked and caution is asked[at % len(asked)]
        mark = "> " if here else "  "
        out += [[(mark if i == 0 else "  ", "strong"), *runs] for i, runs in enumerate(block)]
        if caution.question and caution.text:
            out += wrapped(f"If so: {caution.text}", width, "text", first="    ")
        if caution.source:
            out += wrapped(f"Source: {caution.source}", width, "hint", first="    ")
        out.append(line())
    if told:
        out += wrapped("Answered before: " + "; ".join(f"{k}: {'yes' if v else 'no'}" for k, v in told.items())
                       + ". Backspace forgets these answers.", width, "hint")  # fmt: skip
        out.append(line())
    return out + wrapped(DEFERRAL, width, "text")
