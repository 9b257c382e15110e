"""Change wheels: every train that cuts a lead, found by meeting the products of drivers and driven in the middle.

All ratios are exact fractions. The lead of the screw being cut is the leadscrew's lead times the drivers' teeth over
the driven wheels' teeth, where the leadscrew's lead is what equal wheels cut.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate, combinations, permutations
from math import floor, prod
from operator import itemgetter

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.stopping import stop_asked

MOST_FOR_SIX = 70  # wheels in a set from which trains of six are made; more of them would be felt at the keyboard
MOST_TRIED = 20_000  # trains whose wheels are tried in every order: a quarter of a second and less
_ENOUGH = 2_000  # trains between two looks at whether anybody still waits
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
    """Lead in mm that a train cuts on a leadscrew of this lead in mm (or what equal wheels cut, on a lathe with a fixed gear
    before the train): Turning and Boring, 1914, pp. 168-172.

    A 6 tpi leadscrew with 40 and 30 driving 80 and 60 cuts 24 tpi (Turning and Boring, p. 170):

    >>> Fraction(127, 5) / lead_cut(train=Train((40, 30), (80, 60)), leadscrew=Fraction(127, 30))
    Fraction(24, 1)
    """
    return leadscrew * train.ratio


def error_ppm(*, lead: Fraction, wanted: Fraction) -> float:
    """Error of a lead, or of any ratio, in parts in a million of the wanted one: positive when it is too long.

    63 and 80 for 100 and 127, the usual translating pair without a wheel of 127:

    >>> error_ppm(lead=Fraction(80, 63), wanted=Fraction(127, 100))
    -124.98
    """
    return float((lead - wanted) / wanted * 1_000_000)


@dataclass(frozen=True, slots=True)
class _Products:
    """Every product of so many wheels of a set, in rising order, and the wheels that give each.

    Each choice of wheels carries a bit mask of the sizes in it, so that two choices are compared at once, and its
    reach (see `_reach`). `before` counts the choices that stand before a product.
    """

    rising: list[int]
    choices: dict[int, list[tuple[int, int, tuple[int, ...]]]]
    before: list[int]


def _reach(chosen: tuple[int, ...]) -> int:
    """What one side can add towards clearing the studs: all its wheels but the smallest.

    Adding up the conditions of `_room` over a train leaves a1 + b2 of four wheels, a1 + a2 + b2 + b3 of six, each
    at least as often the room needed as there were conditions.
    """
    return sum(chosen) - min(chosen)


@lru_cache(maxsize=12)
def _products(wheels: tuple[int, ...], count: int, need: int) -> _Products:
    bit = {teeth: 1 << place for place, teeth in enumerate(sorted(set(wheels)))}
    every = dict.fromkeys(combinations(wheels, count))
    furthest = max((_reach(chosen) for chosen in every), default=0)
    choices: dict[int, list[tuple[int, int, tuple[int, ...]]]] = {}
    for chosen in every:
        reach = _reach(chosen)
        if reach + furthest < need:
            continue
        mask = 0
        for teeth in chosen:
            mask |= bit[teeth]
        choices.setdefault(prod(chosen), []).append((mask, reach, chosen))
    rising = sorted(choices)
    return _Products(rising, choices, [0, *accumulate(len(choices[product]) for product in rising)])


def _checked(wheels: Sequence[int]) -> tuple[int, ...]:
    """The set in rising order, each size kept at most three times: no train has more of one on a side."""
    check_range("wheels", len(wheels), low=1, unit="wheels")
    owned = Counter(wheels)
    return tuple(teeth for teeth in sorted(owned) for _ in range(min(owned[teeth], 3)))


def _conditions(pairs: int, need: int) -> int:
    """What the reaches of both sides have to make together."""
    return 2 * (pairs - 1) * need


def trains_within(
    *, ratio: Fraction, wheels: Sequence[int], pairs: int, within: Fraction = Fraction(0), need: int = 0
) -> list[Train]:
    """Every train of so many pairs whose ratio lies within a relative tolerance of the one wanted.

    The products of all drivers are met with those of all driven wheels: for each driven product, the driver products
    that would do lie between two whole numbers, found by bisection. No wheel size stands on both sides, as it would
    cancel; but a simple train may have two equal wheels if the set holds both.

    ratio: Turns of the leadscrew wanted for one of the spindle, above 0. [-]
    wheels: Teeth of every wheel owned; one written twice is owned twice.
    pairs: 1 for a simple train, 2 for a compound one of four wheels, 3 for six.
    within: Largest relative error, 0 for exact trains only. [-]
    need: Room at the studs in teeth, see `room_needed`: trains that no order could give it are left out. 0: all.
    Returns: Drivers and driven each in rising order, not yet in an order that is known to mesh.
    Raises: OutOfRange if the set has no wheels, or the ratio is not above 0.
    Source: Turning and Boring, 1914, pp. 168-172, for the ratio; the search is arithmetic.

    >>> trains_within(ratio=Fraction(1, 4), wheels=(30, 40, 60, 80), pairs=2)
    [Train(drivers=(30, 40), driven=(60, 80))]
    """
    check_range("ratio", float(ratio), low=1e-6, high=1e6)
    owned, least = _checked(wheels), _conditions(pairs, need)
    low, high = ratio * (1 - within), ratio * (1 + within)
    found = _met_in_the_middle(_products(owned, pairs, least), low, high, least)
    if pairs == 1 and low <= 1 <= high:
        found.extend(Train((w,), (w,)) for w, owned_of_it in Counter(owned).items() if owned_of_it > 1)
    return found


def _met_in_the_middle(products: _Products, low: Fraction, high: Fraction, reach: int) -> list[Train]:
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
        if place == end or (len(found) > _ENOUGH and stop_asked()):
            break
        while place < end and (top := rising[place]) <= most:
            found += [
                Train(drivers, driven)
                for mask, one, drivers in choices[top]
                for others, other, driven in choices[bottom]
                if not mask & others and one + other >= reach
            ]
            place += 1
    return found


def _how_many(products: _Products, low: Fraction, high: Fraction) -> int:
    """How many choices of drivers and driven lie between two ratios, at most; counted without building one."""
    rising, before = products.rising, products.before
    count = 0
    for place, bottom in enumerate(rising):
        first = bisect_left(rising, -(-low.numerator * bottom // low.denominator))
        last = bisect_left(rising, high.numerator * bottom // high.denominator + 1)
        count += (before[place + 1] - before[place]) * (before[last] - before[first])
    return count


def clearances(*, train: Train, module: float, boss: float) -> tuple[float, ...]:
    """Room that each wheel leaves to the boss of the stud or shaft beside it.

    In a compound train the second driver, on the stud of the first driven wheel, turns beside the spindle's own
    boss: its rim has to clear that. So has the first driven wheel to clear the boss of the stud (or leadscrew) on the
    other side.

    train: The wheels in the order they mesh.
    module, boss: Module of the wheels, above 0, and diameter of a stud's boss, 0 or more. [mm]
    Returns: One for each wheel that must clear; nought or less: it fouls. Empty for a simple train. [mm]
    Source: Geometry: centre distance m(z1 + z2)/2, outside radius m(z + 2)/2.

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


