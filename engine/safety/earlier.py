"""What the steps done before say of the part, so that a job does not ask what it can know."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from engine.situation import Situation

if TYPE_CHECKING:
    from engine.base.operation import Done
    from engine.threads.thread import Thread

_SNAGGING = ("milling", "dividing", "drilling")  # kinds of work that leave edges which catch an abrasive strip
_TAPPED = ("tap-drill", "bar-plan")  # operations whose thread lies in a hole, whatever its class


def carried(steps: Iterable[Done]) -> Situation:
    """What stands on the piece after these steps: its thread, and whether an edge on the outside of it snags.

    What lies in its end, turned, drilled or tapped on the lathe, is not under a strip on the outside; nor is a ruled line
    an edge, and the thread that a scale is ruled for is another piece's.

    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> moment = carried([run("bar-plan", {"parts": "2", "length": "12", "thread": "M12"}, sample("metric"))])
    >>> str(moment.thread), moment.snags
    ('M12', None)
    """
    thread, snags = None, None
    for done in steps:
        if done.operation.hazards[:1] == ("graduating",):
            continue
        cut = next((moment.thread for moment in done.answer.moments if moment.thread is not None), None)
        cut = cut or getattr(done.inputs, "thread", None) or getattr(done.inputs, "size", None)
        in_its_end = done.moment.machine == "lathe"
        if cut is not None and hasattr(cut, "left_hand"):
            thread = cut
            snags = snags if in_its_end and _is_inside(done, cut) else True
        drilled = "drilling" in done.operation.hazards and in_its_end
        if any(tag in _SNAGGING for tag in done.operation.hazards) and not drilled:
            snags = True
    return Situation(thread=thread, snags=snags)


def _is_inside(done: Done, cut: Thread) -> bool:
    """Whether a thread is that of a hole: tapped, or cut by the class of a nut."""
    from engine.threads.sides import is_nut

    return done.operation.id in _TAPPED or is_nut(cut, getattr(done.inputs, "tolerance", None))
