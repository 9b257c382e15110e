"""What the operations that take a size in cuts say alike: size aimed at, first setting, time, limits."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from engine.base.answer import Cell, Column, Figure, Note, Table, figure, heads, info, to_set, warning
from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.setting import Setting
from engine.base.sums import Sum, law, leaf, mm, num
from engine.base.words import Text, counted, say, shown, span, write
from engine.base.words import figures as places
from engine.indexing.dials import on_dial, slide_setting
from engine.joining.iso286 import limits_of
from engine.shop.model import Slide
from engine.turning.cut_plan import CutPlan, Depths, dial_after, plan_cuts
from engine.turning.pace import Pace

DIALS = "whole lines of the owned dial, each place rounded once, never past the size (common practice, no source)"

TIME = "length ÷ (feed x rev/min), each cut; no handling"


@dataclass(frozen=True, slots=True)
class Settled:
    """A size that is come to in cuts: what is aimed at, `low` and `high` its limits or None, and how. Sizes and feeds in
    mm."""

    target: float
    low: float | None
    high: float | None
    source: str
    pace: Pace
    rough_feed: float
    depths: Depths
    plan: CutPlan

    @property
    def after(self) -> list[float]:
        """Depth from touch once each cut is made."""
        return [self.plan.after(number) for number in range(1, len(self.plan.cuts) + 1)]

    def limited(self, why: str) -> list[Note]:
        """What keeps the cuts lighter than is usual, where anything does."""
        text, depth = "Cuts of {depth} at most, for {why}.", shown(self.plan.depth(1), decimals=2)
        return [info(text, depth=depth, why=why)] if self.depths.limited else []


def target_of(inputs: Any, hole: bool) -> tuple[float, float | None, float | None, str]:
    """The size aimed at, its limits and where they are from: of a shaft, or of a hole."""
    to, low, high = inputs.to, inputs.low, inputs.high
    if inputs.fit:
        if to is None or low is not None or high is not None:
            raise BadInput("fit", inputs.fit, "a code with the size wanted (to) and no other limits")
        found = limits_of(inputs.fit, to)
        if found.is_hole is not hole:
            raise BadInput("fit", inputs.fit, "a hole's code (H7)" if hole else "a shaft's code (h7)")
        low, high = to + found.lower, to + found.upper
        return (low + high) / 2, low, high, f"the middle of the limits; {found.source}"
    if (low is None) != (high is None):
        missing = "low" if low is None else "high"
        raise BadInput(missing, "", "both limits or none", f"{missing}: give both limits, low and high, or neither.")
    if low is None or high is None:
        if to is None:
            raise BadInput("to", "", "a diameter", "to: the size wanted is needed, or low and high.")
        return to, None, None, "as told"
    if low >= high:
        raise BadInput("high", shown(high), say("more than the lower limit of {low}", low=shown(low)))
    if to is not None and not low <= to <= high:
        raise BadInput("to", shown(to), say("a size within {limits}", limits=span(low, high)))
    return (to if to is not None else (low + high) / 2), low, high, "between the limits as told"


def planned(inputs: Any, way: float, line: Fraction, bears: Depths, takes: float = 1.0) -> CutPlan:
    """The cuts of a way: the first and the last as told, else as the lathe and the work bear them."""
    first = bears.rough if inputs.first_cut is None else inputs.first_cut
    first = min(first, bears.rough) if bears.limited else first
    last = bears.finish if inputs.last_cut is None else inputs.last_cut
    return plan_cuts(way=way, line=line, first=first, last=last, least=bears.least, takes=takes)


def aim_words(low: float | None, high: float | None) -> Text:
    """Where between its limits a size is aimed at."""
    return "as told" if low is None or high is None else say("between {limits}", limits=span(low, high))


def cut_words(plan: CutPlan, number: int) -> Text:
    """A cut as lines of the dial."""
    lines = num(plan.cuts[number - 1]) * mm(float(plan.line))
    return lines * num(float(plan.takes)) if plan.takes != 1 else lines


def first_setting(slide: Slide | None, wheel: str, plan: CutPlan, touch: float, *, away: bool = False) -> list[Figure]:
    """The first cut as it is set on a slide; nothing without one."""
    if slide is None:
        return []
    setting = dial_after(slide, wheel, plan.dial(1), touch=touch, away=away)
    twice = ", shown twice because the dial reads diameter" if slide.reads_diameter else ""
    lines, line = counted(plan.cuts[0], "line"), shown(float(plan.line))
    of_lines = say("{lines} of {line}{twice}", lines=lines, line=line, twice=twice)
    return [to_set("setting", "First cut", setting, DIALS, of_lines)]


def plan_figures(job: Settled, ends: Sum, aim: Text, *, radius: str = "") -> list[Figure]:
    """Heaviest and last cut, how many there are, where the dial ends and what is aimed at."""
    plan, source, last = job.plan, job.depths.source, len(job.plan.cuts)
    return [
        figure("rough_cut", f"Heaviest cut{radius}", mm(plan.depth(1)), source, cut_words(plan, 1)),
        figure("finish_cut", f"Last cut{radius}", mm(plan.depth(last)), source, cut_words(plan, last)),
        Figure("cut_count", "Cuts", last, "count", DIALS, num(last)),
        figure("ends_at", "The dial ends at", ends, DIALS),
        Figure("target", "Aimed at", job.target, "length", job.source, aim, job.low, job.high),
    ]


def cut_table(
    title: str, plan: CutPlan, sizes: Sequence[float], size: Column, slide: Slide | None, wheel: str, touch: float,
    *, stops: Sequence[float] = (), away: bool = False, saddle: Slide | None = None,
) -> Table:  # fmt: skip
    """Cut by cut: its depth, the size after it, the saddle's stop (from the end face, also on its dial), and where the
    slide's dial then stands."""
    rows: list[tuple[Cell, ...]] = []
    for number, after in enumerate(sizes, 1):
        to = dial_after(slide, wheel, plan.dial(number), touch=touch, away=away) if slide else None
        row: tuple[Cell, ...] = (number, plan.depth(number), after, *stops[number - 1 : number])
        stop = (_stop_on(saddle, stops[number - 1]),) if saddle and stops else ()
        rows.append((*row, "measure" if number == len(sizes) - 1 else "", *((to,) if to else ()), *stop))
    columns = [*heads(cut=("Cut", "count"), depth=("Depth", "length")), size]
    columns += [*heads(stop=("Saddle stop", "length", 1))] if stops else []
    columns += [*heads(then="Then", set=wheel)] if slide else [*heads(then="Then")]
    columns += [*heads(saddle="Saddle")] if saddle and stops else []
    lead = ("set" if slide else "depth", size.name, *(("saddle" if saddle else "stop",) if stops else ()))
    return Table("cuts", title, tuple(columns), tuple(rows), "cut", lead, DIALS)


