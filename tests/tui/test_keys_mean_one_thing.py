"""A key means one thing in the whole program: one table, from which every screen binds."""

import ast
import re
from collections import Counter
from importlib import import_module
from pathlib import Path

from tests.rows import each_row
from tui.__main__ import main
from tui.commands import COMMANDS, Command
from tui.keys import MEANINGS, MOVING, key_name
from tui.screens.page import Page

SCREENS = Path(__file__).parents[2] / "tui" / "screens"
MODULES = sorted(path.stem for path in SCREENS.glob("*.py") if path.stem != "__init__")
README = SCREENS.parents[1] / "README.md"


def commands():
    """Every command of every screen, with the screen's name."""
    for name in MODULES:
        for kind in vars(import_module(f"tui.screens.{name}")).values():
            if isinstance(kind, type) and issubclass(kind, Page) and kind.__module__.endswith(name):
                yield from ((name, command) for command in kind.COMMANDS)


def test_a_key_stands_in_one_row_of_the_table():
    counted = Counter(key for one in MEANINGS.values() for key in one.keys)
    assert not [key for key, count in counted.items() if count > 1]


def test_every_screen_binds_from_the_table_and_nowhere_else():
    found = list(commands())
    assert len({name for name, _ in found}) >= 10
    for name, command in found:
        assert isinstance(command, Command) and (command.means or command.id) in MEANINGS, (name, command.id)
    assert not any("keys" in Command.__slots__ for _ in (1,)), "a command has no keys of its own"


@each_row("name", MODULES)
def test_no_screen_does_two_things_by_one_key(name):
    keys = Counter(key for where, command in commands() if where == name for key in command.keys)
    assert not [key for key, count in keys.items() if count > 1]


@each_row("name", [*MODULES, "../commands"])
def test_no_screen_acts_on_a_letter_by_itself(name):
    """Letters and Ctrl keys are compared with nowhere but in the table; y and n answer in two screens."""
    told = set()
    for node in ast.walk(ast.parse((SCREENS / f"{name}.py").read_text(encoding="utf-8"))):
        if isinstance(node, ast.Compare) and ast.unparse(node.left) in ("key", "event.key"):
            told |= {c.value for c in ast.walk(node) if isinstance(c, ast.Constant) and isinstance(c.value, str)}
    single = {key for key in told if (len(key) == 1 and key.isalpha()) or key.startswith("ctrl+")}
    assert single <= {"y", "n", "ctrl+c", "ctrl+y", "ctrl+x", "ctrl+z"}, single


def test_every_meaning_is_bound_somewhere():
    bound = {command.means or command.id for _, command in commands()} | {c.means or c.id for c in COMMANDS}
    assert set(MEANINGS) - bound <= {"yes", "no"}


def test_only_the_keys_that_move_are_named_by_what_the_screen_does():
    assert {key for name in ("on", "back", "leave") for key in MEANINGS[name].keys} >= MOVING


# What the README says of the first keys, in its own short words.
FIRST = {
    "Space": "on", "Backspace": "back", "Esc": "leave", "/": "goto", "m": "measure", "w": "why", "c": "cautions",
    "p": "picture", "l": "large", "?": "help", "F8": "jobs", "F9": "units", "F10": "quit", "F12": "shop",
}  # fmt: skip


def test_the_readme_s_first_keys_do_what_it_says():
    block = README.read_text(encoding="utf-8").split("<!-- keys -->\n```\n", 1)[1].split("```", 1)[0]
    found = re.findall(r"(?:^|  )(\S+|F2 to F7)  +\S", block, re.M)
    assert set(found) == {*FIRST, "F2 to F7"}
    assert all(key in map(key_name, MEANINGS[name].keys) for key, name in FIRST.items())


def test_the_list_of_keys_names_each_once(capsys):
    assert main(["--keys"]) == 0
    said = capsys.readouterr().out
    for one in MEANINGS.values():
        assert all(re.search(rf"(^|\s){re.escape(key_name(key))}\s", said) for key in one.keys[:1] if key[0] != "f")
    assert main(["--keys", "all"]) == 2


def test_a_key_is_written_in_one_way():
    assert key_name("quotation_mark") == '"' and key_name("ctrl+a") == "Ctrl+A"
    assert not any("_" in key_name(key) for one in MEANINGS.values() for key in one.keys)
