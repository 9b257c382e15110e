"""What the operations that take a size in cuts say alike: size aimed at, first setting, time, limits."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Figure, Note, to_set
from engine.base.refusals import BadInput
from engine.base.sums import Sum, law, leaf, mm, num
from engine.base.words import Text, counted, say, shown, span, write
from engine.base.words import figures as places
from engine.joining.iso286 import limits_of
from engine.shop.model import Shop
from engine.turning.cut_plan import CutPlan, dial_after

DIALS = "whole lines of the owned dial, each place rounded once, never past the size (common practice, no source)"


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


def aim_words(low: float | None, high: float | None) -> Text:
    """Where between its limits a size is aimed at."""
    return "as told" if low is None or high is None else say("between {limits}", limits=span(low, high))


def cut_words(plan: CutPlan, number: int) -> Text:
    """A cut as lines of the dial."""
    lines = num(plan.cuts[number - 1]) * mm(float(plan.line))
    return lines * num(float(plan.takes)) if plan.takes != 1 else lines


def first_setting(shop: Shop, plan: CutPlan, touch: float, *, away: bool) -> list[Figure]:
    """The first cut as it is set on the cross slide; nothing without a lathe."""
    if shop.lathe is None:
        return []
    slide = shop.lathe.cross_slide
    setting = dial_after(slide, "Cross slide", plan.dial(1), touch=touch, away=away)
    twice = ", shown twice because the dial reads diameter" if slide.reads_diameter else ""
    of_lines = say(
        "{lines} of {line}{twice}", lines=counted(plan.cuts[0], "line"), line=shown(float(plan.line)), twice=twice
    )
    return [to_set("setting", "First cut", setting, DIALS, of_lines)]


def cutting_time(length: float, rough: float, fine: float, speed: float, cuts: int) -> Sum:
    """Seconds in the cut: the roughing cuts, then the last at its own feed."""
    one = 60 * mm(length) / (leaf(rough, "ratio") * leaf(speed, "ratio"))
    last = 60 * mm(length) / (leaf(fine, "ratio") * leaf(speed, "ratio"))
    return law(float(num(cuts - 1) * one + last), "duration", write(num(cuts - 1) * one + last))


def limit_notes(ends: float, low: float | None, high: float | None) -> list[Note]:
    """Whether the dial's lines end within the limits."""
    if low is None or high is None or low - 1e-9 <= ends <= high + 1e-9:
        return []
    text = say("The dial's last line ends at {ends}, outside {limits}: come to it by measuring, with the top slide set to "
        "a small angle.", ends=shown(ends), limits=span(low, high))  # fmt: skip
    return [Note("warning", text)]


def spring_notes(takes: float) -> list[Note]:
    """What to mind where the dial's settings count on a tool that takes less than the dial says."""
    if takes == 1:
        return []
    text = "The settings count on a tool that takes {takes} of what its dial says: measure before the last ones, and leave "
    return [Note("warning", say(text + "them out once the size is there.", takes=places(takes, 2)))]
