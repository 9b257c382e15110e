"""The doors of the command: what each imports, what it refuses, what it prints."""

import io
import shutil

import pytest

from tests.fresh import ask, loaded
from tui.__main__ import main
from tui.output import size
from tui.start import Options, options
from tui.terminal import clear_on_exit, prepare_environment, refusal

HEAVY = ("textual", "rich", "pydantic", "pint", "numpy", "sqlite3", "tomlkit", "asyncio")


def modules_after(code: str) -> set[str]:
    """Which heavy modules an empty interpreter has loaded after some code."""
    return loaded(code, HEAVY)


@pytest.mark.parametrize("words", ["--help", "--version"])
def test_help_and_version_load_nothing(words):
    assert modules_after(f"from tui.__main__ import main\nmain(['{words}'])") == set()


def test_the_shell_door_never_loads_textual_pydantic_or_pint():
    line = "['work', 'turning-speed', 'diameter=20', '--json']"
    assert modules_after(f"from tui.__main__ import main\nmain({line})") == set()
    for words in ("'turning-speed', 'diameter=20'", "'scale-lines', 'lead=1.5', 'value=0.05', 'diameter=24'"):
        assert modules_after(f"from tui.__main__ import main\nmain(['work', {words}])") == set()


def test_the_first_screen_loads_no_pydantic_pint_or_database():
    code = """
import asyncio
from tui.app import TommybarApp
async def first():
    app = TommybarApp()
    async with app.run_test(size=(120, 30)) as pilot:
        await pilot.pause()
        assert app.session.here().done is not None
asyncio.run(first())
"""
    assert modules_after(code) <= {"textual", "rich", "asyncio"}


def test_only_the_open_family_is_loaded():
    program = """
import sys
from tui.session import Session
session = Session()
session.open_by_id("hand-dial")
from engine.base.register import CATALOG
print(*sorted({e.module.split(".")[1] for e in CATALOG if e.module in sys.modules}))
"""
    assert ask(program)["says"].split() == ["indexing"]


def test_garbage_is_collected_again_after_the_first_paint():
    code = """
import asyncio, gc
gc.disable()
from tui.app import TommybarApp
async def first():
    app = TommybarApp()
    async with app.run_test() as pilot:
        await pilot.pause()
        assert gc.isenabled() and gc.get_freeze_count() > 0
asyncio.run(first())
"""
    modules_after(code)


class Fake(io.StringIO):
    """A stream that says whether it is a terminal, and its encoding."""

    def __init__(self, tty: bool = True, encoding: str = "utf-8") -> None:
        super().__init__()
        self._tty, self._encoding = tty, encoding

    encoding = property(lambda self: self._encoding)

    def isatty(self) -> bool:
        return self._tty


@pytest.mark.parametrize(
    ("stream", "keys", "term", "words"),
    [
        (Fake(tty=False), Fake(), "xterm", "needs a terminal"),
        (Fake(), Fake(tty=False), "xterm", "needs a terminal"),
        (Fake(), Fake(), "dumb", "TERM is dumb"),
        (Fake(), Fake(), "", "TERM is not set"),
        (Fake(encoding="latin-1"), Fake(), "linux", "not UTF-8"),
    ],
)
def test_a_terminal_that_cannot_show_it_is_refused_with_the_other_door(stream, keys, term, words):
    said = refusal(stream, keys, {"TERM": term})
    assert words in said and "tommybar work" in said


def test_a_usable_terminal_is_not_refused():
    assert refusal(Fake(), Fake(), {"TERM": "linux"}) == ""


@pytest.mark.parametrize("environ", [{}, {"COLUMNS": "93"}, {"COLUMNS": "x", "LINES": "31"}, {"COLUMNS": "0"}])
def test_the_size_is_what_textual_will_find(environ, monkeypatch):
    for name in ("COLUMNS", "LINES"):
        monkeypatch.delenv(name, raising=False)
    for name, value in environ.items():
        monkeypatch.setenv(name, value)
    assert size(environ) == tuple(shutil.get_terminal_size())


def test_the_linux_console_is_left_clean():
    out = Fake()
    clear_on_exit({"TERM": "linux"}, out)
    assert out.getvalue().endswith("\x1b[H\x1b[2J")
    other = Fake()
    clear_on_exit({"TERM": "xterm-256color"}, other)
    assert other.getvalue() == ""


def test_the_environment_for_textual_is_set_but_not_overruled():
    environ = {"TEXTUAL_FPS": "15"}
    prepare_environment(environ)
    assert environ == {"TEXTUAL_FPS": "15", "TEXTUAL_ANIMATIONS": "none", "TEXTUAL_SMOOTH_SCROLL": "0"}


def test_options_are_read_and_a_wrong_one_is_named():
    assert options(["--light", "--go", "M10"]) == Options(look="light", go="M10")
    assert "--lihgt" in str(options(["--lihgt"]))
    assert "needs the name" in str(options(["--shop"]))


def test_a_wrong_command_exits_with_2(capsys):
    assert main(["wrok"]) == 2
    assert "wrok" in capsys.readouterr().err
