"""The shell door `tommybar job`: a job by the line, as a screen reader needs it. Same journal, same rules as the screen."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import write
from tui.wording import speak, speak_as_shop, spoken

if TYPE_CHECKING:
    from tui.desk import OpenJob

USAGE = (
    "tommybar job [list, start RECIPE, where, next, read, done, back, reading VALUE, at PLACE, "
    "cautions, yes ID, no ID, note WORDS]"
)


@dataclass
class _Line:
    """What was asked at the shell."""

    command: str = "list"
    rest: str = ""
    job: str = ""
    unit: str = ""
    slide: str = ""
    turns: str = ""
    dial: str = ""
    anyway: bool = False


WORDS = (
    "list", "start", "where", "next", "read", "done", "back", "reading", "at", "cautions", "yes", "no", "note",
)  # fmt: skip


def job(words: list[str]) -> int:
    """Say where a job stands, or move it; return the exit code."""
    from engine.jobs.store import JournalError

    try:
        for text in _answer(_parse(words)):
            print(_printable(spoken(text)))
    except (BadInput, JournalError) as refusal:
        for text in str(refusal).splitlines():
            print(_printable(spoken(text)), file=sys.stderr)
        return 2
    return 0


def _printable(text: str) -> str:
    return "".join(c if c.isprintable() else "?" for c in text)


def _parse(words: list[str]) -> _Line:
    line, plain, rest = _Line(), list[str](), iter(words)
    for word in rest:
        name, _, value = word.partition("=")
        if name in ("--job", "--slide", "--turns", "--dial"):
            setattr(line, name[2:], value or next(rest, ""))
        elif word in ("--inch", "--mm"):
            line.unit = word[2:]
        elif word == "--anyway":
            line.anyway = True
        elif word.startswith("--"):
            raise BadInput(
                "option", word, "--job NUMBER, --inch, --mm, --anyway, --turns N, --dial VALUE or --slide NAME"
            )
        else:
            plain.append(word)
    if plain:
        line.command, line.rest = plain[0], " ".join(plain[1:])
    if line.command not in _COMMANDS:
        raise BadInput("job", line.command, "one of its words", f"job: {line.command!a} is none of its words: {USAGE}")
    return line


def _answer(line: _Line) -> Iterator[str]:
    from tui.desk import Desk

    speak_as_shop(None)
    desk = Desk()
    if notice := desk.notice():
        yield notice
    if line.command == "list":
        jobs = desk.jobs()
        if not jobs:
            yield "No job yet: `tommybar job start RECIPE` begins one."
        for one in jobs:
            part = f", part {one.part}" if one.part > 1 else ""
            yield f"{one.id}: {one.title}{part}: {one.state}, {one.where}"
        return
    if line.command == "start":
        yield from _start(line)
        return
    held = desk.open(_number(line, [one.id for one in desk.jobs() if one.state in ("under way", "left")]))
    speak(held.job.shop.words_for(line.unit or held.job.shop.unit))
    held.unit = line.unit or held.job.shop.unit
    yield from _COMMANDS[line.command](held, line)
    if held.moved_on:
        yield held.moved_on


def _number(line: _Line, open_ones: list[int]) -> int:
    """The job that was named, else the one last worked on."""
    if line.job:
        if not (line.job.isascii() and line.job.isdecimal() and len(line.job) < 13):
            raise BadInput("--job", line.job, "a number that `tommybar job list` shows")
        return int(line.job)
    if not open_ones:
        raise BadInput("job", "", "", "job: none is under way; `tommybar job start RECIPE` begins one.")
    return open_ones[0]


def _start(line: _Line) -> Iterator[str]:
    from engine.jobs.library import shelf
    from engine.shop.file import load
    from tui.desk import Desk

    found = next((one for one in shelf() if one.name == line.rest), None)
    if found is None:
        names = ", ".join(one.name for one in shelf())
        raise BadInput("recipe", line.rest, f"one of {names}")
    held = Desk().start(found, load())
    yield f"Job {held.job.id} is begun."
    yield from _where(held, line)


# What is said


def _where(held: OpenJob, line: _Line) -> Iterator[str]:
    from tui.panes.step_view import end_words, job_title, limit_words, where

    unit = held.unit
    yield f"{job_title(held)}: {where(held)}"
    if held.finished:
        yield from end_words(held)
        return
    if held.first_page_due:
        yield "Before this job there are five things to read: `tommybar job read` reads them out."
    step = held.step
    yield f"Step: {step.step.title}. {step.heading}"
    for sentence in step.do:
        yield f"To do: {write(sentence, unit)}"
    if step.problem:
        yield f"This step could not be worked out: {write(step.problem, unit)} {step.remedy}".strip()
    elif step.table:
        yield from _row(held)
    elif step.answer:
        from engine.base.showing import figure_text

        for figure in step.answer.figures:
            yield f"{figure.label}: {figure_text(figure, unit)}"
    if step.limits:
        last = held.last_reading
        from engine.base.quantity import show

        taken = f" Last reading: {show(last.reading, 'length', unit)}." if last else ""
        yield f"To measure: {step.limits.what}, {limit_words(held, unit)}.{taken}"
    for note in held.notes:
        yield f"Note: “{note.words}”"
    if held.unread:
        yield f"{len(held.unread)} to be read before this step goes on: `tommybar job read`."
    asked = len(step.cautions) - len(held.unread)
    if asked:
        yield f"Cautions of this step: {len(step.cautions)}: `tommybar job cautions`."


def _row(held: OpenJob) -> Iterator[str]:
    from tui.panes.large_view import row_setting

    table, row = held.step.table, held.place.row
    assert table is not None
    yield f"{table.count_noun.capitalize()} {row} of {held.step.rows}"
    for label, text in row_setting(table, row, held.unit):
        yield text if text.startswith(label) else f"{label}: {text}"  # "Saddle: 1 turn" names itself


def _next(held: OpenJob, line: _Line) -> Iterator[str]:
    from tui.panes.step_view import comes_next

    yield f"Next: {comes_next(held, held.unit)}"


def _cautions(held: OpenJob, line: _Line) -> Iterator[str]:
    from engine.safety import deferral

    for caution in held.step.cautions:
        because = f" ({write(caution.because, held.unit)})" if caution.because else ""
        asked = (
            f" {write(caution.question, held.unit)} (yes {caution.id} or no {caution.id})" if caution.question else ""
        )
        yield f"{caution.word}: {write(caution.text, held.unit)}{because}{asked}"
    yield deferral()


# What is done


def _read(held: OpenJob, line: _Line) -> Iterator[str]:
    """One thing to be read: the five of the first page, or the next stop line."""
    from engine.safety import first_page

    if held.first_page_due:
        for rule in first_page():
            yield f"{rule.word}: {write(rule.text, held.unit)}"
        held.read_first_page()
        yield "Kept as read."
    elif held.unread:
        caution = held.unread[0]
        yield f"{caution.word}: {write(caution.text, held.unit)}"
        held.read(caution.id)
        left = len(held.unread)
        yield f"Kept as read. {left} more." if left else "Kept as read."
    else:
        yield "Nothing is left to be read here."


def _done(held: OpenJob, line: _Line) -> Iterator[str]:
    step = held.step
    if held.finished:
        raise BadInput("done", "", "", "done: every step of this job is done.")
    if held.first_page_due or held.unread:
        raise BadInput("done", "", "", "done: there is something to be read first: `tommybar job read`.")
    if held.unmeasured and (not step.rows or held.place.row == step.rows) and not line.anyway:
        state = "is not in limits" if held.last_reading else "has not been measured"
        raise BadInput("done", "", "", f"done: this {state}; `tommybar job reading VALUE` keeps one, --anyway goes on.")
    before = held.step.number
    held.done()
    if not held.finished and held.step.number == before:
        yield from _row(held)
    else:
        yield from _where(held, line)


def _back(held: OpenJob, line: _Line) -> Iterator[str]:
    before = held.place
    held.back()
    yield (
        "To be done again:" if held.place != before else "This is where the job begins: there is nothing to take back."
    )
    yield from _where(held, line)


def _reading(held: OpenJob, line: _Line) -> Iterator[str]:
    held.keep(line.rest, line.turns, line.dial, line.slide or next(iter(held.slides), ""), held.unit, None)
    for sentence in held.measured().says:
        yield write(sentence, held.unit)


def _at(held: OpenJob, line: _Line) -> Iterator[str]:
    place, says = held.found(line.rest)
    held.go(place)
    if says:
        yield says
    yield from _where(held, line)


def _told(held: OpenJob, line: _Line) -> Iterator[str]:
    caution = next((one for one in held.questions if one.id == line.rest.upper()), None)
    if caution is None:
        asked = ", ".join(one.id for one in held.questions) or "nothing: this step asks nothing"
        raise BadInput(line.command, line.rest, asked)
    held.answer(caution, line.command == "yes")
    yield f"Kept: {line.command}."


def _note(held: OpenJob, line: _Line) -> Iterator[str]:
    if not line.rest.strip():
        raise BadInput("note", line.rest, "some words")
    to = held.note_places[0]
    held.note(line.rest[:300], to)
    yield f"Kept with {to}."


_COMMANDS: dict[str, Callable[[OpenJob, _Line], Iterator[str]]] = {
    "list": _where, "start": _where, "where": _where, "next": _next, "read": _read, "done": _done, "back": _back,
    "reading": _reading, "at": _at, "cautions": _cautions, "note": _note,
    "yes": _told, "no": _told,
}  # fmt: skip
