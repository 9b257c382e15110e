"""The limits of a drawing that this shop can hardly hold, told before the first cut."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi
from typing import TypeGuard

from engine.accuracy.budget import Share, expanded
from engine.accuracy.budgets import (
    bore_turned,
    diameter_turned,
    drum_divided,
    half_of_class,
    held,
    hole_placed,
    hole_reamed,
    holes_set_out,
    length_turned,
    thread_cut,
)
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, write
from engine.part import part as p
from engine.part.plan import Plan
from engine.part.words import spoken_of
from engine.shop.model import Shop

_SEEN = 0.1  # of its space: a line so far out of its place is seen (common practice, no source)
_ADVICE = {
    "reamed": "Try the reamer in a piece of the same stuff first.",
    "place": "Set it by a clock or by gauges rather than by the dial, and start it with a short stiff drill.",
    "lines": "Clock the drum truer before the first line.",
}
_CREEP = "Creep up on it: measure before the last cuts."
_SAID = {"length": ", its length", "depth": ", its depth", "place": ", its place", "lines": ", its lines"}


@dataclass(frozen=True, slots=True)
class Asked:
    """One limit: the feature, what of it (`size`, `length`, `depth`, `reamed`, `place`, `lines`), what is allowed either
    way [mm], and what goes into its error."""

    name: str
    what: str
    allowed: float
    shares: list[Share]


@dataclass(frozen=True, slots=True)
class Tight:
    """One limit: what is allowed either way, what the shop makes it to, and the cause that counts most. [mm]"""

    name: str
    what: str
    allowed: float
    good_to: float
    state: str
    cause: Text


def tight(plan: Plan) -> tuple[Tight, ...]:
    """The limits that are closer than what this shop holds with ease, as the plan makes them: turned and bored diameters,
    reamed holes, screws, lengths, the places of holes and the lines of scales. Drilled holes are not judged: what is
    closer than a drill holds the plan reams or bores; nor general limits, which are wide."""
    return tuple(one for one in map(_judged, _asked(plan)) if one is not None)


def _asked(plan: Plan) -> Iterator[Asked]:
    part, shop = plan.part, plan.bench.shop
    for out in part.outside:
        yield from _outside(out, shop)
    if _close(part.length):
        yield Asked("whole length", "", _half(part.length), length_turned(part.length.middle, part.largest, shop))
    ways = {
        step.about: step.kind for step in plan.steps if step.kind in ("ream", "bore_finish", "cross_ream", "holes_ream")
    }
    for inner in part.inside:
        yield from _inside(inner, ways.get(inner.name, ""), shop)
    for across in part.across:
        yield from _across(across, ways.get(across.name, ""), shop)


def _close(size: p.Size | None) -> TypeGuard[p.Size]:
    """Whether a size has limits of its own."""
    return size is not None and bool(size.tolerance) and not size.general


def _half(size: p.Size) -> float:
    return (size.tolerance or 0.0) / 2


def _outside(one: p.Outside, shop: Shop) -> Iterator[Asked]:
    if isinstance(one, p.Diameter) and _close(one.size):
        yield Asked(one.name, "size", _half(one.size), diameter_turned(one.size.middle, one.length.nominal, shop))
    if isinstance(one, p.OutsideThread):
        yield from _thread(one, shop)
    if _close(one.length):
        yield Asked(one.name, "length", _half(one.length), length_turned(one.length.middle, one.largest, shop))
    lines = one.scale.lines if one.scale else 0
    if one.scale and lines > 1 and shop.dividing_head is not None:
        space = pi * one.front_diameter / lines
        yield Asked(one.scale.name, "lines", _SEEN * space, drum_divided(one.front_diameter, shop))


def _thread(one: p.OutsideThread, shop: Shop) -> Iterator[Asked]:
    try:
        allowed = half_of_class(one.size)
        shares = thread_cut(one.size, shop, length=min(one.length.nominal, one.size.diameter))
    except BadInput:
        return  # a square thread is not read over wires
    if allowed:
        yield Asked(one.name, "size", allowed, shares)


def _inside(one: p.Inside, way: str, shop: Shop) -> Iterator[Asked]:
    if isinstance(one, p.Hole) and _close(one.size):
        if way == "ream":
            yield Asked(one.name, "reamed", _half(one.size), hole_reamed(one.size.nominal))
        elif way == "bore_finish":
            yield Asked(one.name, "size", _half(one.size), bore_turned(one.size.middle, one.long, shop))
    if _close(one.depth):
        yield Asked(one.name, "depth", _half(one.depth), length_turned(one.depth.middle, one.largest, shop))


def _across(one: p.Across, way: str, shop: Shop) -> Iterator[Asked]:
    if _close(one.size) and way:
        yield Asked(one.name, "reamed", _half(one.size), hole_reamed(one.size.nominal))
    if shop.mill is None:
        return
    if isinstance(one, p.HoleCircle) and _close(one.diameter):
        # the circle's limits are on its diameter: a hole may stand half of that nearer or farther from the middle
        yield Asked(one.name, "place", _half(one.diameter) / 2, holes_set_out(one.diameter.middle, shop.mill))
    if isinstance(one, p.CrossHole) and _close(one.at):
        yield Asked(one.name, "place", _half(one.at), hole_placed(one.at.middle, shop.mill))


def _judged(asked: Asked) -> Tight | None:
    good = expanded(asked.shares)
    state = held(good, asked.allowed)
    largest = max(asked.shares, key=lambda share: share.standard)
    return None if state == "can be held" else Tight(asked.name, asked.what, asked.allowed, good, state, largest.cause)


def tight_lines(plan: Plan) -> Iterator[str]:
    """A line for each, in the part's own unit."""
    unit = "inch" if plan.part.unit == "inch" else "mm"
    for one in tight(plan):
        allowed, good = (_short(size, unit) for size in (one.allowed, one.good_to))
        yield (
            f"{_named(plan.part, one.name)}{_SAID.get(one.what, '')}: {one.state} here. Allowed ±{allowed}, this shop ±{good}, "
            f"most of it {write(one.cause, unit)}. {_ADVICE.get(one.what, _CREEP)}"
        )


def _named(part: p.Part, name: str) -> str:
    said = spoken_of(part, name)
    return said[0].upper() + said[1:]


def _short(size: float, unit: str) -> str:
    from engine.base.quantity import show

    return show(size, "length", unit, decimals=3)