def _stop_on(saddle: Slide, place: float) -> Setting:
    """Where the saddle's dial stands at a stop, its zero at the end face: never past it."""
    stands = slide_setting(saddle, place, towards="short")
    return on_dial("Saddle", stands, saddle.travel_per_turn, saddle.divisions,
                   reads_diameter=saddle.reads_diameter, distance=place)  # fmt: skip


def cutting_time(length: float, rough: float, fine: float, speed: float, cuts: int) -> Sum:
    """Seconds in the cut: the roughing cuts, then the last at its own feed."""
    one, last = (60 * mm(length) / (leaf(rate, "ratio") * leaf(speed, "ratio")) for rate in (rough, fine))
    whole = num(cuts - 1) * one + last
    return law(float(whole), "duration", write(whole))


def limit_notes(ends: float, low: float | None, high: float | None) -> list[Note]:
    """Whether the dial's lines end within the limits."""
    if low is None or high is None or low - 1e-9 <= ends <= high + 1e-9:
        return []
    text = say("The dial's last line ends at {ends}, outside {limits}: come to it by measuring, with the top slide set to "
        "a small angle.", ends=shown(ends), limits=span(low, high))  # fmt: skip
    return [warning(text)]


def spring_notes(takes: float) -> list[Note]:
    """What to mind where the dial's settings count on a tool that takes less than the dial says."""
    if takes == 1:
        return []
    text = "The settings count on a tool that takes {takes} of what its dial says: measure before the last ones, and leave "
    return [warning(text + "them out once the size is there.", takes=places(takes, 2))]
