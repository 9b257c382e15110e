"""Which end mill cuts a slot: an owned one no wider than the slot, long enough for its depth."""

from __future__ import annotations

from engine.base.records import dataclass
from engine.base.refusals import OutOfRange
from engine.shop.model import EndMill

SAME = 0.005  # mm: a cutter this near a slot's width is called the same size
_LENGTHS = 3.0  # diameters: length of flute of a short end mill whose length is not known; common practice


@dataclass(frozen=True, slots=True)
class Cutter:
    """A cutter with what bends it. `flute_length` in mm; `owned`: it is in the shop's list."""

    diameter: float
    flutes: int
    made_of: str
    flute_length: float
    owned: bool


def _of(mill: EndMill) -> Cutter:
    reach = mill.flute_length or _LENGTHS * mill.diameter
    return Cutter(mill.diameter, mill.flutes, mill.material, reach, True)


def choose(
    *,
    width: float,
    depth: float,
    owned: tuple[EndMill, ...],
    diameter: float | None,
    made_of: str | None,
    flute_length: float | None,
) -> Cutter:
    """Choose the cutter of a slot.

    >>> mills = (EndMill(diameter=1.5, material="carbide"), EndMill(diameter=3))
    >>> choose(width=2, depth=1, owned=mills, diameter=None, made_of=None, flute_length=None).diameter
    1.5
    """
    if diameter is not None and diameter > width + SAME:
        raise OutOfRange("cutter", diameter, None, width, "mm", "no wider than the slot")
    fitting = [
        _of(m)
        for m in owned
        if (m.diameter <= width + SAME if diameter is None else abs(m.diameter - diameter) <= SAME)
    ]
    if fitting:
        best = max(fitting, key=lambda c: (c.flute_length >= depth, c.diameter))
    else:
        size = diameter if diameter is not None else width
        best = Cutter(size, 2, made_of or "hss", _LENGTHS * size, False)
    return Cutter(best.diameter, best.flutes, made_of or best.made_of, flute_length or best.flute_length, best.owned)
