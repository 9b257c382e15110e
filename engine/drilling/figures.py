"""Figures that every operation on holes shows alike: spindle speed, handwheel, lengths in a working."""

from __future__ import annotations

from engine.base.answer import Figure
from engine.base.quantity import worked
from engine.cutting.speeds import SpeedRange, SpindleSpeed, ideal_text, step_text
from engine.drilling.bench import Machine, setting_on

_MM_PER_INCH = 25.4  # exact: international yard and pound agreement, 1959


def said(length: float, unit: str) -> str:
    """Write a length as a working or a note says it, without needless noughts.

    Parameters
    ----------
    length : float
        The length. [mm]
    unit : str
        `mm` or `inch`: what it is said in.

    Returns
    -------
    text : str
        With its unit: to a ten-thousandth of a millimetre, or a hundred-thousandth of an inch.

    Sources
    -------
    1 in = 25.4 mm exactly.

    Examples
    --------
    >>> said(17.1, "mm"), said(5.1054, "inch"), said(25.4, "inch")
    ('17.1 mm', '0.201 in', '1 in')
    """
    digits, name = (f"{length / _MM_PER_INCH:.5f}", "in") if unit == "inch" else (f"{length:.4f}", "mm")
    return f"{digits.rstrip('0').rstrip('.')} {name}"


def speed_figure(
    machine: Machine,
    published: SpeedRange,
    speed: SpindleSpeed,
    *,
    diameter: float,
    unit: str,
    share: float = 1.0,
) -> Figure:
    """The spindle speed of a tool, with the sum that it comes from.

    Parameters
    ----------
    machine : Machine
        The machine.
    published : SpeedRange
        The published surface speed.
    speed : SpindleSpeed
        The speed chosen on the machine.
    diameter : float
        Diameter of the tool, above 0. [mm]
    unit : str
        `mm` or `inch`: what the sum is written in.
    share : float
        Share of the surface speed that a deep hole leaves. [-]

    Returns
    -------
    figure : Figure
        `rpm`. [rev/min]

    Sources
    -------
    As for engine.cutting.speeds.ideal_text.

    Examples
    --------
    >>> from engine.cutting.materials import find
    >>> from engine.cutting.speeds import surface_speed
    >>> from engine.drilling.bench import machine_of, speed_on
    >>> from engine.shop.file import sample
    >>> lathe = machine_of(sample("metric"), "lathe")
    >>> published = surface_speed(material=find("mild steel"), operation="drilling")
    >>> speed = speed_on(lathe, diameter=8.5, surface_speed=published.chosen)
    >>> speed_figure(lathe, published, speed, diameter=8.5, unit="mm").working
    "1000 x 24.384 m/min ÷ (3.14159 x 8.5 mm) = 913; the lathe's step at or below it: 630"
    """
    wanted, across = published.chosen, "ft/min" if unit == "inch" else "m/min"
    less = ""
    if share < 1:
        less = f"{worked(wanted, unit, 'surface_speed')} {across} x {share:g} for the depth; "
    ideal = ideal_text(surface_speed=wanted * share, diameter=diameter, unit=unit)
    step = f"; {step_text(speed, machine.name, ceiling=machine.ceiling)}" if machine.speeds else ""
    return Figure("rpm", "Spindle speed", speed.chosen, "speed", published.source, f"{less}{ideal}{step}")


def dial_figures(
    machine: Machine, depth: float, *, unit: str, reading: str = "dial", never_deeper: bool = True
) -> list[Figure]:
    """Turns and reading of the handwheel that feeds a tool to a depth.

    Parameters
    ----------
    machine : Machine
        The machine.
    depth : float
        Depth from the dial's zero, 0 or more. [mm]
    unit : str
        `mm` or `inch`: what the sum is written in.
    reading : str
        Name of the second figure.
    never_deeper : bool
        Whether the depth is never to be passed; otherwise the nearest line is taken.

    Returns
    -------
    figures : list of Figure
        `turns` and the reading; none where the machine has no such dial. [mm]

    Raises
    ------
    OutOfRange
        If the depth is negative.

    Sources
    -------
    As for engine.indexing.dials.

    Examples
    --------
    >>> from engine.drilling.bench import machine_of
    >>> from engine.shop.file import sample
    >>> [f.value for f in dial_figures(machine_of(sample("metric"), "lathe"), 23.004, unit="mm")]
    [11, 1.0]
    """
    setting = setting_on(machine, depth, towards="short" if never_deeper else "nearest")
    if setting is None or machine.slide is None:
        return []
    travel = machine.slide.travel_per_turn
    line = float(travel / machine.slide.divisions)
    working = (
        f"{said(depth, unit)} ÷ {said(float(travel), unit)} a turn: {setting.turns} whole, "
        f"then {setting.lines} line{'' if setting.lines == 1 else 's'} of {said(line, unit)}"
    )
    source = f"the {machine.name}'s own dial; rounded once" + (", never too deep" if never_deeper else "")
    return [
        Figure("turns", f"{machine.wheel} turns", setting.turns, "count", source, working),
        Figure(reading, f"{machine.wheel} dial", setting.reading, "length", source, working),
    ]
