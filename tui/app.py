"""The app: it owns the session and the look, opens screens by name, and is the last to catch an error."""

from __future__ import annotations

import asyncio
import gc
import signal
from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from textual.app import App

from tui.commands import BENCH, command
from tui.keyboard import Keyboard
from tui.look import look_of, styles
from tui.report import write_report
from tui.screens.bench import BenchScreen
from tui.screens.page import Page
from tui.session import Session
from tui.voice import Voice

if TYPE_CHECKING:
    from tui.early import Early
    from tui.widgets.shown_image import Placed

# Screens that load when they are first asked for: name -> where the class lives.
SCREENS_BY_NAME = {
    "goto": "tui.screens.goto:GotoScreen",
    "add_step": "tui.screens.add_step:AddStepScreen",
    "jobs": "tui.screens.jobs:JobsScreen",
    "shop": "tui.screens.shop:ShopScreen",
}


class TommybarApp(App[None]):
    """Everything is drawn by one canvas a screen, so Textual's own style sheet has little to say."""

    CSS = "Screen { background: ansi_black; }"
    AUTO_FOCUS = ""
    ENABLE_COMMAND_PALETTE = False
    TITLE = "tommybar"

    def __init__(
        self,
        shop_file: Path | None = None,
        look: str = "dark",
        session: Session | None = None,
        early: Early | None = None,
    ) -> None:
        # With ansi_color left to the theme, NO_COLOR would paint black on black.
        super().__init__(driver_class=Keyboard, ansi_color=True)
        self.animation_level = "none"
        self._disable_tooltips = self._disable_notifications = True
        self.look = look_of(look)
        self.early = early  # the terminal, if the first picture stands in it already
        self.styles_by_role = styles(self.look)
        self.session = session or Session(shop_file)
        self.session.deliver = self._settle_late
        self.voice = Voice(self.session.shop.voice, self.bell)
        self.report_said = ""
        self.images: tuple[Placed, ...] = ()  # that stand on the screen

    def get_default_screen(self) -> BenchScreen:
        """The bench is the first screen."""
        return BenchScreen()

    @property
    def pages(self) -> list[Page]:
        """Every open screen, the bench first."""
        return [screen for screen in self.screen_stack if isinstance(screen, Page)]

    @property
    def page(self) -> Page:
        """The screen on top: every screen of this app is a Page."""
        return self.pages[-1]

    @property
    def bench(self) -> BenchScreen:
        """The bench, whatever screen lies over it."""
        return next(page for page in self.pages if isinstance(page, BenchScreen))

    def on_ready(self) -> None:
        """The first answer is on the screen: collect garbage from now on, but never again what start-up made."""
        gc.freeze()
        gc.enable()
        with suppress(NotImplementedError, RuntimeError, ValueError):  # only in a main thread on a Unix
            asyncio.get_running_loop().add_signal_handler(signal.SIGTERM, self.exit)
        self.call_later(self.bench.look_for_work)

    def _settle_late(self, settle: Callable[[], None]) -> None:
        """A slow answer has come, in a thread: bring it to the screen from the loop."""

        def bring() -> None:
            settle()
            self.bench.redraw()

        if self.is_running and self._loop is not None:
            self._loop.call_soon_threadsafe(bring)

    # Commands of every screen

    def to_bench(self) -> BenchScreen:
        """Take every other screen away."""
        while not isinstance(self.screen, BenchScreen):
            self.pop_screen()
        return self.screen

    def action_pane(self, pane: str) -> None:
        """Go to a pane; if it is open, to its next operation."""
        again = self.session.pane == pane and isinstance(self.screen, BenchScreen)
        bench = self.to_bench()
        self.session.pane = pane
        bench.open(self.session.neighbour(1) if again else self.session.operation_id(pane))

    def action_units(self) -> None:
        """Millimetres or inches."""
        self.session.switch_unit()
        self.redraw()

    def action_look(self) -> None:
        """The dark look or the light one."""
        if self.look == "mono":
            return
        self.look = "light" if self.look == "dark" else "dark"
        self.styles_by_role = styles(self.look)
        for page in self.pages:
            page.canvas.restyle(self.styles_by_role)

    def action_voice(self) -> None:
        """The voice on or off."""
        self.say(self.voice.switch())

    def action_help(self) -> None:
        """Explain what is open."""
        self.page.show_help()

    def action_goto(self, text: str = "") -> None:
        """The line that goes anywhere."""
        self.open_screen("goto", text)

    def action_jobs(self) -> None:
        """The jobs."""
        self.open_screen("jobs")

    def action_shop(self) -> None:
        """The shop."""
        self.open_screen("shop")

    async def run_command(self, command_id: str) -> None:
        """Do what a command's key would do on the bench."""
        wanted = command(command_id)
        await self.run_action(wanted.action or wanted.id, self.screen if wanted.where == BENCH else self)

    def open_screen(self, name: str, *words: str) -> None:
        """Open a screen by its name, loading it if it is the first time."""
        module, kind = SCREENS_BY_NAME[name].split(":")
        try:
            screen = getattr(import_module(module), kind)(*words)
        except Exception as error:  # one broken screen must not take the others with it
            self.say(f"This screen cannot be opened. {write_report(f'opening {name}', error)}")
            return
        if type(self.screen) is not type(screen):
            self.push_screen(screen)

    def say(self, sentence: str) -> None:
        """Show a sentence at the foot of the screen until the next key."""
        self.page.message = sentence
        self.redraw()

    def redraw(self) -> None:
        """Draw the open screen anew."""
        self.page.redraw()

    def to_terminal(self, data: str) -> None:
        """Write to the terminal after what has been painted."""
        if data and self._driver is not None:
            self._driver.write(data)

    # The last resort

    def _handle_exception(self, error: Exception) -> None:
        """No traceback on the screen: a report file, and a sentence that says where it is."""
        if self.is_headless:
            super()._handle_exception(error)
            return
        self.stop_for(error)

    def stop_for(self, error: Exception) -> None:
        """End the program with a report of a mistake."""
        said = write_report("the program stopped", error, self.session.typed())
        self.report_said = f"tommybar stopped because of a mistake of its own. {said}"
        self._return_code = 1
        self.exit(return_code=1)
