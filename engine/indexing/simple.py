"""Simple indexing on the crank's plate, and direct indexing on a plate of the spindle."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from engine.indexing.way import Way, proved

Plates = tuple[tuple[int, ...], ...]


@lru_cache(maxsize=16)
def circles_of(plates: Plates) -> tuple[int, ...]:
    """Return every hole circle of a set of plates, each once, the largest first.

    >>> circles_of(((15, 16), (16, 21)))
    (21, 16, 15)
    """
    return tuple(sorted({circle for plate in plates for circle in plate}, reverse=True))


def simple_ways(*, wanted: Fraction, ratio: int, plates: Plates) -> tuple[Way, ...]:
    """Every circle on which one move is a whole number of holes, the largest first.

    A larger circle is easier to set and wears its holes less.

    wanted, ratio, plates: Crank turns for one division (ratio over divisions), turns to one of the spindle, hole
        circles by plates.
    Returns: One without a circle when whole turns do it; none when no circle does.
    Source: US Army OD1644, Milling Machine Operations, lesson 1: turns = ratio ÷ divisions, the rest in spaces of a
        circle that the denominator divides. The choice of circle: common practice, no source.

    >>> [(w.turns, w.holes, w.circle) for w in simple_ways(wanted=Fraction(40, 15), ratio=40, plates=((15, 18, 27),))]
    [(2, 18, 27), (2, 12, 18), (2, 10, 15)]
    """
    turns, rest = divmod(wanted, 1)
    if rest == 0:
        return (proved(Way("simple", ratio, wanted, turns)),)
    part, whole = rest.numerator, rest.denominator
    return tuple(
        proved(Way("simple", ratio, wanted, turns, circle, part * (circle // whole)))
        for circle in circles_of(plates)
        if circle % whole == 0
    )


def direct_ways(*, wanted: Fraction, ratio: int, direct: tuple[int, ...]) -> tuple[Way, ...]:
    """Every direct plate on which one division is a whole number of holes.

    Sources: Direct indexing, a 24-hole plate for 2, 3, 4, 6, 8, 12 and 24: US Army OD1644, Milling Machine Operations.

    >>> direct_ways(wanted=Fraction(40, 6), ratio=40, direct=(24,))[0].holes
    4
    """
    turn = wanted / ratio
    found = [
        Way("direct", ratio, wanted, 0, holes, turn.numerator * (holes // turn.denominator))
        for holes in sorted(set(direct))
        if holes % turn.denominator == 0
    ]
    return tuple(proved(way) for way in found)
