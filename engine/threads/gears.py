"""Change wheels: every train that cuts a lead, found by meeting the products of drivers and driven in the middle.

All ratios are exact fractions. The lead of the screw being cut is the leadscrew's lead times the drivers' teeth over
the driven wheels' teeth, where the leadscrew's lead is what equal wheels cut.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import combinations, permutations
from math import prod

from engine.base.refusals import check_range

MOST_WHEELS = 40  # different wheels in a set; six-wheel searches of more would be felt at the keyboard
_WIDER = tuple(Fraction(1, 10**power) for power in (5, 4, 3, 2, 1))
_WIDE_ENOUGH = Fraction(1, 1000)  # once a few are found this near, worse trains are not looked for
_A_FEW = 3


@dataclass(frozen=True, slots=True)
class Train:
    """Change wheels in the order they mesh: the first driver on the spindle's side meshes the first driven wheel,
    which shares its stud with the second driver, and so on; the last driven wheel is on the leadscrew.

    A train of two wheels has an idler of any size between them.
    """

    drivers: tuple[int, ...]
    driven: tuple[int, ...]

    @property
    def ratio(self) -> Fraction:
        """Turns of the leadscrew for one of the spindle."""
        return Fraction(prod(self.drivers), prod(self.driven))

    @property
    def wheels(self) -> int:
        """How many wheels the train has, idlers apart."""
        return 2 * len(self.drivers)


def lead_cut(*, train: Train, leadscrew: Fraction) -> Fraction:
    """Lead that a train cuts.

    Parameters
    ----------
    train : Train
        The change wheels.
    leadscrew : Fraction
        Lead of the leadscrew, or what equal wheels cut on a lathe with a fixed gear before the train. [mm]

    Returns
    -------
    lead : Fraction
        Advance of the tool for one turn of the work. [mm]

    Raises
    ------
    ZeroDivisionError
        If a driven wheel has no teeth.

    Sources
    -------
    F. D. Jones, Turning and Boring, 1914, pp. 168-172.

    Examples
    --------
    A 6 tpi leadscrew with 40 and 30 driving 80 and 60 cuts 24 tpi (Jones, p. 170):

    >>> Fraction(127, 5) / lead_cut(train=Train((40, 30), (80, 60)), leadscrew=Fraction(127, 30))
    Fraction(24, 1)
    """
    return leadscrew * train.ratio


def error_ppm(*, lead: Fraction, wanted: Fraction) -> float:
    """Error of a lead, in parts in a million of the wanted one.

    Parameters
    ----------
    lead : Fraction
        The lead cut, or any ratio. [mm]
    wanted : Fraction
        The lead wanted, above 0, in the same unit. [mm]

    Returns
    -------
    error : float
        Positive when the lead cut is too long. [ppm]

    Raises
    ------
    ZeroDivisionError
        If the wanted lead is nought.

    Sources
    -------
    Arithmetic.

    Examples
    --------
    63 and 80 for 100 and 127, the usual translating pair without a wheel of 127:

    >>> error_ppm(lead=Fraction(80, 63), wanted=Fraction(127, 100))
    -124.98
    """
    return float((lead - wanted) / wanted * 1_000_000)


@dataclass(frozen=True, slots=True)
class _Products:
    """Every product of so many wheels of a set, in rising order, and the wheels that give each.

    Each choice of wheels carries a bit mask of the sizes in it, so that two choices are compared at once.
    """

    rising: list[int]
    choices: dict[int, list[tuple[int, tuple[int, ...]]]]


@lru_cache(maxsize=24)
def _products(wheels: tuple[int, ...], count: int) -> _Products:
    bit = {teeth: 1 << place for place, teeth in enumerate(sorted(set(wheels)))}
    choices: dict[int, list[tuple[int, tuple[int, ...]]]] = {}
    for chosen in dict.fromkeys(combinations(wheels, count)):
        mask = 0
        for teeth in chosen:
            mask |= bit[teeth]
        choices.setdefault(prod(chosen), []).append((mask, chosen))
    return _Products(sorted(choices), choices)


def _checked(wheels: Sequence[int]) -> tuple[int, ...]:
    """The set in rising order, each size kept at most three times: no train has more of one on a side."""
    check_range("wheels", len(set(wheels)), low=1, high=MOST_WHEELS, unit="different wheels")
    owned = Counter(wheels)
    return tuple(teeth for teeth in sorted(owned) for _ in range(min(owned[teeth], 3)))


def trains_within(
    *, ratio: Fraction, wheels: Sequence[int], pairs: int, within: Fraction = Fraction(0)
) -> list[Train]:
    """Every train of so many pairs whose ratio lies within a relative tolerance of the one wanted.

    The products of all drivers are met with those of all driven wheels: for each driven product, the driver products
    that would do lie between two whole numbers, found by bisection. No wheel size stands on both sides, as it would
    cancel; but a simple train may have two equal wheels if the set holds both.

    Parameters
    ----------
    ratio : Fraction
        Turns of the leadscrew wanted for one of the spindle, above 0. [-]
    wheels : sequence of int
        Teeth of every wheel owned; one written twice is owned twice. At most 40 sizes.
    pairs : int
        1 for a simple train, 2 for a compound one of four wheels, 3 for six.
    within : Fraction
        Largest relative error, 0 for exact trains only. [-]

    Returns
    -------
    trains : list of Train
        Drivers and driven each in rising order, not yet in an order that is known to mesh.

    Raises
    ------
    OutOfRange
        If the set has no wheels or too many sizes, or the ratio is not above 0.

    Sources
    -------
    F. D. Jones, Turning and Boring, 1914, pp. 168-172, for the ratio; the search is arithmetic.

    Examples
    --------
    >>> trains_within(ratio=Fraction(1, 4), wheels=(30, 40, 60, 80), pairs=2)
    [Train(drivers=(30, 40), driven=(60, 80))]
    """
    check_range("ratio", float(ratio), low=1e-6, high=1e6)
    owned = _checked(wheels)
    products = _products(owned, pairs)
    low, high = ratio * (1 - within), ratio * (1 + within)
    found = _met_in_the_middle(products, low, high)
    if pairs == 1 and low <= 1 <= high:
        found.extend(Train((w,), (w,)) for w, owned_of_it in Counter(owned).items() if owned_of_it > 1)
    return found


def _met_in_the_middle(products: _Products, low: Fraction, high: Fraction) -> list[Train]:
    """Trains with low <= drivers ÷ driven <= high, in whole numbers throughout."""
    low_top, low_bottom = low.numerator, low.denominator
    high_top, high_bottom = high.numerator, high.denominator
    rising, choices = products.rising, products.choices
    end = len(rising)
    found: list[Train] = []
    for bottom in rising:
        least = -(-low_top * bottom // low_bottom)
        most = high_top * bottom // high_bottom
        if most < least:
            continue
        place = bisect_left(rising, least)
        if place == end:
            break
        while place < end and (top := rising[place]) <= most:
            found += [
                Train(drivers, driven)
                for mask, drivers in choices[top]
                for other, driven in choices[bottom]
                if not mask & other
            ]
            place += 1
    return found


def clearances(*, train: Train, module: float, boss: float) -> tuple[float, ...]:
    """Room that each wheel leaves to the boss of the stud or shaft beside it.

    In a compound train the second driver, on the stud of the first driven wheel, turns beside the spindle's own
    boss: its rim has to clear that. So has the first driven wheel to clear the boss of the stud (or leadscrew) on the
    other side.

    Parameters
    ----------
    train : Train
        The wheels in the order they mesh.
    module : float
        Module of the wheels, above 0. [mm]
    boss : float
        Diameter of a stud's boss, 0 or more. [mm]

    Returns
    -------
    room : tuple of float
        One for each wheel that must clear; nought or less: it fouls. Empty for a simple train. [mm]

    Raises
    ------
    ZeroDivisionError
        Never: the sizes are only added.

    Sources
    -------
    Geometry: centre distance m(z1 + z2)/2, outside radius m(z + 2)/2.

    Examples
    --------
    20 driving 30, with 60 on the same stud driving 40: the 60 hits the spindle's boss.

    >>> clearances(train=Train((20, 60), (30, 40)), module=1.0, boss=14.0)
    (-13.0, 27.0)
    """
    drivers, driven = train.drivers, train.driven
    centres = [module * (a + b) / 2 for a, b in zip(drivers, driven, strict=True)]
    room: list[float] = []
    for link in range(len(centres) - 1):
        # The stud between two meshes carries a driven wheel and the next driver.
        room.append(centres[link] - module * (drivers[link + 1] + 2) / 2 - boss / 2)
        room.append(centres[link + 1] - module * (driven[link] + 2) / 2 - boss / 2)
    return tuple(room)


def meshed(*, train: Train, module: float, boss: float) -> Train | None:
    """The order of a train's wheels that leaves most room at the studs, or None if no order clears them.

    Parameters
    ----------
    train : Train
        The wheels, in any order.
    module : float
        Module of the wheels, above 0. [mm]
    boss : float
        Diameter of a stud's boss, 0 or more. [mm]

    Returns
    -------
    train : Train or None
        The same wheels in an order in which each clears the bosses beside it.

    Raises
    ------
    ValueError
        Never for a train with as many drivers as driven wheels.

    Sources
    -------
    See `clearances`.

    Examples
    --------
    >>> meshed(train=Train((30, 40), (60, 80)), module=1.0, boss=14.0)
    Train(drivers=(30, 40), driven=(60, 80))
    """
    if len(train.drivers) == 1:
        return train
    best: Train | None = None
    most = 0.0
    for drivers in permutations(train.drivers):
        for driven in permutations(train.driven):
            order = Train(drivers, driven)
            room = min(clearances(train=order, module=module, boss=boss))
            if room > most:
                best, most = order, room
    return best


def ranked_trains(
    *,
    wanted: Fraction,
    leadscrew: Fraction,
    wheels: Sequence[int],
    most_pairs: int,
    module: float,
    boss: float,
    limit: int = 10,
) -> list[Train]:
    """The best trains that mesh: by error, then fewest wheels, then smallest wheels.

    Parameters
    ----------
    wanted : Fraction
        Lead wanted, above 0. [mm]
    leadscrew : Fraction
        Lead of the leadscrew, above 0. [mm]
    wheels : sequence of int
        Teeth of every wheel owned.
    most_pairs : int
        1 to 3: simple trains only, up to four wheels, up to six.
    module : float
        Module of the wheels, above 0. [mm]
    boss : float
        Diameter of a stud's boss, 0 or more. [mm]
    limit : int
        How many to give at most.

    Returns
    -------
    trains : list of Train
        Best first; empty if nothing within a tenth of the wanted lead meshes.

    Raises
    ------
    OutOfRange
        As `trains_within`.

    Sources
    -------
    See `trains_within` and `clearances`; the order is ours.

    Examples
    --------
    >>> ranked_trains(wanted=Fraction(1), leadscrew=Fraction(3), wheels=(20, 30, 40, 60), most_pairs=2,
    ...               module=1.0, boss=14.0, limit=1)
    [Train(drivers=(20,), driven=(60,))]
    """
    ratio = wanted / leadscrew
    found: list[Train] = []
    for pairs in range(1, most_pairs + 1):
        # Exact trains of few wheels come before those of more, so the longer search may not be needed.
        exact = trains_within(ratio=ratio, wheels=wheels, pairs=pairs)
        exact.sort(key=lambda train: _rank(train, ratio))
        found += _first_meshed(exact, module=module, boss=boss, limit=limit - len(found))
        if len(found) == limit:
            return found
    for within in _WIDER:
        near = [
            train
            for pairs in range(1, most_pairs + 1)
            for train in trains_within(ratio=ratio, wheels=wheels, pairs=pairs, within=within)
        ]
        near.sort(key=lambda train: _rank(train, ratio))
        found = _first_meshed(near, module=module, boss=boss, limit=limit)
        if len(found) == limit or (len(found) >= _A_FEW and within >= _WIDE_ENOUGH):
            break
    return found


def _rank(train: Train, ratio: Fraction) -> tuple[float, int, int, tuple[int, ...]]:
    top, bottom = prod(train.drivers), prod(train.driven)
    # One division of whole numbers: equal errors give equal floats.
    error = abs(top * ratio.denominator - ratio.numerator * bottom) / bottom
    teeth = train.drivers + train.driven
    return error, len(teeth), sum(teeth), teeth


def _first_meshed(candidates: list[Train], *, module: float, boss: float, limit: int) -> list[Train]:
    found: list[Train] = []
    for candidate in candidates:
        if len(found) == limit:
            break
        if train := meshed(train=candidate, module=module, boss=boss):
            found.append(train)
    return found
