"""Which drill to take for a tap: what to aim at in a material, and the drills that come near it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import floor
from typing import Literal

from engine.cutting.materials import Material
from engine.drilling.sizes import SAME, every_drill
from engine.drilling.tapping import TapKind, hole_for, minor_limits, percent_of_thread, standard_hole
from engine.lists import Tool
from engine.tables import rows
from engine.threads.thread import Thread

Fit = Literal["inside", "too large", "too small", "not known"]

USUAL_PERCENT = 75.0  # percent: what the tapping drill charts of inch threads are made for
_LEAST, _MOST = 45.0, 101.0  # percent: holes beyond these are no tapping holes
_DEEP, _SHEET = 1.5, 0.5  # diameters: deep (the catalogue's own bound) and thin sheet (common practice)
_MOST_CHOICES = 10
_LARGEST_METRIC = 20.0  # mm: the end of the metric series; taper shank drills go on by quarters (from memory)


@dataclass(frozen=True, slots=True)
class Target:
    """What to aim at: a hole in mm, the percentage that it gives, the published range, why."""

    hole: float
    percent: float
    low: float
    high: float
    case: str
    source: str


@dataclass(frozen=True, slots=True)
class Choice:
    """A drill that could make the hole; `fit` says how it lies to the limits of the nut's minor diameter."""

    tool: Tool
    owned: bool
    percent: float
    fit: Fit


def target(
    *,
    thread: Thread,
    material: Material,
    depth: float | None = None,
    percent: float | None = None,
    tap: TapKind = "cut",
) -> Target:
    """Hole to aim at for a material and a depth.

    Parameters
    ----------
    thread : Thread
        Any thread.
    material : Material
        What is tapped.
    depth : float or None
        Depth of usable thread. [mm]
    percent : float or None
        Percentage that was asked for. [%]
    tap : str
        `cut` or `form`.

    Returns
    -------
    target : Target
        The standard's drill for average work in free-cutting material; by the catalogue's table otherwise.

    Raises
    ------
    BadInput
        If the thread's class does not go with it.

    Sources
    -------
    ISO 2306; tap drill charts (75 %); a tap maker's catalogue, see engine/data/drilling/thread_percent.csv.

    Examples
    --------
    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> found = target(thread=parse("M6"), material=find("stainless"), depth=12)
    >>> found.percent, found.case
    (60.0, 'tough, deep')
    """
    case = _case(thread, depth)
    low, high = _published(material, case)
    words = f"{material.machining}, {case}"
    catalogue = "a tap maker's catalogue, percentage of thread by material"
    if percent is not None:
        return Target(hole_for(thread, percent, tap), percent, low, high, words, "as asked")
    if thread.taper:
        smallest = minor_limits(thread)[0] or thread.diameter
        share = percent_of_thread(thread, smallest)
        return Target(smallest, share, share, share, "taper, not reamed", "the small end's minor diameter")
    if thread.family in ("tr", "acme"):
        low_limit, high_limit, source = minor_limits(thread)
        hole = ((low_limit or 0) + (high_limit or 0)) / 2
        share = percent_of_thread(thread, hole)
        return Target(hole, share, share, share, "trapezoidal", f"the middle of the limits, {source}")
    if tap == "cut" and material.machining != "tough" and case == "average":
        return _by_chart(thread, low, high, words)
    middle = (low + high) / 2
    return Target(hole_for(thread, middle, tap), middle, low, high, words, catalogue)


def _by_chart(thread: Thread, low: float, high: float, words: str) -> Target:
    hole = standard_hole(thread)
    if hole is not None:
        return Target(hole, percent_of_thread(thread, hole), low, high, words, "ISO 2306, D - P to a drill")
    return Target(
        hole_for(thread, USUAL_PERCENT),
        USUAL_PERCENT,
        low,
        high,
        words,
        "tap drill charts, about 75 % of thread",
    )


def _case(thread: Thread, depth: float | None) -> str:
    if depth is None:
        return "average"
    ratio = depth / thread.diameter
    return "deep" if ratio > _DEEP else "sheet" if ratio < _SHEET else "average"


def _published(material: Material, case: str) -> tuple[float, float]:
    for row in rows("drilling/thread_percent.csv"):
        if row["class"] == material.machining and row["case"] == case:
            return float(row["low"]), float(row["high"])
    raise KeyError(case)


