"""Which drill to take for a tap: what to aim at in a material, and the drills that come near it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from engine.base.records import dataclass
from engine.base.tables import rows
from engine.base.tool import Tool
from engine.cutting.materials import Material
from engine.drilling.sizes import SAME, Drill, every_drill
from engine.drilling.tapping import TapKind, hole_for, minor_limits, percent_of_thread, standard_hole
from engine.drilling.unowned import is_metric, large_drills, works_in_inches
from engine.threads.thread import Thread

Fit = Literal["inside", "too large", "too small"]

USUAL_PERCENT = 75.0  # percent: what the tapping drill charts of inch threads are made for
_LEAST, _MOST = 35.0, 105.0  # percent: holes beyond these are no tapping holes
_MACHINING = {"free": "free-cutting", "tough": "tough to cut", "soft": "soft"}
_CASES = {"average": "average depth", "deep": "deep hole", "sheet": "thin sheet"}
_DEEP, _SHEET = 1.5, 0.5  # diameters: deep (the catalogue's own bound) and thin sheet (common practice)
_MOST_CHOICES, _MOST_OWNED = 10, 6


@dataclass(frozen=True, slots=True)
class Target:
    """What to aim at: a hole in mm, the percentage that it gives, the published range, why.

    `by_chart`: the hole is the charts' own, not the catalogue's percentage for the material.
    """

    hole: float
    percent: float
    low: float
    high: float
    case: str
    source: str
    by_chart: bool = False


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
    """The hole to aim at for a material and a depth of usable thread [mm], or for a percentage that was asked for.

    The standard's drill (ISO 2306, else the charts' 75 %) for average work in free-cutting material; otherwise by a tap
    maker's catalogue, engine/data/drilling/thread_percent.csv; the middle of the limits where no chart has the thread.

    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> found = target(thread=parse("M6"), material=find("stainless"), depth=12)
    >>> found.percent, found.case
    (60.0, 'tough to cut, deep hole')
    """
    case = _case(thread, depth)
    low, high = _published(material, case)
    words = f"{_MACHINING[material.machining]}, {_CASES[case]}"
    catalogue = "a tap maker's catalogue, percentage of thread by material"
    if percent is not None:
        return Target(hole_for(thread, percent, tap), percent, low, high, words, "as asked")
    if not thread.kind.charted:
        found = minor_limits(thread)
        share = percent_of_thread(thread, found.middle)
        return Target(found.middle, share, share, share, words, f"the middle of the limits, {found.source}")
    if tap == "cut" and material.machining != "tough" and case == "average":
        return _by_chart(thread, low, high, words)
    middle = (low + high) / 2
    return Target(hole_for(thread, middle, tap), middle, low, high, words, catalogue)


def _by_chart(thread: Thread, low: float, high: float, words: str) -> Target:
    hole, source = _usual_hole(thread)
    return Target(hole, percent_of_thread(thread, hole), low, high, words, source, True)


def _usual_hole(thread: Thread) -> tuple[float, str]:
    """The hole of the charts for average work, and which charts."""
    hole = standard_hole(thread)
    if hole is not None:
        return hole, "ISO 2306, D - P to a drill"
    hole = min(hole_for(thread, USUAL_PERCENT), minor_limits(thread).largest)
    return hole, "tap drill charts, about 75 % of thread"


def usual_drill(thread: Thread) -> Drill:
    """The drill that the charts name for a thread with a parallel V form in average work.

    The one of ISO 2306, else the nearest that leaves 75 % of thread within the limits: an inch drill for a Unified
    thread, otherwise a metric one.

    >>> from engine.threads.designation import parse
    >>> [usual_drill(parse(size)).name for size in ("M6", "1/4-20", "4BA", "G1/4")]
    ['5', '#7', '3', '11.8']
    """
    hole, limits = _usual_hole(thread)[0], minor_limits(thread)
    native = [drill for drill in every_drill() if (drill.series != "metric") == thread.kind.inch_drills]
    native += large_drills(hole, inch=thread.kind.inch_drills)
    inside = [d for d in native if fit_of(d.diameter, smallest=limits.smallest, largest=limits.largest) == "inside"]
    return min(inside or native, key=lambda drill: abs(drill.diameter - hole))


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


def fit_of(hole: float, *, smallest: float, largest: float) -> Fit:
    """How a hole lies to the limits of the nut's minor diameter.

    >>> fit_of(5.0, smallest=4.917, largest=5.153), fit_of(5.2, smallest=4.917, largest=5.153)
    ('inside', 'too large')
    """
    if hole < smallest - 1e-6:
        return "too small"
    return "too large" if hole > largest + 1e-6 else "inside"


def choices(*, thread: Thread, aim: Target, drills: Sequence[Tool], tap: TapKind = "cut") -> tuple[Choice, ...]:
    """Up to 10 drills for a tap, the owned ones first, then by the limits, then by nearness to the target.

    A forming tap makes the minor diameter itself, so no limits rank its drills. The order: common practice, no source.
    `best_of` says which to take.

    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> aim = target(thread=parse("M6"), material=find("mild steel"))
    >>> found = choices(thread=parse("M6"), aim=aim, drills=[Tool("5", 5.0), Tool("5.3", 5.3)])
    >>> [(c.tool.name, c.owned, c.fit) for c in found[:3]]
    [('5', True, 'inside'), ('5.3', True, 'too large'), ('5.1', False, 'inside')]
    """
    mine = _possible(thread, drills, True, tap)
    sizes = [choice.tool.diameter for choice in mine]
    published = [*every_drill(), *large_drills(aim.hole, inch=False), *large_drills(aim.hole, inch=True)]
    others = [
        choice
        for choice in _possible(thread, published, False, tap)
        if not any(abs(choice.tool.diameter - size) <= SAME for size in sizes)
    ]
    foreign = not works_in_inches(drills, otherwise=thread.inch)
    mine.sort(key=lambda c: _rank(c, aim))
    others.sort(key=lambda c: (c.fit != "inside", is_metric(c.tool.diameter) != foreign, *_rank(c, aim)))
    kept = mine[: max(_MOST_OWNED, _MOST_CHOICES - len(others))]
    return (*kept, *others[: _MOST_CHOICES - len(kept)])


def best_of(found: Sequence[Choice]) -> Choice:
    """The drill to take: an owned one inside the limits, else one inside them, else the nearest owned.

    >>> from engine.cutting.materials import find
    >>> from engine.threads.designation import parse
    >>> aim = target(thread=parse("M6"), material=find("mild steel"))
    >>> best_of(choices(thread=parse("M6"), aim=aim, drills=[Tool("5.3", 5.3)])).tool.name
    '5'
    """
    return next((choice for choice in found if choice.fit == "inside"), found[0])


def _rank(choice: Choice, aim: Target) -> tuple[bool, float, float]:
    size = choice.tool.diameter
    return choice.fit != "inside", round(abs(size - aim.hole), 6), size


def _possible(thread: Thread, tools: Sequence[Tool] | Sequence[Drill], is_owned: bool, tap: TapKind) -> list[Choice]:
    """Drills that leave some thread; a forming tap makes the minor diameter, so that every one of its is inside."""
    limits = minor_limits(thread)
    low, high = hole_for(thread, _MOST, tap), hole_for(thread, _LEAST, tap)
    if tap == "cut":
        low, high = min(low, limits.smallest), max(high, limits.largest)
    found: dict[float, Choice] = {}
    for tool in tools:
        size = tool.diameter
        if low - 1e-6 <= size <= high + 1e-6 and round(size, 4) not in found:
            fit = fit_of(size, smallest=limits.smallest, largest=limits.largest) if tap == "cut" else "inside"
            share = percent_of_thread(thread, size, tap)
            found[round(size, 4)] = Choice(Tool(tool.name, size), is_owned, share, fit)
    return list(found.values())
