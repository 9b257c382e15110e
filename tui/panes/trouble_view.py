"""What goes wrong with the open operation, and what to check first."""

from __future__ import annotations

from engine.operation import Done
from engine.shop.model import Shop
from tui.glyphs import plain
from tui.lines import Line, line, wrapped


def trouble_lines(done: Done, shop: Shop, width: int) -> list[Line]:
    """Each trouble with its checks in the order to make them."""
    from engine.trouble import trouble_for

    troubles = trouble_for(done.operation.id, done.answer, shop)
    if not troubles:
        return wrapped("Nothing is noted for this operation.", width)
    out: list[Line] = []
    for trouble in troubles:
        out += [[(plain(trouble.sign), "strong")]]
        out += wrapped(trouble.check, width, first="  ")
        out.append(line())
    return out
