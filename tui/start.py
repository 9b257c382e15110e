"""Starting the app: its options, the terminal it is given, and the order of things that makes it start fast."""

from __future__ import annotations

import gc
import sys
from typing import TYPE_CHECKING

from engine.base.records import dataclass
from tui import pictures
from tui.terminal import clear_on_exit, end_with_the_terminal, prepare_environment, refusal

if TYPE_CHECKING:
    from pathlib import Path

    from tui.app import TommybarApp
    from tui.early import Early
    from tui.session import Session


@dataclass
class Options:
    """What was asked for on the command line."""

    shop: Path | None = None
    look: str = "dark"
    mouse: bool = False
    go: str = ""


def options(words: list[str]) -> Options | str:
    """Read the app's options; a sentence if one cannot be used."""
    chosen = Options()
    rest = iter(words)
    for word in rest:
        if word == "--shop" or word.startswith("--shop="):
            name = word[7:] if "=" in word else next(rest, "")
            if not name:
                return "--shop needs the name of a shop file after it."
            from pathlib import Path  # loaded where a file is named; the first answer waits for it

            chosen.shop = Path(name)
        elif word == "--go" or word.startswith("--go="):
            chosen.go = word[5:] if "=" in word else next(rest, "")
        elif word == "--light":
            chosen.look = "light"
        elif word == "--mouse":
            chosen.mouse = True
        else:
            return f"{word[:40]!a} is not a command or an option."
    return chosen


def _go(session: Session, text: str) -> None:
    """Open what a quick line leads to, if it leads to an operation."""
    from tui.quick import arrive, destinations

    places = [place for place in destinations(text) if place.operation]
    if places:
        arrive(session, places[0])


def start(chosen: Options) -> int:
    """Run the app; return its exit code."""
    said = refusal()
    if said:
        print(said, file=sys.stderr)
        return 2
    gc.disable()  # until the first answer is painted: TommybarApp.on_ready turns it on again
    prepare_environment()
    from tui.early import Early

    early = Early()
    try:
        early.begin()
        app = _run(chosen, early)
    except Exception as error:  # a part of the program that cannot be loaded
        from tui.report import write_report

        said, code = f"tommybar cannot start. {write_report('starting', error)}", 1
    else:
        said, code = app.report_said, app.return_code or 0
    finally:
        gc.enable()
        early.give_back()
        clear_on_exit()
    if said:
        print(said, file=sys.stderr)
    return code


def _run(chosen: Options, early: Early) -> TommybarApp:
    """Show the first answer, load the rest behind it, run until the end."""
    from tui.look import look_of
    from tui.session import Session

    session = Session(chosen.shop)
    if chosen.go:
        _go(session, chosen.go)
    pictures.begin_plainly(session.shop.pictures)  # the terminal is asked once it is Textual's
    early.paint(session, look_of(chosen.look))
    end_with_the_terminal()
    from tui.app import TommybarApp

    app = TommybarApp(chosen.shop, chosen.look, session, early)
    try:
        app.run(mouse=chosen.mouse)
    finally:
        session.keeper.settled()
    return app
