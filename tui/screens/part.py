"""A part of one's own: its lines one at a time, drawn as they are typed, kept as they are typed."""

from __future__ import annotations

import asyncio
from pathlib import Path

from textual import events

from engine.base.records import replace
from engine.base.refusals import BadInput
from engine.part import own
from engine.part.draft import Draft, Worked, completed, inserted, moved, unit_meant, with_row, without, worked
from engine.part.part import Part
from tui.commands import Command
from tui.desk import one_line
from tui.editing import LineEdit
from tui.lines import Line, beside, heading, line, wrapped
from tui.panes import frame
from tui.panes.part_view import changes_lines, drawing_lines, head_line, row_lines, said_lines
from tui.report import write_report
from tui.screens.page import Page

WIDE = 100


class PartScreen(Page):
    """Typing goes to the line in hand; with the line left (Esc), letters are commands."""

    PLACE = "part"
    COMMANDS = (
        Command("plan", "Plan", "Plan it for the shop; so does Enter on the empty last line.", "part", means="overview"),
        Command("insert", "Line above", "Put an empty line in above this one.", "part", means="add"),
        Command("take_out", "Take out", "Take this line out.", "part"),
        Command("up", "Move up", "Move this line up.", "part", means="earlier", action="move(-1)"),
        Command("down", "Move down", "Move this line down.", "part", means="later", action="move(1)"),
        Command("undo", "As before", "Take the last change of the lines back: one taken out, put in, moved, typed.", "part",
                means="back"),
        Command("another", "Another size", "The same part in another size or material: a copy with the changes that you type.",
                "part", means="again"),
        Command("picture", "Drawing", "Show the drawing over the whole screen.", "part"),
        Command("close", "Back", "Leave the line; once more, go back to the jobs.", "part", means="leave"),
    )  # fmt: skip

    def __init__(self, path: Path, draft: Draft, *, new: bool) -> None:
        super().__init__()
        self.path, self.draft, self.new = path, draft, new  # new: its file has not the title's name yet
        self.found: Worked = worked(draft)
        self.part: Part | None = self.found.file.part if self.found.file else None  # the last that could be drawn
        self.at = 0 if new else len(draft.rows) - 1
        self.edit = LineEdit(draft.rows[self.at].text)
        self.editing, self.drawing = True, False
        self.writing: asyncio.Task[None] | None = None
        self.earlier: list[tuple[Draft, int]] = []  # what the lines were before each change, and the line in hand then
        self.typing = False  # whether the line in hand has been changed since it was come to
        self.waiting = False  # whether something typed is not yet on its way to the disk
        self.changes: LineEdit | None = None  # what becomes what in another size, while it is typed
        self._arrive()

    @property
    def unit(self) -> str:
        """What a bare number of this part is in."""
        typed = next((unit_meant(row.text.strip()) for row in self.draft.rows if row.head == "unit"), "mm")
        return typed if typed in ("mm", "inch") else "mm"

    # Drawing

    def body(self, width: int, height: int) -> list[Line]:
        """The lines with the drawing beside them, what is wrong under them."""
        foot = [self._keys_line(width)] if not self.message else frame.said(self.message, width)
        says = said_lines(self.draft, self.found, self.at, width)
        if self.changes is not None:
            says = changes_lines(self.changes, width)
        top = [frame.tabs("jobs", width, self.unit), head_line(self.draft, self.path, width)]
        room = max(height - len(top) - len(says) - len(foot), 3)
        name = self.found.names.get(self.at, (0, ""))[1]
        stale = self.found.file is None
        if self.drawing:
            middle = drawing_lines(self.part, name, width, room, stale=stale)
        elif width >= WIDE:
            left = min(max(width * 2 // 5, 44), 60)
            rows = row_lines(self, left, room)
            drawn = drawing_lines(self.part, name, width - left - 1, room, stale=stale)
            middle = beside([(rows, left), (drawn, width - left - 1)], room)
        else:
            middle = row_lines(self, width, room)
        return [*top, *middle[:room], *[line()] * (room - len(middle)), *says, *foot]

    def _keys_line(self, width: int) -> Line:
        if self.changes is not None:
            return frame.keys([("Enter", "Make it"), ("Esc", "Leave it")], width)
        pairs = [(c.key(self.editing and c.id not in ("up", "down")), c.label) for c in self.COMMANDS]
        pairs[-1] = ("Esc", "Back" if not self.editing else "Leave the line")
        return frame.keys(pairs, width)

    def _keys(self, width: int) -> list[Line]:
        """What a line may be, then the keys."""
        from engine.part.lines import EXAMPLES

        words = f"From the front end on: {' · '.join(EXAMPLES)}. What stands on a feature follows its line."
        return [heading("Lines", width), *wrapped(words, width), *super()._keys(width)]

    # Typing

    def typed(self, event: events.Key) -> bool:
        """Arrows and Enter go through the lines; everything printable goes into the one in hand."""
        key = event.key
        if self.changes is not None:
            if key == "enter":
                self.call_later(self._make_another, self.changes.text)
            return key == "enter" or self.changes.key(key, event.character)
        if key in ("down", "tab", "up", "shift+tab"):
            self._go(self.at + (1 if key in ("down", "tab") else -1))
            return True
        if key in ("pagedown", "pageup"):
            self._go(self.at + (8 if key == "pagedown" else -8))
            return True
        if key == "enter":
            return self._enter()
        if not self.editing or key in ("escape", "less_than_sign", "greater_than_sign", "asterisk"):
            return False  # the signs move the line and copy the part: none of its words holds one
        before = self.edit.text
        if not self.edit.key(key, event.character):
            return False
        self._typed_text(before)
        return True

    def _typed_text(self, before: str) -> None:
        if self.edit.text != before:
            if not self.typing:
                self._remember()
            self.typing = True
            self._change(with_row(self.draft, self.at, self.edit.text))

    def pasted(self, text: str) -> None:
        """Pasted text is typed into the line in hand."""
        if self.changes is not None:
            self.changes.insert(text)
            return
        before = self.edit.text
        self.edit.insert(text)
        self._typed_text(before)

    def _enter(self) -> bool:
        """On to the next line; a new one after the last; from an empty last one to the plan."""
        if not self.editing:
            self.editing = True
            self._arrive()
            return True
        last = self.at == len(self.draft.rows) - 1
        if last and not self.draft.rows[self.at].text.strip():
            self.call_later(self.action_plan)
            return True
        if last:
            self._complete()
            self._change(replace(self.draft, rows=(*self.draft.rows, inserted(self.draft, 0).rows[0])))
        self._go(self.at + 1)
        return True

    def _complete(self) -> None:
        row = self.draft.rows[self.at]
        self._change(with_row(self.draft, self.at, completed(row, self.draft.rows, self.unit)))

    def _go(self, index: int) -> None:
        self._complete()
        if self.new and self.draft.rows[self.at].head == "title" and self.draft.rows[self.at].text.strip():
            self._rename(self.draft.rows[self.at].text)
        self.at = min(max(index, 0), len(self.draft.rows) - 1)
        self._arrive()

    def _arrive(self) -> None:
        self.typing = False
        row = self.draft.rows[self.at]
        self.edit = LineEdit(row.text)
        if row.head and row.head != "part":
            self.edit.put(row.text)  # of the head a whole value is typed anew

    # Changing and keeping

    def _change(self, draft: Draft) -> None:
        """Work out what the lines make now, and keep them."""
        if draft == self.draft:
            return
        self.draft, self.found = draft, worked(draft)
        if self.found.file is not None:
            self.part = self.found.file.part
        self._keep()

    def _keep(self) -> None:
        self.waiting = True
        if self.writing is None or self.writing.done():
            self.writing = asyncio.create_task(self._write())

    async def _write(self) -> None:
        """Write the newest text until there is no newer one."""
        while self.waiting:
            self.waiting = False
            path, draft, found = self.path, self.draft, self.found
            try:
                await asyncio.to_thread(own.keep, path, draft, found)
            except BadInput as error:
                self.message = one_line(error)
                self.redraw()
            except Exception as error:  # a mistake of ours must not end the program
                self.message = f"NOT SAVED. {write_report('keeping a part', error)}"
                self.redraw()

    async def settled(self) -> None:
        """Wait until everything typed is on the disk."""
        while self.writing is not None and not self.writing.done():
            await self.writing

    async def on_unmount(self) -> None:
        """Nothing typed is left behind."""
        await self.settled()

    def _rename(self, title: str) -> None:
        self.new = False

        async def rename() -> None:
            try:
                self.path = await asyncio.to_thread(own.renamed, self.path, title)
            except BadInput as error:
                self.message = one_line(error)
            self.redraw()

        async def after() -> None:
            if earlier is not None:
                await earlier
            await rename()
            await self._write()

        earlier = self.writing
        self.writing = asyncio.create_task(after())

    # Commands

    def action_insert(self) -> None:
        """An empty line above."""
        if not self.draft.rows[self.at].head:
            self._complete()
            self._remember()
            self._change(inserted(self.draft, self.at))
            self.editing = True
            self._arrive()
        else:
            self.message = "The head's lines stand first; go down to a feature."
        self.redraw()

    def action_take_out(self) -> None:
        """Take the line out."""
        self._remember()
        self._change(without(self.draft, self.at))
        self.at = min(self.at, len(self.draft.rows) - 1)
        self._arrive()
        self.redraw()

    def _remember(self) -> None:
        self.earlier = [*self.earlier[-99:], (self.draft, self.at)]

    def action_undo(self) -> None:
        """The lines as they were before the last change."""
        while self.earlier and self.earlier[-1][0] == self.draft:
            self.earlier.pop()
        if not self.earlier:
            self.owner.say("No line has been changed here.")
            return
        draft, self.at = self.earlier.pop()
        self._change(draft)
        self._arrive()
        self.message = "Taken back."
        self.redraw()

    def action_move(self, by: int) -> None:
        """Move the line."""
        self._complete()
        self._remember()
        draft, self.at = moved(self.draft, self.at, by)
        self._change(draft)
        self._arrive()
        self.redraw()

    def action_another(self) -> None:
        """Ask for what becomes what in another size."""
        self._complete()
        self.changes = LineEdit()
        self.redraw()

    async def _make_another(self, typed: str) -> None:
        """Go on with a copy whose lines have the changes; this part stays as it is."""
        from engine.part.another import another

        await self.settled()
        try:
            draft = another(self.draft, typed)
        except BadInput as error:
            self.owner.say(one_line(error))
            return
        self.changes, self.earlier, self.new = None, [], False
        self.path = own.fresh_path(next(row.text for row in draft.rows if row.head == "title"))
        self._change(draft)
        self.at = min(self.found.problems, default=len(draft.rows) - 1)
        self._arrive()
        self.message = f"A new part, kept in {self.path.name}. What was not named stays: look its lines through."
        self.redraw()

    def action_picture(self) -> None:
        """The drawing over the whole screen, or back."""
        self.drawing = not self.drawing
        self.redraw()

    async def action_plan(self) -> None:
        """Plan the part for the shop."""
        await self.settled()
        if self.found.file is None or self.found.problems:
            row, text = min(self.found.problems.items())
            self.at = row
            self._arrive()
            self.owner.say(f"This cannot be planned yet: {text}")
            return
        from tui.screens.plan import PlanScreen

        self.owner.say("Planning …")
        screen = PlanScreen(self.found.file, self.found.text, self.path.stem)
        try:
            await asyncio.to_thread(screen.plan, self.session.shop)
        except BadInput as error:
            self.owner.say(one_line(error))
            return
        except Exception as error:  # a mistake of ours in one part must not end the program
            self.owner.say(f"This cannot be planned. {write_report('planning a part', error)}")
            return
        self.message = ""
        self.app.push_screen(screen)

    async def action_close(self) -> None:
        """Close the drawing; leave the line; go back."""
        if self.changes is not None:
            self.changes = None
        elif self.drawing:
            self.drawing = False
        elif self.editing:
            self._complete()
            self.editing = False
        else:
            await self.settled()
            self.dismiss()
            return
        self.redraw()
