"""A part being typed in the real program, killed as a power cut would, and taken up again."""

import contextlib
import time

from engine.part.own import own_parts
from tests.tui.test_killed import ENTER, F8, Terminal


def texts():
    """Every part file and draft as it now stands; one that goes under another name meanwhile stands there."""
    for file in [*own_parts().glob("*.toml"), *own_parts().glob("*.typing")]:
        with contextlib.suppress(FileNotFoundError):
            yield file.read_text(encoding="utf-8")


def wait_for_disk(words):
    """Wait until what was typed stands in a file that a kill leaves there: not in one that is being written."""
    end = time.monotonic() + 30
    while time.monotonic() < end:
        if any(words in text for text in texts()):
            return
        time.sleep(0.05)
    raise AssertionError(f"{words} is not kept")


def test_nothing_typed_is_lost_when_the_program_is_killed():
    terminal = Terminal()
    try:
        terminal.wait_for("F8 Jobs")
        terminal.press(F8)
        terminal.wait_for("Start a new job")
        terminal.press(b"a")
        terminal.wait_for("How many")
        terminal.press(b"nut", ENTER, b"brass", ENTER, b"28", ENTER, ENTER, ENTER, b"25 x 5", ENTER, b"knurl 26 x")
        wait_for_disk("knurl 26 x")  # half a line, which is no feature yet
    finally:
        terminal.close()
    again = Terminal()
    try:
        again.wait_for("F8 Jobs")
        again.press(F8)
        again.wait_for("Your parts")
        again.wait_for("> nut")
        again.press(ENTER)
        again.wait_for("knurl 26 x")
        assert "25 x 5" in again.text() and "brass" in again.text()
    finally:
        again.close()
