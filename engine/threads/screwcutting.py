"""Cutting a thread with a single-point tool: how deep each pass goes, and what the slide moves for it.

Depths are radial: square to the axis, from where the tool touches the blank. The cross-section that the tool has
removed at depth a is f a + a² tan (half the included angle), f being the flat at the tool's tip.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import atan, ceil, cos, degrees, floor, pi, radians, sqrt, tan

from engine.errors import BadInput, OutOfRange, check_range

MOST_PASSES = 200  # beyond it a limit was mistyped


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A single-point tool ground to the thread: half its included angle [deg] and the flat at its tip [mm]."""

    half_angle: float
    flat: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SlideTravel:
    """What a slide moves to take a depth, and what goes sideways with it. [mm]

    `sideways`: how far the tool goes along the work, towards the chuck. `shave`: what the following flank loses
    along the work because the slide stands steeper than the flank.
    """

    travel: float
    sideways: float
    shave: float


def area(*, tool: Tool, depth: float) -> float:
    """Cross-section that a tool has removed at a depth.

    Parameters
    ----------
    tool : Tool
        The tool.
    depth : float
        Radial depth, 0 or more. [mm]

    Returns
    -------
    area : float
        Cross-section of the groove. [mm²]

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    Geometry of a trapezium.

    Examples
    --------
    >>> area(tool=Tool(half_angle=30, flat=0), depth=1)
    0.57735
    """
    return tool.flat * depth + depth * depth * tan(radians(tool.half_angle))


def depth_of(*, tool: Tool, area: float) -> float:
    """Depth at which a tool has removed a cross-section.

    Parameters
    ----------
    tool : Tool
        The tool.
    area : float
        Cross-section of the groove, 0 or more. [mm²]

    Returns
    -------
    depth : float
        Radial depth. [mm]

    Raises
    ------
    ZeroDivisionError
        If the tool has neither an angle nor a flat.

    Sources
    -------
    The positive root of the quadratic of `area`.

    Examples
    --------
    >>> depth_of(tool=Tool(half_angle=30, flat=0.2), area=0.77735)
    1.0
    """
    slope = tan(radians(tool.half_angle))
    # The stable form of the root: it also serves a square tool, whose slope is nought.
    return 2 * area / (tool.flat + sqrt(tool.flat**2 + 4 * slope * area)) if area else 0.0


def equal_area_depths(*, tool: Tool, depth: float, passes: int) -> tuple[float, ...]:
    """Depth after each pass when every pass removes the same cross-section.

    Parameters
    ----------
    tool : Tool
        The tool.
    depth : float
        Whole radial depth, above 0. [mm]
    passes : int
        How many passes, 1 or more.

    Returns
    -------
    depths : tuple of float
        Rising; the last is the whole depth. [mm]

    Raises
    ------
    ZeroDivisionError
        If there are no passes.

    Sources
    -------
    Geometry: for a sharp V depth times the square root of k/n.

    Examples
    --------
    >>> equal_area_depths(tool=Tool(half_angle=30, flat=0), depth=0.92, passes=6)[:3]
    (0.3756, 0.5312, 0.6505)
    """
    whole = area(tool=tool, depth=depth)
    return tuple(depth_of(tool=tool, area=whole * k / passes) for k in range(1, passes + 1))


def toolmakers_depths(*, depth: float, passes: int) -> tuple[float, ...]:
    """Depth after each pass by the rule of tool makers' booklets, which starts more gently than equal areas.

    Parameters
    ----------
    depth : float
        Whole radial depth, above 0. [mm]
    passes : int
        How many passes, 2 or more.

    Returns
    -------
    depths : tuple of float
        Depth times the square root of phi/(n - 1), phi being 0.3, 1, 2, 3 and so on. [mm]

    Raises
    ------
    ZeroDivisionError
        For a single pass.

    Sources
    -------
    A lathe's owner's manual, p. 114, after the tool makers.

    Examples
    --------
    >>> toolmakers_depths(depth=0.92, passes=6)[:2]
    (0.2254, 0.4114)
    """
    return tuple(depth * sqrt((k or 0.3) / (passes - 1)) for k in range(passes))


