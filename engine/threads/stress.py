"""Stress areas and shear areas of threads."""

from __future__ import annotations

from dataclasses import dataclass
from math import pi, radians, tan

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

    Raises
    ------
    KeyError
        Never.

    Sources
    -------
    ISO 898-1:2013 clause 9.1.6.1: pi/4 ((d2 + d3)/2)^2, d3 = d1 - H/6; FED-STD-H28/2B (1b): 0.7854 (D - 0.9743/n)^2;
    the other families by the same mean of pitch and root diameters (common practice, no source).

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
            f"0.7854 x ({inches:.4g} - 0.9743 ÷ {tpi:g})² in²",
        )
    effective, root = limits(thread).pitch_basic, diameter - 2 * form(thread).depth
    return Area(
        pi / 4 * ((effective + root) / 2) ** 2,
        "mean of pitch and root diameter, as ISO 898-1 has it (common practice, no source)",
        f"0.7854 x (({effective:.3f} + {root:.3f}) ÷ 2)²",
    )


def screw_shear_area(thread: Thread) -> Area | None:
    """Return the area on which a screw's thread shears off at the nut's crests, for each mm engaged.

    Parameters
    ----------
    thread : Thread
        A thread that has limits; the worst pair of its usual classes, or of those written in it, is taken.

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
        f"pi ÷ P x D1max x (P ÷ 2 + {slope:.5f} x (d2min - D1max)), "
        f"D1max {bore:.4f}, d2min {effective:.4f}, P {pitch:.4g}",
    )


def nut_shear_area(thread: Thread) -> Area | None:
    """Return the area on which a nut's thread shears off at the screw's crests, for each mm engaged.

    Parameters
    ----------
    thread : Thread
        As for `screw_shear_area`.

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
        f"pi ÷ P x dmin x (P ÷ 2 + {slope:.5f} x (dmin - D2max)), "
        f"dmin {major:.4f}, D2max {effective:.4f}, P {pitch:.4g}",
    )
