"""First answer on the screen against a bare Textual app: processor, memory, bytes read from a cold disk, an eighth of a core.

Run: python tests/bench/bench_start.py [ROUNDS] [COMMIT ...]. Each version is installed as a person does; all alternate
within one run, and ratios are of neighbours in time. Promised: first answer in 0.35 of the bare app's first paint (of
processor), memory 1.25 times.
"""

from __future__ import annotations

import os
import statistics
import sys
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, os.path.dirname(__file__))
from held import Held
from installed import installed
from pty_run import BARE, Terminal


def first_paint(
    argv: list[str], word: str, join: Callable[[], None] | None = None
) -> tuple[float, float, float, float]:
    """Milliseconds to the first full paint, those of processor, the largest memory a little later [MiB], KiB read by then."""
    terminal = Terminal(argv, join=join)
    try:
        seconds = terminal.until(lambda text: word in text, 120)
        busy, read = terminal.processor_time(), terminal.bytes_read() / 1024
        if "getting ready" in terminal.text:  # the answer stands before Textual is loaded: memory is asked behind it
            terminal.until(lambda text: "getting ready" not in text, 120)
        terminal.settle()
        return 1000 * seconds, 1000 * busy, terminal.peak_memory(), read
    finally:
        terminal.close()


def put_out_of_cache(folder: Path) -> None:
    """Let the kernel forget what it keeps of these files."""
    for path in folder.rglob("*"):
        if path.is_file() and not path.is_symlink():
            file = os.open(path, os.O_RDONLY)
            os.posix_fadvise(file, 0, 0, os.POSIX_FADV_DONTNEED)
            os.close(file)


def row(name: str, ours: list[float], bare: list[float], promised: float, unit: str) -> None:
    """One line of the printed table: medians, and the median of the ratios pair by pair."""
    ratio = statistics.median(a / b for a, b in zip(ours, bare, strict=True) if b)
    verdict = ("kept" if ratio <= promised else "MISSED") if promised else ""
    middle = statistics.median
    print(f"{name:<44}{middle(ours):9.1f}{middle(bare):9.1f} {unit:<4}{ratio:7.2f}{promised or '':>8}  {verdict}")


def main(rounds: int, commits: list[str]) -> None:
    """Measure and print the table."""
    with installed(commits) as pythons:
        cases = {name: ([python, "-m", "tui"], "F2") for name, python in pythons.items()}
        cases["bare"] = ([pythons["now"], *BARE[1:]], "READY")
        for case in cases.values():
            first_paint(*case)
        warm: dict[str, list[tuple[float, float, float, float]]] = {name: [] for name in cases}
        for _ in range(rounds):
            for name, case in cases.items():
                warm[name].append(first_paint(*case))
        cold: dict[str, list[float]] = {name: [] for name in cases}
        for _ in range(3):
            for name, case in cases.items():
                put_out_of_cache(Path(case[0][0]).parents[1])
                cold[name].append(first_paint(*case)[3])
        print(f"{rounds} rounds in turn, Python {sys.version.split()[0]}")
        print(f"{'':<44}{'ours':>9}{'bare':>9} {'':<4}{'ratio':>7}{'promised':>8}")
        for name in pythons:
            held = name == "now"
            for at, what, promised, unit in (
                (1, "processor to the first answer", 0.35, "ms"),
                (2, "peak memory", 1.25, "MiB"),
            ):
                row(
                    f"{name}: {what}", [r[at] for r in warm[name]], [r[at] for r in warm["bare"]], promised * held, unit
                )
            row(f"{name}: read from a cold disk by then", cold[name], cold["bare"], 0, "KiB")
        slow(cases)


def slow(cases: dict[str, tuple[list[str], str]]) -> None:
    """The same, each held to an eighth of a core."""
    try:
        held = Held(0.125)
    except OSError as error:
        print(f"held to an eighth of a core: not allowed here ({error.strerror})")
        return
    try:
        for name, case in cases.items():
            seconds = [first_paint(*case, held.join)[0] / 1000 for _ in range(3)]
            print(f"{name}: first answer, held to an eighth of a core: {statistics.median(seconds):.2f} s")
    finally:
        held.end()


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 11, sys.argv[2:])
