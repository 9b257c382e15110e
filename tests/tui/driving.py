"""Driving the app by its keys, and reading what it paints."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from rich.segment import Segment
from textual.pilot import Pilot

from tui.app import TommybarApp


class Driver:
    """An app under test: keys in, text out."""

    def __init__(self, app: TommybarApp, pilot: Pilot[None]) -> None:
        self.app, self.pilot = app, pilot

    @property
    def text(self) -> str:
        """What is on the screen, as text."""
        return self.app.screen.canvas.text

    @property
    def segments(self) -> list[Segment]:
        """What is painted, with its styles. Textual keeps this to itself: nothing else here looks inside it."""
        return [s for strip in self.app.screen._compositor.render_strips() for s in strip]

    async def press(self, *keys: str) -> Driver:
        """Press keys by Textual's names."""
        await self.pilot.press(*keys)
        return await self.settled()

    async def open(self, operation_id: str) -> Driver:
        """Open an operation, and wait for its answer."""
        self.app.bench.open(operation_id)
        return await self.settled()

    async def settled(self) -> Driver:
        """Wait until nothing is being worked out and all is painted."""
        for _ in range(500):
            await self.pilot.pause()
            if hasattr(self.app.screen, "settled"):
                await self.app.screen.settled()
            one = self.app.session.here()
            if not getattr(one, "working", False):
                break
            await asyncio.sleep(0.01)
        await self.pilot.pause()
        return self

    async def resize(self, columns: int, rows: int) -> Driver:
        """Give the screen another size, and wait until it is laid out: Textual does that by a timer."""
        await self.pilot.resize_terminal(columns, rows)
        for _ in range(500):
            if self.app.screen.canvas.size == (columns, rows):
                break
            await asyncio.sleep(0.01)
        return await self.settled()

    async def type(self, text: str) -> Driver:
        """Type a text, one key a character."""
        names = {" ": "space", "/": "slash", ".": "full_stop", "-": "minus", "#": "number_sign", '"': "quotation_mark",
                 "=": "equals_sign", ",": "comma"}  # fmt: skip
        return await self.press(*[names.get(c, c) for c in text])


@asynccontextmanager
async def driving(size: tuple[int, int] = (120, 40), **options: object) -> AsyncIterator[Driver]:
    """The app running on a screen of so many columns and rows."""
    app = TommybarApp(**options)  # type: ignore[arg-type]
    async with app.run_test(size=size) as pilot:
        yield await Driver(app, pilot).settled()
