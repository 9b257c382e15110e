"""What can lie over a job's step: its plan, history, cautions, table, picture, working, trouble, and help."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from engine.base.quantity import show
from engine.base.register import entry
from engine.base.words import write
from engine.jobs.aims import WORDS
from engine.jobs.compare import came_out_words
from engine.jobs.progress import DAMAGED, Event, Noted, when
from engine.jobs.springs import FORGOTTEN, LEARNED, TOLD
from tui.commands import Command
from tui.desk import OpenJob
from tui.glyphs import plain
from tui.keys import key_name, named
from tui.lines import Line, heading, line, wrapped
from tui.panes.answer_view import figure_lines
from tui.panes.cautions_view import caution_view
from tui.panes.step_view import job_title, limit_words, measured_lines, where
from tui.panes.trouble_view import trouble_lines
from tui.panes.working_view import working_lines
from tui.widgets.grid import tabled
from tui.widgets.picture import drawn, lying

NOTHING = "This step has none."


def plan_lines(job: OpenJob, at: int, width: int) -> list[Line]:
    """Every step with its box; the one in hand in the list (from 1) is marked."""
    out = [heading(f"Plan of {job_title(job)}", width, "Enter goes there")]
    for step in job.worked.steps:
        done = step.number < job.place.step or job.finished
        here = "now" if step.number == job.place.step and not job.finished else ""
        box = "[x]" if done else "[ ]"
        on = step.number == at
        rows = f" ({step.rows} x)" if step.rows else ""
        text = f"{'>' if on else ' '} {box} {step.number:>2} {plain(step.step.title)}{rows} {here}"
        out.append([(text, "on" if on else ("lead" if here else "text"))])
        if step.problem:
            out += wrapped(f"! {write(step.problem, job.unit)}", width, "warning", first="        ")
    return out


_ANSWERS = {True: "yes", False: "no", None: "answer taken back"}
_EVENTS: dict[str, Callable[[Event, str, OpenJob], str]] = {
    "started": lambda e, here, job: "started",
    "resumed": lambda e, here, job: "taken up again",
    "left": lambda e, here, job: "left",
    "put away": lambda e, here, job: "put away",
    "done": lambda e, here, job: f"done: {here}",
    "back": lambda e, here, job: f"went back from {here}",
    "moved": lambda e, here, job: f"went from {here} to {_place(job, *e.data['to'][:2])}",
    "measured": lambda e, here, job: f"{here}: {e.data['what']} {show(e.data['reading'], 'length', job.unit)}",
    "corrected": lambda e, here, job: (
        f"reading {e.data['of']} put right: {show(e.data['reading'], 'length', job.unit)}"
    ),
    "answered": lambda e, here, job: f"{e.data['caution']}: {_ANSWERS[e.data['yes']]}",
    "counting": lambda e, here, job: f"{here}: {e.data['rows']} are counted, {e.data['noun']} by {e.data['noun']}",
    "replanned": lambda e, here, job: "the rows of the steps are others now",
    "aimed": lambda e, here, job: f"{here}: aims at {WORDS[e.data['where']]}",
    "tried": lambda e, here, job: f"{here}: tried: {e.data['told']}",
    "gate": lambda e, here, job: f"before letting go, {e.data['gate'].partition(' ')[2]}: {e.data['found']}",
    "clocked": lambda e, here, job: f"{here}: the clock showed {show(e.data['reading'], 'length', job.unit)}",
    LEARNED: lambda e, here, job: (
        f"{here}: the {e.data['slide']} slide takes {e.data['share']:.2f} of what its dial says"
    ),
    TOLD: lambda e, here, job: f"what a slide takes put right: {e.data['share']:.2f}",
    FORGOTTEN: lambda e, here, job: "what a slide takes forgotten",
    "noted": lambda e, here, job: f"{here}: “{e.data['words']}”",
    "held": lambda e, here, job: "set-up: " + (", ".join(f"{k} {v}" for k, v in e.data["told"].items()) or "not told"),
    DAMAGED: lambda e, here, job: "damaged on the disk: what it said is not known",
    "acknowledged": lambda e, here, job: f"{here}: {e.data['caution']} read" if e.step else "first page read",
}


def _place(job: OpenJob, step: int, row: int) -> str:
    """A place of a job, in the words of its step: `step 3, line 4`."""
    steps = job.worked.steps
    table = steps[step - 1].table if 0 < step <= len(steps) else None
    noun = table.count_noun if table else "row"
    return (f"step {step}" if step else "the job") + (f", {noun or 'row'} {row}" if row else "")


def history_lines(
    job: OpenJob, events: Sequence[Event], width: int, earlier: Sequence[tuple[str, Noted]] = ()
) -> list[Line]:
    """Everything that happened, the newest first; then what was noted in earlier jobs of the same recipe."""
    out = [heading("History", width, f"{len(events)} entries")]
    for event in reversed(events):
        here = _place(job, event.step, event.row)
        says = _EVENTS[event.kind](event, here, job) if event.kind in _EVENTS else event.kind
        role = "strong" if event.kind == "noted" else "text"
        at = f"{event.seq:>4}  {plain(when(event.at))}  "
        out += wrapped(plain(f"{at}{says}"), width, role, rest=" " * len(at))
    if earlier:
        out += [line(), heading("Your notes in earlier jobs of this recipe", width)]
    for step, one in earlier:
        known = next((number for number, s in enumerate(job.worked.steps, 1) if s.step.id == step), 0)
        place = _place(job, known, one.row) if known or not step else step
        at = f"{when(one.at)}  {place}: "
        out += wrapped(plain(f"{at}“{one.words}”"), width, "strong", rest="  ")
    return out


def compared_lines(job: OpenJob, width: int) -> list[Line]:
    """What came out against what was planned over the jobs before, by machine and operation."""
    if not job.aims.before:
        return []
    out = [line(), heading("Measured against planned, in the jobs before", width)]
    for one in job.aims.before:
        title = entry(one.operation).title
        out += wrapped(
            f"{plain(title)}, {plain(one.machine)}: {write(came_out_words(one), job.unit)}", width, rest="  "
        )
    return out


def cautions_lines(job: OpenJob, question: int, width: int) -> list[Line]:
    """The cautions of the step in full, and which have been read."""
    out = [heading("Cautions in full", width, "y or n answers" if job.questions else "")]
    read = {name for number, name in job.progress.acknowledged if number == job.step.number}
    if job.unread:
        names = ", ".join(c.id for c in job.unread)
        out += wrapped(f"! Not yet read: {names}. {named('on')} says so, one by one.", width, "bad", rest="  ")
    elif read:
        out += wrapped(f"Read: {', '.join(sorted(read))}.", width, "hint")
    return [*out, *caution_view(job.step.cautions, job.step.answered, width, question, job.unit)]


def table_lines(job: OpenJob, width: int, height: int) -> list[Line]:
    """The step's tables; the counted one with the row in hand marked."""
    answer = job.step.answer
    if answer is None or not answer.tables:
        return [line(NOTHING)]
    table = job.step.table or answer.tables[0]
    row = job.place.row if job.step.table else 0
    room = max(height - 3, 3)
    top = min(max(row - room // 2 - 1, 0), max(len(table.rows) - room, 0))
    return [heading(table.label, width), *tabled(table, width, unit=job.unit, row=row, top=top, height=room + 2)]


def picture_lines(job: OpenJob, width: int, height: int) -> list[Line]:
    """The work as it lies on the machine; else the step's picture, the row in hand marked."""
    lies = job.drawings(width, height - 1)
    if lies:
        return [heading(lies[0].title, width), *lying(lies, width, height - 1, job.unit)]
    answer = job.step.answer
    if answer is None or not answer.pictures:
        return [line(NOTHING)]
    picture = answer.pictures[0]
    marked = job.place.row if job.step.table and picture.table == job.step.table.name else 0
    words = wrapped(write(picture.alt, job.unit), width, "hint")
    room = max(height - 1 - len(words), 4)
    return [heading(picture.title, width), *drawn(picture, width, room, job.unit, row=marked), *words]


def working_view(job: OpenJob, width: int) -> list[Line]:
    """Why the step stands where it does, and how each of its figures was worked out."""
    why = [runs for text in job.step.step.why for runs in wrapped(plain(text), width, first="  ", rest="  ")]
    if why:
        why = [heading("Why it stands here", width), *why, line()]
    if job.step.answer is None:
        return why or [line(NOTHING)]
    return [*why, heading("Working", width), *working_lines(job.step.answer, width, job.unit)]


def trouble_view(job: OpenJob, width: int) -> list[Line]:
    """What goes wrong in this step."""
    if job.step.done is None:
        return [line(NOTHING)]
    title = heading("What goes wrong, what to check first", width)
    return [title, *trouble_lines(job.step.done, job.job.shop, width, job.unit)]


def do_lines(job: OpenJob, width: int) -> list[Line]:
    """What to do, in full; what its numbers made worth saying; what is to be measured; every figure."""
    out = [heading(plain(job.step.step.title), width, where(job))]
    for sentence in job.step.do:
        out += wrapped(write(sentence, job.unit), width, first="- ")
    for note in job.step.answer.notes if job.step.answer else ():
        mark, role = ("! ", "caution") if note.level == "warning" else ("· ", "text")
        out += wrapped(write(note.text, job.unit), width, role, first=mark, rest="  ")
    if job.step.limits:
        out += wrapped(f"Measure {job.step.limits.what}: {limit_words(job, job.unit)}.", width, "strong")
        out += measured_lines(job, job.unit, width) if job.last_reading else []
    if job.step.answer:
        out += [line(), *figure_lines(job.step.answer.figures, width, job.unit, lead=False)]
    return out


def help_lines(commands: Sequence[Command], width: int) -> list[Line]:
    """The keys of a job."""
    out = [heading("Keys of a job", width)]
    for command in commands:
        keys = " ".join(key_name(key) for key in reversed(command.keys))
        out += wrapped(f"{keys:<24} {command.help}", width, rest=" " * 25)
    return [
        *out, line(), *wrapped("A foot pedal or presenter that types Space, Page Down or Enter steps on.", width),
        *wrapped("Whatever is done, measured or answered is on the disk before the screen shows it.", width),
    ]  # fmt: skip
