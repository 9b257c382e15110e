"""How long the searches of the dividing head take, each beside brute force in the same run.

Run: python tests/bench/bench_indexing.py [--quick]. Plates and gears are the classic sets. Times are
processor time, so that a busy machine does not count its other work. Brute force tries every hole
count and every gear with exact fractions; where it would take minutes it is measured on a few counts and scaled up,
which the table says. Every fast answer is compared with brute force on the counts that both solved.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from fractions import Fraction
from itertools import permutations
from pathlib import Path
from statistics import median
from time import process_time
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[2]))  # so that it runs from anywhere

from engine.indexing.choose import choices
from engine.indexing.compound import compound_ways
from engine.indexing.differential import differential_ways
from engine.indexing.simple import simple_ways
from engine.shop.model import DividingHead
from tests.engine.indexing.checks import GEARS, PLATES

HEAD = DividingHead(ratio=40, plates=PLATES, gears=GEARS, direct=(24,), extra_idler=False)
CIRCLES = [circle for plate in PLATES for circle in plate]
LIMITS = {"differential 2..1000": 250.0, "compound 2..500": 20.0, "one count, every way": 2.0}


def best_of(work: Callable[[], Any], times: int) -> tuple[float, Any]:
    """The median processor time in milliseconds, and what the work gave: other programs' load is left out."""
    spent, result = [], None
    for _ in range(times):
        start = process_time()
        result = work()
        spent.append((process_time() - start) * 1000)
    return median(spent), result


def brute_ratios() -> set[Fraction]:
    """Every ratio that two or four gears of the set give, gear by gear."""
    found = set()
    for spindle, worm in permutations(GEARS, 2):
        found.add(Fraction(spindle, worm))
    for spindle, first, second, worm in permutations(GEARS, 4):
        found.add(Fraction(spindle * first, second * worm))
    return found


def brute_differential(divisions: int, ratios: set[Fraction]) -> set[Fraction]:
    """Every signed gear ratio that makes the count exact on some circle, trying each hole count."""
    found = set()
    for circle in CIRCLES:
        for holes in range(1, 2 * 40 * circle // divisions + 2):
            value = 40 - Fraction(divisions * holes, circle)
            if value and abs(value) in ratios:
                found.add(value)
    return found


def brute_compound(divisions: int) -> bool:
    """Whether two circles of one plate make the count, trying each pair of hole counts."""
    wanted = Fraction(40, divisions) % 1
    for plate in PLATES:
        for first, second in permutations(plate, 2):
            for b in range(1 - second, second):
                rest = (wanted - Fraction(b, second)) * first
                if b and rest.denominator == 1 and rest % first:
                    return True
    return False


def fast_differential() -> dict[int, Any]:
    return {
        n: differential_ways(wanted=Fraction(40, n), ratio=40, plates=PLATES, gears=GEARS, most=1)
        for n in range(2, 1001)
    }


def fast_compound() -> dict[int, Any]:
    return {n: compound_ways(wanted=Fraction(40, n), ratio=40, plates=PLATES, most=1) for n in range(2, 501)}


def one_count(divisions: int) -> Any:
    return choices(wanted=Fraction(40, divisions), head=HEAD, count=divisions)


def rows(quick: bool) -> list[tuple[str, float, float, str]]:
    """Task, milliseconds, brute force's milliseconds, and how brute force was measured."""
    times = 3 if quick else 7
    table_ms, ratios = best_of(brute_ratios, 1)
    one_count(127)  # the ratio table is built once a set of gears; brute force is not charged for its own
    fast, found = best_of(fast_differential, times)
    some = (59, 127, 383, 719) if quick else (59, 101, 127, 211, 383, 509, 719, 997)
    slow, brute = best_of(lambda: {n: brute_differential(n, ratios) for n in some}, 1)
    for n, values in brute.items():
        assert bool(found[n]) == bool(values) and all(way.train.value in values for way in found[n]), n
    out = [("differential 2..1000", fast, slow / len(some) * 999, f"{len(some)} counts, x {999 / len(some):.0f}")]
    fast, found = best_of(fast_compound, times)
    step = 50 if quick else 10
    some_counts = [n for n in range(2, 501, step) if not plain(n)]
    slow, brute_found = best_of(lambda: {n: brute_compound(n) for n in some_counts}, 1)
    assert all(bool(found[n]) == brute_found[n] for n in some_counts)
    out.append(("compound 2..500", fast, slow / len(some_counts) * 499, f"{len(some_counts)} counts, scaled"))
    worst, worst_n = max((best_of(lambda n=n: one_count(n), 3)[0], n) for n in range(2, 1001, 37 if quick else 7))
    slow, _ = best_of(lambda: (brute_differential(worst_n, ratios), brute_compound(worst_n)), 1)
    out.append(
        ("one count, every way", worst, slow, f"the slowest tried, {worst_n}; ratios of {table_ms:.0f} ms apart")
    )
    return out


def plain(divisions: int) -> bool:
    return bool(simple_ways(wanted=Fraction(40, divisions), ratio=40, plates=PLATES))


def main(quick: bool = False) -> int:
    """Print the table; return 1 if a limit is passed."""
    print(f"{'search':<24}{'ms':>9}{'limit':>8}{'brute ms':>11}{'times':>9}  brute force measured on")
    late = 0
    for task, fast, slow, how in rows(quick):
        limit = LIMITS[task]
        late += fast > limit
        print(f"{task:<24}{fast:>9.2f}{limit:>8.0f}{slow:>11.1f}{slow / fast:>8.0f}x  {how}")
    return 1 if late else 0


if __name__ == "__main__":
    raise SystemExit(main("--quick" in sys.argv))
