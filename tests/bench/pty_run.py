"""A program in a real pseudo-terminal: what it paints, when, and how much memory it takes. Linux only."""

from __future__ import annotations

import fcntl
import os
import pty
import select
import struct
import sys
import termios
import time
from collections.abc import Callable
from pathlib import Path

import pyte


class Terminal:
    """A child process with a screen of its own."""

    def __init__(
        self,
        argv: list[str],
        columns: int = 120,
        rows: int = 30,
        join: Callable[[], None] | None = None,  # called in the child before it becomes the program
        **environ: str,
    ) -> None:
        self.screen = pyte.Screen(columns, rows)
        self.stream = pyte.ByteStream(self.screen)
        self.written = b""
        self._gone = False
        self.started = time.perf_counter()
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            if join is not None:
                join()
            ours = {k: v for k, v in os.environ.items() if k not in ("COLUMNS", "LINES")}  # of another terminal
            env = {**ours, "TERM": "xterm-256color", "LANG": "C.UTF-8", **environ}
            os.execvpe(argv[0], argv, env)
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    @property
    def text(self) -> str:
        """What is on the screen now."""
        return "\n".join(self.screen.display)

    def read(self, wait: float) -> float | None:
        """Take what was written within a time; return when the last piece came, None if none did."""
        if not select.select([self.fd], [], [], wait)[0]:
            return None
        try:
            piece = os.read(self.fd, 65536)
        except OSError:
            return None
        when = time.perf_counter()
        self.written += piece
        self.stream.feed(piece)
        return when

    def until(self, seen: Callable[[str], bool], limit: float = 10.0) -> float:
        """Seconds from the start to the piece that completed what is looked for."""
        while time.perf_counter() - self.started < limit:
            when = self.read(0.5)
            if when is not None and seen(self.text):
                return when - self.started
        raise TimeoutError(f"not seen within {limit} s:\n{self.text}")

    def settle(self, quiet: float = 0.3) -> None:
        """Read until nothing is written for a while."""
        while self.read(quiet) is not None:
            pass

    def key(self, data: bytes, seen: Callable[[str], bool] | None = None, limit: float = 2.0) -> float:
        """Send a key; seconds to the piece after which `seen` holds (default: anything at all)."""
        sent = time.perf_counter()
        os.write(self.fd, data)
        while time.perf_counter() - sent < limit:
            when = self.read(0.1)
            if when is not None and (seen is None or seen(self.text)):
                return when - sent
        raise TimeoutError(f"{data!r} brought nothing within {limit} s:\n{self.text}")

    def resize(self, columns: int, rows: int) -> None:
        """Give the terminal another size, as a window does."""
        self.screen.resize(rows, columns)
        fcntl.ioctl(self.fd, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))

    @property
    def cooked(self) -> bool:
        """Whether the terminal shows what is typed and hands it on by lines, as a shell needs it."""
        flags = termios.tcgetattr(self.fd)[3]
        return bool(flags & termios.ECHO and flags & termios.ICANON and flags & termios.ISIG)

    def ended(self, limit: float = 10.0) -> int:
        """Wait for the end of the child; its exit code."""
        until = time.perf_counter() + limit
        while time.perf_counter() < until:
            while self.read(0.05) is not None:
                pass
            pid, status = os.waitpid(self.pid, os.WNOHANG)
            if pid:
                self._gone = True
                while self.read(0.05) is not None:  # what it wrote between the last look and its end
                    pass
                return os.waitstatus_to_exitcode(status)
        raise TimeoutError(f"still running after {limit} s:\n{self.text}")

    def peak_memory(self) -> float:
        """Largest resident size so far. [MiB]"""
        return self._status("VmHWM")

    def memory(self) -> float:
        """Resident size now. [MiB]"""
        return self._status("VmRSS")

    def _status(self, field: str) -> float:
        for row in Path(f"/proc/{self.pid}/status").read_text().splitlines():
            if row.startswith(field):
                return int(row.split()[1]) / 1024
        return float("nan")

    def bytes_read(self) -> int:
        """Bytes that had to be read from a disk so far."""
        rows = Path(f"/proc/{self.pid}/io").read_text().splitlines()
        return int(next(row for row in rows if row.startswith("read_bytes")).split()[1])

    def processor_time(self) -> float:
        """Seconds of processor used so far, by all its threads, those that have ended too."""
        return time.clock_gettime(~self.pid << 3 | 2)  # as clock_getcpuclockid of the C library makes it

    def close(self) -> None:
        """End the child that this object started."""
        if not self._gone:
            os.kill(self.pid, 9)
            os.waitpid(self.pid, 0)
        os.close(self.fd)


APP = [sys.executable, "-m", "tui"]
BARE = [
    sys.executable,
    "-c",
    "from textual.app import App\nfrom textual.widgets import Static\n"
    "class Bare(App):\n    def compose(self): yield Static('READY')\nBare().run(mouse=False)",
]
