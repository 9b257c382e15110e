"""What the steps done before say of the part, so that a job does not ask what it can know."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from engine.situation import Situation

if TYPE_CHECKING:
    from engine.base.operation import Done

_SNAGGING = ("milling", "dividing", "drilling")  # kinds of work that leave edges which catch an abrasive strip


def carried(steps: Iterable[Done]) -> Situation:
    """What stands on the piece after these steps: its thread, and whether an edge of it snags.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> moment = carried([run("bar-plan", {"parts": "2", "length": "12", "thread": "M12"}, sample("metric"))])
    >>> str(moment.thread), moment.snags
    ('M12', True)
    """
    thread, snags = None, None
    for done in steps:
        cut = next((moment.thread for moment in done.answer.moments if moment.thread is not None), None)
        cut = cut or getattr(done.inputs, "thread", None) or getattr(done.inputs, "size", None)
        if hasattr(cut, "left_hand"):
            thread, snags = cut, True
        if any(tag in _SNAGGING for tag in done.operation.hazards):
            snags = True
    return Situation(thread=thread, snags=snags)