def fit_of(hole: float, smallest: float | None, largest: float | None) -> Fit:
    """How a hole lies to the limits of the nut's minor diameter.

    Parameters
    ----------
    hole : float
        Diameter of the hole. [mm]
    smallest : float or None
        Smallest minor diameter. [mm]
    largest : float or None
        Largest minor diameter. [mm]

    Returns
    -------
    fit : str
        `inside`, `too large`, `too small` or `not known`.

    Raises
    ------
    TypeError
        If the hole is no number.

    Sources
    -------
    None: a comparison.

    Examples
    --------
    >>> fit_of(5.0, 4.917, 5.153), fit_of(5.2, 4.917, 5.153)
    ('inside', 'too large')
    """
    if smallest is not None and hole < smallest - 1e-6:
        return "too small"
    if largest is None:
        return "not known"
    return "too large" if hole > largest + 1e-6 else "inside"


def choices(
    *, thread: Thread, aim: Target, drills: Sequence[Tool], tap: TapKind = "cut"
) -> tuple[Choice, ...]:
    """Drills for a tap: owned ones first, then by the limits, then by nearness to the target.

    Parameters
    ----------
    thread : Thread
        Any thread.
    aim : Target
        The hole to aim at.
    drills : sequence of Tool
        The owned drills.
    tap : str
        `cut` or `form`; a forming tap makes the minor diameter itself, so no limits rank its drills.

    Returns
    -------
    choices : tuple of Choice
        Up to 10, the best first. A drill that is not owned comes before an owned one outside the limits.

    Raises
    ------
    BadInput
        If the thread's class does not go with it.

    Sources
    -------
    The order: common practice, no source.

    Examples
    --------
    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> aim = target(thread=parse("M6"), material=find("mild steel"))
    >>> best = choices(thread=parse("M6"), aim=aim, drills=[Tool("5", 5.0), Tool("5.3", 5.3)])
    >>> [(c.tool.name, c.owned, c.fit) for c in best[:2]]
    [('5', True, 'inside'), ('#9', False, 'inside')]
    """
    smallest, largest, _ = minor_limits(thread)
    if tap == "form":
        smallest = largest = None
    found = _possible(thread, drills, True, tap, smallest, largest)
    mine = [choice.tool.diameter for choice in found]
    others = [
        choice
        for choice in (
            *_published_choices(thread, tap, smallest, largest),
            *_possible(thread, _beyond_the_series(aim.hole), False, tap, smallest, largest),
        )
        if not any(abs(choice.tool.diameter - size) <= SAME for size in mine)
    ]
    found += others
    found.sort(key=lambda c: _rank(c, aim))
    return tuple(found[:_MOST_CHOICES])


def _rank(choice: Choice, aim: Target) -> tuple[int, int, float, float]:
    usable = choice.fit in ("inside", "not known")
    group = 0 if choice.owned and usable else 1 if usable else 2
    return group, not choice.owned, round(abs(choice.tool.diameter - aim.hole), 6), choice.tool.diameter


def _possible(
    thread: Thread,
    tools: Sequence[Tool],
    is_owned: bool,
    tap: TapKind,
    smallest: float | None,
    largest: float | None,
) -> list[Choice]:
    found: dict[float, Choice] = {}
    for tool in tools:
        share = percent_of_thread(thread, tool.diameter, tap)
        fit = fit_of(tool.diameter, smallest, largest)
        if _LEAST <= share <= _MOST or fit == "inside":
            found.setdefault(round(tool.diameter, 4), Choice(tool, is_owned, share, fit))
    return list(found.values())


def _beyond_the_series(hole: float) -> list[Tool]:
    """Drills near a hole that is larger than the series kept here, in quarters of a millimetre."""
    if hole <= _LARGEST_METRIC:
        return []
    first = floor(4 * (hole - 1))
    return [Tool(f"{quarters / 4:g}", quarters / 4) for quarters in range(first, first + 9)]


@lru_cache(maxsize=256)
def _published_choices(
    thread: Thread, tap: TapKind, smallest: float | None, largest: float | None
) -> tuple[Choice, ...]:
    tools = [Tool(drill.name, drill.diameter) for drill in every_drill()]
    return tuple(_possible(thread, tools, False, tap, smallest, largest))
