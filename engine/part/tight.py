"""The limits of a drawing that this shop can hardly hold, told before the first cut."""

from __future__ import annotations

from collections.abc import Iterator

from engine.accuracy.budget import Share, expanded
from engine.accuracy.budgets import diameter_turned, half_of_class, held, thread_cut
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, write
from engine.part import part as p
from engine.part.words import spoken_of
from engine.shop.model import Shop


@dataclass(frozen=True, slots=True)
class Tight:
    """One limit: what is allowed either way, what the shop turns it to, and the cause that counts most. [mm]"""

    name: str
    allowed: float
    good_to: float
    state: str
    cause: Text


def tight(part: p.Part, shop: Shop) -> tuple[Tight, ...]:
    """Turned diameters and screws whose limits are closer than what this shop holds with ease; bores are sized by
    their reamer or their mate, general limits are wide."""
    found = (_judged(name, allowed, shares) for name, allowed, shares in _asked(part, shop))
    return tuple(one for one in found if one is not None)


def _asked(part: p.Part, shop: Shop) -> Iterator[tuple[str, float, list[Share]]]:
    for one in part.outside:
        if isinstance(one, p.Diameter) and one.size.tolerance and not one.size.general:
            yield one.name, one.size.tolerance / 2, diameter_turned(one.size.middle, one.length.nominal, shop)
        if isinstance(one, p.OutsideThread):
            try:
                allowed = half_of_class(one.size)
                shares = thread_cut(one.size, shop, length=min(one.length.nominal, one.size.diameter))
            except BadInput:
                continue  # a square thread is not read over wires
            if allowed:
                yield one.name, allowed, shares


def _judged(name: str, allowed: float, shares: list[Share]) -> Tight | None:
    good = expanded(shares)
    state = held(good, allowed)
    largest = max(shares, key=lambda share: share.standard)
    return None if state == "can be held" else Tight(name, allowed, good, state, largest.cause)


def tight_lines(part: p.Part, shop: Shop) -> Iterator[str]:
    """A line for each, in the part's own unit."""
    unit = "inch" if part.unit == "inch" else "mm"
    for one in tight(part, shop):
        allowed, good = (_short(size, unit) for size in (one.allowed, one.good_to))
        cause = write(one.cause, unit)
        yield (
            f"{_named(part, one.name)}: {one.state} here. Allowed ±{allowed}, this shop ±{good}, most of it {cause}. "
            "Creep up on it: measure before the last cuts."
        )


def _named(part: p.Part, name: str) -> str:
    said = spoken_of(part, name)
    return said[0].upper() + said[1:]


def _short(size: float, unit: str) -> str:
    from engine.base.quantity import show

    return show(size, "length", unit, decimals=3)
