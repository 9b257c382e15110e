"""The plan of a part: its set-ups and steps, changed by the person, and the job that it becomes."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from textual import events

from engine.base.answer import Picture
from engine.base.refusals import BadInput
from engine.jobs.compare import CameOut
from engine.jobs.known import READINGS, came_out
from engine.jobs.store import JournalError
from engine.part import plan_steps
from engine.part.needs import Need
from engine.part.part import PartFile
from engine.part.plan import Plan
from engine.part.plan_drawn import views
from engine.part.plan_recipe import as_recipe
from engine.part.plan_states import states
from engine.part.steps import Step, Why
from engine.part.together import in_order, needs_together, plan_all
from engine.shop.model import Shop
from tui.commands import Command
from tui.desk import Desk, OpenJob, Refusal, one_line
from tui.editing import LineEdit, edited
from tui.in_hand import of_part
from tui.keys import works_inside
from tui.lines import Line, beside, line, window, wrapped
from tui.panes import frame
from tui.panes.plan_view import head_lines, needs_lines, step_lines, strip_lines, why_lines
from tui.report import write_report
from tui.screens.page import Page

WIDE = 100


class PlanScreen(Page):
    """Arrows go through the steps; Enter starts the job."""

    PLACE = "plan"
    COMMANDS = (
        Command("start", "Start", "Start a job: one step at a time.", "plan", means="on"),
        Command("why", "Why", "Why the step stands where it does, with its source.", "plan", action="show('why')"),
        Command("picture", "Picture", "The step as the work lies on the machine.", "plan", action="show('step')"),
        Command("needs", "Lay out", "All that has to lie ready, owned or not.", "plan", means="all", action="show('needs')"),
        Command("insert", "Add", "Put a step in after this one: plain words, or an operation.", "plan", means="add"),
        Command("drop", "Take out", "Leave this step out.", "plan", means="take_out"),
        Command("repeat", "Once more", "Do this step once more.", "plan", means="again"),
        Command("earlier", "Earlier", "Move this step one place earlier.", "plan", action="move(-1)"),
        Command("later", "Later", "Move this step one place later.", "plan", action="move(1)"),
        Command("undo", "As before", "Take the last change back.", "plan", means="back"),
        Command("edit", "Recipe", "Write it as a recipe of yours and change its text.", "plan"),
        Command("close", "Back", "Go back to the part.", "plan", means="leave"),
    )  # fmt: skip

    def __init__(self, file: PartFile, text: str, name: str) -> None:
        super().__init__()
        self.file, self.text, self.stem = file, text, name
        self.plans: tuple[Plan, ...] = ()
        self.needs: tuple[Need, ...] = ()
        self.before: tuple[CameOut, ...] = ()  # what came out against what was planned, over the last jobs
        self.earlier: list[tuple[tuple[Plan, ...], int]] = []
        self.at = self.scroll = 0
        self.view = ""
        self.started: tuple[OpenJob, tuple[Plan, ...]] | None = None  # the job that was begun here, and of which plans
        self.entry: LineEdit | None = None
        self.desk = Desk()
        self._drawn: dict[tuple[str, int, int], tuple[Picture, ...]] = {}
        self._against: list[tuple[Why, ...]] | None = None  # the hard rules broken, by part; None: not worked out yet

    def plan(self, shop: Shop) -> None:
        """Plan every part; BadInput, naming the feature, where there is no plan. It may take a while: in a thread."""
        self.plans = plan_all(self.file.parts, shop)
        with suppress(JournalError):  # without the jobs' file there is nothing to compare with
            self.before = came_out(self.desk.journal.everywhere(READINGS))
        self.needs = needs_together(self.plans)

    @property
    def rows(self) -> list[tuple[int, Step]]:
        """The steps of the first piece of every part, with the number of the part."""
        return [(number, step) for number, step in in_order(self.plans) if step.round == 1]

    def drawings(self, columns: int, rows: int) -> tuple[Picture, ...]:
        """The step in hand as the work lies."""
        piece, step = self.rows[self.at]
        if rows < 8:
            return ()
        key = (f"{piece} {step.id}", columns, rows)
        if key not in self._drawn:
            one = self.plans[piece]
            moments = dict(zip((s.id for s in one.steps), states(one), strict=True))
            self._drawn[key] = views(moments[step.id], columns=columns, rows=rows)
        return self._drawn[key]

    # Drawing

    def body(self, width: int, height: int) -> list[Line]:
        """The strips, and beside them or over them what was asked for."""
        foot = self._foot(width)
        said = head_lines(self.plans, self.needs, width)
        said = said[:1] if self.view and width < WIDE else said
        top = [frame.tabs("jobs", width, self.plans[0].part.unit), *said]
        room = max(height - len(top) - len(foot), 3)
        if width >= WIDE:
            left = width // 2 - 2
            over = self._view(self.view or "step", width - left - 1, room)
            middle = beside([(strip_lines(self, left, room), left), (over, width - left - 1)], room)
        elif self.view:
            middle = self._view(self.view, width, room)
        else:
            middle = strip_lines(self, width, room)
        return [*top, *middle[:room], *[line()] * (room - len(middle)), *foot]

    def _view(self, view: str, width: int, room: int) -> list[Line]:
        if view == "step":
            return step_lines(self, width, room)
        lines = why_lines(self, width - 2) if view == "why" else needs_lines(self.needs, width - 2)
        shown, self.scroll = window(lines, self.scroll, room, width)
        return shown

    def _foot(self, width: int) -> list[Line]:
        if self.entry is not None:
            asked = "By hand, in plain words; or an operation as: drill-speed diameter=6. Enter puts it in."
            return [[("New step ", "label"), *edited(self.entry, width - 10, "")], *wrapped(asked, width, "hint")]
        if self.message:
            return frame.said(self.message, width)
        pairs = {c.id: (c.key(False), c.label) for c in self.COMMANDS}
        order = ["start", "why", "picture", "needs", "insert", "drop", "repeat", "earlier", "later", "edit", "close"]
        pairs["close"] = ("Esc", "Close" if self.view else "Back")
        if self._under_way is not None:
            pairs["start"] = (pairs["start"][0], "Go on")
        return [frame.keys([pairs[i] for i in order], width)]

    # Keys

    def typed(self, event: events.Key) -> bool:
        """Arrows and pages go through the steps; an open line takes the typing."""
        key = event.key
        if self.entry is not None:
            if key in ("enter", "escape"):
                self._put_in() if key == "enter" else setattr(self, "entry", None)
                return True
            return self.entry.key(key, event.character) or not works_inside(key)
        by = {"down": 1, "tab": 1, "up": -1, "shift+tab": -1, "pagedown": 8, "pageup": -8}.get(key)
        if by is not None:
            if self.view == "needs":
                self.scroll = max(self.scroll + by, 0)
                return True
            self.at = min(max(self.at + by, 0), len(self.rows) - 1)
            self.scroll = 0
            return True
        return False

    def pasted(self, text: str) -> None:
        """Pasted text is typed into the open line."""
        if self.entry is not None:
            self.entry.insert(text)

    # Changing

    def against(self, at: int) -> tuple[Why, ...]:
        """The hard rules that a step of the list breaks where it stands."""
        piece, step = self.rows[at]
        if self._against is None:
            self._against = [plan_steps.broken(plan) for plan in self.plans]
        return tuple(why for why in self._against[piece] if why.step == step.id)

    def _change(self, do: Callable[[Plan, Step], Plan]) -> None:
        """Change the plan of the step in hand; a hard rule that it breaks is told with its reason."""
        piece, step = self.rows[self.at]
        before = {why.text for why in plan_steps.broken(self.plans[piece])}
        changed = do(self.plans[piece], step)
        if changed == self.plans[piece]:
            return
        self.earlier.append((self.plans, self.at))
        self.plans = (*self.plans[:piece], changed, *self.plans[piece + 1 :])
        self._drawn.clear()
        self._against = None
        new = [why for why in plan_steps.broken(changed) if why.text not in before]
        if new:
            self.message = f"Against a rule: {new[0].text}. Backspace takes it back."

    def _stand_at(self, name: str) -> None:
        self.at = next(
            (i for i, (_, step) in enumerate(self.rows) if step.id == name), min(self.at, len(self.rows) - 1)
        )

    def action_move(self, by: int) -> None:
        """Move the step in hand."""
        _, step = self.rows[self.at]
        self._change(lambda one, at: plan_steps.moved(one, at, by))
        self._stand_at(step.id)
        after = self.rows[self.at][1]
        if after.set_up != step.set_up and not self.message:
            self.message = f"It is done in set-up {after.set_up + 1} now."
        self.redraw()

    def action_drop(self) -> None:
        """Leave the step out, unless it is the last one."""
        piece, step = self.rows[self.at]
        if len(plan_steps.listed(self.plans[piece])) < 2:
            self.message = "A plan has one step at the least."
        else:
            self._change(plan_steps.dropped)
            self.at = min(self.at, len(self.rows) - 1)
            made = f" {', '.join(step.makes)} is then made nowhere." if step.makes else ""
            self.message = f"Left out: {step.title}.{made} Backspace takes it back."
        self.redraw()

    def action_repeat(self) -> None:
        """Do the step once more."""
        self._change(plan_steps.repeated)
        self.at = min(self.at + 1, len(self.rows) - 1)
        self.redraw()

    def action_undo(self) -> None:
        """Take the last change back."""
        if self.earlier:
            self.plans, self.at = self.earlier.pop()
            self._drawn.clear()
            self._against = None
        else:
            self.message = "Nothing has been changed."
        self.redraw()

    def action_insert(self) -> None:
        """Ask for a step to put in."""
        self.entry = LineEdit()
        self.redraw()

    def _put_in(self) -> None:
        assert self.entry is not None
        words = " ".join(self.entry.text.split())
        if not words:
            self.entry = None
            return
        try:
            title, operation, given = _step_of(words, self.plans[self.rows[self.at][0]].part.unit)
        except BadInput as refusal:
            self.message, self.entry = one_line(refusal), None
            return
        self.entry = None
        self._change(lambda one, step: plan_steps.put_in(one, step, title, operation, given))
        self.at = min(self.at + 1, len(self.rows) - 1)

    # Leaving

    def action_show(self, view: str) -> None:
        """Open a view, or close it."""
        self.view = "" if self.view == view else view
        self.scroll = 0
        self.redraw()

    @property
    def _under_way(self) -> OpenJob | None:
        """The job that was started of these very plans and is not finished: it is gone on with, not begun again."""
        job, plans = self.started or (None, ())
        return job if job is not None and plans is self.plans and not job.finished else None

    def _opened(self, shop: Shop) -> OpenJob:
        begun = self._under_way
        if begun is not None:
            opened = self.desk.resume(begun.job.id)
        else:
            opened = self.desk.start_text(as_recipe(self.plans, self.text), self.stem, shop)
        self.started = opened, self.plans
        return opened

    async def action_start(self) -> None:
        """Start the job, or go on with it."""
        from tui.screens.job import JobScreen

        self.owner.say("Working it out …")
        shop = self.session.shop
        try:
            opened = await asyncio.to_thread(self._opened, shop)
        except Refusal as error:
            self.owner.say(one_line(error))
            return
        except Exception as error:  # a mistake of ours in one plan must not end the program
            self.owner.say(f"This job cannot be opened. {write_report('starting a plan', error)}")
            return
        self.message = ""
        self.session.take_in_hand(of_part(self.file.part))
        self.app.push_screen(JobScreen(opened))

    async def action_edit(self) -> None:
        """Write the recipe into the person's folder and open its text."""
        from engine.jobs.library import Listed, own_folder, save
        from tui.screens.recipe import RecipeScreen

        def write() -> Path:
            path, number = own_folder() / f"{self.stem}.toml", 2
            while path.exists():
                path, number = own_folder() / f"{self.stem}-{number}.toml", number + 1
            save(path, as_recipe(self.plans, self.text))
            return path

        try:
            path = await asyncio.to_thread(write)
        except Refusal as error:
            self.owner.say(one_line(error))
            return
        self.app.push_screen(RecipeScreen(Listed(path.stem, path, self.plans[0].part.title, "")))

    def action_close(self) -> None:
        """Close the view; else back to the part."""
        if self.view:
            self.view = ""
            self.redraw()
            return
        self.dismiss()


def _step_of(words: str, unit: str) -> tuple[str, str | None, dict[str, str]]:
    """What was typed for a step: an operation with its inputs (`drill-speed diameter=6`), or work by hand."""
    from engine.base.declare import read
    from engine.base.register import CATALOG, load
    from tui.quick import destinations, given_for

    first = words.split()[0].lower()
    entry = next((one for one in CATALOG if one.id == first), None)
    if entry is None:
        return words[0].upper() + words[1:], None, {}
    given = given_for(destinations(words)[0], unit)
    read(load(entry.id).inputs, given, unit=unit)
    return entry.title, entry.id, given
