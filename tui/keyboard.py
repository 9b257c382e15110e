"""What the terminal sends, as keys. Textual's own reader ends the program at a byte that is no UTF-8, which any Latin-1
terminal or serial line sends; here it becomes one character that says so.
"""

from __future__ import annotations

import os
import selectors
from codecs import getincrementaldecoder
from collections.abc import Iterator
from contextlib import suppress
from typing import TYPE_CHECKING, cast

from textual._parser import ParseError
from textual._xterm_parser import XTermParser
from textual.drivers.linux_driver import LinuxDriver
from textual.message import Message

from tui import pictures

if TYPE_CHECKING:
    from tui.owner import Owner

_SECOND_SCREEN = "\x1b[?1049h"
# A Linux console sends F2 to F7 with Shift as F14 to F19, which Textual reads as letters: here as any terminal sends them.
_SHIFTED = {
    "\x1b[1;2R": "\x1b[13;2~",  # F3 of a desktop, which Textual takes for a place of the cursor
    "\x1b[26~": "\x1b[1;2Q", "\x1b[28~": "\x1b[13;2~", "\x1b[29~": "\x1b[1;2S",
    "\x1b[31~": "\x1b[15;2~", "\x1b[32~": "\x1b[17;2~", "\x1b[33~": "\x1b[18;2~",
}  # fmt: skip
_TICK = 0.1  # seconds after which a lone Escape is one, and the end is looked for


def shifted(typed: str) -> str:
    """What a console sends for F2 to F7 with Shift, as any terminal sends it.

    >>> shifted("\x1b[26~") == "\x1b[1;2Q"
    True
    """
    for sent, known in _SHIFTED.items():
        typed = typed.replace(sent, known)
    return typed


class Keyboard(LinuxDriver):
    """Textual's driver with a reader that lives on whatever is sent."""

    _standing = False  # whether the first picture stands on the second screen

    @property
    def _owner(self) -> Owner:
        return cast("Owner", self._app)

    def start_application_mode(self) -> None:
        """Take the screen: from the first picture, if that stands in it, without clearing it in between."""
        early = self._owner.early
        if early is not None:
            self._standing, early.shown, early.taken = early.shown, True, True
        super().start_application_mode()  # type: ignore[no-untyped-call]
        if question := pictures.begin(self._owner.session.shop.pictures):
            self.write(question)
            self.flush()
        if early is not None:
            self.attrs_before = early.before  # for the shell, when the program is suspended

    def stop_application_mode(self) -> None:
        """Leave the screen, at the end or while the program is suspended."""
        super().stop_application_mode()
        if self._owner.early is not None:
            self._owner.early.shown = False

    def write(self, data: str) -> None:
        """Write to the terminal; some clear the second screen when it is asked for again."""
        if data == _SECOND_SCREEN and self._standing:
            self._standing = False
            return
        super().write(data)

    def run_input_thread(self) -> None:
        """Read, decode, and hand the keys on until the program ends."""
        parser = XTermParser(self._debug)
        try:
            for typed in self._keys():
                for event in (*(parser.feed(typed) if typed else ()), *parser.tick()):
                    self.process_message(event)
        except OSError:  # the terminal is gone: tui/terminal.py ends the program
            return
        except Exception as error:  # a mistake in reading keys must end like every other
            self._app.call_later(self._owner.stop_for, error)
        finally:
            with suppress(EOFError, ParseError):
                list[Message](parser.feed(""))

    def _keys(self) -> Iterator[str]:
        """What was typed, without the terminal's answers to what it was asked."""
        begun = ""
        for typed in self._typed():
            if not typed and begun:  # it was no answer after all
                yield begun
                begun = ""
            keys, begun, changed = pictures.answered(begun + shifted(typed))
            if changed:
                self._app.call_later(self._owner.redraw)
            yield keys

    def _typed(self) -> Iterator[str]:
        """What was sent, in pieces; an empty one when nothing came for a while."""
        decode = getincrementaldecoder("utf-8")("replace").decode
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                yield decode(os.read(self.fileno, 4096)) if selector.select(_TICK) else ""