def room_needed(module: float, boss: float) -> int:
    """The least whole number of teeth that a_1 + b_1 - a_2 (and so on) must make for a rim to clear a boss.

    module, boss: Module of the wheels, above 0, and diameter of a stud's boss, 0 or more. [mm]
    Returns: The next whole number above 2 + boss ÷ module.
    Source: Geometry, from `clearances`: m (a + b)/2 - m (a' + 2)/2 - boss/2 is above 0.

    >>> room_needed(1.0, 14.0), room_needed(0.5, 60.0), room_needed(0.8, 14.0)
    (17, 123, 20)
    """
    return floor(2 + Fraction(repr(float(boss))) / Fraction(repr(float(module)))) + 1


def _room(drivers: tuple[int, ...], driven: tuple[int, ...], above: int) -> int:
    """Least room at the studs of an order, in teeth (see `room_needed`); 0 as soon as it is no more than `above`."""
    room = 10_000
    for link in range(len(drivers) - 1):
        here = drivers[link] + driven[link] - drivers[link + 1]
        there = drivers[link + 1] + driven[link + 1] - driven[link]
        room = min(room, here, there)
        if room <= above:
            return 0
    return room


def _in_order(train: Train, need: int) -> Train | None:
    """The order of a train's wheels that leaves most room at the studs, or None if no order has what it needs."""
    if len(train.drivers) == 1:
        return train
    best, most = None, need - 1
    for drivers in permutations(train.drivers):
        for driven in permutations(train.driven):
            room = _room(drivers, driven, most)
            if room:
                best, most = (drivers, driven), room
    return Train(*best) if best else None


def meshed(*, train: Train, module: float, boss: float) -> Train | None:
    """The order of a train's wheels that leaves most room at the studs, or None if no order clears them.

    >>> meshed(train=Train((30, 40), (60, 80)), module=1.0, boss=14.0)
    Train(drivers=(30, 40), driven=(60, 80))
    """
    return _in_order(train, room_needed(module, boss))


