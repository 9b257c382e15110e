"""Infeed of a single-point tool: what it removes at a depth, and how deep each pass goes.

Depths are radial: square to the axis, from where the tool touches the blank. The cross-section that the tool has
removed at depth a is f a + a² tan (half the included angle), f being the flat at the tool's tip.
"""

from __future__ import annotations

from math import ceil, radians, sqrt, tan

from engine.base.records import dataclass
from engine.base.refusals import OutOfRange, check_range

MOST_PASSES = 200  # beyond it a limit was mistyped


@dataclass(frozen=True, slots=True, kw_only=True)
class Tool:
    """A single-point tool ground to the thread: half its included angle [deg] and the flat at its tip [mm]."""

    half_angle: float
    flat: float


def area(*, tool: Tool, depth: float) -> float:
    """Cross-section in mm² that a tool has removed at a radial depth in mm: a trapezium.

    >>> area(tool=Tool(half_angle=30, flat=0), depth=1)
    0.57735
    """
    return tool.flat * depth + depth * depth * tan(radians(tool.half_angle))


def depth_of(*, tool: Tool, area: float) -> float:
    """Radial depth in mm at which a tool has removed a cross-section in mm²: the positive root of the quadratic of `area`.

    >>> depth_of(tool=Tool(half_angle=30, flat=0.2), area=0.77735)
    1.0
    """
    slope = tan(radians(tool.half_angle))
    # The stable form of the root: it also serves a square tool, whose slope is nought.
    return 2 * area / (tool.flat + sqrt(tool.flat**2 + 4 * slope * area)) if area else 0.0


def tool_flat(*, pitch: float, half_angle: float, beyond: float) -> float:
    """Flat at the tip of a tool that fills a thread's groove; for a rounded tip, the flat of the same flanks.

    pitch: Pitch, above 0. [mm]
    half_angle: Flank angle. [deg]
    beyond: How far the tip goes beyond the pitch line. [mm]
    Returns: Width of the groove at the tip, 0 if the flanks meet before it. [mm]
    Source: Geometry: half the pitch at the pitch line, less by tan a of the depth on either side.

    ISO metric, rounded with H/6: a sixth of the pitch.

    >>> tool_flat(pitch=1.5, half_angle=30, beyond=0.288675 * 1.5)
    0.25
    """
    return max(0.0, pitch / 2 - 2 * beyond * tan(radians(half_angle)))


def plan_depths(*, tool: Tool, depth: float, first_cut: float, last_cut: float) -> tuple[float, ...]:
    """Depth after each pass: equal areas, but no cut above the largest and, where it can be, none below the smallest.

    The count of passes is the largest whose last cut is not below the smallest.

    tool: The tool.
    depth: Whole radial depth, above 0. [mm]
    first_cut, last_cut: Largest and smallest cut, above 0. [mm]
    Returns: Rising; the last is the whole depth. [mm]
    Raises: OutOfRange if a cut is not above 0, the smallest is above the largest, or more than 200 passes would be
        needed.
    Source: Equal areas: geometry. Limits of the cuts: common practice, no source.

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
        raise OutOfRange("last_cut", last_cut, depth / MOST_PASSES, None, "mm", f"more than {MOST_PASSES} passes")
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
