"""The first picture stands before Textual is loaded; whatever happens meanwhile, nothing typed is lost and the terminal
is left as it was."""

import os
import signal
import sys
import time

import pytest

from engine.shop.file import data_folder
from tests.bench.pty_run import Terminal

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="needs /proc and a Unix pseudo-terminal")
WAITS = "getting ready"
SECOND_SCREEN, FIRST_SCREEN, CURSOR = b"\x1b[?1049h", b"\x1b[?1049l", b"\x1b[?25h"

# The app, with Textual loaded only after a file has appeared: as slow a computer as the test needs.
SLOW = """
import os, sys, time
class Slow:
    def find_spec(self, name, path=None, target=None):
        if name == "textual":
            while not os.path.exists(sys.argv[1]):
                time.sleep(0.01)
            if sys.argv[2:]:
                raise ImportError("a mistake made for the test")
sys.meta_path.insert(0, Slow())
from tui.__main__ import main
sys.exit(main(["--go", "hand-dial"]))
"""


@pytest.fixture
def loading(tmp_path):
    """The app with its first picture up and Textual not loaded yet, and how to let it go on."""
    started = []

    def start(*words):
        app = Terminal([sys.executable, "-c", SLOW, str(tmp_path / "go"), *words], 80, 24)
        started.append(app)
        app.until(lambda text: "■" in text and WAITS in text, 30)
        return app, (tmp_path / "go").touch

    yield start
    for one in started:
        one.close()


def test_the_answer_stands_before_textual_and_the_same_picture_after_it(loading):
    app, go_on = loading()
    first = app.text.splitlines()
    go_on()
    app.until(lambda text: WAITS not in text, 60)
    app.settle()
    assert app.text.splitlines()[:-1] == first[:-1]
    assert app.written.count(SECOND_SCREEN) == 1  # asked for again it would be cleared by some terminals


def test_keys_typed_meanwhile_are_kept_and_not_shown(loading):
    app, go_on = loading()
    os.write(app.fd, b"7")
    app.settle()
    assert app.text.count("7") == app.text.replace("17.35", "").count("7") + 1  # of the example
    os.write(app.fd, b"\x1c\x13\x0e")  # Ctrl+\\ and Ctrl+S neither end nor freeze it
    go_on()
    app.until(lambda text: "ecipe" in text, 60)  # Ctrl+N is heard behind them: the operation may be added to a recipe
    app.settle()
    app.key(b"\x1b", lambda text: "1.000 mm" in text)


def test_control_c_meanwhile_ends_it_and_leaves_the_terminal_as_it_was(loading):
    app, _ = loading()
    os.write(app.fd, b"\x03")
    assert app.ended() == 130
    left_as_it_was(app)


def test_being_asked_to_end_meanwhile_leaves_the_terminal_as_it_was(loading):
    app, _ = loading()
    os.kill(app.pid, signal.SIGTERM)
    assert app.ended() == 0
    left_as_it_was(app)


def test_a_part_that_cannot_be_loaded_is_a_sentence_and_a_report(loading):
    app, go_on = loading("broken")
    go_on()
    assert app.ended() == 1
    left_as_it_was(app)
    assert "tommybar cannot start." in app.text
    assert "a mistake made for the test" in (data_folder() / "report.txt").read_text()


def left_as_it_was(app):
    assert app.cooked
    assert app.written.count(SECOND_SCREEN) == app.written.count(FIRST_SCREEN) == 1
    assert app.written.rindex(CURSOR) > app.written.rindex(b"\x1b[?25l")
    assert b"Traceback" not in app.written


def test_another_size_meanwhile_is_filled(loading):
    app, go_on = loading()
    app.resize(120, 30)
    go_on()
    app.until(lambda text: WAITS not in text and "── Operations" in text, 60)


def test_suspended_the_shell_has_its_own_terminal(loading):
    app, go_on = loading()
    go_on()
    app.until(lambda text: WAITS not in text, 60)
    app.settle()
    assert not app.cooked
    os.write(app.fd, b"\x1a")
    limit = time.monotonic() + 10
    while not app.cooked and time.monotonic() < limit:
        app.read(0.05)
    assert app.cooked
    os.kill(app.pid, signal.SIGCONT)
    app.until(lambda text: "■" in text, 60)
