"""Differential indexing: the plate is geared to the spindle and creeps while the crank is turned.

Sign convention, used throughout. Let the crank's pin move m turns against the plate for one of N divisions, and let the
plate turn g times for one turn of the spindle, g above 0 when it turns the way the crank does. The worm then gets
m + g/N turns, which must be R/N: so g = R - N m. With A = R/m, the count that m alone would give,
g = (A - N) R / A: a count A above N needs the plate to turn with the crank.

On the classic head an even number of gear meshes between spindle and worm shaft turns the plate with the crank. A
simple train has one mesh more than it has idlers, a compound train two more. Some heads turn it the other way.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from functools import lru_cache
from itertools import combinations
from math import ceil, floor, gcd, prod

from engine.indexing.simple import Plates, circles_of
from engine.indexing.way import Train, Way, proved

_MOST_TRIED = 64  # holes tried on each side of a plain move, a circle: beyond it the plate would spin fast

Gears = tuple[int, int, int, int]  # spindle, worm, first on the stud, second on the stud


@lru_cache(maxsize=16)
def _trains(gears: tuple[int, ...]) -> tuple[dict[tuple[int, int], Gears], float]:
    """The gears for each ratio (numerator, denominator) that the set gives, simple trains first, and the largest."""
    # a third copy of a gear would have to stand on both sides, where it cancels
    owned = sorted(size for size, count in Counter(gears).items() for _ in range(min(count, 2)))
    table: dict[tuple[int, int], Gears] = {}
    for a, b in combinations(owned, 2):
        for spindle, worm in ((a, b), (b, a)):
            d = gcd(spindle, worm)
            table.setdefault((spindle // d, worm // d), (spindle, worm, 0, 0))
    pairs = list(combinations(range(len(owned)), 2))
    for i, j in pairs:
        above = owned[i] * owned[j]
        for k, m in pairs:
            if i not in (k, m) and j not in (k, m):
                below = owned[k] * owned[m]
                d = gcd(above, below)
                key = (above // d, below // d)
                if key not in table:
                    table[key] = (owned[j], owned[m], owned[i], owned[k])
    return table, max((above / below for above, below in table), default=0.0)


def idlers_needed(*, simple: bool, with_crank: bool, extra_idler: bool) -> int:
    """Return how many idlers make the plate turn the right way.

    Sources: Simple train 1 or 2, compound 0 or 1: the classic printed table of differential indexing (handbooks; from memory,
    unconfirmed). Heads differ: turn the crank once and look.

    >>> [idlers_needed(simple=s, with_crank=w, extra_idler=False) for s in (True, False) for w in (True, False)]
    [1, 2, 0, 1]
    """
    even_meshes = with_crank != extra_idler
    if simple:
        return 1 if even_meshes else 2
    return 0 if even_meshes else 1


def differential_ways(
    *, wanted: Fraction, ratio: int, plates: Plates, gears: tuple[int, ...], extra_idler: bool = False, most: int = 3
) -> tuple[Way, ...]:
    """Differential settings that are exact: simple trains before compound ones, a slow plate before a fast one.

    wanted, ratio, plates: Crank turns for one division, turns of the crank to one of the spindle, hole circles by
        plates.
    gears: Teeth of every gear owned, one written twice if there are two.
    extra_idler: Whether this head turns the plate the other way than the classic one with the same idlers.
    most: How many ways to return.
    Returns: Whether the gears reach each other on the head is not known here.
    Source: Derived at the head of this module: g = (A - N) R / A. It solves 1 to 382, as Practical Treatise on Milling
        and Milling Machines, 1914, says of these plates and gears.

    >>> w = differential_ways(wanted=Fraction(40, 59), ratio=40, plates=((39,),), gears=(24, 32, 44, 48))[0]
    >>> w.holes, w.circle, w.train.spindle, w.train.worm, str(w.train.value)
    (26, 39, 32, 48, '2/3')
    """
    table, largest = _trains(gears)
    teeth = prod(set(gears))
    found: dict[tuple[int, int], tuple[bool, float, int, int]] = {}
    over, under = wanted.numerator, wanted.denominator  # N = ratio * under / over
    for circle in circles_of(plates):
        common = over * circle
        middle = common / under  # a float will do for bounds; what is tried is exact
        reach = min(middle * largest / ratio + 1e-6, _MOST_TRIED)
        # primes of the circle that no gear has must go out of g = ratio (common - under holes) / common
        foreign = _without(common, teeth)
        step = foreign // gcd(foreign, ratio * under)
        low = max(ceil((middle - reach) / step), 1) * step
        for holes in range(low, floor(middle + reach) + 1, step):
            value = ratio * (common - under * holes)
            d = gcd(value, common)
            size = (abs(value) // d, common // d)
            if size in table:
                key = (value // d, size[1])
                if key not in found:  # else the same move on a larger circle
                    found[key] = (table[size][2] != 0, abs(value) / common, circle, holes)
    ways: list[Way] = []
    for key in sorted(found, key=lambda k: found[k][:2]):
        train = _train(key, table, len(gears), extra_idler)
        if train is not None:
            turns, holes = divmod(found[key][3], found[key][2])
            ways.append(
                proved(Way("differential", ratio, wanted, turns, found[key][2] if holes else 0, holes, train=train))
            )
        if len(ways) == most:
            break
    return tuple(ways)


def _without(number: int, factors: int) -> int:
    """The part of a number that has no prime in common with the factors."""
    while (shared := gcd(number, factors)) > 1:
        number //= shared
    return number


def _train(key: tuple[int, int], table: dict[tuple[int, int], Gears], owned: int, extra_idler: bool) -> Train | None:
    """The train of a signed ratio; None when the set has no gears left for its idlers."""
    spindle, worm, first, second = table[abs(key[0]), key[1]]
    idlers = idlers_needed(simple=not first, with_crank=key[0] > 0, extra_idler=extra_idler)
    used = (4 if first else 2) + idlers
    return Train(spindle, worm, first, second, idlers, Fraction(*key)) if used <= owned else None
