"""Cautions as lines: a strip that is always in view, and the whole of them."""

from __future__ import annotations

from collections.abc import Sequence

from engine.answer import Caution
from tui.lines import Line, heading, line, wrapped

ROLES = {"DANGER": "danger", "WARNING": "warning", "CAUTION": "caution", "NOTICE": "hint"}
QUIET = "No computed caution. General rules still apply."


def _says(caution: Caution) -> str:
    return caution.question or caution.text


def _word(caution: Caution) -> tuple[str, str]:
    if caution.question:
        return "QUESTION", "question"
    return caution.word, ROLES.get(caution.word, "caution")


def caution_lines(caution: Caution, width: int) -> list[Line]:
    """One caution with its number, wrapped: the signal word stands out by itself and by its bracket."""
    word, role = _word(caution)
    text = _says(caution) + (f" ({caution.because})" if caution.because else "")
    text += "  y or n?" if caution.question else ""
    lines = wrapped(text, width, "text", first=f"[{word}] ", rest="  ")
    (first, _), *_ = lines[0]
    lines[0] = [(f"[{word}]", role), (first[len(word) + 2 :], "text")]
    return lines


def strip(
    cautions: Sequence[Caution], width: int, height: int, *, key: str = "c", quiet: str = QUIET
) -> list[Line]:
    """A heading and as many whole cautions as there is room for, the most pressing first.

    The one that does not fit whole ends in …; the heading counts them and names the key that shows all.
    """
    if height < 1:
        return []
    count = len(cautions)
    title = f"Cautions: {count}" if count else "Cautions"
    out: list[Line] = [heading(title, width, f"{key} in full", "warning" if count else "head")]
    if not cautions:
        return [*out, *wrapped(quiet, width)][:height]
    for caution in cautions[:5]:
        lines = caution_lines(caution, width)
        room = height - len(out)
        if room <= 0:
            break
        if len(lines) > room:
            lines = lines[:room]
            lines[-1] = _cut(lines[-1], width)
        out.extend(lines)
    return out[:height]


def _cut(runs: Line, width: int) -> Line:
    text, role = runs[-1]
    before = sum(len(t) for t, _ in runs[:-1])
    return [*runs[:-1], (text[: max(width - before - 2, 0)].rstrip() + " …", role)]


def column(
    cautions: Sequence[Caution], width: int, height: int, *, key: str = "c", quiet: str = QUIET
) -> list[Line]:
    """The cautions for the column at the right: five at most, a blank line between when there is room."""
    blocks = [caution_lines(c, width) for c in cautions[:5]]
    airy = sum(map(len, blocks)) + len(blocks) + 1 <= height
    out = [heading(f"Cautions: {len(cautions)}" if cautions else "Cautions", width, f"{key} in full",
                   "warning" if cautions else "head")]  # fmt: skip
    if not cautions:
        return [*out, *wrapped(quiet, width)]
    for block in blocks:
        if len(out) + len(block) > height:
            left = height - len(out)
            out.extend(block[:left])
            if left:
                out[-1] = _cut(out[-1], width)
            break
        out.extend(block)
        if airy:
            out.append(line())
    return out[:height]


def worst(cautions: Sequence[Caution], width: int, height: int = 1) -> list[Line]:
    """The most pressing caution alone, for a screen with hardly any room."""
    if not cautions:
        return [line(QUIET)][:height]
    lines = caution_lines(cautions[0], width)[:height]
    if lines and len(caution_lines(cautions[0], width)) > height:
        lines[-1] = _cut(lines[-1], width)
    return lines
