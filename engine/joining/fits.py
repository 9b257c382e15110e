"""How a hole and a shaft go together, from their limits or by a shop allowance."""

from __future__ import annotations

import re

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.tables import rows
from engine.joining.iso286 import limits_of

_FIT = re.compile(r"\s*([A-Za-z]{1,2}\s*\d{1,2})\s*[/ ]\s*([A-Za-z]{1,2}\s*\d{1,2})\s*")


@dataclass(frozen=True, slots=True)
class Fit:
    """Limits of a hole and a shaft and what stands between them, in mm; clearance below zero is interference."""

    hole_max: float
    hole_min: float
    shaft_max: float
    shaft_min: float
    hole_source: str
    shaft_source: str

    @property
    def clearance_max(self) -> float:
        """Largest hole on smallest shaft. [mm]"""
        return self.hole_max - self.shaft_min

    @property
    def clearance_min(self) -> float:
        """Smallest hole on largest shaft. [mm]"""
        return self.hole_min - self.shaft_max

    @property
    def kind(self) -> str:
        """Clearance, interference, or (when either may come out) transition."""
        if self.clearance_min >= -1e-9:
            return "clearance"
        return "interference" if self.clearance_max <= 1e-9 else "transition"


def fit_of(text: str, diameter: float) -> Fit:
    """Return the fit that a pair of codes makes.

    text: Hole and shaft, such as `H7/g6`; in either order.
    diameter: Nominal diameter, above 0, up to 500. [mm]
    Returns: Limits of both. [mm]
    Raises: BadInput if the text is no pair of a hole and a shaft that ISO 286 has for that diameter.
    Source: ISO 286-1:2010.

    >>> found = fit_of("H7/g6", 20)
    >>> found.clearance_min, found.clearance_max, found.kind
    (0.007, 0.041, 'clearance')
    """
    parts = _FIT.fullmatch(text)
    if not parts:
        raise BadInput("fit", text, "a hole and a shaft such as H7/g6, or press, force or running")
    try:
        pair = [limits_of(code, diameter) for code in parts.groups()]
    except BadInput as refusal:
        raise BadInput("fit", refusal.given, refusal.accepted) from None
    if pair[0].is_hole == pair[1].is_hole:
        raise BadInput("fit", text, "one hole (a capital, H7) and one shaft (a small letter, g6)")
    hole, shaft = (pair[0], pair[1]) if pair[0].is_hole else (pair[1], pair[0])
    high, low, thick, thin = (diameter + off for one in (hole, shaft) for off in (one.upper, one.lower))
    return Fit(high, low, thick, thin, hole.source, shaft.source)


@dataclass(frozen=True, slots=True)
class Allowance:
    """A shop allowance in mm for a diameter; above zero it is interference. `least` and `most`: the constant and the rate
    of the looser and the tighter end (of clearance the wider and the closer)."""

    low: float
    high: float
    source: str
    least: tuple[float, float] = (0.0, 0.0)
    most: tuple[float, float] = (0.0, 0.0)


def allowance(word: str, diameter: float) -> Allowance | None:
    """Return a shop allowance by its word.

    word: `press`, `force` or `running`.
    diameter: Nominal diameter. [mm]
    Returns: Interference (plus) or clearance (minus); None if there is no such word.
    Source: The table's own rows.

    A handbook example: a force fit on 2 in, 0.004 in: within the range.

    >>> found = allowance("force", 50.8)
    >>> found.low, found.high
    (0.0508, 0.127)
    """
    for row in rows("joining/allowances.csv"):
        if row["fit"] == word.strip().casefold():
            least, most = ((float(row[f"{end}_constant"]), float(row[end])) for end in ("low", "high"))
            low, high = (constant + rate * diameter for constant, rate in (least, most))
            return Allowance(low, high, row["source"], least, most)
    return None