def plan_depths(*, tool: Tool, depth: float, first_cut: float, last_cut: float) -> tuple[float, ...]:
    """Depth after each pass: equal areas, but no cut above the largest and, where it can be, none below the smallest.

    The count of passes is the largest whose last cut is not below the smallest.

    Parameters
    ----------
    tool : Tool
        The tool.
    depth : float
        Whole radial depth, above 0. [mm]
    first_cut : float
        Largest cut, above 0. [mm]
    last_cut : float
        Smallest cut, above 0, not above the largest. [mm]

    Returns
    -------
    depths : tuple of float
        Rising; the last is the whole depth. [mm]

    Raises
    ------
    OutOfRange
        If a cut is not above 0, the smallest is above the largest, or more than 200 passes would be needed.

    Sources
    -------
    Equal areas: geometry. Limits of the cuts: common practice, no source.

    Examples
    --------
    >>> plan_depths(tool=Tool(half_angle=30, flat=0), depth=0.3, first_cut=0.15, last_cut=0.05)
    (0.150, 0.237, 0.3)
    """
    check_range("depth", depth, low=1e-6, high=1000, unit="mm")
    check_range("first_cut", first_cut, low=1e-6, unit="mm")
    check_range("last_cut", last_cut, low=1e-6, high=first_cut, unit="mm", why="the smallest cut")
    fewest = ceil(depth / first_cut - 1e-9)
    whole = area(tool=tool, depth=depth)
    least = whole - area(tool=tool, depth=max(0.0, depth - last_cut))
    if max(fewest, whole / least) > MOST_PASSES:
        raise OutOfRange(
            "last_cut", last_cut, depth / MOST_PASSES, None, "mm", f"more than {MOST_PASSES} passes"
        )
    # So many passes of the least area do not pass the depth; each of them gets a little more and they just reach it.
    count = max(fewest, _whole_passes(tool, least, first_cut, depth))
    return _spread(tool, depth, first_cut, count)


def _next_depth(tool: Tool, share: float, first_cut: float, depth: float) -> float:
    """Depth after one more pass of an area, which may not cut more than the largest cut."""
    return min(depth_of(tool=tool, area=area(tool=tool, depth=depth) + share), depth + first_cut)


def _whole_passes(tool: Tool, share: float, first_cut: float, depth: float) -> int:
    """How many passes of an area stay within the depth."""
    at, count = 0.0, 0
    while (at := _next_depth(tool, share, first_cut, at)) <= depth + 1e-9 and count < MOST_PASSES:
        count += 1
    return count


def _reached(tool: Tool, share: float, first_cut: float, count: int) -> list[float]:
    depths, at = [], 0.0
    for _ in range(count):
        at = _next_depth(tool, share, first_cut, at)
        depths.append(at)
    return depths


def _spread(tool: Tool, depth: float, first_cut: float, count: int) -> tuple[float, ...]:
    """So many passes of the one area that just reaches the depth, found by halving."""
    low, high = 0.0, area(tool=tool, depth=depth) + first_cut * (tool.flat + 2 * depth)
    for _ in range(50):
        middle = (low + high) / 2
        low, high = (middle, high) if _reached(tool, middle, first_cut, count)[-1] < depth else (low, middle)
    depths = _reached(tool, high, first_cut, count)
    return (*(min(d, depth) for d in depths[:-1]), depth)


