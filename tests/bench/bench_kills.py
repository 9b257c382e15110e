"""Longer kill -9 loop, and what one save costs: `python -m tests.bench.bench_kills [ROUNDS]`."""

import statistics
import sys
import tempfile
import time
from pathlib import Path

from engine.jobs.journal import Journal
from engine.jobs.places import Place
from tests.engine.jobs import kills
from tests.engine.jobs.plans import by_hand, worked


def save_times(path: Path, saves: int) -> list[float]:
    """Milliseconds of so many saves, one after another."""
    journal = Journal(path)
    progress = journal.start(worked(by_hand(50)), by_hand(50), "stop.toml").progress
    times = []
    for _ in range(saves):
        begun = time.perf_counter()
        if progress.finished:
            progress = journal.move(progress.job, progress.seq, Place(1, 0))
        else:
            progress = journal.done(progress.job, progress.seq)
        times.append((time.perf_counter() - begun) * 1000)
    return times


def main(rounds: int) -> None:
    """Print both."""
    with tempfile.TemporaryDirectory() as folder:
        times = sorted(save_times(Path(folder, "save.db"), 400))
        print(f"one save: median {statistics.median(times):.2f} ms, p95 {times[380]:.2f} ms (400 saves)")
        for writer in ("journal", "in-place"):
            begun = time.perf_counter()
            Path(folder, writer).mkdir()
            found = kills.main(rounds, Path(folder, writer), writer)
            print(f"{writer}: {found} in {time.perf_counter() - begun:.0f} s")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 2000)
