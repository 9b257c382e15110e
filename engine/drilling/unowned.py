"""Drills that a shop would have to buy: of its own system first, and larger than the series kept here."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from engine.base.quantity import MM_PER_INCH, worked
from engine.base.tool import Tool
from engine.drilling.sizes import Drill, every_drill


def large_drills(near: float, *, inch: bool) -> list[Drill]:
    """Taper shank drills from 1 mm below to 1 mm above a size [mm], larger than the series kept here.

    64ths of an inch above 1 in, otherwise quarters of a millimetre above 20 mm (ASME B94.11M, BS 328: from memory).

    >>> [d.name for d in large_drills(24.6, inch=False)][:3], [d.name for d in large_drills(26, inch=True)][:2]
    (['23.75', '24', '24.25'], ['1 1/64', '1 1/32'])
    """
    step, end = (MM_PER_INCH / 64, MM_PER_INCH) if inch else (Fraction(1, 4), Fraction(20))
    sizes = [count * step for count in range(ceil((near - 1) / step), floor((near + 1) / step) + 1)]
    series = "fraction" if inch else "metric"
    names = {size: _inches(size / MM_PER_INCH) if inch else worked(float(size), "mm") for size in sizes}
    return [Drill(names[size], float(size), series, True) for size in sizes if size > end]


def _inches(size: Fraction) -> str:
    whole, rest = divmod(size, 1)
    return f"{whole} {rest}" if rest else f"{whole}"


def is_metric(diameter: float) -> bool:
    """Whether a drill's diameter is one of the metric system's: a whole number of twentieths of a millimetre.

    BS 328 goes by steps of 0.05 mm and more from 1 mm up; 1/2 in, which is 12.7 mm, passes for metric.

    >>> is_metric(6.5), is_metric(2.05), is_metric(5.1054)
    (True, True, False)
    """
    return abs(20 * diameter - round(20 * diameter)) < 1e-6


def native(tools: Sequence[Tool], *, inch: bool = False) -> list[Drill]:
    """Return the published drills, those of the system that the owned ones are mostly of first.

    Within a system the smallest first; a drill of the bench's own system is easier to come by (common practice).

    >>> native([Tool("6.6", 6.6), Tool("7", 7.0)])[0].name, native([Tool("#7", 5.1054)])[0].name
    ('0.2', '#107')
    """
    inch_first = works_in_inches(tools, otherwise=inch)
    return sorted(every_drill(), key=lambda drill: (drill.series == "metric") == inch_first)


def works_in_inches(tools: Sequence[Tool], *, otherwise: bool = False) -> bool:
    """Whether most of the owned drills are of the inch series.

    >>> works_in_inches([Tool("#7", 5.1054)]), works_in_inches([Tool("5", 5.0)]), works_in_inches([], otherwise=True)
    (True, False, True)
    """
    if not tools:
        return otherwise
    return sum(is_metric(tool.diameter) for tool in tools) < len(tools) / 2
