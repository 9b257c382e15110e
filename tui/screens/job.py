"""A job's step on the screen. Nothing is shown as done before the disk has it."""

from __future__ import annotations

import asyncio
import re
from collections.abc import Callable

from textual import events

from engine.base.answer import Caution
from engine.base.refusals import BadInput
from engine.base.words import write
from engine.jobs.places import Place
from engine.jobs.progress import Reading
from engine.jobs.trials import tells_it_does_not_go
from engine.set_up import SetUp, wanted
from tui.aiming import Row
from tui.commands import Command
from tui.desk import OpenJob, Refusal, one_line
from tui.keys import named
from tui.lines import Line, fitted, line, window
from tui.panes import aim_view, frame, job_views
from tui.panes.aloud import job_aloud
from tui.panes.first_page import FIRST_PAGE_KEYS, ON, SAY, first_page_lines
from tui.panes.measure_view import Entry
from tui.panes.step_view import (
    end_words,
    job_lines,
    job_title,
    large_lines,
    limit_words,
    pieces,
    taken_back,
    watched,
    where,
)
from tui.report import write_report
from tui.screens.page import Page
from tui.voice import Aloud
from tui.widgets.warn import answer_words

WORKING = "Working it out …"
I_AM_AT, MY_WORDS, LET_GO = "I am at", "My words", "Before the work is let go"
TIGHT = "It does not go yet: take more off before the work is let go; Space goes on all the same."
LONGEST_NOTE = 300
_FRACTION = re.compile(r"-?\d*[.,]\d*")


