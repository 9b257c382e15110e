"""Every command that a screen names has something that it does."""

import importlib
import pkgutil

import tui.screens
from tests.rows import each_row
from tui.app import TommybarApp
from tui.commands import COMMANDS, EVERYWHERE
from tui.screens.page import Page

for info in pkgutil.iter_modules(tui.screens.__path__, "tui.screens."):
    importlib.import_module(info.name)


def pages(kind=Page):
    for page in kind.__subclasses__():
        yield page
        yield from pages(page)


@each_row("page", list(dict.fromkeys(pages())), ids=lambda page: page.__name__)
def test_every_command_of_a_screen_does_something(page):
    for command in page.COMMANDS:
        target = TommybarApp if command.where == EVERYWHERE else page
        assert hasattr(target, "action_" + (command.action or command.id).partition("(")[0]), command.id


def test_every_command_that_works_everywhere_does_something():
    for command in COMMANDS:
        if command.where == EVERYWHERE:
            assert hasattr(TommybarApp, "action_" + (command.action or command.id).partition("(")[0]), command.id
