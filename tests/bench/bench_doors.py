"""`tommybar work` for every operation against `import rich.console`: processor time, pair by pair.

Run: python tests/bench/bench_doors.py [ROUNDS] [COMMIT ...]. Promised: 1.3 times the import for every operation's
example. Each version is installed as a person does.
"""

from __future__ import annotations

import json
import os
import statistics
import subprocess
import sys

sys.path.insert(0, os.path.dirname(__file__))
from installed import installed

PROMISED = 1.3
EXAMPLES = """import json
try:
    from engine.base.register import CATALOG, load
except ImportError:
    from engine.catalog import CATALOG, load
print(json.dumps({entry.id: dict(load(entry.id).example) for entry in CATALOG}))"""


def processor(argv: list[str]) -> float:
    """Milliseconds of processor that a command takes from start to end."""
    quiet = [(os.POSIX_SPAWN_OPEN, n, os.devnull, os.O_WRONLY, 0) for n in (1, 2)]
    pid = os.posix_spawn(argv[0], argv, os.environ, file_actions=quiet)
    _, _, use = os.wait4(pid, 0)
    return 1000 * (use.ru_utime + use.ru_stime)


def main(rounds: int, commits: list[str]) -> None:
    """Measure and print a line for each operation."""
    with installed(commits) as pythons:
        rich = [pythons["now"], "-c", "import rich.console"]
        cases: dict[tuple[str, str], list[str]] = {}
        for name, python in pythons.items():
            said = subprocess.run([python, "-c", EXAMPLES], capture_output=True, text=True, check=True)
            for operation, given in json.loads(said.stdout).items():
                command = os.path.join(os.path.dirname(python), "tommybar")
                cases[name, operation] = [command, "work", operation, *(f"{k}={v}" for k, v in given.items())]
        ratios: dict[tuple[str, str], list[float]] = {case: [] for case in cases}
        for turn in range(rounds + 1):
            for case, argv in cases.items():
                ratio = processor(argv) / processor(rich)
                if turn:
                    ratios[case].append(ratio)
        for name in pythons:
            found = sorted(
                (statistics.median(all_), operation) for (of, operation), all_ in ratios.items() if of == name
            )
            for ratio, operation in found:
                print(f"{name:<10}{operation:<22}{ratio:6.2f}{'' if ratio <= PROMISED else '  MISSED'}")
            print(
                f"{name}: median {statistics.median(r for r, _ in found):.2f}, worst {found[-1][0]:.2f} x rich.console\n"
            )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5, sys.argv[2:])
