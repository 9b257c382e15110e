"""When nothing is exact: the circle whose holes lie nearest, each position rounded by itself, and its error."""

from __future__ import annotations

from fractions import Fraction
from math import floor

from engine.indexing.simple import Plates, circles_of
from engine.indexing.way import Way

SECONDS = 1_296_000  # seconds of arc in a circle: 360 x 3600


def error_seconds(turns: Fraction | float, ratio: int) -> float:
    """Turn an error of the crank into seconds of arc at the spindle.

    >>> error_seconds(Fraction(1, 54), 40)
    600.0
    """
    return float(turns * SECONDS / ratio)


def worst_turns(*, wanted: Fraction, circle: int, count: int) -> Fraction:
    """How far the worst of so many positions lies from a hole, each rounded to its own nearest hole.

    >>> worst_turns(wanted=Fraction(24, 540), circle=23, count=1)
    Fraction(1, 1035)
    """
    holes = wanted * circle
    over, under = holes.numerator, holes.denominator
    if count >= under:  # every part of a hole comes up once
        return Fraction(under // 2, under * circle)
    worst = max(min(k * over % under, -k * over % under) for k in range(1, count + 1))
    return Fraction(worst, under * circle)


def nearest_way(*, wanted: Fraction, ratio: int, plates: Plates, count: int = 1) -> Way | None:
    """The circle on which the worst of so many positions is least far from a hole.

    wanted, ratio, plates: Crank turns for one division, turns of the crank to one of the spindle, hole circles by
        plates.
    count: Positions that have to be right: the divisions, or 1 for a single move.
    Returns: None when one hole of every circle is a larger step than one division.
    Source: US Army OD1644, Milling Machine Operations, takes 1 hole of 23 for 24 minutes; the error is computed here.

    >>> w = nearest_way(wanted=Fraction(24, 540), ratio=40, plates=((15, 16, 17, 18, 19, 20), (21, 23, 27)))
    >>> w.holes, w.circle, round(error_seconds(w.wanted - w.made, 40), 1)
    (1, 23, 31.3)
    """
    fits = [circle for circle in circles_of(plates) if wanted * circle >= (1 if count > 1 else Fraction(1, 2))]
    if not fits:
        return None
    circle = min(fits, key=lambda c: worst_turns(wanted=wanted, circle=c, count=count))
    turns, holes = divmod(floor(wanted * circle + Fraction(1, 2)), circle)
    return Way("nearest", ratio, wanted, turns, circle, holes)
