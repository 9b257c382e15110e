"""How long a plan takes, and how that grows with the part's features.

Run: python tests/bench/bench_plan.py. Times are processor time in a new interpreter: `load` is importing the planner,
`first` the first plan of the part (operations that it asks load on the way), `again` the same once more. Also how many
states the exact order of one visit opens, against plain dynamic programming over sets, on made-up problems.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT))  # so that it runs from anywhere

LIMIT = 200.0  # ms for the first plan of 20 features
ONE = """
import sys
from time import process_time
start = process_time()
from engine.part.file import read
from engine.part.plan import plan
from engine.shop.file import sample
loaded = process_time()
shop, part = sample("metric"), read(sys.stdin.read()).part
begin = process_time()
found = plan(part, shop)
first = process_time()
plan(part, shop)
again = process_time()
steps = sum(step.round == 1 for step in found.steps)
print(1000 * (loaded - start), 1000 * (first - begin), 1000 * (again - first), steps, found.best, sep=";")
"""


def part_text(features: int) -> str:
    """A part of so many features: steps that grow from the front, a knurl, a scale, a tapped hole, cross holes."""
    head = 'part_version = 1\ntitle = "Bench"\nunit = "mm"\nmaterial = "mild steel"\nbar = "40"\nmake = 2\n'
    rows, left = [head], features
    rows.append('[[inside]]\nis = "thread"\nsize = "M6"\ndepth = "12"\nmouth = "none"\n')
    rows.append('[[outside]]\nis = "thread"\nsize = "M10"\nlength = "12"\nchamfer = "1"\nrelief = "short"\n')
    left -= 4
    rows.append('[[across]]\nis = "cross-hole"\nsize = "3"\nat_from = "back"\nat = "4"\n')
    left -= 1
    last = '[[outside]]\nis = "diameter"\nsize = "38"\nlength = "8"\n'
    if left >= 2:
        last += 'scale = { size = "M12x1.5", per_line = "0.05" }\n'
        left -= 1
    left -= 1
    for number in range(left):
        edge = 'chamfer = "0.3"\n' if left > number + 1 and number % 3 == 0 else ""
        fit = " h8" if number % 5 == 4 else ""
        size = 12 + 24 * number / max(left, 1)
        rows.append(f'[[outside]]\nis = "diameter"\nsize = "{size:.1f}{fit}"\nlength = "3"\n{edge}')
    return "\n".join([*rows, last])


def main() -> int:
    """Print the table; 1 when the first plan of 20 features takes too long."""
    print(f"{'features':>8} {'steps':>6} {'load':>7} {'first':>7} {'again':>7}  ms")
    worst = 0.0
    for features in (5, 10, 15, 20, 25, 30):
        runs = [
            subprocess.run([sys.executable, "-c", ONE], input=part_text(features), capture_output=True, text=True,
                           check=True, cwd=ROOT).stdout.strip().split(";")
            for _ in range(3)
        ]  # fmt: skip
        load, first, again = (min(float(run[i]) for run in runs) for i in range(3))
        print(f"{features:>8} {runs[0][3]:>6} {load:>7.0f} {first:>7.0f} {again:>7.0f}  {runs[0][4]}")
        worst = first if features == 20 else worst
    print(f"first plan of 20 features: {worst:.0f} ms, {'within' if worst <= LIMIT else 'OVER'} {LIMIT:.0f} ms")
    return worst > LIMIT


if __name__ == "__main__":
    sys.exit(main())
