"""Stress areas and shear areas of threads."""

from __future__ import annotations

from math import pi

from engine.base.sums import deg, mm, num, tan
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.thread import Thread
from engine.threads.told import Area

_PI = num(pi, words="pi")


def stress_area(thread: Thread) -> Area | None:
    """Return the tensile stress area of a screw.

    thread: Any thread; None is returned for taper pipe threads, which are not for pulling.
    Returns: The area. [mm²]
    Source: ISO metric ISO 898-1:2013 clause 9.1.6.1; Unified FED-STD-H28/2B (1b); Acme by the smallest pitch and minor
        diameters (ASME B1.5, the rule from memory); the other families by the mean of the basic ones, as ISO 898-1 has
        it (common practice, no source).

    M10: 58.0 mm² (ISO 898-1 Table 4).

    >>> from engine.threads.designation import parse
    >>> round(stress_area(parse("M10")).value, 1)
    58.0
    """
    return None if thread.taper else (thread.kind.stress_area or mean_area)(thread)


def mean_area(thread: Thread, root: float | None = None) -> Area:
    """The area by the mean of the basic pitch diameter and the root (mm; None: the basic minor)."""
    sizes = limits(thread)
    source = "mean of pitch and root diameter, as ISO 898-1 has it (common practice, no source)"
    return between(sizes.pitch_basic, sizes.minor_basic if root is None else root, source)


def between(effective: float, root: float, source: str) -> Area:
    """Area of a circle halfway between pitch and root diameter, in mm."""
    return Area.of_circle((mm(effective) + mm(root)) / 2, source)


def _shear(
    thread: Thread, crest: float | None, longest: float | None, shortest: float | None, rule: str
) -> Area | None:
    """pi n times the crest it shears at, times the width of the thread there."""
    if crest is None or longest is None or shortest is None or thread.taper:
        return None
    pitch, edge = mm(float(thread.pitch)), mm(crest)
    gap = mm(longest) - mm(shortest)
    area = _PI / pitch * edge * (pitch / 2 + tan(deg(form(thread).half_angle)) * gap)
    return Area(float(area), f"FED-STD-H28/2B, formula {rule}", area)


def screw_shear_area(thread: Thread) -> Area | None:
    """Return the area on which a screw's thread shears off at the nut's crests, for each mm engaged.

    thread: A thread that has limits; the worst pair of its usual classes, or of those written in it, is taken.
    Returns: None if the thread has no limits. [mm²/mm]
    Raises: BadInput if the class written in the thread is not given by its standard.
    Source: FED-STD-H28/2B Table II.B.1 (4a): pi n D1max (1/(2n) + tan(half angle) (d2min - D1max)).

    >>> from engine.threads.designation import parse
    >>> round(screw_shear_area(parse("1/2-13 UNC")).value / 25.4, 5)  # 0.77894 in² for each inch
    0.77894
    """
    sizes = limits(thread)
    return _shear(thread, sizes.int_minor_max, sizes.ext_pitch_min, sizes.int_minor_max, "4a")


def nut_shear_area(thread: Thread) -> Area | None:
    """Return the area on which a nut's thread shears off at the screw's crests, for each mm engaged.

    thread: As for `screw_shear_area`.
    Returns: None if the thread has no limits. [mm²/mm]
    Raises: BadInput if the class written in the thread is not given by its standard.
    Source: FED-STD-H28/2B Table II.B.1 (2a): pi n dmin (1/(2n) + tan(half angle) (dmin - D2max)).

    >>> from engine.threads.designation import parse
    >>> round(nut_shear_area(parse("M10")).value, 2)
    21.48
    """
    sizes = limits(thread)
    return _shear(thread, sizes.ext_major_min, sizes.ext_major_min, sizes.int_pitch_max, "2a")
