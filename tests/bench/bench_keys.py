"""Keys to screen in a real pseudo-terminal: typing, pane switches, an idle screen, memory over many keys.

Run: python tests/bench/bench_keys.py [KEYS] [COMMIT ...]; each version is installed as a person does. Promised: an answer
within 10 ms median and 20 ms at the 95th percentile; a pane within 120 ms the first time, 40 ms later; nothing written
while idle; memory flat to 1 MiB between key 300 and key 1,500.
"""

from __future__ import annotations

import os
import statistics
import sys
import time

sys.path.insert(0, os.path.dirname(__file__))
from installed import installed
from pty_run import Terminal

FUNCTION_KEYS = {"F2": b"\x1bOQ", "F3": b"\x1bOR", "F4": b"\x1bOS", "F5": b"\x1b[15~", "F6": b"\x1b[17~",
                 "F7": b"\x1b[18~"}  # fmt: skip
# Where typing is measured: a quick line that opens it, and digits that each change the answer.
PLACES = (
    "turning-speed diameter=2",
    "thread-limits size=M1",
    "divide divisions=3",
    "scale-lines diameter=2 size=M12 per_line=0.05",
)


def row(name: str, measured: str, promised: str, kept: bool) -> None:
    """Print one line of the table."""
    print(f"{name:<44}{measured:>28}{promised:>18}  {'kept' if kept else 'MISSED'}")


def percentile(times: list[float], share: float) -> float:
    """The value that such a share of the times does not exceed."""
    return sorted(times)[min(int(share * len(times)), len(times) - 1)]


def opened(app: list[str], *words: str) -> Terminal:
    """The program on its bench, past the page of rules that stands before the first work."""
    terminal = Terminal([*app, *words])
    terminal.until(lambda text: "F2" in text or "five things" in text, 60)
    if "getting ready" in terminal.text:
        terminal.until(lambda text: "getting ready" not in text, 60)
    terminal.settle(1.0)
    os.write(terminal.fd, b"\x1b[F")  # the first key brings the page up where it is due
    terminal.settle(1.0)
    if "five things" in terminal.text:
        terminal.key(b" ", lambda text: "five things" not in text, 60)
        terminal.settle()
    return terminal


def typing(app: list[str], place: str, keys: int) -> list[float]:
    """Milliseconds from each key to what it paints, in one place."""
    terminal = opened(app, "--go", place)
    try:
        os.write(terminal.fd, b"\x1b[F")  # End: the digit goes behind what is there
        terminal.settle(0.1)
        times = []
        for n in range(keys):
            times.append(1000 * terminal.key(b"5" if n % 2 == 0 else b"\x7f"))
            terminal.settle(0.04)
        return times[4:]
    finally:
        terminal.close()


def switching(app: list[str]) -> tuple[list[float], list[float]]:
    """Milliseconds to open each pane for the first time, and later."""
    first, later = [], []
    terminal = opened(app, "--go", PLACES[0])  # work at a machine: the page of rules comes now, not between
    try:
        order = ["F3", "F4", "F5", "F6", "F7"]
        for lap in range(5):
            for key in ["F2", *order] if lap else order:
                took = 1000 * terminal.key(FUNCTION_KEYS[key], lambda text, key=key: f"[{key}" in text)
                (later if lap else first).append(took)
                terminal.settle(0.1)
        return first, later
    finally:
        terminal.close()


def long_run(app: list[str], keys: int) -> tuple[float, float, float, float]:
    """Memory at key 300 and at the last [MiB], bytes written in 2 idle seconds, processor seconds in them."""
    terminal = opened(app, "--go", PLACES[0])
    try:
        early = 0.0
        for n in range(keys):
            terminal.key(b"5" if n % 2 == 0 else b"\x7f")
            if n == 300:
                early = terminal.memory()
        terminal.settle(0.5)
        late, busy, written, began = terminal.memory(), terminal.processor_time(), 0, time.perf_counter()
        while time.perf_counter() - began < 2.0:
            written += terminal.read(0.2) is not None
        return early, late, written, terminal.processor_time() - busy
    finally:
        terminal.close()


def main(keys: int, commits: list[str]) -> None:
    """Measure and print a table for each version."""
    with installed(commits) as pythons:
        for name, python in pythons.items():
            print(f"{name}: {keys} keys each, Python {sys.version.split()[0]}")
            table([python, "-m", "tui"], keys)


def table(app: list[str], keys: int) -> None:
    """One version's lines."""
    for place in PLACES:
        times = typing(app, place, keys)
        middle, high = statistics.median(times), percentile(times, 0.95)
        measured = f"{middle:.1f} / {high:.1f} / {max(times):.0f} ms"
        row(f"key to screen, {place.split()[0]} (p50/p95/max)", measured, "10 / 20 ms", middle <= 10 and high <= 20)
    first, later = switching(app)
    for name, times, promised in (("first", first, 120), ("later", later, 40)):
        middle = statistics.median(times)
        row(
            f"pane opened {name} (median, max)",
            f"{middle:.0f}, {max(times):.0f} ms",
            f"{promised} ms",
            middle <= promised,
        )
    early, late, written, busy = long_run(app, 1500)
    row("memory at key 300 and 1,500", f"{early:.1f}, {late:.1f} MiB", "1 MiB more", late - early <= 1)
    row("idle for 2 s: writes, processor", f"{written:.0f}, {busy:.2f} s", "none", written == 0)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200, sys.argv[2:])
