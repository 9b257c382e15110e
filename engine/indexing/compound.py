"""Compound indexing: two circles of one plate, the second move with plate and crank together, on or back."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from math import gcd
from typing import NamedTuple

from engine.indexing.simple import Plates
from engine.indexing.way import Way, proved


class _Pair(NamedTuple):
    """Two circles of one plate. `common` is their least common multiple, `u` and `v` their holes in its parts."""

    first: int
    second: int
    common: int
    u: int
    v: int
    inverse: int


@lru_cache(maxsize=16)
def _pairs(plates: Plates) -> dict[int, tuple[_Pair, ...]]:
    """The ordered pairs of circles on one plate by their common multiple, where that is more than either alone."""
    found: dict[int, dict[tuple[int, int], _Pair]] = {}
    for plate in plates:
        for first in plate:
            for second in plate:
                common = first * second // gcd(first, second)
                if common > max(first, second):
                    u, v = common // first, common // second
                    found.setdefault(common, {})[first, second] = _Pair(first, second, common, u, v, pow(v, -1, u))
    return {common: tuple(pairs.values()) for common, pairs in found.items()}


def compound_ways(*, wanted: Fraction, ratio: int, plates: Plates, most: int = 3) -> tuple[Way, ...]:
    """Compound moves that are exact, those with the fewest holes first.

    The first move is forward with the plate held by its rear pin; the second turns plate and crank together, on or
    back. Both circles are on one plate.

    wanted, ratio, plates: Crank turns for one division, turns of the crank to one of the spindle, hole circles by
        plates.
    most: How many ways to return.
    Returns: None when the denominator divides no pair's least common multiple, or one circle alone does it.
    Source: Machinery's Handbook, 27th edition, p. 1995, moves on two circles of one plate; the fewest holes first:
        common practice, no source.

    >>> w = compound_ways(wanted=Fraction(40, 51), ratio=40, plates=((15, 16, 17, 18, 19, 20),))[0]
    >>> w.turns + Fraction(w.holes, w.circle) + Fraction(w.second_holes, w.second_circle) == Fraction(40, 51)
    True
    """
    whole, plain = wanted.denominator, wanted.numerator // wanted.denominator
    found: list[tuple[bool, int, int, int, _Pair, int, int]] = []
    for common, pairs in _pairs(plates).items():
        if common % whole == 0:
            for pair in pairs:
                # a move that goes a turn too far and comes back has few holes, but is easy to miscount
                moves = _moves(pair, wanted.numerator * (common // whole))
                found.extend((move[2] > plain, *move) for move in moves)
    found.sort()
    kept: dict[frozenset[int], Way] = {}
    for _, _, _, turns, pair, holes, second in found:
        circles = frozenset((pair.first, pair.second))
        if circles not in kept:
            kept[circles] = proved(Way("compound", ratio, wanted, turns, pair.first, holes, pair.second, second))
            if len(kept) == most:
                break
    return tuple(kept.values())


def nearest_compound(*, wanted: Fraction, ratio: int, plates: Plates, spans: tuple[int, ...] = (1,)) -> Way | None:
    """The compound move that comes nearest when none is exact, over one division or several at a time.

    Its error adds up from move to move.

    wanted, ratio, plates: Crank turns for one division, turns of the crank to one of the spindle, hole circles by
        plates.
    spans: Divisions that one move may pass over; each must have no factor in common with the divisions.
    Returns: Its `wanted` is the span's; None when no plate has two circles that help.
    Source: Machinery's Handbook, 27th edition, p. 1995, gives such moves for angles; its high-number table passes 5 of
        106 divisions with 7 holes of 39 and 29 of 41, which is the move of the example.

    >>> w = nearest_compound(wanted=Fraction(40, 106), ratio=40, plates=((37, 39, 41, 43, 47, 49),), spans=(5,))
    >>> round(float(w.made - w.wanted) / 40 * 1296000, 2)
    0.38
    """
    best: tuple[Fraction, int, int, Way] | None = None
    for span in spans:
        move = wanted * span
        over, under = move.numerator, move.denominator
        for common, pairs in _pairs(plates).items():
            parts = (2 * over * common + under) // (2 * under)
            error = Fraction(abs(parts * under - over * common), common * under)
            if best is not None and error > best[0]:
                continue
            for pair in pairs:
                for effort, _, turns, _, holes, second in _moves(pair, parts):
                    if best is None or (error, span, effort) < best[:3]:
                        way = Way("nearest", ratio, move, turns, pair.first, holes, pair.second, second)
                        best = (error, span, effort, way)
    return best[3] if best else None


def _moves(pair: _Pair, parts: int) -> list[tuple[int, int, int, _Pair, int, int]]:
    """The two shortest second moves that leave a whole first move, ranked: (holes, second, turns, pair, a, b)."""
    base = parts * pair.inverse % pair.u
    if base == 0:  # the first circle alone does it
        return []
    found = []
    for second in (base, base - pair.u):
        turns, holes = divmod((parts - second * pair.v) // pair.u, pair.first)
        if turns >= 0 and holes:
            found.append((holes + abs(second), abs(second), turns, pair, holes, second))
    return found
