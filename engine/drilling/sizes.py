"""Drill sizes by name: the number, letter, fraction and metric series, and the nearest drill of each."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH, worked
from engine.base.records import dataclass
from engine.base.tables import rows
from engine.base.tool import Tool

SERIES = ("number", "letter", "fraction", "metric")
SAME = 0.0005  # mm: drills closer than this are one size


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill of a published series; `memory` where its size was recalled and not seen in a page."""

    name: str
    diameter: float
    series: str
    memory: bool = False


@cache
def _named() -> dict[str, Drill]:
    found = {}
    for row in rows("drilling/named_drills.csv"):
        name = ("#" if row["series"] == "number" else "") + row["name"]
        diameter = float(Fraction(row["inch"]) * MM_PER_INCH)
        found[name] = Drill(name, diameter, row["series"], row["mark"] == "memory")
    return found


def _key(text: str) -> str:
    """`No. 7`, `# 7` and `#07` as `#7`; `f` as `F`."""
    number = re.fullmatch(r"(?:#|no\.?)?\s*0*(\d{1,3})", text.strip(), re.IGNORECASE)
    return f"#{number[1]}" if number else text.strip().upper()


def named(text: str) -> float | None:
    """Return the diameter of a number or letter drill.

    text: Such as `#7`, `No. 7`, `F`.
    Returns: The decimal inch size times 25.4, or None if there is no such drill. [mm]
    Source: ASME B94.11M.

    #7 is 0.2010 in, F is 0.2570 in.

    >>> named("#7"), named("No. 7"), named("f"), named("#200")
    (5.1054, 5.1054, 6.5278, None)
    """
    text = text.strip()
    if not re.fullmatch(r"(?i)(?:#|no\.?)\s*\d{1,3}|[a-z]", text):
        return None
    drill = _named().get(_key(text))
    return None if drill is None else drill.diameter


def named_between(first: str, last: str) -> list[tuple[str, float]]:
    """Name and diameter [mm] of every number or letter drill from one to another, in the series' own order.

    Empty if either is no drill of the same series or the order is wrong.

    >>> named_between("#1", "2"), len(named_between("#1", "#60")), len(named_between("A", "Z"))
    ([('#1', 5.7912), ('#2', 5.6134)], 60, 26)
    """
    order = list(_named())
    begin, end = _key(first), _key(last)
    if begin not in _named() or end not in _named() or begin.startswith("#") != end.startswith("#"):
        return []
    inside = order[order.index(begin) : order.index(end) + 1]
    return [(name, _named()[name].diameter) for name in inside]


def _metric_hundredths() -> list[int]:
    """The metric series in hundredths of a millimetre, 0.20 to 20.00."""
    tiny = [10 * tens + step for tens in range(2, 10) for step in (0, 2, 5, 8)]
    return [*tiny, *range(100, 300, 5), *range(300, 1400, 10), *range(1400, 2001, 25)]


@cache
def series(name: str) -> tuple[Drill, ...]:
    """Return a published series of drills, smallest first.

    name: `number`, `letter`, `fraction` (64ths to 1 in) or `metric` (0.20 to 20 mm).
    Returns: Every drill of the series. [mm]
    Source: ASME B94.11M (number, letter, fraction). Metric steps: BS 328 (0.02, 0.05, 0.08 below 1 mm; 0.05 to 3 mm;
        0.1 to 14 mm; then 0.25 mm); that ISO 235 has the same steps is from memory, unconfirmed.

    >>> len(series("metric")), series("metric")[0].name, series("fraction")[-1].diameter
    (207, '0.2', 25.4)
    """
    if name in ("number", "letter"):
        drills = [d for d in _named().values() if d.series == name]
    elif name == "fraction":
        sizes = [Fraction(n, 64) for n in range(1, 65)]
        drills = [Drill(str(size), float(size * MM_PER_INCH), name) for size in sizes]
    elif name == "metric":
        drills = [Drill(worked(n / 100, "mm"), n / 100, name) for n in _metric_hundredths()]
    else:
        raise KeyError(name)
    return tuple(sorted(drills, key=lambda d: d.diameter))


@cache
def every_drill() -> tuple[Drill, ...]:
    """The drills of all four series, smallest first; a size that two series share is in twice.

    >>> len(every_drill())
    404
    """
    return tuple(sorted((d for name in SERIES for d in series(name)), key=lambda d: d.diameter))


def nearest(diameter: float, *, of: str) -> Drill:
    """The drill of a series that is nearest to a diameter, the smaller of two as near.

    >>> [nearest(5.2, of=name).name for name in SERIES]
    ['#6', 'A', '13/64', '5.2']
    """
    return min(series(of), key=lambda d: abs(d.diameter - diameter))


def owned(diameter: float, tools: Sequence[Tool]) -> Tool | None:
    """Return the owned tool of a diameter.

    >>> owned(5.1054, [Tool("#7", 5.1054)]).name, owned(5.2, [Tool("#7", 5.1054)])
    ('#7', None)
    """
    close = [t for t in tools if abs(t.diameter - diameter) <= SAME]
    return min(close, key=lambda t: abs(t.diameter - diameter), default=None)


def label(tool: Tool | Drill) -> str:
    """Return a drill's name with its unit, as it is asked for over the counter.

    >>> label(Tool("5.2", 5.2)), label(Tool("13/64", 5.159375)), label(Tool("0.2", 5.08)), label(Tool("#7", 5.1054))
    ('5.2 mm', '13/64 in', '0.2 in', '#7')
    """
    if re.fullmatch(r"(?:\d+[ -])?\d+/\d+", tool.name):
        return f"{tool.name} in"
    if not re.fullmatch(r"\d*[.,]?\d+", tool.name):
        return tool.name
    is_inch = abs(float(tool.name.replace(",", ".")) - tool.diameter) > SAME
    return f"{tool.name} in" if is_inch else f"{tool.name} mm"


def unnamed(diameter: float) -> Tool:
    """A drill that no series has, called by its size.

    >>> unnamed(37.25).name
    '37.25'
    """
    return Tool(worked(diameter, "mm"), diameter)
