"""The `tommybar` command: the app, or one of the doors at the shell. A door imports only what it needs."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable
from importlib import import_module
from types import ModuleType
from typing import NoReturn

from tui.output import fit_output

# Where each command lives: it is loaded when it is asked for.
DOORS = {
    "work": "tui.shell:work",
    "check": "tui.check:check",
    "part": "tui.part:part",
    "sheet": "tui.sheet:sheet",
    "backup": "tui.backup:backup",
    "restore": "tui.backup:restore",
    "job": "tui.job:job",
    "completion": "tui.completion:completion",
    "man": "tui.manual:manual",
}


def run() -> NoReturn:
    """Run the command and end the program at once: taking an interpreter apart would cost a seventh of an answer."""
    code = main()
    try:
        sys.stderr.flush()
    finally:  # whether that could be written or not
        os._exit(code)


def main(argv: list[str] | None = None) -> int:
    """Run the command; return its exit code."""
    fit_output()
    try:
        code = _door(list(sys.argv[1:] if argv is None else argv))
        sys.stdout.flush()
    except BrokenPipeError:  # `tommybar work ... | head`: the reader has seen enough
        _forget_output()
        return 0
    except KeyboardInterrupt:
        return 130  # what a shell gives for a program ended by Ctrl+C
    except OSError as error:  # nothing can be written any more: a full disk behind `> FILE`
        _forget_output()
        print(f"tommybar: the answer cannot be written: {error.strerror or error}", file=sys.stderr)
        return 1
    return code


def _forget_output() -> None:
    """What is left to be written goes nowhere, so that the end of the program does not try again."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _door(words: list[str]) -> int:
    door, rest = (words[0], words[1:]) if words else ("", [])
    helped = "--help" in words or "-h" in words
    if door in DOORS:
        if helped and (door != "work" or rest[0].startswith("-")):
            return _say(_helps().COMMANDS[door])
        return _quickly(DOORS[door], rest[:1] if helped else rest)  # `work OPERATION --help` says what it takes
    if helped:
        return _say(_helps().APP)
    if door == "--complete":  # asked by what `tommybar completion` has given to a shell
        return _quickly("tui.completion:complete", rest)
    if door == "--keys":
        return _quickly("tui.keys:print_keys", rest)
    if door == "--changes":
        return _quickly("tui.changes:print_changes", rest)
    if "--version" in words:
        from importlib.metadata import version

        return _say(f"tommybar {version('tommybar')}")
    if words and not words[0].startswith("-"):  # a quick line: tommybar M10 tap
        return _quickly(DOORS["work"], words)
    return _app(words)


def _helps() -> ModuleType:
    from tui import helps  # pages of text, for who asks

    return helps


def _say(text: str) -> int:
    from tui.wording import speak_as_shop, spoken

    speak_as_shop(None)
    print(spoken(text))
    return 0


def _quickly(place: str, words: list[str]) -> int:
    """One answer at the shell: nothing lives long enough to be worth collecting as garbage."""
    module, name = place.split(":")
    collecting = gc.isenabled()
    gc.disable()
    try:
        door: Callable[[list[str]], int] = getattr(import_module(module), name)
        return door(words)
    finally:
        if collecting:
            gc.enable()


def _app(words: list[str]) -> int:
    from tui.start import options, start

    chosen = options(words)
    if isinstance(chosen, str):
        print(f"{chosen}\n\n{_helps().APP}", file=sys.stderr)
        return 2
    return start(chosen)


if __name__ == "__main__":
    run()
