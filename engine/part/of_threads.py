"""What of a thread's own sizes stands in the shape of a part."""

from __future__ import annotations

from engine.base.refusals import BadInput
from engine.part import part as p
from engine.threads.form import form
from engine.threads.relief import relief
from engine.threads.thread import Thread


def minor(thread: Thread) -> float:
    """The basic minor diameter of a thread: what its hole is near to. [mm]"""
    return thread.diameter - 2 * form(thread).basic_depth


def relief_size(one: p.OutsideThread) -> tuple[float, float]:
    """Width and diameter of a thread's relief; nothing where the table has none for its pitch. [mm]"""
    assert one.relief is not None
    try:
        found = relief(one.size)
    except BadInput:
        return 0.0, minor(one.size)
    return (found.width_short if one.relief.short else found.width), found.diameter
