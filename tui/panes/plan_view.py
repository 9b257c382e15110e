"""A plan as lines of the screen: set-ups as strips, their steps, what has to lie ready, why a step stands where it does."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from engine.base.answer import Picture
from engine.base.words import write
from engine.jobs.compare import CameOut, came_out, came_out_words, machine_name
from engine.part.needs import Need
from engine.part.plan import Plan
from engine.part.plan_text import held
from engine.part.steps import Step, Why
from engine.part.words import spoken_of
from tui.glyphs import plain
from tui.lines import Line, cut, fitted, heading, line, wrapped
from tui.widgets.picture import lying


class PlanShown(Protocol):
    """What is shown of a plan: its steps, the one in hand, and that one's drawings."""

    plans: tuple[Plan, ...]
    before: tuple[CameOut, ...]
    at: int

    @property
    def rows(self) -> list[tuple[int, Step]]:
        """The steps, with the number of the part."""

    def against(self, at: int) -> tuple[Why, ...]:
        """The hard rules that a step of the list breaks where it stands."""

    def drawings(self, columns: int, rows: int) -> tuple[Picture, ...]:
        """The step in hand as the work lies."""


def head_lines(plans: Sequence[Plan], needs: Sequence[Need], width: int) -> list[Line]:
    """What is made, the minutes and how good the plan is, the runner-up, and what is not owned."""
    first = plans[0]
    minutes = sum(plan.minutes for plan in plans)
    low, high = (sum(plan.band[i] for plan in plans) for i in (0, 1))
    titles = (one.part.title + (f", {one.part.make} off" if one.part.make > 1 else "") for one in plans)
    title = "; ".join(titles)
    told = f"{minutes:.0f} minutes ({low:.0f} to {high:.0f}), {first.best}"
    out = [heading(plain(title), width, told)]
    other = first.runner_up
    if other is not None:
        text = f"Next best: {other.route}, {other.minutes:.0f} minutes; not taken: {other.why_not}."
        out += wrapped(text, width, "hint")[:2]
    missing = [need for need in needs if not need.owned]
    if missing:
        words = "; ".join(f"{need.what} ({need.instead})" if need.instead else need.what for need in missing)
        out += wrapped(f"! Not owned: {words}", width, "warning", rest="  ")[:2]
    return out


def strip_lines(screen: PlanShown, width: int, height: int) -> list[Line]:
    """Set-ups as strips with their steps, scrolled to the step in hand."""
    out: list[Line] = []
    here, seen, number = 0, (-1, -1), 0
    for index, (piece, step) in enumerate(screen.rows):
        plan = screen.plans[piece]
        if (piece, step.set_up) != seen:
            seen, number = (piece, step.set_up), number + 1
            whose = f"{plan.part.title}: " if len(screen.plans) > 1 else ""
            words = f"{number}  {whose}{held(plan, plan.set_ups[step.set_up])}"
            out += wrapped(plain(words), width, "head", rest="   ")[:3]
        on = index == screen.at
        here = len(out) if on else here
        out.append(_step_line(index + 1, step, on, width, against=bool(screen.against(index))))
        for words in plan.gates_after(step):
            out += wrapped(plain(f"DO NOT LET GO before {words}."), width, "warning", first="     ", rest="     ")
    rounds = max(plan.rounds for plan in screen.plans)
    if rounds > 1:
        out += wrapped(f"The same for the other {rounds - 1}; the job steps through every piece.", width, "hint")
    top = min(max(here - height // 2, 0), max(len(out) - height, 0))
    return out[top : top + height]


def _step_line(number: int, step: Step, on: bool, width: int, *, against: bool) -> Line:
    right = f"{step.minutes:.0f} min " if step.minutes >= 0.5 else ""
    room = width - len(right) - 7
    text = f"{'>' if on else ' '}{'!' if against else ' '}{number:>3}  {cut(plain(step.title), room)}"
    return fitted([(f"{text:<{width - len(right)}}", "on" if on else "text"), (right, "hint")], width)


def step_lines(screen: PlanShown, width: int, height: int) -> list[Line]:
    """The step in hand: drawn, with what it does and makes under it."""
    piece, step = screen.rows[screen.at]
    words: list[Line] = []
    for text in step.do:
        words += wrapped(plain(text), width, first="- ", rest="  ")
    drawn_too = bool(screen.drawings(width, height))  # there it says what is measured
    for text in () if drawn_too else step.measure:
        words += wrapped(f"measure {plain(text)}", width, first="- ", rest="  ")
    if step.operation:
        given = ", ".join(f"{key.replace('_', ' ')} {value}" for key, value in step.inputs)
        words += wrapped(f"{step.operation}: {given}", width, "hint", rest="  ")
    words += _before(screen, piece, step, width)
    if step.makes:
        part = screen.plans[piece].part
        made = ["the piece itself" if name == "part" else spoken_of(part, name) for name in step.makes]
        words += wrapped(plain(f"Makes {', '.join(made)}."), width, "hint")
    words = words[: max(height // 3, 2) if height >= 30 else 2]
    pictures = screen.drawings(width, height - len(words) - 1)
    top = [heading(plain(step.title), width)]
    if not pictures:
        return [*top, *words]
    return [*top, *lying(pictures, width, height - len(words) - 1, screen.plans[piece].part.unit), *words][:height]


def _before(screen: PlanShown, piece: int, step: Step, width: int) -> list[Line]:
    """What the step's operation gave before on this machine."""
    plan = screen.plans[piece]
    machine = machine_name(plan.bench.shop.name, plan.set_ups[step.set_up].machine)
    found = came_out(screen.before, machine=machine, operation=step.operation or "")
    return wrapped(write(came_out_words(found), plan.part.unit), width, "strong") if found else []


def why_lines(screen: PlanShown, width: int) -> list[Line]:
    """The rules that put the step in hand where it stands, each with its source."""
    _, step = screen.rows[screen.at]
    out = [heading(f"Why {plain(step.title)} stands here", width)]
    for why in screen.against(screen.at):
        out += wrapped(f"Against a rule: {why.text}.", width, "warning", first="! ", rest="  ")
    for why in step.why:
        out += wrapped(f"{why.text}.", width, "warning" if why.broken else "text", first="- ", rest="  ")
        out += wrapped(f"{why.rule}: {why.source}", width, "hint", first="  ")
    if not step.why:
        out += wrapped(
            "No rule asks for this place: it was put here by hand, or stands where nothing is in its way.", width
        )
    return out


def needs_lines(needs: Sequence[Need], width: int) -> list[Line]:
    """All that has to lie ready, and what could stand in for what is not owned."""
    out = [heading("Lay out", width)]
    for need in needs:
        mark = "  " if need.owned else "! "
        missing = "" if need.owned else f": not owned{f'; {need.instead}' if need.instead else ''}"
        out += wrapped(f"{mark}{plain(need.what)}{missing}", width, "text" if need.owned else "warning", rest="    ")
    return out or [line()]