def slide_travel(*, depth: float, slide_angle: float, half_angle: float) -> SlideTravel:
    """What a slide set at an angle moves for a radial depth.

    Parameters
    ----------
    depth : float
        Radial depth, 0 or more. [mm]
    slide_angle : float
        Angle of the slide from the cross slide's line, 0 (plain infeed) to the flank angle. [deg]
    half_angle : float
        Flank angle. [deg]

    Returns
    -------
    travel : SlideTravel
        Travel, sideways shift, and what the following flank is shaved. [mm]

    Raises
    ------
    OutOfRange
        If the slide's angle is negative or above the flank angle, which would leave the following flank in steps.

    Sources
    -------
    Travel = depth/cos g: geometry; 30 degrees in F. D. Jones, Turning and Boring, 1914, p. 143; 29 1/2 in the US
    Navy's Machinery Repairman, NAVEDTRA 14345.

    Examples
    --------
    >>> slide_travel(depth=0.61343, slide_angle=29.5, half_angle=30)
    SlideTravel(travel=0.7048, sideways=0.34706, shave=0.00710)
    """
    check_range(
        "slide_angle",
        slide_angle,
        low=0,
        high=half_angle,
        unit="deg",
        why="beyond half the thread's angle the following flank is left in steps",
    )
    g = radians(slide_angle)
    return SlideTravel(
        travel=depth / cos(g),
        sideways=depth * tan(g),
        shave=depth * (tan(radians(half_angle)) - tan(g)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One pass. `depth` is radial from the blank, `cut` this pass's share of it, `lines` the dial's lines from zero
    at the touch. A spring pass has no cut of its own. Lengths in mm.
    """

    cut: float
    depth: float
    lines: int


def passes_on_dial(
    *, depths: tuple[float, ...], first_cut: float, line: Fraction, slide_angle: float, spring_passes: int
) -> tuple[Pass, ...]:
    """The passes in whole lines of the slide's dial, never past the depth, no cut above the largest.

    Every pass but the last goes to a line; the last goes to the depth itself, and its setting to the line short of it.

    Parameters
    ----------
    depths : tuple of float
        Depth wanted after each pass, rising. [mm]
    first_cut : float
        Largest radial cut. [mm]
    line : Fraction
        Travel of the slide for one line of its dial, above 0. [mm]
    slide_angle : float
        Angle of the slide from the cross slide's line, below 90. [deg]
    spring_passes : int
        Passes repeated at the last setting.

    Returns
    -------
    passes : tuple of Pass
        In the order they are taken.

    Raises
    ------
    BadInput
        If one line of the dial takes more than the largest cut.

    Sources
    -------
    Settings counted in whole lines from one zero: common practice, no source.

    Examples
    --------
    >>> found = passes_on_dial(depths=(0.150, 0.237, 0.3), first_cut=0.15, line=Fraction(1, 40), slide_angle=0,
    ...                        spring_passes=1)
    >>> [p.lines for p in found]
    [6, 9, 12, 12]
    """
    deep = float(line) * cos(radians(slide_angle))  # radial depth of one line
    most = floor(first_cut / deep + 1e-9)
    if most < 1:
        raise BadInput(
            "first_cut", f"{first_cut:g} mm", f"at least one line of the dial, {deep:.4f} mm of depth"
        )
    whole = depths[-1]
    passes: list[Pass] = []
    at = 0
    for wanted in depths[:-1]:
        lines = min(floor(wanted / deep + 1e-9), at + most)
        if lines > at and lines * deep < whole - 1e-9:
            passes.append(Pass(cut=(lines - at) * deep, depth=lines * deep, lines=lines))
            at = lines
    while whole - at * deep > first_cut + 1e-9:
        at += most
        passes.append(Pass(cut=most * deep, depth=at * deep, lines=at))
    last = floor(whole / deep + 1e-9)
    passes.append(Pass(cut=whole - at * deep, depth=whole, lines=last))
    return (*passes, *[Pass(cut=0.0, depth=whole, lines=last)] * spring_passes)


def time_to_shoulder(*, gap: float, lead: float, rpm: float) -> float:
    """Time in which the tool crosses the gap between the end of the thread and the shoulder.

    Parameters
    ----------
    gap : float
        Width of the gap, 0 or more. [mm]
    lead : float
        Lead, above 0. [mm]
    rpm : float
        Speed of the spindle, above 0. [rev/min]

    Returns
    -------
    time : float
        Time left to open the half-nuts. [s]

    Raises
    ------
    ZeroDivisionError
        If lead or speed is nought.

    Sources
    -------
    Arithmetic.

    Examples
    --------
    >>> time_to_shoulder(gap=3, lead=1.5, rpm=100)
    1.2
    """
    return 60 * gap / (lead * rpm)


def rpm_limit(*, gap: float, lead: float, reaction: float) -> float:
    """Highest speed at which the tool takes a given time to cross the gap.

    Parameters
    ----------
    gap : float
        Width of the gap, 0 or more. [mm]
    lead : float
        Lead, above 0. [mm]
    reaction : float
        Time that a person needs, above 0. [s]

    Returns
    -------
    rpm : float
        Speed of the spindle. [rev/min]

    Raises
    ------
    ZeroDivisionError
        If lead or time is nought.

    Sources
    -------
    Arithmetic.

    Examples
    --------
    >>> rpm_limit(gap=3, lead=1.5, reaction=1.2)
    100.0
    """
    return 60 * gap / (lead * reaction)


def side_relief(*, lead: float, diameter: float) -> float:
    """Angle by which the helix leans at a diameter: what the tool's side must be relieved beyond its own clearance.

    Parameters
    ----------
    lead : float
        Lead, 0 or more. [mm]
    diameter : float
        Diameter, above 0: the minor for the leading side of the tool, the major for the following. [mm]

    Returns
    -------
    angle : float
        Lead angle there. [deg]

    Raises
    ------
    ZeroDivisionError
        If the diameter is nought.

    Sources
    -------
    F. D. Jones, Turning and Boring, 1914, pp. 149-150.

    Examples
    --------
    >>> side_relief(lead=1.5, diameter=8.16)
    3.35
    """
    return degrees(atan(lead / (pi * diameter)))
