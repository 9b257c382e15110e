"""Where what is made off the axis stands round it: the first thing made is the origin, the rest is set from that."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from engine.base.records import replace
from engine.base.rounding import short
from engine.part.part import Feature, Part
from engine.part.words import spoken_of

if TYPE_CHECKING:
    from engine.part.steps import Step

_SET = ("lines", "flats", "holes", "cross_drill", "slot", "keyway", "end_slot", "keyway_inside")


def with_angles(part: Part, steps: Sequence[Step]) -> list[Step]:
    """The steps with where each stands round the axis in words, if the drawing says so of any."""
    placed = {one.name for one in part.features() if one.turned is not None}
    round_ = {step.about for step in steps if step.kind in _SET}
    if not placed & round_ or len(round_) < 2:
        return list(steps)
    first: dict[int, Feature] = {}
    found = []
    for step in steps:
        if step.kind not in _SET:
            found.append(step)
            continue
        one = part.feature(step.about)
        origin = first.setdefault(step.round, one)
        found.append(replace(step, do=(*_words(part, one, origin), *step.do)))
    return found


def _words(part: Part, one: Feature, origin: Feature) -> tuple[str, ...]:
    if one is origin:
        return ("Its place round the axis is free: mark it, what follows is set from it.",)
    if one.turned is None and origin.turned is None:
        return ()
    by = ((one.turned or 0.0) - (origin.turned or 0.0)) % 360
    what = spoken_of(part, origin.name)
    if by < 1e-6:
        return (f"In line with {what}.",)
    return (f"{short(by)} degrees round from {what}." if by <= 180 else f"{short(360 - by)} degrees back from {what}.",)
