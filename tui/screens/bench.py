"""The bench: the main screen, with a pane's operations, the open one's form and answer, and its cautions."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from textual import events

from engine.base.register import PANES
from engine.set_up import SetUp, wanted
from tui.commands import BENCH, COMMANDS
from tui.in_hand import InHand
from tui.lines import Line
from tui.panes.bench_state import BenchState
from tui.panes.bench_view import WIDE, bench_lines, cautions_of, table_in_hand, watched
from tui.panes.cautions_view import questions
from tui.panes.first_page import FIRST_PAGE_KEYS, ON, SAY, first_page_lines
from tui.report import write_report
from tui.screens.page import Page
from tui.session import OpenOperation
from tui.widgets.warn import answer_words

if TYPE_CHECKING:
    from tui.voice import Aloud

_NEXT = {"tab", "down", "enter"}
_BEFORE = {"shift+tab", "up"}
_ON = {"space", "pagedown", "enter", "down", "right"}  # what a foot pedal or a presenter may send
_BACK = {"backspace", "pageup", "up", "left"}


class BenchScreen(Page):
    """Typing goes to the form; everything else is a command."""

    PLACE = BENCH
    COMMANDS = COMMANDS

    def __init__(self) -> None:
        super().__init__()
        self.state = BenchState()
        self.answered = False  # whether the last key answered a question: Backspace takes it back
        self.pressed = False  # whether any key was pressed
        self.offered: int | None = None  # the job under way that Enter goes on with, until another key is pressed

    def on_mount(self) -> None:
        """Say what was found when the shop was read."""
        self.message = self.session.greeting

    async def look_for_work(self) -> None:
        """Offer the job that was in hand when the program stopped, unless a key was pressed meanwhile."""
        from tui.under_way import look, says

        found, notice = await asyncio.to_thread(look)
        self.session.jobs_notice = notice  # the jobs' own screen says it in full
        said = [self.session.shop_problem, "Disk damage: F8." if notice else ""]
        if found is not None and not self.pressed:
            self.offered = found.id
            said.append(says(found.title, found.part, found.where))
        if notice or self.offered is not None:
            self.message = " ".join(filter(None, said))
            self.redraw()

    async def _go_on(self, job: int) -> None:
        """Take the offered job up where it stood."""
        from tui.desk import Desk, Refusal, one_line
        from tui.screens.job import JobScreen

        self.owner.say("Working it out …")
        try:
            opened = await asyncio.to_thread(Desk().resume, job)
        except Refusal as error:
            self.owner.say(one_line(error))
            return
        except Exception as error:  # a mistake of ours in one job must not end the program
            self.owner.say(f"This job cannot be opened. {write_report('opening a job', error)}")
            return
        self.message = ""
        self.app.push_screen(JobScreen(opened))

    def body(self, width: int, height: int) -> list[Line]:
        """The bench as lines."""
        if self.session.first_page_due:
            return first_page_lines(width, height, self.session.unit, "work at a machine", self.message)
        painted = bench_lines(self.session, self.state, width, height, self.message)
        self.state.scroll[self.state.view], self.state.follow = painted.top, False
        self.state.asked = painted.asked
        return painted.lines

    def aloud(self) -> Aloud | None:
        """What stands in large type."""
        one = self.session.here()
        if self.state.view != "large" or not isinstance(one, OpenOperation):
            return None
        from tui.panes.aloud import bench_aloud

        return bench_aloud(one, self.session.unit)

    # Typing

    def typed(self, event: events.Key) -> bool:
        """Editing keys go to the form, moving keys to the open view."""
        self.pressed = True
        offered, self.offered = self.offered, None
        if offered is not None and event.key == "enter":
            self.call_later(self._go_on, offered)
            return True
        if self.session.first_page_due and (event.is_printable or event.key in FIRST_PAGE_KEYS):
            return self._first_page_key(event.key)
        one = self.session.here()
        key, state = event.key, self.state
        answered, self.answered = self.answered, False
        if answered and key == "backspace":
            return self._take_back()
        if not isinstance(one, OpenOperation):
            return self._number_key(key)
        if key == "escape" and one.working:
            self.session.stop(one)
            return True
        if state.view == "large" and self._step_row(one, key, _ON, _BACK):
            return True
        if state.view == "cautions" and self._question_key(key):
            return True
        if state.typing:
            return self._edit(one, event)
        return self._look_round(one, key)

    def _first_page_key(self, key: str) -> bool:
        """Nothing is typed before the first page was gone on from."""
        self.session.first_page_read = key in ON
        self.message = "" if key in ON else SAY
        return True

    def _edit(self, one: OpenOperation, event: events.Key) -> bool:
        key, form = event.key, one.form
        before = form.given()
        if key in _NEXT or key in _BEFORE:
            form.step(1 if key in _NEXT else -1)
        elif key in ("pagedown", "pageup"):
            return self._look_round(one, key)
        elif key == "slash" and (form.fresh or not form.text(form.name)):
            return False
        elif key == "space" and form.ask.choices:
            form.cycle(form.ask.choices)
        elif not form.key(key, event.character):
            return False
        if form.given() != before:
            self.session.reckon(one)
        return True

    def _look_round(self, one: OpenOperation, key: str) -> bool:
        """Scrolling, and the ways back into the form, while no field is typed in."""
        state = self.state
        if state.view == "rows" and self._step_row(one, key, {"down", "pagedown"}, {"up", "pageup"}):
            return True
        if key in ("down", "up", "pagedown", "pageup"):
            by = {"down": 1, "up": -1, "pagedown": 8, "pageup": -8}[key]
            state.scroll[state.view] = state.scroll.get(state.view, 0) + by
            return True
        if key in ("tab", "enter", "shift+tab") and state.view not in ("help", "cautions", "large"):
            state.editing = True
            one.form.go(one.form.at)
            return True
        return self._number_key(key) or (key in ("y", "n") and self._question_key(key))

    def _number_key(self, key: str) -> bool:
        """A digit opens the operation of that number."""
        entries = self.session.entries(self.session.pane)
        if len(key) == 1 and key.isdecimal() and 1 <= int(key) <= len(entries):
            self.open(entries[int(key) - 1].id)
            return True
        return False

    def _step_row(self, one: OpenOperation, key: str, on: set[str], back: set[str]) -> bool:
        table = table_in_hand(one)
        if table is None or not table.rows or (self.state.view == "large" and not table.count_noun):
            return False
        far = 10 if self.state.view == "rows" and key.startswith("page") else 1
        if key in on or key in back:
            one.row = min(max(one.row + (far if key in on else -far), 1), len(table.rows))
            return True
        return False

    def _question_key(self, key: str) -> bool:
        """y and n answer the question that stands on the screen and no other."""
        if key == "backspace" and self.state.view == "cautions":
            return self._take_back()
        asked = self.state.asked
        if key in ("y", "n") and asked is not None:
            self.session.answer_question(asked, key == "y")
            self.answered = True
            self.message = f"Answered: {answer_words(asked, key == 'y', self.session.unit)} Backspace takes it back."
            return True
        asking = questions(cautions_of(self.session.here()))
        if asking and self.state.view == "cautions" and key in ("y", "n"):
            self.state.follow, self.message = True, "This is the question: y or n."
            return True
        if asking and key in ("tab", "shift+tab"):
            self.state.question += 1 if key == "tab" else -1
            self.state.follow = True
            return True
        return False

    def _take_back(self) -> bool:
        if self.session.take_back():
            self.message = "Taken back: it is asked again."
        return True

    def pasted(self, text: str) -> None:
        """Pasted text is typed into the field."""
        one = self.session.here()
        if isinstance(one, OpenOperation) and self.state.editing and not self.session.first_page_due:
            one.form.insert(text)
            self.session.reckon(one)

    # The mouse, where it was asked for

    def on_click(self, event: events.Click) -> None:
        """A click on a pane's name or on an operation opens it."""
        row = self.canvas.text.splitlines()[event.y : event.y + 1]
        for pane in PANES:
            start = row[0].find(f"{pane.key.upper()} ") if row and event.y == 0 else -1
            if 0 <= start - 1 <= event.x < start + len(pane.title):
                self.owner.action_pane(pane.id)
        if self.size.width >= WIDE and event.x < 26 and event.y >= 2:
            self._number_key(str(event.y - 1))

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """The wheel scrolls the open view."""
        self._wheel("down")

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """The wheel scrolls the open view back."""
        self._wheel("up")

    def _wheel(self, key: str) -> None:
        one = self.session.here()
        if isinstance(one, OpenOperation):
            self._look_round(one, key)
            self.redraw()

    # Commands

    def open(self, operation_id: str, given: dict[str, str] | None = None) -> None:
        """Open an operation with its answer up."""
        self.session.open_by_id(operation_id, given)
        self.opened()

    def opened(self) -> None:
        """Another operation has been opened: look at its answer."""
        self.state = BenchState()
        self.redraw()

    def show_view(self, view: str) -> None:
        """Open a view, or close it if it is the open one."""
        self.state.view = "answer" if self.state.view == view else view
        self.state.scroll.pop(view, None)
        self.redraw()

    def show_help(self) -> None:
        """Explain the field in hand and the open operation."""
        self.show_view("help")

    def action_working(self) -> None:
        """Show or hide the working."""
        self.show_view("working")

    def action_unfold(self) -> None:
        """Show every figure, or the card alone."""
        self.state.unfolded, self.state.view = not self.state.unfolded, "answer"
        self.redraw()

    def action_picture(self) -> None:
        """Show or hide the picture."""
        self.show_view("picture")

    def action_trouble(self) -> None:
        """Show or hide what goes wrong."""
        self.show_view("trouble")

    def action_large(self) -> None:
        """Show or leave the large type."""
        self.show_view("large")

    def action_cautions(self) -> None:
        """Show or leave the cautions in full, the general rules after them."""
        self.session.rules_read = True
        self.show_view("cautions")

    def action_rows(self) -> None:
        """Show the table; once more, the next one."""
        one = self.session.here()
        if self.state.view == "rows" and isinstance(one, OpenOperation) and one.done:
            one.table, one.row = (one.table + 1) % max(len(one.done.answer.tables), 1), 1
            if one.table:
                self.redraw()
                return
        self.show_view("rows")

    def action_leave(self) -> None:
        """Close the open view; with none open, leave the field."""
        if self.state.view != "answer":
            self.state.view = "answer"
        else:
            self.state.editing = False  # Tab or Enter leads back into it
        self.redraw()

    def action_clear(self) -> None:
        """Empty the form, or bring back what was typed."""
        one = self.session.here()
        if isinstance(one, OpenOperation):
            one.form.clear()
            self.session.reckon(one)
            self.redraw()

    def action_in_hand(self) -> None:
        """Say what is being made."""
        from tui.screens.in_hand import InHandScreen

        self.app.push_screen(InHandScreen(self.session.in_hand, self.session.unit, self._taken))

    def _taken(self, held: InHand) -> None:
        self.session.take_in_hand(held)
        self.message = f"In hand: {held.words()}." if held.words() else "Nothing is in hand."
        self.redraw()

    def action_set_up(self) -> None:
        """Say how the work is held."""
        from tui.screens.set_up import SetUpScreen

        watch = watched(self.session.here())
        missing = wanted(watch.moment, watch.cautions) if watch.moment else ""
        self.app.push_screen(SetUpScreen(self.session.set_up, self.session.unit, missing, self._held))

    def _held(self, set_up: SetUp) -> None:
        lapse = bool(self.session.told) and set_up != self.session.set_up
        self.session.change_set_up(set_up)
        self.message = f"Set-up kept.{' What was answered is asked anew.' if lapse else ''}"
        self.redraw()

    def action_add_to_recipe(self) -> None:
        """Add the open operation to a recipe."""
        self.owner.open_screen("add_step")

    def action_operations(self) -> None:
        """List the pane's operations."""
        self.owner.action_goto(self.session.pane)

    def action_next_operation(self) -> None:
        """Open the pane's next operation."""
        self.open(self.session.neighbour(1))

    def action_previous_operation(self) -> None:
        """Open the pane's previous operation."""
        self.open(self.session.neighbour(-1))
