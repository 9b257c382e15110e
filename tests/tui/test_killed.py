"""The real program in a pseudo-terminal, killed in the middle of a job as a power cut would, and started again."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from contextlib import closing

import pyte

from tests.tui.test_under_way import begun

PATIENCE = 60.0  # seconds to wait for a screen before the test fails; nothing is gated by how soon it comes
ENTER, SPACE, F8 = b"\r", b" ", b"\x1b[19~"


class Terminal:
    """The program with a keyboard and a screen of 80 by 24."""

    def __init__(self):
        self.screen = pyte.Screen(80, 24)
        self.stream = pyte.ByteStream(self.screen)
        self.keys, other = pty.openpty()
        fcntl.ioctl(other, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        command = [sys.executable, "-m", "tui"]
        self.program = subprocess.Popen(
            command, stdin=other, stdout=other, stderr=other, start_new_session=True,
            env={**os.environ, "TERM": "xterm-256color", "LANG": "C.UTF-8"},
        )  # fmt: skip
        os.close(other)

    def text(self):
        return "\n".join(self.screen.display)

    def press(self, *keys):
        for key in keys:
            os.write(self.keys, key)

    def wait_for(self, pattern):
        """Read until the screen shows a pattern; return what it found."""
        end = time.monotonic() + PATIENCE
        while time.monotonic() < end:
            found = re.search(pattern, self.text())
            if found:
                return found
            if select.select([self.keys], [], [], 0.2)[0]:
                try:
                    self.stream.feed(os.read(self.keys, 65536))
                except OSError:
                    break
        raise AssertionError(f"no {pattern!r} on the screen:\n{self.text()}")

    def wait_for_change(self):
        """Read until the screen differs from what it was, and then until it is quiet."""
        before, end = self.text(), time.monotonic() + PATIENCE
        while time.monotonic() < end:
            quiet = 0.01 if self.text() != before else 0.5
            if select.select([self.keys], [], [], quiet)[0]:
                self.stream.feed(os.read(self.keys, 65536))
            elif self.text() != before:
                return
        raise AssertionError(f"nothing happens:\n{before}")

    def close(self):
        """Kill the program as a power cut would; a failing test leaves none behind either."""
        self.program.send_signal(signal.SIGKILL)
        self.program.wait()
        os.close(self.keys)


def place(terminal):
    """Step and line as the screen shows them."""
    step = terminal.wait_for(r"step (\d+) of (\d+)|at the end|all (\d+) steps done")
    line = re.search(r"(\w+) (\d+) of (\d+) ·", terminal.text())
    return step[0], line[0] if line else ""


def past_the_first_page(terminal):
    """The five things before a job's start are read, where they are shown."""
    if terminal.wait_for(r"(five things)|step (\d+) of")[1]:
        terminal.press(SPACE)


def step_on(terminal):
    """Read what has to be read, pass a measure after being told, and go on by one line or step."""
    here = place(terminal)
    for _ in range(8):
        terminal.press(SPACE)
        terminal.wait_for_change()
        if place(terminal) != here:
            return
    raise AssertionError(f"the job does not go on:\n{terminal.text()}")


def test_a_job_killed_at_a_scale_line_goes_on_at_that_line():
    begun("height-adjuster-nut", "lines", 9)
    with closing(Terminal()) as terminal:
        terminal.wait_for("Under way: Height-adjuster nut, line 9 of 30. Enter goes on.")
        terminal.press(ENTER)
        past_the_first_page(terminal)
        terminal.wait_for("Line 9 of 30")
        while not re.search(r"Line 12 of 30", terminal.text()):
            step_on(terminal)
        killed_at = place(terminal)

    with closing(Terminal()) as terminal:
        terminal.wait_for("F8 Jobs")
        terminal.press(F8)
        terminal.wait_for(r"line 12 of 30")
        terminal.press(ENTER)
        past_the_first_page(terminal)
        terminal.wait_for(r"Line 12 of 30")
        assert place(terminal) == killed_at
        while not re.search(r"all \d+ steps done|at the end, ", terminal.text()):
            step_on(terminal)
