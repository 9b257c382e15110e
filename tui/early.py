"""The terminal from the first moment on, and the first picture in it.

It is painted with plain escape codes, so that the answer is there before Textual is loaded, which then paints the same
picture over it.

Keys typed meanwhile wait in the terminal, which neither shows nor changes them. However the start ends, the terminal is
given back as it was.
"""

from __future__ import annotations

import signal
import sys
import termios
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tui.lines import Line
    from tui.session import Session

WAIT = " getting ready … "
_SHOW = "\x1b[?1049h\x1b[?25l\x1b[2J"
_LEAVE = "\x1b[0m\x1b[?1049l\x1b[?25h"
# What Textual asks of a terminal besides, should it not take it back itself: paste, focus, mouse, sizes, keys, wrap.
_REST = "\x1b[?2004l\x1b[?1004l\x1b[?1000l\x1b[?1003l\x1b[?1006l\x1b[?1015l\x1b[?1016l\x1b[?2048l\x1b[<u\x1b[?7h"
_NO_CHARACTER = b"\x00"  # for a special key of the terminal: none


class Early:
    """The terminal in hand, from `begin` to `give_back`."""

    def __init__(self, keys: int = 0) -> None:
        self._keys = keys
        self.before = termios.tcgetattr(keys)  # what it was like
        self.shown = False  # whether something stands on the second screen
        self.taken = False  # whether Textual has it

    def begin(self) -> None:
        """Take the keys as they come, without showing them; Ctrl+C still ends the program, Ctrl+Z waits."""
        now = termios.tcgetattr(self._keys)
        now[0] &= ~(termios.IXON | termios.IXOFF | termios.ICRNL | termios.INLCR | termios.IGNCR)
        now[3] &= ~(termios.ECHO | termios.ICANON | termios.IEXTEN)
        for special in (termios.VSUSP, termios.VQUIT):
            now[6][special] = _NO_CHARACTER
        termios.tcsetattr(self._keys, termios.TCSANOW, now)
        signal.signal(signal.SIGTERM, _end)

    def paint(self, session: Session, look: str) -> None:
        """Show the bench. A mistake in drawing it is left to the app, which draws it again and can say so."""
        from tui.output import size
        from tui.panes.bench_state import BenchState
        from tui.panes.bench_view import bench_lines

        width, height = size()
        try:
            lines = bench_lines(session, BenchState(), width, height, session.greeting).lines[:height]
        except Exception:
            return
        self.shown = True  # before it is: the program may be asked to end in the middle of it
        _write(_picture(lines, width, look))

    def give_back(self) -> None:
        """The terminal as it was, whoever had it last. Keys typed in this last moment end nothing any more."""
        for number in (signal.SIGINT, signal.SIGQUIT):
            signal.signal(number, signal.SIG_IGN)
        if self.shown:
            _write(f"{_REST if self.taken else ''}{_LEAVE}")
        termios.tcsetattr(self._keys, termios.TCSANOW, self.before)


def _write(data: str) -> None:
    """To where Textual writes too."""
    if sys.__stderr__ is not None:
        sys.__stderr__.write(data)
        sys.__stderr__.flush()


def _end(number: int, frame: FrameType | None) -> None:
    sys.exit(0)  # as when the app is asked to end once it runs


def _picture(lines: list[Line], width: int, look: str) -> str:
    from tui.lines import fitted
    from tui.look import codes

    if lines and width > 3 * len(WAIT):
        *above, foot = lines
        lines = [*above, [*fitted(foot, width - len(WAIT), "bar"), (WAIT, "bar")]]
    code = codes(look)
    rows = []
    for y, runs in enumerate(lines, start=1):
        painted = [code.get(role, code["text"]) + text for text, role in fitted(runs, width) if text]
        rows.append(f"\x1b[{y};1H{''.join(painted)}")
    return "".join([_SHOW, *rows, "\x1b[0m"])
