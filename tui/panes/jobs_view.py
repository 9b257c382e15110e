"""The jobs pane as lines: the jobs, and the recipes that a job can be started from."""

from __future__ import annotations

from collections.abc import Sequence

from engine.jobs.library import Listed
from engine.jobs.progress import JobLine, when
from engine.part.own import PartListed
from tui.glyphs import own, plain
from tui.keys import named
from tui.lines import Line, beside, cut, fitted, heading, line, wrapped

Choice = JobLine | Listed | PartListed

_HEADINGS: dict[type, str] = {JobLine: "Jobs", Listed: "Start a new job", PartListed: "Your parts"}


def _name(one: Choice) -> str:
    if isinstance(one, Listed | PartListed):
        return one.title
    return f"{one.title}, part {one.part}" if one.part > 1 else one.title


def _told_apart(one: Choice, choices: Sequence[Choice]) -> str:
    """Its name; of a job that another is called like, with when it was begun and its number."""
    name = _name(one)
    if (
        not isinstance(one, JobLine)
        or [_name(other) for other in choices if isinstance(other, JobLine)].count(name) < 2
    ):
        return name
    return f"{name}, {when(one.started)}, job {one.id}"


def _says(one: Choice) -> str:
    if isinstance(one, Listed | PartListed):
        return one.problem or ("yours" if one.path else "supplied")
    return "in progress" if one.state in ("left", "under way") else one.state


def choice_lines(choices: Sequence[Choice], at: int, width: int, height: int) -> list[Line]:
    """The list with its two headings, the one in hand marked, scrolled to it."""
    out: list[Line] = []
    here = 0
    for i, one in enumerate(choices):
        if i == 0 or type(one) is not type(choices[i - 1]):
            out += [line()] if out else []
            out.append(heading(_HEADINGS[type(one)], width))
        on = i == at
        here = len(out) if on else here
        says = f"{plain(_says(one))} "
        name = f"{'>' if on else ' '} {own(_told_apart(one, choices))}"
        name = cut(name, max(width - len(says) - 1, 8))
        gap = " " * max(width - len(name) - len(says), 1)
        out.append(fitted([(name + gap, "on" if on else "text"), (says, "on" if on else "hint")], width))
    top = min(max(here - height // 2, 0), max(len(out) - height, 0))
    return out[top : top + height]


def about_lines(one: Choice | None, width: int) -> list[Line]:
    """What is in hand, in words."""
    if one is None:
        return wrapped("There is nothing here yet.", width)
    out: list[Line] = [heading(_name(one), width)]
    if isinstance(one, PartListed):
        out += wrapped(one.problem, width) if one.problem else []
        out += [line(), *wrapped("Enter opens its lines and its drawing; from there it is planned.", width, "hint")]
        return [*out, *wrapped(f"Kept in {one.path}", width, "hint")]
    if isinstance(one, Listed):
        out += wrapped(one.about or one.problem or "No description.", width)
        starts = (
            "Enter plans it for your shop and starts the job."
            if one.planned
            else "Enter starts a job: every step is worked out for your shop."
        )
        out += [line(), *wrapped(starts, width, "hint")]
        where = (
            f"Kept in {one.path}"
            if one.path
            else f"Supplied; {named('edit')} makes a copy of your own to change: "
            "its sizes, thread, material and number, and the whole plan follows."
            if one.planned
            else f"Supplied; {named('edit')} makes a copy of your own to change."
        )
        return [*out, *wrapped(where, width, "hint")]
    out += wrapped(f"{one.state.capitalize()}: {one.where}.", width)
    out += wrapped(f"Last worked on {plain(when(one.last))}, started {plain(when(one.started))}.", width, "hint")
    return [*out, line(), *wrapped("Enter goes on with it.", width, "hint")]


def jobs_lines(choices: Sequence[Choice], at: int, width: int, height: int) -> list[Line]:
    """The list, and beside it or under it what is in hand."""
    one = choices[at] if choices else None
    if width >= 100:
        left = width * 55 // 100
        about = about_lines(one, width - left - 2)
        return beside([(choice_lines(choices, at, left, height), left), (about, width - left - 1)], height)
    about = about_lines(one, width)[: max(height // 2 - 1, 3)]
    listed = choice_lines(choices, at, width, height - len(about))
    return [*listed, *[line()] * (height - len(listed) - len(about)), *about]
