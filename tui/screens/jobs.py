"""The jobs pane: jobs to go on with, recipes to start from."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from functools import partial
from pathlib import Path

from textual import events

from engine.jobs.library import Listed
from engine.jobs.progress import JobLine
from engine.part.draft import Draft
from engine.part.own import PartListed, copy_of, fresh_path, load, parts
from tui.commands import COMMANDS, EVERYWHERE, Command
from tui.desk import Desk, OpenJob, Refusal, one_line
from tui.lines import Line, line
from tui.panes import frame
from tui.panes.jobs_view import Choice, jobs_lines
from tui.report import write_report
from tui.screens.page import Page


class JobsScreen(Page):
    """A list: Enter goes on, or starts."""

    PLACE = "jobs"
    COMMANDS = (
        Command("take", "Go on", "Go on with the job, or start one from the recipe.", "jobs", means="on"),
        Command("new_part", "A part of my own", "Say what is to be made, line by line; it is drawn and planned.", "jobs",
                means="add"),
        Command("repeat", "Repeat", "Start the same job for the next part; of a part: make it in another size.", "jobs",
                means="again"),
        Command("put_away", "Put away", "Put a job away; Enter takes it up again.", "jobs", means="take_out"),
        Command("edit", "Edit", "Change a recipe of yours, or a copy of a ready-made one.", "jobs"),
        Command("close", "Back", "Go back to the bench.", "jobs", means="leave"),
    )  # fmt: skip

    def __init__(self) -> None:
        super().__init__()
        self.desk = Desk()
        self.choices: tuple[Choice, ...] = ()
        self.at = 0
        self.reading: asyncio.Task[None] | None = None  # the lists being read

    def on_screen_resume(self) -> None:
        """A job may have moved, a recipe may be new: read the lists in a thread, for the file may be slow to open."""
        super().on_screen_resume()
        self.reading = asyncio.create_task(self._read())

    async def _read(self) -> None:
        said = ""
        try:
            self.choices = await asyncio.to_thread(lambda: (*self.desk.jobs(), *self._shelves()))
            said = self.desk.notice() or self.session.jobs_notice
            self.session.jobs_notice = ""
        except Refusal as error:
            self.choices, said = self._shelves(), one_line(error)
        except Exception as error:  # a mistake of ours in one list must not end the program
            said = f"The jobs cannot be listed. {write_report('listing the jobs', error)}"
        self.at, self.reading = min(self.at, max(len(self.choices) - 1, 0)), None
        self.message = said or self.message
        self.redraw()

    def _shelves(self) -> tuple[Choice, ...]:
        """The person's own parts; the parts and recipes that ship, and recipes of one's own."""
        return (*parts(), *self.desk.recipes())

    async def settled(self) -> None:
        """Wait for the lists."""
        if self.reading is not None:
            await self.reading

    async def _act(self, event: events.Key) -> None:
        leaves = any(event.key in command.keys for command in COMMANDS if command.where == EVERYWHERE)
        if not leaves and event.key != "escape":
            await self.settled()
        await super()._act(event)

    @property
    def one(self) -> Choice | None:
        """What is in hand."""
        return self.choices[self.at] if self.choices else None

    def body(self, width: int, height: int) -> list[Line]:
        """The lists."""
        pairs = [(c.key(False), c.label) for c in self.COMMANDS]
        pairs[0], pairs[-1] = ("Enter", self._taking()), ("Esc", "Back")
        foot = frame.said(self.message, width) if self.message else [frame.keys(pairs, width)]
        room = height - 1 - len(foot)
        middle = jobs_lines(self.choices, self.at, width, room)
        return [frame.tabs("jobs", width, self.session.unit), *middle, *[line()] * (room - len(middle)), *foot]

    def _taking(self) -> str:
        """What Enter does to the one in hand."""
        return {Listed: "Start", PartListed: "Open"}.get(type(self.one), "Go on")

    def typed(self, event: events.Key) -> bool:
        """Arrows go through the list."""
        steps = {"down": 1, "tab": 1, "up": -1, "shift+tab": -1, "pagedown": 8, "pageup": -8}
        if event.key in steps and self.choices:
            self.at = min(max(self.at + steps[event.key], 0), len(self.choices) - 1)
            return True
        return False

    async def action_take(self) -> None:
        """Go on with a job, or start one."""
        one = self.one
        if one is None:
            return
        if isinstance(one, PartListed):
            await self._open_part(one)
        elif isinstance(one, Listed):
            await self._open(partial(self.desk.start, one, self.session.shop))
        else:
            await self._open(partial(self.desk.resume, one.id))

    async def action_repeat(self) -> None:
        """The same again."""
        one = self.one
        if isinstance(one, PartListed) or (isinstance(one, Listed) and one.planned):
            await self._open_part(one, another=True)
            return
        if not isinstance(one, JobLine):
            self.owner.say("Only a job or a part can be made again; Enter starts a job from a recipe.")
            return
        await self._open(lambda: self.desk.open(self.desk.journal.repeat(one.id).id))

    async def _open(self, opening: Callable[[], OpenJob]) -> None:
        from tui.screens.job import JobScreen

        self.owner.say("Working it out …")
        try:
            opened = await asyncio.to_thread(opening)
        except Refusal as error:
            self.owner.say(one_line(error))
            return
        except Exception as error:  # a mistake of ours in one recipe must not end the program
            self.owner.say(f"This job cannot be opened. {write_report('opening a job', error)}")
            return
        self.at = 0  # the job worked on last stands first
        self.app.push_screen(JobScreen(opened))

    def action_new_part(self) -> None:
        """Begin a part from nothing."""
        from engine.part.draft import blank

        draft = blank(unit=self.session.unit)
        self._push_part(fresh_path(""), draft, new=True)

    async def _open_part(self, one: PartListed | Listed, *, another: bool = False) -> None:
        """Open an own part, or a copy of one that ships; `another`: to type at once what it becomes."""
        try:
            draft = await asyncio.to_thread(load, one.path) if one.path else copy_of(one.name)
        except Refusal as error:
            self.owner.say(one_line(error))
            return
        self._push_part(one.path or fresh_path(one.title), draft, new=False, another=another)

    def _push_part(self, path: Path, draft: Draft, *, new: bool, another: bool = False) -> None:
        from tui.screens.part import PartScreen

        screen = PartScreen(path, draft, new=new)
        self.app.push_screen(screen)
        if another:
            screen.action_another()

    async def action_put_away(self) -> None:
        """Put a job away."""
        one = self.one
        if not isinstance(one, JobLine):
            self.owner.say("Only a job can be put away.")
            return
        try:
            await asyncio.to_thread(self.desk.journal.put_away, one.id)
            await self._read()
            self.message = "Put away; Enter takes it up again."
        except Refusal as error:
            self.message = one_line(error)
        self.redraw()

    async def action_edit(self) -> None:
        """Change a recipe."""
        one = self.one
        if isinstance(one, PartListed) or (isinstance(one, Listed) and one.planned):
            await self._open_part(one)
            return
        if not isinstance(one, Listed):
            self.owner.say("Only a recipe can be changed: a job keeps the one it was started with.")
            return
        from tui.screens.recipe import RecipeScreen

        try:
            self.app.push_screen(RecipeScreen(one))
        except Refusal as error:
            self.owner.say(one_line(error))

    def action_close(self) -> None:
        """Back to the bench."""
        self.dismiss()
