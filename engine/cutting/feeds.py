"""Feeds as published: for each turn of a drill or a lathe, for each tooth of a cutter."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Literal

from engine.base.quantity import INCH_MM
from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.tables import rows
from engine.base.words import Text, plain, put, say
from engine.cutting.speeds import Tool

FeedKind = Literal["drilling", "turning", "finishing", "parting", "reaming", "knurling", "slotting", "milling"]
_SMALLEST_CUTTER = INCH_MM / 16  # mm: the tables of end mill feeds begin at 1/16 in


@dataclass(frozen=True, slots=True)
class FeedRange:
    """A published range of feeds and the one to use, its low end. `per` is what it is counted on.

    In mm for each turn (`rev`), each flute and turn (`flute`) or each tooth (`tooth`).
    """

    low: float
    high: float
    chosen: float
    per: str
    source: str


def feed(*, kind: FeedKind, diameter: float, tool: Tool = "hss") -> FeedRange:
    """Feed of a cut: the published range for the diameter, and its low end for a light machine.

    kind: drilling, turning (roughing), finishing, parting, reaming, knurling, slotting (slot drills) or milling.
    diameter: Of the drill or cutter; for turning, of the work. Above 0. [mm]
    tool: `hss` or `carbide`.
    Returns: Lowest, highest and chosen feed. [mm]
    Source: The `source` column of engine/data/cutting/feeds.csv. Cutters below 1/16 in: the feed of a 1/16 in cutter,
        reduced with the diameter (common practice, no source). The low end for a light machine: likewise; that of a
        drill is taken in proportion between the middles of the bands.

    A 6 mm drill: 0.002 to 0.004 in a turn in the Navy's table; between the middles of two bands, 0.0025 in.

    >>> found = feed(kind="drilling", diameter=6)
    >>> round(found.low, 4), round(found.high, 4), found.per, round(found.chosen, 4)
    (0.0508, 0.1016, 'rev', 0.064)
    """
    check_range("diameter", diameter, low=1e-6, unit="mm")
    for row in rows("cutting/feeds.csv"):
        if row["operation"] == kind and row["tool"] in (tool, "any") and _covers(row, diameter):
            return _from_row(row, kind, diameter)
    raise KeyError(kind)


def _covers(row: dict[str, str], diameter: float) -> bool:
    inches = diameter / INCH_MM
    above = inches > float(Fraction(row["over"])) or float(Fraction(row["over"])) == 0
    return above and (not row["to"] or inches <= float(Fraction(row["to"])) + 1e-9)


def _from_row(row: dict[str, str], kind: str, diameter: float) -> FeedRange:
    low, high = float(row["low"]) * INCH_MM, float(row["high"]) * INCH_MM
    words = row["low"] if row["low"] == row["high"] else f"{row['low']} to {row['high']}"
    source = f"{row['source']}: {words} in a {'turn' if row['unit'] == 'rev' else row['unit']}"
    if kind in ("slotting", "milling") and diameter < _SMALLEST_CUTTER:
        share = diameter / _SMALLEST_CUTTER
        low, high = low * share, high * share
        source += "; reduced with the diameter below 1/16 in (common practice, no source)"
    if kind == "drilling":
        return FeedRange(low, high, _in_proportion(diameter), row["unit"], source)
    return FeedRange(low, high, low, row["unit"], source)


def _in_proportion(diameter: float) -> float:
    """Low ends of the drilling bands, each at the middle of its band and in proportion between them, so that no feed
    jumps where a band ends."""
    points = _low_ends()
    inches = min(max(diameter / INCH_MM, points[0][0]), points[-1][0])
    for (below, slow), (above, fast) in pairwise(points):
        if inches <= above:
            return (slow + (fast - slow) * (inches - below) / (above - below)) * INCH_MM
    return points[-1][1] * INCH_MM


@cache
def _low_ends() -> tuple[tuple[float, float], ...]:
    """Middle of each drilling band and its low end [in]."""
    bands = [row for row in rows("cutting/feeds.csv") if row["operation"] == "drilling"]
    return tuple((_middle(row), float(row["low"])) for row in bands)


def _middle(row: dict[str, str]) -> float:
    """Middle of a band [in]; the last one, which has no end, is taken as wide again as where it begins."""
    over = float(Fraction(row["over"]))
    return (over + float(Fraction(row["to"] or 2 * Fraction(row["over"])))) / 2


def low_end(low: float, high: float) -> Text:
    """Which end of a published range of feeds was taken.

    >>> from engine.base.words import write
    >>> write(low_end(0.127, 0.381), "inch")
    'low end of 0.005 to 0.015 in/rev, for a light machine'
    """
    return say("low end of {low} to {high}, for a light machine", low=put(low), high=plain(high, "feed"))
