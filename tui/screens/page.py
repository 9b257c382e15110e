"""What every screen is: one canvas, redrawn from lines whenever something happened.

A screen names its commands (`COMMANDS`, a table like that of tui/commands.py), gives `body(width, height)` and acts
on keys in `typed(event)`. Everything else (keys, resizing, the look) is here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, cast

from textual import events
from textual.screen import Screen

from tui.canvas import Canvas
from tui.commands import COMMANDS, EVERYWHERE, Command
from tui.glyphs import NO_CHARACTER
from tui.keys import arrived
from tui.lines import Line, wrapped
from tui.report import write_report

if TYPE_CHECKING:
    from textual.app import ComposeResult

    from tui.owner import Owner
    from tui.session import Session
    from tui.voice import Aloud


class Page(Screen[object]):
    """A full screen of lines."""

    AUTO_FOCUS = ""
    # Textual's screens keep providers of its own palette under this name; the palette is off.
    COMMANDS: ClassVar[tuple[Command, ...]] = ()  # type: ignore[assignment]
    PLACE: ClassVar[str] = ""
    MANY_LINES: ClassVar[bool] = False

    def __init__(self) -> None:
        super().__init__()
        self.message = ""  # one sentence shown at the foot until the next key
        self.helping = False  # whether the keys are listed over the screen
        self.canvas = Canvas()

    @property
    def owner(self) -> Owner:
        """The app, under its own type."""
        return cast("Owner", self.app)

    @property
    def session(self) -> Session:
        """The state that every screen shares."""
        return self.owner.session

    def compose(self) -> ComposeResult:
        """One canvas."""
        self.canvas.restyle(self.owner.styles_by_role)
        yield self.canvas

    def body(self, width: int, height: int) -> list[Line]:
        """The whole screen as lines; each screen has its own."""
        return []

    def aloud(self) -> Aloud | None:
        """What a voice would say of this screen; None where there is nothing to set."""
        return None

    def typed(self, event: events.Key) -> bool:
        """Act on a key that may be typing; True if it was used. Other keys go to the commands."""
        return False

    def pasted(self, text: str) -> None:
        """Take what was pasted as if it were typed, its first line alone unless MANY_LINES; most have no field for it."""

    def show_help(self) -> None:
        """List the screen's keys until the next key; a screen may explain more."""
        self.helping = True
        self.redraw()

    def redraw(self) -> None:
        """Draw what changed."""
        if self.is_mounted and all(self.size):
            self._draw(*self.size)
            if self.owner.voice.on:
                self.owner.voice.follow(self.aloud())

    def _draw(self, width: int, height: int) -> None:
        try:
            lines = self._keys(width) if self.helping else self.body(width, height)
        except Exception as error:  # a mistake in a view must not end the program
            said = write_report(f"drawing {type(self).__name__}", error, self.session.typed())
            lines = wrapped(f"This cannot be drawn; the fault is the program's. {said}", width)
            lines += wrapped("The function keys still lead elsewhere.", width)
        self.canvas.show(lines)

    def _keys(self, width: int) -> list[Line]:
        from tui.panes.help_view import key_lines

        everywhere = [c for c in COMMANDS if c.where == EVERYWHERE]
        return key_lines(width, [*self.COMMANDS, *everywhere])

    def on_resize(self, event: events.Resize) -> None:
        """Lay out again."""
        self._draw(*event.size)

    def on_screen_resume(self) -> None:
        """Another screen may have changed the shop, the unit or the look."""
        self.canvas.restyle(self.owner.styles_by_role)
        self.redraw()

    async def on_key(self, event: events.Key) -> None:
        """Typing first, then the commands. Everything happens here and in order: left to bubble up to the app, a
        command would be overtaken by the letters typed after it."""
        event.stop()
        event.prevent_default()
        if self.app.screen is not self:  # a screen opened since this key was sent
            self._again(event.key, event.character)
        elif event.key.startswith("alt+"):  # Esc and a key in quick succession arrive as one
            rest = event.key[4:]
            self._again("escape", None)
            self._again(rest, rest if len(rest) == 1 else None)
        else:
            await self._act(event)

    def on_paste(self, event: events.Paste) -> None:
        """What is pasted is typed into the field in hand."""
        event.stop()
        text = event.text.replace("\r\n", "\n").replace("\r", "\n")
        if text := text if self.MANY_LINES else text.strip().split("\n")[0]:
            self.pasted(text)
            self.redraw()

    def _again(self, key: str, character: str | None) -> None:
        self.app.post_message(events.Key(key, character))

    async def _act(self, event: events.Key) -> None:
        self.message = ""
        arrived(event.key)
        if self.helping:
            self.helping = False
        elif event.character == NO_CHARACTER:
            self.message = "The terminal sent a byte that is no UTF-8, which is left out. Set it to UTF-8."
        elif event.key == "ctrl+c":  # too easily pressed to end the program
            self.message = "F10 leaves the program."
        elif not self.typed(event):
            known = next((c for c in (*self.COMMANDS, *COMMANDS) if event.key in c.keys and self._heeds(c)), None)
            if known is not None:
                target = self.app if known.where == EVERYWHERE else self
                await self.app.run_action(known.action or known.id, target)
                return
            if event.key == "ctrl+z":
                self.app.action_suspend_process()
        self.redraw()

    def _heeds(self, command: Command) -> bool:
        return command.where in (self.PLACE, EVERYWHERE)
