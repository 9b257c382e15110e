"""What goes wrong with the open operation, and what to check first."""

from __future__ import annotations

from engine.base.operation import Done
from engine.base.words import write
from engine.shop.model import Shop
from tui.lines import Line, line, wrapped


def trouble_lines(done: Done, shop: Shop, width: int, unit: str) -> list[Line]:
    """Each symptom with its causes, what to check first, and the number that tells."""
    from engine.trouble import trouble_for

    troubles = trouble_for(done.operation.id, done.answer, done.inputs, shop)
    if not troubles:
        return wrapped("Nothing is noted for this operation.", width)
    out: list[Line] = []
    symptom = ""
    for trouble in troubles:
        if trouble.symptom != symptom:
            out += [line(), *wrapped(trouble.symptom, width, "strong")]
            symptom = trouble.symptom
        out += wrapped(f"{trouble.cause}.", width, first="  ", rest="  ")
        out += wrapped(f"Check: {trouble.check_first}.", width, first="    ", rest="    ")
        if trouble.number:
            out += wrapped(f"Here: {write(trouble.number, unit)}.", width, "strong", first="    ", rest="    ")
        out += wrapped(f"Source: {trouble.source}", width, "hint", first="    ", rest="    ")
    return out[1:]