class JobScreen(Page):
    """One step at a time."""

    PLACE = "job"
    COMMANDS = (
        Command("done", "Done", "This is done: on to the next line or step.", "job", means="on"),
        Command("back", "Back one", "Take the last line or step back: it is to be done again.", "job"),
        Command("measure", "Measure", "Enter a reading; it is judged by the limits. A digit begins one too.", "job"),
        Command("aim", "Aim", "What the cuts aim at; how the part goes on its mate; what the tool takes.", "job",
                action="view('aim')"),
        Command("take_out", "Forget", "Forget what is marked of what was learned of a tool.", "job"),
        Command("correct", "Correct", "Correct the last reading; the old one is kept.", "job", means="edit"),
        Command("place", "I am at", "Say where you are: line 12, step 4, hole 7 of line 12; other words lead to the bench.",
                "job", means="goto"),
        Command("plan", "Plan", "Every step of the job; go to one.", "job", means="overview", action="view('plan')"),
        Command("cautions", "Cautions", "The cautions in full; answer them.", "job", action="view('cautions')"),
        Command("set_up", "Set-up", "Say how the work is held: grip, stick-out, support, power.", "job"),
        Command("in_hand", "In hand", "What is being made, and of what.", "job"),
        Command("working", "Working", "How each figure was worked out, why the step stands here.", "job", means="why",
                action="view('working')"),
        Command("rows", "Table", "The table of this step.", "job", means="table", action="view('rows')"),
        Command("picture", "Picture", "The picture of this step.", "job", action="view('picture')"),
        Command("trouble", "Trouble", "What goes wrong here, and what to check.", "job", action="view('trouble')"),
        Command("in_full", "What to do", "All the words of this step.", "job", means="all", action="view('do')"),
        Command("large", "Large", "The setting, the count and the next over the whole screen.", "job"),
        Command("words", "My words", "Write a note to this line, this step or the job.", "job"),
        Command("history", "History", "What happened to this job, and your notes.", "job", action="view('history')"),
        Command("sheet", "Sheet", "Write the sheet of this job, to print.", "job", means="write"),
        Command("keys", "Help", "The keys of a job.", "job", means="help", action="view('help')"),
        Command("leave", "Leave", "Leave the job; it goes on where it was.", "job"),
    )  # fmt: skip

    def __init__(self, job: OpenJob) -> None:
        super().__init__()
        self.job = job
        self.view = ""
        self.large = False  # whether the setting has the whole screen
        self.entry: Entry | None = None
        self.correcting: Reading | None = None
        self.at = 1  # the step in hand in the plan
        self.question = 0
        self.asked: Caution | None = None  # the question that can be read on the screen: y and n answer it
        self.follow = False  # whether the open view is to scroll to it
        self.answered = False  # whether the last key answered a question: Backspace takes it back
        self.scroll = 0
        self.warned: Place | None = None  # where the person was told that the measure is not taken
        self.in_hand: asyncio.Task[None] | None = None  # the job being worked out anew, in a thread

        if not job.job.sound:
            self.message = "What was kept of this job was damaged on the disk: a number may be wrong. Start it anew."
        elif damaged := job.progress.damaged:
            words = "1 entry of this job was" if damaged == 1 else f"{damaged} entries of this job were"
            self.message = f"{words} damaged on the disk: check where it stands ({named('history')} shows which)."

    # Working out

    def work_out(self, work: Callable[[], object], says: str = "") -> None:
        """Do something that works the job out anew, in a thread; the keys pressed meanwhile wait for it. `says` is
        shown once it is done."""
        self.message = WORKING
        self.in_hand = asyncio.create_task(self._work_out(work, says))

    async def _work_out(self, work: Callable[[], object], says: str) -> None:
        try:
            if await self._save(work) and says:
                self.message = says
        except Exception as error:  # a mistake of ours in one step must not end the program
            self.message = f"This cannot be worked out. {write_report('working a job out', error)}"
        self.in_hand = None
        super().redraw()

    async def settled(self) -> None:
        """Wait for what is being worked out."""
        if self.in_hand is not None:
            await self.in_hand

    async def _act(self, event: events.Key) -> None:
        await self.settled()
        await super()._act(event)

    # Drawing

    def redraw(self) -> None:
        """Draw in the unit of the screen: nothing is worked out again for it."""
        self.job.unit = self.session.unit
        super().redraw()

    def body(self, width: int, height: int) -> list[Line]:
        """The step with its cautions, and whatever lies over it."""
        if self.job.first_page_due:
            return first_page_lines(width, height, self.job.unit, "this job", self.message)
        foot = self._foot(width)
        room = height - 1 - len(foot)
        inner = width if width < 110 else width - min(max(width * 30 // 100, 36), 60) - 1
        view = self._view_lines(inner, room)
        if self.large and view is None:
            painted = large_lines(self.job, self.job.unit, width, room)
        else:
            painted = job_lines(self.job, self.job.unit, width, room, view, self.view == "cautions")
        middle, self.asked = painted.lines, None if self.entry else painted.asked
        top = fitted(
            [
                (f" {job_title(self.job)} ", "bar-strong"),
                (f"  {' · '.join(filter(None, (where(self.job), pieces(self.job))))}", "bar"),
            ],
            width,
            "bar",
        )
        if self.view == "cautions" and not self.entry:
            self.asked = self._question_in_view(view or [])
        middle = [fitted(runs, width) for runs in middle]
        return [top, *middle, *[line()] * (room - len(middle)), *foot]

    def aloud(self) -> Aloud | None:
        """What is to be set, once nothing is asked and nothing is being worked out."""
        if self.in_hand is not None or self.job.first_page_due:
            return None
        return job_aloud(self.job, self.job.unit)

    def _question_in_view(self, lines: list[Line]) -> Caution | None:
        """The question in hand, if its mark stands in these lines."""
        asking = self.job.questions
        marked = any(runs and runs[0][0] == "> " for runs in lines)
        return asking[self.question % len(asking)] if asking and marked else None

    def _foot(self, width: int) -> list[Line]:
        if self.message:
            return frame.said(self.message, width)
        if self.entry:
            return [frame.keys([("Enter", "Keep"), ("Tab", "Next field"), ("Esc", "Leave")], width)]
        pairs = {c.id: (c.key(False), c.label) for c in self.COMMANDS}
        pairs["leave"] = ("Esc", "Close" if self.view or self.large else "Leave")
        order = ["done", "back", "measure", "cautions", "set_up", "aim", "place", "words", "large", "plan", "picture"]
        order += ["rows", "working", "keys"]
        if self.job.finished:
            order = ["back", "plan", "history", "words", "sheet", "keys"]
        elif self.job.step.limits is None:
            order.remove("measure")
            order.remove("aim")
        if self.view == "aim":
            pairs["done"] = ("Enter", "Change")
            row = self._row_in_hand()
            order = ["done"] if row and row.words else order
        elif self.job.unread and not self.job.finished:
            pairs["done"] = (pairs["done"][0], "Read")
        return [frame.keys([pairs[i] for i in [*order, "leave"]], width)]

    def _view_lines(self, width: int, height: int) -> list[Line] | None:
        if self.entry:
            return self.entry.lines(width)
        if not self.view:
            return None
        lines = self._lines_of(self.view, width - 2, height)
        if self.follow:
            self.scroll = next((i for i, runs in enumerate(lines) if runs and runs[0][0] == "> "), 0)
            self.follow = False
        shown, self.scroll = window(lines, self.scroll, max(height - 6, 4) if width < 110 else height, width)
        return shown

    def _lines_of(self, view: str, width: int, height: int) -> list[Line]:
        job = self.job
        makers: dict[str, Callable[[], list[Line]]] = {
            "plan": lambda: job_views.plan_lines(job, self.at, width),
            "aim": lambda: aim_view.aim_lines(job, self.at, width),
            "history": lambda: [
                *job_views.history_lines(job, job.journal.history(job.job.id), width, job.earlier_notes),
                *job_views.compared_lines(job, width),
            ],
            "cautions": lambda: job_views.cautions_lines(job, self.question, width),
            "rows": lambda: job_views.table_lines(job, width, height - 6),
            "picture": lambda: job_views.picture_lines(job, width, height - 6),
            "working": lambda: job_views.working_view(job, width),
            "trouble": lambda: job_views.trouble_view(job, width),
            "do": lambda: job_views.do_lines(job, width),
            "help": lambda: job_views.help_lines(self.COMMANDS, width),
        }
        return makers[view]()

    # Keys

    def typed(self, event: events.Key) -> bool:
        """An open entry takes the typing; an open view the arrows; the cautions y and n."""
        key = event.key
        if self.job.first_page_due and (event.is_printable or key in FIRST_PAGE_KEYS):
            return self._first_page_key(key)
        answered, self.answered = self.answered, False
        if answered and key == "backspace":
            self._take_back()
            return True
        if self.entry:
            if key in ("enter", "escape", "ctrl+y") or (len(key) > 1 and key[0] == "f" and key[1:].isdecimal()):
                return False
            if not self.entry.key(key, event.character) and key in ("pagedown", "pageup"):
                self.entry.refusal = "Nothing is done while something is typed: Enter keeps it, Esc leaves it."
            return True
        if self.view == "aim" and self._begin_row(event.character or ""):
            return True
        if len(key) == 1 and key.isdecimal() and not self.job.finished:
            self._number(key)
            return True
        if event.character in (".", ",") and self.view != "plan" and not self.job.finished:
            self._begin_reading(None)  # a place is a whole number: what begins with a point is measured
            if self.entry is not None:
                self.entry.insert(f"0{event.character}")
            return True
        if self.view == "plan" and key in ("up", "down"):
            self.at = min(max(self.at + (1 if key == "down" else -1), 1), len(self.job.worked.steps))
            self.scroll = max(self.at - 6, 0)
            return True
        if self.view == "aim" and key in ("up", "down"):
            last = max(len(self.job.aims.rows()) - 1, 0)
            self.at = min(max(self.at + (1 if key == "down" else -1), 0), last)
            return True
        if key in ("y", "n") and not self.job.finished:
            return self._answer(key == "y")
        if self.view == "cautions" and key == "backspace":
            self._take_back()
            return True
        if self.view and key in ("up", "down"):
            self.scroll = max(self.scroll + (1 if key == "down" else -1), 0)
            return True
        return False

    def _number(self, digit: str) -> None:
        """A digit begins what a number can be here: the step to go to in the plan, a reading, where one is."""
        if self.view == "plan":
            self.action_place()
            digit = f"step {digit}"
        elif self.job.step.limits is not None:
            self._begin_reading(None)
        else:
            self.action_place()
        if self.entry is not None:
            self.entry.insert(digit)

    def _first_page_key(self, key: str) -> bool:
        if key in ON:
            self.session.first_page_read = True
            self.work_out(self.job.read_first_page)
        else:
            self.message = SAY
        return True

    def _answer(self, yes: bool) -> bool:
        """Answer the question that stands on the screen, and say how it is taken back."""
        caution = self.asked
        if caution is not None:
            self.answered = True
            says = f"Answered: {answer_words(caution, yes, self.job.unit)} Backspace takes it back."
            self.work_out(lambda: self.job.answer(caution, yes), says)
        elif self.view == "cautions" and self.job.questions:
            self.follow, self.message = True, "This is the question: y or n."
        else:
            self.message = "Nothing is asked on this screen."
        return True

    def _take_back(self) -> None:
        if self.job.step.answered:
            self.work_out(self.job.take_back, "Taken back: it is asked again.")

    def pasted(self, text: str) -> None:
        """Pasted text is typed into the reading."""
        if self.entry:
            self.entry.insert(text)

    async def _save(self, work: Callable[[], object]) -> bool:
        """Do something that writes, in a thread; True once the disk has it."""
        try:
            await asyncio.to_thread(work)
        except Refusal as error:
            if self.entry:
                self.entry.refuse(one_line(error))
            else:
                self.message = one_line(error)
            self.redraw()
            return False
        self.message = self.job.moved_on
        return True

    async def action_done(self) -> None:
        """On, unless something has to be read or measured first."""
        if self.entry:
            await self._keep_entry()
            return
        if self.view == "plan":
            self.view = ""
            await self._save(lambda: self.job.go(Place(self.at, 0)))
            self.redraw()
            return
        if self.view == "aim":
            self._use_row()
            return
        if self.view:
            self.action_leave_view()
            return
        if self.job.finished:
            self.owner.say(f"{end_words(self.job)[0]} Esc leaves the job.")
            return
        if self.job.unread:
            await self._read_one()
            return
        if self._unmeasured() or self._gated():
            return
        self.warned = None
        await self._save(self.job.done)
        self.redraw()

    def _unmeasured(self) -> bool:
        """Stop once at a measure that is not taken; nothing is passed over in silence."""
        place, step = self.job.place, self.job.step
        last_row = not step.rows or place.row == step.rows
        if not (last_row and self.job.unmeasured) or self.warned == place:
            return False
        self.warned = place
        state = "is not in limits" if self.job.last_reading else "has not been measured"
        self.owner.say(f"This {state}. {named('measure')} measures; Space once more goes on all the same.")
        return True

    def _gated(self) -> bool:
        """Ask for what has to be found out before the work is let go."""
        step, place = self.job.step, self.job.place
        waiting = self.job.aims.gates if not step.rows or place.row == step.rows else ()
        if not waiting:
            return False
        words = waiting[0]
        hint = f"Do not let go before {words}. What was found, in words or as a number; “not done” if it was not."
        told = self.job.aims.told_in_this_holding()
        hint += f" Last tried: {told}." if told else ""

        def found(typed: str) -> None:
            self.job.aims.answer_gate(words, typed)

        self._ask(LET_GO, "Found", hint, found)
        return True

    def _ask(self, title: str, label: str, hint: str, use: Callable[[str], None]) -> None:
        """Ask for one thing over the step."""
        self.entry, self.view = Entry(title, (label,), (hint,), longest=LONGEST_NOTE, use=use), self.view
        self.redraw()

    def _use_row(self) -> None:
        """What Enter does with the row in hand of the aims."""
        row = self._row_in_hand()
        if row is None:
            return
        if row.turn is not None:
            self.work_out(row.turn)
        elif row.use is not None:
            self._ask(row.label, row.label, row.hint, row.use)

    def _row_in_hand(self) -> Row | None:
        rows = self.job.aims.rows() if self.view == "aim" and not self.entry else ()
        return rows[min(self.at, len(rows) - 1)] if rows else None

    def _begin_row(self, typed: str) -> bool:
        """Typing begins what the row in hand takes: words where it takes words, else a number. No letter leads elsewhere."""
        row = self._row_in_hand()
        if (
            row is None
            or row.use is None
            or not (typed.isdecimal() or typed in (".", ",") or (row.words and typed.isalpha()))
        ):
            return False
        self._use_row()
        if self.entry is not None:
            self.entry.insert(typed)
        return True

    def action_take_out(self) -> None:
        """Forget what was learned."""
        row = self._row_in_hand()
        if row is None or row.forget is None:
            self.owner.say("Nothing is taken out here.")
            return
        self.work_out(row.forget, "Forgotten.")

    async def action_back(self) -> None:
        """Back by one, which takes that line or step back."""
        if self.entry or self.view:
            return
        before = self.job.place
        if await self._save(self.job.back) and not self.job.moved_on:
            self.message = taken_back(self.job, before)
        self.redraw()

    def action_measure(self) -> None:
        """Enter a reading."""
        self._begin_reading(None)

    def action_correct(self) -> None:
        """Put the last reading right."""
        last = self.job.last_reading
        if last is None and self.job.aims.clocks_here:
            self._begin_reading(None)
            return
        if last is None:
            self.owner.say("There is no reading in this step to put right.")
            return
        self._begin_reading(last)

    def _begin_reading(self, correcting: Reading | None) -> None:
        limits, aims = self.job.step.limits, self.job.aims
        if correcting is None and (aims.clock_due or (aims.clocks_here and limits is None)):
            hint = "What the clock shows in one turn of the work, now that it is held anew."
            self._ask("Clock", "Clock shows", hint, self.job.keep_clock)
            return
        if limits is None or self.job.finished:
            self.owner.say("Nothing is measured in this step.")
            return
        slides = self.job.slides
        about = f"Limits {limit_words(self.job, self.session.unit)}. A bare number is in {self.session.unit}."
        stood = "May be left out. With two readings and their dial settings the last cuts are planned."
        labels = ("Reading", "Dial: whole turns", "Dial shows", "Slide") if slides else ("Reading",)
        hints = (about, stood, stood, "Space: the slide whose dial was read.")[: len(labels)]
        texts = ["", "", "", slides[0]] if slides else [""]
        title = f"{'Correct: ' if correcting else ''}{limits.what}"
        self.entry = Entry(title, labels, hints, texts, choices=slides)
        self.correcting, self.view = correcting, ""
        self.redraw()

    def action_place(self) -> None:
        """Say where one is."""
        table = self.job.step.table
        noun = table.count_noun if table else "step"
        ways = ["3", *([f"{noun} 3"] if table else []), "step 4"]
        if self.job.counts_holes:
            ways.append(f"hole 7 of {noun} 3")
        counts = "" if table and table.name != "counts" else " 12 turns: so many of anything are counted here."
        hints = (f"The {noun} in hand: {', '.join(ways[:-1])} or {ways[-1]}.{counts} Other words lead to the bench.",)
        self.entry, self.view = Entry(I_AM_AT, ("Where",), hints), ""
        self.redraw()

    async def _keep_entry(self) -> None:
        entry = self.entry
        assert entry is not None
        if entry.use is not None:
            use = entry.use
            if await self._save(lambda: use(*entry.texts)):
                kept = f"Kept. {TIGHT}" if entry.title == LET_GO and tells_it_does_not_go(entry.texts[0]) else "Kept."
                self.entry, self.message = None, kept
                self.redraw()
            return
        if entry.title == I_AM_AT:
            await self._keep_place(entry.texts[0])
            return
        if entry.title == MY_WORDS:
            await self._keep_words(*entry.texts)
            return
        reading, *dial = entry.texts
        turns, shown, slide = dial if dial else ("", "", "")
        unit, correcting = self.session.unit, self.correcting
        if await self._save(lambda: self.job.keep(reading, turns, shown, slide, unit, correcting)):
            self.entry, self.message = None, "Kept."
            self.redraw()

    async def _keep_place(self, typed: str) -> None:
        says = ""

        def go() -> None:
            nonlocal says
            place, says = self.job.found(typed)
            self.job.go(place)

        try:
            counts = self.job.counts_here(typed)
        except BadInput as refusal:
            assert self.entry is not None
            self.entry.refuse(one_line(refusal))
            self.redraw()
            return
        if counts is not None:
            if await self._save(lambda: self.job.count(*counts)):
                self.entry, self.message = None, f"{counts[1]} are counted here, one at a time."
                self.redraw()
            return
        if _FRACTION.fullmatch(typed.strip()):
            self._measured_at(typed)
            return
        if typed.strip() and not self.job.names_a_place(typed):  # other words lead where they lead everywhere
            self.entry = None
            self.owner.open_screen("goto", "", typed)
            return
        if await self._save(go):
            self.entry = None
            self.message = self.job.moved_on or says
            self.redraw()

    def _measured_at(self, typed: str) -> None:
        """A number with a fraction is no place: it is offered as a reading, where one is taken."""
        self.entry = None
        self._begin_reading(None)
        if self.entry is not None:
            self.entry.insert(typed.strip())
        self.redraw()

    def action_words(self) -> None:
        """Write a note."""
        places = self.job.note_places
        hints = ("In words of your own: a shim, a wheel, what went wrong. The history, the sheet and this step show it.",
                 "Space: what it belongs to.")  # fmt: skip
        self.entry = Entry(MY_WORDS, ("Note", "To"), hints, ("", places[0]), choices=places, longest=LONGEST_NOTE)
        self.view = ""
        self.redraw()

    async def _keep_words(self, words: str, to: str) -> None:
        if not words.strip():
            assert self.entry is not None
            self.entry.refusal = "There are no words yet: type them, or Esc leaves."
            self.redraw()
        elif await self._save(lambda: self.job.note(words, to)):
            self.entry, self.message = None, f"Kept with {to}."
            self.redraw()

    def action_large(self) -> None:
        """The setting over the whole screen, or the step as it was."""
        if not self.entry:
            self.large, self.view = not self.large, ""
            self.redraw()

    async def _read_one(self) -> None:
        """The first unread stop line is read."""
        caution = self.job.unread[0]
        if await self._save(lambda: self.job.read(caution.id)):
            left = len(self.job.unread)
            self.message = (
                f"Read: {caution.id}. {left} more to read." if left else f"Read: {caution.id}. Space goes on."
            )
        self.redraw()

    def action_in_hand(self) -> None:
        """Say what is being made, and of what: a job keeps its own, whatever is in hand at the bench."""
        self.message = write(self.job.being_made, self.session.unit)
        self.redraw()

    def action_set_up(self) -> None:
        """Say how the work is held in this step."""
        if self.entry or self.job.finished:
            return
        from tui.screens.set_up import SetUpScreen

        watch = watched(self.job)
        missing = wanted(watch.moment, watch.cautions) if watch.moment else ""
        self.app.push_screen(SetUpScreen(self.job.step.set_up, self.job.unit, missing, self._held))

    def _held(self, set_up: SetUp) -> None:
        self.work_out(lambda: self.job.hold(set_up), "Set-up kept for this holding of the work.")
        self.redraw()

    async def action_sheet(self) -> None:
        """Write the sheet."""
        if self.entry:
            return
        written: list[object] = []
        if await self._save(lambda: written.append(self.job.save_sheet(self.session.unit))):
            self.message = f"Sheet: {written[0]}"
        self.redraw()

    def action_view(self, view: str) -> None:
        """Open a view, or close it."""
        if self.entry:
            return
        self.view = "" if self.view == view else view
        self.scroll, self.question, self.at = 0, 0, min(self.job.place.step, len(self.job.worked.steps))
        if view == "aim":
            self.at = 0
        self.redraw()

    def action_leave_view(self) -> None:
        """Close the open view."""
        self.view = ""
        self.redraw()

    async def action_leave(self) -> None:
        """Close what is open; else leave the job."""
        if self.entry:
            self.entry = None
            self.redraw()
        elif self.view:
            self.action_leave_view()
        elif self.large:
            self.action_large()
        else:
            await self._save(lambda: self.job.journal.left(self.job.job.id))
            self.dismiss()
