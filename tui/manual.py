"""The shell door `tommybar man`: the manual page, made from the commands' help and the operations' declarations."""

from __future__ import annotations

import sys
from collections.abc import Iterator

from engine.base.declare import asks
from engine.base.refusals import BadInput
from engine.base.register import CATALOG, PANES, load
from engine.base.words import write
from tui import helps
from tui.keys import listed
from tui.wording import speak_as_shop, spoken

NAME = "the numbers and the job plans of a hand-worked lathe, mill and dividing head"


def manual(words: list[str]) -> int:
    """Print the page; return the exit code."""
    if words:
        print(BadInput("man", " ".join(words), "nothing behind it"), file=sys.stderr)
        return 2
    speak_as_shop(None)
    print(spoken("\n".join(_page())))
    return 0


def _page() -> Iterator[str]:
    from datetime import date
    from importlib.metadata import version

    yield f'.TH TOMMYBAR 1 "{date.today()}" "tommybar {version("tommybar")}"'
    yield from (".SH NAME", f"tommybar \\- {NAME}", ".SH SYNOPSIS", *_as_it_is(helps.APP))
    yield ".SH COMMANDS"
    for name, text in helps.COMMANDS.items():
        yield from (f".SS {name}", *_as_it_is(text))
    yield from (".SH KEYS", "A key means one thing on every screen of the app.")
    for keys, says in listed():
        yield from (".TP", f".B {_plain(keys)}", _plain(says))
    yield ".SH OPERATIONS"
    yield "Each is worked out by"
    yield from (".B tommybar work", "and its name, and stands on a pane of the app.")
    for pane in PANES:
        yield f'.SS "{_plain(pane.title)}"'
        for entry in CATALOG:
            if entry.pane == pane.id:
                yield from _operation(entry.id)
    yield from (
        ".SH FILES",
        "The shop: ~/.config/tommybar/shop.toml. Recipes, parts and jobs: ~/.local/share/tommybar.",
    )
    yield from (".SH ENVIRONMENT", "XDG_CONFIG_HOME and XDG_DATA_HOME move those folders; NO_COLOR is obeyed.")
    yield from (".SH EXIT STATUS", "0: answered. 1: it cannot be written or worked out. 2: an input cannot be used.")


def _operation(name: str) -> Iterator[str]:
    operation = load(name)
    yield from (".TP", f".B {_plain(name)}", _plain(f"{operation.title}. {operation.help}".strip()))
    inputs = []
    for key, ask in asks(operation.inputs).items():
        empty = "" if ask.required and not ask.from_shop else f" (empty: {write(ask.empty, 'mm') or 'left out'})"
        inputs.append(f"\\fI{_plain(key)}\\fR: {_plain(f'{ask.label}. {ask.help}{empty}')}")
    for text in inputs:
        yield from (".br", text)


def _as_it_is(text: str) -> list[str]:
    return [".nf", *(_plain(line) for line in text.splitlines()), ".fi"]


def _plain(text: str) -> str:
    """Text that the page's own marks cannot be mistaken in."""
    safe = text.replace("\\", "\\e").replace("-", "\\-").replace('"', "\\(dq").replace("\n", " ") or "\\&"
    return f"\\&{safe}" if safe[0] in ".'" else safe