@dataclass(frozen=True, slots=True)
class Search:
    """The best trains found, and what the search left out to stay within bounds.

    `nearest`: more trains than can be tried lie near the lead, so only the nearest were tried for room; `tried` says
    how many. `fewer_wheels`: the set has too many sizes for trains of six.
    """

    trains: tuple[Train, ...]
    tried: int
    nearest: bool = False
    fewer_wheels: bool = False


_Rank = tuple[float, int, int, tuple[int, ...]]
_Ranked = tuple[_Rank, Train]


def ranked_trains(
    *, wanted: Fraction, leadscrew: Fraction, wheels: Sequence[int], most_pairs: int, module: float, boss: float,
    limit: int = 10,
) -> Search:  # fmt: skip
    """The best trains that mesh: by error, then fewest wheels, then smallest wheels. The work is bounded.

    wanted, leadscrew: Lead wanted, and of the leadscrew, above 0. [mm]
    wheels: Teeth of every wheel owned.
    most_pairs: 1 to 3: simple trains only, up to four wheels, up to six.
    module, boss: Module of the wheels, above 0, and diameter of a stud's boss, 0 or more. [mm]
    limit: How many to give at most.
    Returns: Best first; no trains if nothing within a tenth of the wanted lead meshes.
    Source: See `trains_within` and `clearances`; the order is ours.

    >>> ranked_trains(wanted=Fraction(1), leadscrew=Fraction(3), wheels=(20, 30, 40, 60), most_pairs=2,
    ...               module=1.0, boss=14.0, limit=1).trains
    (Train(drivers=(20,), driven=(60,)),)
    """
    ratio, need, owned = wanted / leadscrew, room_needed(module, boss), _checked(wheels)
    kinds = [pairs for pairs in range(1, most_pairs + 1) if pairs < 3 or len(owned) <= MOST_FOR_SIX]
    fewer, tried = len(kinds) < most_pairs, 0
    found: list[_Ranked] = []
    for pairs in kinds:
        # Exact trains of few wheels come before those of more, so the longer search may not be needed.
        exact = trains_within(ratio=ratio, wheels=owned, pairs=pairs, need=need)
        tried += len(exact)
        found += _first_meshed(exact, ratio, need=need, limit=limit - len(found))
        if len(found) == limit:
            return Search(tuple(train for _, train in found), tried, fewer_wheels=fewer)
    bounded: dict[int, list[_Ranked]] = {}
    for wide in _WIDER:
        found = [one for kept in bounded.values() for one in kept]
        for pairs in (kind for kind in kinds if kind not in bounded):
            within = _bearable(owned, pairs, ratio, wide, need)
            near = trains_within(ratio=ratio, wheels=owned, pairs=pairs, within=within, need=need)
            tried += len(near)
            good = _first_meshed(near, ratio, need=need, limit=limit)
            if within < wide:
                bounded[pairs] = good
            found += good
        found = sorted(found, key=itemgetter(0))[:limit]
        if len(found) == limit or (len(found) >= _A_FEW and wide >= _WIDE_ENOUGH) or stop_asked():
            break
    best = tuple(train for _, train in found)
    return Search(best, tried, nearest=bool(bounded) and len(best) < limit, fewer_wheels=fewer)


def _bearable(owned: tuple[int, ...], pairs: int, ratio: Fraction, within: Fraction, need: int) -> Fraction:
    """A tolerance, or as much of it as leaves no more candidates than can be tried."""
    if within == _WIDER[0]:
        return within  # so near there are few; counting them would take longer than trying them
    low, high = ratio * (1 - within), ratio * (1 + within)
    count = _how_many(_products(owned, pairs, _conditions(pairs, need)), low, high)
    return within if count <= MOST_TRIED else within * MOST_TRIED / count


def _rank(train: Train, ratio: Fraction) -> _Rank:
    top, bottom = prod(train.drivers), prod(train.driven)
    # One division of whole numbers: equal errors give equal floats.
    error = abs(top * ratio.denominator - ratio.numerator * bottom) / bottom
    teeth = train.drivers + train.driven
    return error, len(teeth), sum(teeth), teeth


def _first_meshed(candidates: list[Train], ratio: Fraction, *, need: int, limit: int) -> list[_Ranked]:
    """The best of the candidates for which an order clears the studs, each with its rank."""
    found: list[_Ranked] = []
    ranked = sorted(((_rank(train, ratio), train) for train in candidates), key=itemgetter(0))
    for tried, (rank, candidate) in enumerate(ranked):
        if len(found) == limit or (tried % _ENOUGH == _ENOUGH - 1 and stop_asked()):
            break
        if train := _in_order(candidate, need):
            found.append((rank, train))
    return found
