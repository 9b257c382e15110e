"""Stress areas and shear areas of threads."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, tan

from engine.base.quantity import worked
from engine.threads.form import form
from engine.threads.limits import limits
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True)
class Area:
    """An area in mm² (or mm² for each mm of engagement), with where it comes from."""

    value: float
    source: str
    working: str


def stress_area(thread: Thread) -> Area | None:
    """Return the tensile stress area of a screw.

    Parameters
    ----------
    thread : Thread
        Any thread; None is returned for taper pipe threads, which are not for pulling.

    Returns
    -------
    area : Area or None
        The area. [mm²]

    Sources
    -------
    ISO 898-1:2013 clause 9.1.6.1: pi/4 ((d2 + d3)/2)^2, d3 = d1 - H/6; FED-STD-H28/2B (1b): 0.7854 (D - 0.9743/n)^2;
    Acme by the mean of the smallest pitch and minor diameters (ASME B1.5, the rule from memory); the other families by
    the mean of the basic ones, as ISO 898-1 has it (common practice, no source).

    Examples
    --------
    M10: 58.0 mm² (ISO 898-1 Table 4).

    >>> from engine.threads.designation import parse
    >>> round(stress_area(parse("M10")).value, 1)
    58.0
    """
    pitch, diameter = float(thread.pitch), thread.diameter
    if thread.taper:
        return None
    if thread.family == "metric":
        return Area(
            pi / 4 * (diameter - 0.938194 * pitch) ** 2,
            "ISO 898-1:2013 clause 9.1.6.1",
            f"pi ÷ 4 x ((d2 + d3) ÷ 2)² = 0.7854 x ({diameter:g} - 0.938194 x {pitch:g})²",
        )
    if thread.family == "unified":
        inches, tpi = diameter / 25.4, float(thread.threads_per_inch)
        return Area(
            0.7854 * (inches - 0.9743 / tpi) ** 2 * 25.4**2,
            "FED-STD-H28/2B, formula 1b",
            f"0.7854 x ({inches:.6g} - 0.9743 ÷ {tpi:g})² in²",
        )
    if thread.family == "acme":
        sizes = limits(thread)
        assert sizes.ext_pitch_min is not None and sizes.ext_minor_min is not None
        return _mean_area(
            thread, sizes.ext_pitch_min, sizes.ext_minor_min, "ASME B1.5: smallest sizes; rule from memory"
        )
    sizes = limits(thread)
    root = diameter - 2 * form(thread).depth if thread.family == "tr" else sizes.minor_basic
    return _mean_area(
        thread,
        sizes.pitch_basic,
        root,
        "mean of pitch and root diameter, as ISO 898-1 has it (common practice, no source)",
    )


def _mean_area(thread: Thread, effective: float, root: float, source: str) -> Area:
    """Area of a circle between pitch and root diameter; the working in the unit of the thread's own standard."""
    one, other = (f"{size / 25.4:.6g}" if thread.inch else f"{size:.6g}" for size in (effective, root))
    unit = " in²" if thread.inch else ""
    return Area(pi / 4 * ((effective + root) / 2) ** 2, source, f"0.7854 x (({one} + {other}) ÷ 2)²{unit}")


def _shear_working(thread: Thread, *, crest: float, gap: tuple[float, float], unit: str) -> str:
    """The sum behind an area in shear: pi n times the crest it shears at, times the width of the thread there."""
    pitch, edge, *ends = (worked(size, unit) for size in (float(thread.pitch), crest, *gap))
    return (
        f"pi ÷ {pitch} x {edge} x ({pitch} ÷ 2 + tan {form(thread).half_angle:g}° x ({ends[0]} - {ends[1]}))"
    )


def screw_shear_area(thread: Thread, unit: str = "mm") -> Area | None:
    """Return the area on which a screw's thread shears off at the nut's crests, for each mm engaged.

    Parameters
    ----------
    thread : Thread
        A thread that has limits; the worst pair of its usual classes, or of those written in it, is taken.
    unit : str
        `mm` or `inch`: what the working is written in.

    Returns
    -------
    area : Area or None
        None if the thread has no limits. [mm²/mm]

    Raises
    ------
    BadInput
        If the class written in the thread is not given by its standard.

    Sources
    -------
    FED-STD-H28/2B Table II.B.1 (4a): pi n D1max (1/(2n) + tan(half angle) (d2min - D1max)).

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> round(screw_shear_area(parse("1/2-13 UNC")).value / 25.4, 5)  # 0.77894 in² for each inch
    0.77894
    """
    sizes = limits(thread)
    bore, effective = sizes.int_minor_max, sizes.ext_pitch_min
    if bore is None or effective is None or thread.taper:
        return None
    pitch, slope = float(thread.pitch), tan(radians(form(thread).half_angle))
    return Area(
        pi / pitch * bore * (pitch / 2 + slope * (effective - bore)),
        "FED-STD-H28/2B, formula 4a",
        _shear_working(thread, crest=bore, gap=(effective, bore), unit=unit),
    )


def nut_shear_area(thread: Thread, unit: str = "mm") -> Area | None:
    """Return the area on which a nut's thread shears off at the screw's crests, for each mm engaged.

    Parameters
    ----------
    thread : Thread
        As for `screw_shear_area`.
    unit : str
        `mm` or `inch`: what the working is written in.

    Returns
    -------
    area : Area or None
        None if the thread has no limits. [mm²/mm]

    Raises
    ------
    BadInput
        If the class written in the thread is not given by its standard.

    Sources
    -------
    FED-STD-H28/2B Table II.B.1 (2a): pi n dmin (1/(2n) + tan(half angle) (dmin - D2max)).

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> round(nut_shear_area(parse("M10")).value, 2)
    21.48
    """
    sizes = limits(thread)
    major, effective = sizes.ext_major_min, sizes.int_pitch_max
    if major is None or effective is None or thread.taper:
        return None
    pitch, slope = float(thread.pitch), tan(radians(form(thread).half_angle))
    return Area(
        pi / pitch * major * (pitch / 2 + slope * (major - effective)),
        "FED-STD-H28/2B, formula 2a",
        _shear_working(thread, crest=major, gap=(major, effective), unit=unit),
    )
