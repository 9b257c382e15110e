"""Cautions as lines: a strip that is always in view, and the whole of them."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.answer import Caution
from engine.base.words import write
from engine.safety import arrange, quiet_line
from tui.lines import Line, heading, line, wrapped

ROLES = {"DANGER": "danger", "WARNING": "warning", "CAUTION": "caution", "NOTICE": "hint"}


def _says(caution: Caution, unit: str) -> str:
    return write(caution.question or caution.text, unit)


def _word(caution: Caution) -> tuple[str, str]:
    """The signal word; of a hazard that is still a question it has a mark behind it."""
    if caution.question:
        return f"{caution.word}?", "question"
    return caution.word, ROLES.get(caution.word, "caution")


def caution_lines(caution: Caution, width: int, unit: str) -> list[Line]:
    """One caution with its number, wrapped: the signal word stands out by itself and by its bracket."""
    word, role = _word(caution)
    text = _says(caution, unit) + (f" ({write(caution.because, unit)})" if caution.because else "")
    text += "  y or n?" if caution.question else ""
    lines = wrapped(text, width, "text", first=f"[{word}] ", rest="  ")
    (first, _), *_ = lines[0]
    lines[0] = [(f"[{word}]", role), (first[len(word) + 2 :], "text")]
    return lines


def _title(shown: int, cautions: Sequence[Caution]) -> str:
    if not cautions:
        return "Cautions"
    return f"Cautions: {shown} of {len(cautions)}" if shown < len(cautions) else f"Cautions: {shown}"


def _stacked(
    cautions: Sequence[Caution], width: int, height: int, unit: str, key: str, unread: bool, airy: bool
) -> list[Line]:
    """A heading and the cautions picked for one screen, the most pressing first, cut to a height with a …"""
    shown, _ = arrange(cautions)
    blocks = [caution_lines(c, width, unit) for c in shown]
    airy = airy and sum(map(len, blocks)) + len(blocks) + 2 <= height
    body: list[Line] = []
    started = 0
    for block in blocks:
        room = height - 1 - len(body)
        if room <= 0:
            break
        started += 1
        body += block if len(block) <= room else [*block[: room - 1], _cut(block[room - 1], width)]
        body += [line()] if airy else []
    quiet = quiet_line(cautions)
    if quiet and height - 1 - len(body) >= 2:
        body += wrapped(quiet, width, "text")
    title = _title(started, cautions)
    tails = [f"{key}: general rules, not read yet", f"{key} rules"] if unread else [f"{key} in full"]
    tail = next((words for words in tails if len(title) + len(words) + 9 <= width), key)
    head = heading(title, width, tail, "warning" if cautions else "head")
    return [head, *body][:height]


def strip(
    cautions: Sequence[Caution],
    width: int,
    height: int,
    unit: str = "mm",
    *,
    key: str = "c",
    unread: bool = False,
) -> list[Line]:
    """The strip over the foot of a narrow screen. `unread`: the general rules have not been looked at yet."""
    return _stacked(cautions, width, height, unit, key, unread, airy=False) if height > 0 else []


def column(
    cautions: Sequence[Caution],
    width: int,
    height: int,
    unit: str = "mm",
    *,
    key: str = "c",
    unread: bool = False,
) -> list[Line]:
    """The column at the right of a wide screen, with a blank line between cautions when there is room."""
    return _stacked(cautions, width, height, unit, key, unread, airy=True) if height > 0 else []


def _cut(runs: Line, width: int) -> Line:
    text, role = runs[-1]
    before = sum(len(t) for t, _ in runs[:-1])
    return [*runs[:-1], (text[: max(width - before - 2, 0)].rstrip() + " …", role)]


def worst(cautions: Sequence[Caution], width: int, height: int = 1, unit: str = "mm") -> list[Line]:
    """The most pressing caution alone, for a screen with hardly any room."""
    if not cautions:
        return [line(quiet_line())][:height]
    lines = caution_lines(cautions[0], width, unit)[:height]
    if lines and len(caution_lines(cautions[0], width, unit)) > height:
        lines[-1] = _cut(lines[-1], width)
    return lines
