"""What the steps done before say of the part, so that a job does not ask what it can know."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from engine.base.operation import Done

_THREADING = {"screwcutting": "size", "tap-drill": "size", "bar-plan": "thread"}
_CATCHING = ("slot", "flats", "hole-circle")  # leave edges that snatch an abrasive strip


def told_by_steps(steps: Iterable[Done]) -> dict[str, bool]:
    """Answer the questions of later cautions from the operations done before on the same part.

    Examples
    --------
    >>> from engine.base.operation import run
    >>> from engine.shop.file import sample
    >>> told_by_steps([run("bar-plan", {"parts": "2", "length": "12", "thread": "M12"}, sample("metric"))])
    {'PRT-02': True, 'FIL-02': True}
    """
    told: dict[str, bool] = {}
    for done in steps:
        thread = getattr(done.inputs, _THREADING.get(done.operation.id, ""), None)
        if thread is not None:
            told |= {"PRT-02": True, "FIL-02": True}
            if thread.left_hand:
                told["STU-01"] = True
        if done.operation.id in _CATCHING:
            told["FIL-02"] = True
    return told
