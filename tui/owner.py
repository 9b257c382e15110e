"""The app as its screens and its keyboard know it: what they may ask of it, without loading it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from rich.style import Style

    from tui.early import Early
    from tui.session import Session
    from tui.voice import Voice
    from tui.widgets.shown_image import Placed


class Owner(Protocol):
    """What every screen shares."""

    session: Session
    styles_by_role: dict[str, Style]
    early: Early | None
    voice: Voice
    look: str
    images: tuple[Placed, ...]

    @property
    def bench(self) -> Any:
        """The bench, whatever screen lies over it."""

    def say(self, sentence: str) -> None:
        """One sentence at the foot of the screen in front."""

    def open_screen(self, name: str, *words: str) -> None:
        """Open a screen by its name."""

    def action_pane(self, pane: str) -> None:
        """Show a pane of the bench."""

    def action_goto(self, text: str = "") -> None:
        """Ask where to go."""

    def redraw(self) -> None:
        """Draw the open screen anew."""

    def to_terminal(self, data: str) -> None:
        """Write to the terminal after what has been painted."""

    def stop_for(self, error: Exception) -> None:
        """End because of a mistake of the program's own."""

    def to_bench(self) -> Any:
        """Take every other screen away; the bench."""

    async def run_command(self, command_id: str) -> None:
        """Do what a command does, wherever it belongs."""

    def call_later(self, callback: Callable[..., Any], *args: Any) -> bool:
        """When what has been sent already is done."""
