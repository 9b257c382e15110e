"""The program as a person runs it, in a real pseudo-terminal: it starts, answers, leaves cleanly, fails politely."""

import os
import signal
import subprocess
import sys

import pytest

from engine.shop.file import data_folder
from tests.bench.pty_run import APP, Terminal

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs /proc and a Unix pseudo-terminal")

BROKEN = """
import sys
from tui.screens.bench import BenchScreen
def broken(self):
    raise ZeroDivisionError("a mistake made for the test")
BenchScreen.action_clear = broken
from tui.__main__ import main
sys.exit(main(["--go", "hand-dial"]))
"""
F10 = b"\x1b[21~"


@pytest.fixture
def terminal():
    """Start a program; it is ended when the test ends."""
    started = []

    def start(argv, **environ):
        started.append(Terminal(argv, 80, 24, **environ))
        return started[-1]

    yield start
    for one in started:
        one.close()


@pytest.mark.parametrize("term", ["linux", "xterm-256color", "screen", "vt100"])
def test_it_starts_answers_and_leaves(terminal, term):
    app = terminal([*APP, "--go", "hand-dial"], TERM=term)
    app.until(lambda text: "■" in text, 30)
    app.settle()
    app.key(b"7", lambda text: "1.000 mm" in text)  # 7 mm at 2 mm a turn: 3 turns and 1 mm
    os.write(app.fd, F10)
    assert app.ended() == 0
    cleared = app.written.rstrip().endswith(b"\x1b[H\x1b[2J")
    assert cleared == (term == "linux")
    assert b"\x1b[?25h" in app.written  # the cursor is shown again


def test_colours_on_the_linux_console_are_the_first_eight(terminal):
    app = terminal([*APP, "--go", "part-off"], TERM="linux")
    app.until(lambda text: "■" in text, 30)
    app.settle()
    codes = {code for part in app.written.split(b"\x1b[")[1:] for code in part.split(b"m")[0].split(b";")}
    numbers = {int(c) for c in codes if c.isdigit()}
    assert not numbers & set(range(90, 108)) and 38 not in numbers and 48 not in numbers


def test_a_fault_ends_in_a_sentence_and_a_report_with_what_was_typed(terminal):
    app = terminal([sys.executable, "-c", BROKEN])
    app.until(lambda text: "■" in text, 30)
    app.settle()
    app.key(b"7")
    app.settle()
    os.write(app.fd, b"\x06")  # Ctrl+F
    assert app.ended() == 1
    assert "stopped because of a mistake of its own" in app.text and b"Traceback" not in app.written
    report = (data_folder() / "report.txt").read_text()
    assert "a mistake made for the test" in report and "'distance': '7'" in report


def test_bytes_that_are_no_utf_8_are_told_and_the_program_goes_on(terminal):
    app = terminal([*APP, "--go", "hand-dial"])
    app.until(lambda text: "■" in text, 30)
    app.settle()
    app.key(b"\xe9\xff", lambda text: "no UTF-8" in text)  # é from a Latin-1 terminal, and line noise
    app.key(b"\xe2\x827", lambda text: "1.000 mm" in text)  # half a character, the key after it whole


@pytest.mark.parametrize("keys", [b"\x1b[24~", b"\x1b[19~", b"\x1bOQ", F10, b"/m6\r"])
def test_the_last_key_and_another_in_one_breath_are_a_clean_end(terminal, keys):
    app = terminal(APP)
    app.until(lambda text: "■" in text, 30)
    app.settle()
    os.write(app.fd, F10 + keys)
    assert app.ended() == 0 and "mistake" not in app.text


def test_a_quick_line_may_come_in_one_write(terminal):
    app = terminal([*APP, "--go", "hand-dial"])
    app.until(lambda text: "■" in text, 30)
    app.settle()
    app.key(b"/div 37\r", lambda text: "Divide a circle" in text and " 37 " in text)
    app.key(b"/hand\r\x1bOQ", lambda text: "[F2 Threads]" in text)


def test_being_asked_to_end_it_leaves_the_terminal_as_it_was(terminal):
    app = terminal(APP)
    app.until(lambda text: "■" in text, 30)
    app.settle()
    os.kill(app.pid, signal.SIGTERM)
    assert app.ended() == 0 and b"\x1b[?25h" in app.written


def test_it_ends_when_its_terminal_goes_away_without_a_signal():
    ours, its = os.openpty()
    # A session of its own without a controlling terminal: the kernel sends it no hang-up.
    app = subprocess.Popen(APP, stdin=its, stdout=its, stderr=its, start_new_session=True,
                           env={**os.environ, "TERM": "linux"})  # fmt: skip
    os.close(its)
    seen = b""
    while "■".encode() not in seen:
        seen += os.read(ours, 65536)
    os.close(ours)
    try:
        assert app.wait(20) == 129
    finally:
        app.kill()


@pytest.mark.parametrize("term", ["dumb", ""])
def test_a_terminal_without_a_screen_is_refused(terminal, term):
    app = terminal(APP, TERM=term)
    assert app.ended() == 2
    assert "tommybar work" in app.text.replace("\n", "")


def test_without_a_terminal_it_names_the_other_door():
    done = subprocess.run(APP, capture_output=True, text=True, stdin=subprocess.DEVNULL)
    assert done.returncode == 2 and "tommybar work" in done.stderr and done.stdout == ""
