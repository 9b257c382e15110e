"""The hole for a tap: how much thread a drill leaves, and the limits that it should keep."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Literal

from engine.base.records import dataclass
from engine.threads.form import form
from engine.threads.limits import gauge, limits
from engine.threads.thread import Thread

TapKind = Literal["cut", "form"]

_LEAST = 60.0  # percent of thread kept where no limits are published: common practice, no source
_NO_LIMITS = "no limits published: its basic minor diameter, up to 60 % of thread (common practice, no source)"
_ISO_60 = 1.082532  # 5H/8 on either side over P
FORMING = 0.0068  # d = D - 0.0068 x percent x P
# Metric drills of ISO 2306 that are not D - P to the even tenth.
_ISO_2306_ODD = {(4.5, 0.75): 3.7}


def full_depth(thread: Thread) -> float:
    """Difference of diameters that counts as 100 % of thread, by the convention of the tap drill tables.

    thread: Any thread.
    Returns: Twice 3H/4 for ISO metric and Unified, twice the basic depth for all others. [mm]
    Source: Machinery's Handbook, 31st ed., p. 2155 (Table 2), metric likewise; BS 84 and BS 93 for the others.

    >>> from engine.threads.designation import parse
    >>> round(full_depth(parse("M10")), 4), round(full_depth(parse("4BA")), 3)
    (1.9486, 0.792)
    """
    pitch = float(thread.pitch)
    if thread.kind.chart_depth is not None:
        return thread.kind.chart_depth * pitch
    return 2 * form(thread).basic_depth


def full_diameter(thread: Thread) -> float:
    """Diameter that the percentage of thread is counted from: the major diameter, of a taper thread that halfway along
    the hand-tight length (common practice). [mm]

    >>> from engine.threads.designation import parse
    >>> full_diameter(parse("M10")), round(full_diameter(parse("1/8 NPT")), 2)
    (10.0, 10.11)
    """
    if not thread.taper:
        return thread.diameter
    return minor_limits(thread).middle + full_depth(thread)


def percent_of_thread(thread: Thread, hole: float, tap: TapKind = "cut") -> float:
    """Percentage of full thread that a hole leaves.

    thread: Any thread.
    hole: Diameter of the hole. [mm]
    tap: `cut`, or `form` for a tap that forms the thread without chips.
    Returns: 100 (D - d) / full depth; for forming taps (D - d) / (0.0068 P). [%]
    Source: As for `full_depth`; forming: a tap maker's catalogue.

    1/4-20 with a #7 drill: 75 % in the drill charts.

    >>> from engine.threads.designation import parse
    >>> round(percent_of_thread(parse("1/4-20 UNC"), 5.1054), 1)
    75.4
    """
    if tap == "form":
        return (thread.diameter - hole) / (FORMING * float(thread.pitch))
    return 100 * (full_diameter(thread) - hole) / full_depth(thread)


def iso_percent(thread: Thread, hole: float) -> float | None:
    """Percentage by the other convention, of 5H/8 on either side (ISO 68-1); None for forms that have one only.

    >>> from engine.threads.designation import parse
    >>> round(iso_percent(parse("M10"), 8.5), 1)
    92.4
    """
    if form(thread).profile != "60 degree":
        return None
    return 100 * (thread.diameter - hole) / (_ISO_60 * float(thread.pitch))


def hole_for(thread: Thread, percent: float, tap: TapKind = "cut") -> float:
    """Hole that leaves a percentage of full thread: `percent_of_thread` the other way round. [mm]

    >>> from engine.threads.designation import parse
    >>> round(hole_for(parse("M3"), 70, "form"), 3), round(hole_for(parse("#8-40 UNS"), 75) / 25.4, 4)
    (2.762, 0.1396)
    """
    if tap == "form":
        return thread.diameter - FORMING * percent * float(thread.pitch)
    return full_diameter(thread) - percent / 100 * full_depth(thread)


def standard_hole(thread: Thread) -> float | None:
    """The tapping drill that the metric standard itself names.

    thread: Any thread.
    Returns: D - P, to a tenth where it is no drill; None for other families. [mm]
    Source: ISO 2306; how it rounds (to the even tenth; M4.5: 3.7 as DIN 336) is from memory, unconfirmed.

    >>> from engine.threads.designation import parse
    >>> [standard_hole(parse(size)) for size in ("M6", "M10", "M12", "M9", "M12x1.25")]
    [5.0, 8.5, 10.2, 7.8, 10.8]
    """
    if thread.kind.drill_standard != "ISO 2306":
        return None
    odd = _ISO_2306_ODD.get((thread.diameter, float(thread.pitch)))
    if odd is not None:
        return odd
    exact = Fraction(repr(thread.diameter)) - thread.pitch
    step = Fraction(5, 100) if exact < 3 else Fraction(1, 10)
    return float(round(exact / step) * step)  # a half to the even step


def hand_tight_length(thread: Thread) -> float:
    """How far a taper pipe thread screws in by hand: over it the nut's minor diameter shrinks by a sixteenth. [mm]

    The gauge length (ISO 7-1:1994) or L1 (ASME B1.20.1); 0 for a thread that does not taper.

    >>> from engine.threads.designation import parse
    >>> hand_tight_length(parse("Rc 1/2")), round(hand_tight_length(parse("1/8 NPT")), 3)
    (8.2, 4.102)
    """
    found = gauge(thread) if thread.taper else None
    return 0.0 if found is None else found.length


@dataclass(frozen=True, slots=True)
class MinorLimits:
    """What the nut's minor diameter may be, in mm, and by which source."""

    smallest: float
    largest: float
    source: str

    @property
    def middle(self) -> float:
        """Halfway between the two. [mm]"""
        return (self.smallest + self.largest) / 2


@lru_cache(maxsize=64)
def minor_limits(thread: Thread) -> MinorLimits:
    """Limits of the nut's minor diameter that the drill should keep inside.

    thread: Any thread; the class written in it, else its family's usual one.
    Returns: Of a taper thread its basic minor diameter at the small end and at the mouth: a straight hole lies between.
        [mm]
    Raises: BadInput if the thread's class does not go with it.
    Source: See engine.threads.limits; between the ends of the taper: as the charts of pipe tap drills have it.

    >>> from engine.threads.designation import parse
    >>> minor_limits(parse("M6")).largest, round(minor_limits(parse("1/8 NPT")).middle / 25.4, 3)
    (5.153, 0.339)
    """
    found = limits(thread)
    if thread.taper:
        mouth = found.minor_basic
        standard = thread.kind.standard
        small_end = mouth - hand_tight_length(thread) / 16
        return MinorLimits(small_end, mouth, f"{standard}, from the gauge plane to the end of the hand-tight length")
    if found.int_minor_min is None or found.int_minor_max is None:
        low = found.minor_basic
        most = full_diameter(thread) - _LEAST / 100 * full_depth(thread)
        return MinorLimits(low, max(low, most), _NO_LIMITS)
    return MinorLimits(found.int_minor_min, found.int_minor_max, found.source_of("int_minor_max"))
