"""First answer on the screen against a bare Textual app, and the shell door against importing rich.console.

Run: python tests/bench/bench_start.py [ROUNDS]. Everything alternates within one run; medians are printed. On a
busy machine the processor's time is the steadier figure. Promised: first answer in half the bare app's first paint,
memory 1.25 times, the shell door 2.5 times the import. Bytecode is stored, as it is for a person who has installed the
program: without it the verdict would be about the compiler.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.dirname(__file__))
from pty_run import APP, BARE, Terminal

os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
WORK = [sys.executable, "-m", "tui", "work", "hand-dial", "distance=17.35"]
RICH = [sys.executable, "-c", "import rich.console"]


def first_paint(argv: list[str], word: str) -> tuple[float, float, float]:
    """Milliseconds to the first full paint, those of processor in them, the largest memory a little later. [MiB]"""
    terminal = Terminal(argv)
    try:
        seconds = terminal.until(lambda text: word in text, 60)
        busy = terminal.processor_time()
        terminal.settle()
        return 1000 * seconds, 1000 * busy, terminal.peak_memory()
    finally:
        terminal.close()


def run(argv: list[str]) -> float:
    """Milliseconds that a command takes from start to end."""
    began = time.perf_counter()
    subprocess.run(argv, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    return 1000 * (time.perf_counter() - began)


def row(name: str, value: float, bare: float, promised: float, unit: str) -> str:
    """One line of the printed table."""
    ratio = value / bare
    verdict = "kept" if ratio <= promised else "MISSED"
    return f"{name:<34}{value:8.1f}{bare:10.1f}  {unit:<4}{ratio:7.2f}{promised:10.2f}  {verdict}"


def main(rounds: int = 11) -> None:
    """Measure and print the table."""
    with tempfile.TemporaryDirectory() as folder:
        os.environ.update(XDG_CONFIG_HOME=folder, XDG_DATA_HOME=folder)
        for warm in ((APP, "■"), (BARE, "READY")):
            first_paint(*warm)
        pairs = [(first_paint(APP, "■"), first_paint(BARE, "READY")) for _ in range(rounds)]
        doors = [(run(WORK), run(RICH)) for _ in range(rounds)]
    median = statistics.median
    print(f"medians of {rounds}, Python {sys.version.split()[0]}")
    print(f"{'':<34}{'ours':>8}{'bare':>10}  {'':<4}{'ratio':>7}{'promised':>10}")
    measured = (
        ("first answer on the screen", 0.5, "ms"),
        ("processor until then", 0.5, "ms"),
        ("peak memory", 1.25, "MiB"),
    )
    for i, (name, promised, unit) in enumerate(measured):
        print(row(name, median(a[i] for a, _ in pairs), median(b[i] for _, b in pairs), promised, unit))
    print(row("`tommybar work` / rich.console", median(a for a, _ in doors), median(b for _, b in doors), 2.5, "ms"))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 11)
