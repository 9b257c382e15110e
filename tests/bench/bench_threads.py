"""How long the thread searches take, each beside the plain way to the same answer.

Run by hand: `python -m tests.bench.bench_threads`. The times are medians; the answers are compared as sets.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from fractions import Fraction
from itertools import combinations
from math import prod
from typing import Any

from engine.base.operation import run
from engine.shop.file import sample
from engine.threads import gears

# A set of 22 wheels, one of each: an illustration, no maker's set.
WHEELS = (20, 21, 24, 25, 28, 30, 32, 35, 36, 38, 40, 44, 45, 48, 50, 55, 60, 65, 70, 72, 80, 127)
INCH = Fraction(127, 5)
TARGETS = {
    "1 mm on 8 tpi": 1 / (INCH / 8),
    "1.75 mm on 3 mm": Fraction(7, 12),
    "11 tpi on 3 mm": INCH / 33,
    "1.5 mm on 3 mm": Fraction(1, 2),
}
WITHIN = Fraction(1, 1_000_000)


def plain(ratio: Fraction, pairs: int) -> set[tuple[tuple[int, ...], tuple[int, ...]]]:
    """Every choice of drivers with every choice of driven wheels, in whole numbers."""
    low, high = ratio * (1 - WITHIN), ratio * (1 + WITHIN)
    low_top, low_bottom, high_top, high_bottom = (low.numerator, low.denominator, high.numerator, high.denominator)
    choices = [(prod(chosen), chosen, frozenset(chosen)) for chosen in combinations(WHEELS, pairs)]
    found = set()
    for top, drivers, used in choices:
        for bottom, driven, others in choices:
            if (
                low_top * bottom <= top * low_bottom
                and top * high_bottom <= high_top * bottom
                and used.isdisjoint(others)
            ):
                found.add((drivers, driven))
    return found


def median_ms(work: Callable[[], Any], rounds: int) -> float:
    """Median time of a call in milliseconds."""
    times = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1000)
    return statistics.median(times)


def trains(pairs: int, brute_rounds: int) -> bool:
    """One line for each target; whether every answer is the plain one."""
    same = True
    for name, ratio in TARGETS.items():

        def fast(ratio: Fraction = ratio) -> list[gears.Train]:
            return gears.trains_within(ratio=ratio, wheels=WHEELS, pairs=pairs, within=WITHIN)

        def cold(ratio: Fraction = ratio) -> list[gears.Train]:
            gears._products.cache_clear()
            return gears.trains_within(ratio=ratio, wheels=WHEELS, pairs=pairs, within=WITHIN)

        def one_by_one(ratio: Fraction = ratio) -> object:
            return plain(ratio, pairs)

        found = {(train.drivers, train.driven) for train in fast()}
        equal = found == plain(ratio, pairs)
        same &= equal
        brute = median_ms(one_by_one, brute_rounds)
        print(
            f"{2 * pairs} wheels  {name:<17}{median_ms(fast, 25):8.3f}{median_ms(cold, 15):10.3f}{brute:12.1f}"
            f"{len(found):8}  {'same' if equal else 'DIFFERENT'}"
        )
    return same


def thread_limits() -> None:
    """A thousand answers of thread-limits, inputs read from text."""
    shop = sample("metric")
    sizes = [
        {"size": size, "tolerance": tolerance}
        for size in ("M3", "M4", "M5", "M6", "M8", "M10", "M12", "M16", "M20", "M24")
        for tolerance in ("6g", "6H", "4h", "5H", "6e")
    ] + [{"size": size} for size in ("1/4-20", "3/8 BSW", "2BA", "G1/4", "Tr12x3")] * 10
    start = time.perf_counter()
    for turn in range(1000):
        run("thread-limits", sizes[turn % len(sizes)], shop)
    whole = time.perf_counter() - start
    print(f"1,000 thread-limits answers of {len(sizes)} sizes and classes: {whole:.2f} s, {whole:.2f} ms each")


def main() -> int:
    """Print the table; 1 if an answer differs from the plain one."""
    print(f"{'':10}{'lead cut':<15}{'median ms':>10}{'cold ms':>10}{'plain ms':>12}{'trains':>8}")
    same = trains(2, 5)
    same &= trains(3, 3)
    thread_limits()
    return 0 if same else 1


if __name__ == "__main__":
    sys.exit(main())
