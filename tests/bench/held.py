"""A part of one core, as the kernel gives it to a group of processes: what a slow computer feels like. Root only."""

from __future__ import annotations

import os
import time
from pathlib import Path

_V1, _V2 = Path("/sys/fs/cgroup/cpu"), Path("/sys/fs/cgroup")


class Held:
    """A group that gets such a share of a core; `join` is called in the child."""

    def __init__(self, share: float) -> None:
        base = _V1 if (_V1 / "cpu.shares").exists() else _V2
        self.path = base / f"bench-{os.getpid()}"
        self.path.mkdir()
        period = max(int(1000 / share), 1000)  # a stall is never longer than this; microseconds
        if base is _V1:
            (self.path / "cpu.cfs_period_us").write_text(str(period))
            (self.path / "cpu.cfs_quota_us").write_text("1000")
        else:
            (self.path / "cpu.max").write_text(f"1000 {period}")

    def join(self) -> None:
        """Put this process into the group."""
        (self.path / "cgroup.procs").write_text(str(os.getpid()))

    def end(self) -> None:
        """Take the group away once its processes have ended."""
        for _ in range(50):
            try:
                self.path.rmdir()
                return
            except OSError:
                time.sleep(0.1)
