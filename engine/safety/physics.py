"""The mechanics and heat behind the computed cautions. Pure functions, in mm, s, rev/min, N, kg and °C."""

from __future__ import annotations

from math import pi, sqrt

REACTION = 1.0  # s to see, decide and move a lever; common practice: no page gives it for a machine tool
HALF_SPEED = 0.5  # share of the whirl speed that a bar may turn at; engineering judgement
OVERHANG_RATIO = 3.0  # diameters a bar may stand out unsupported; a lathe owner's manual
BLADE_WIDTHS = 8.0  # widths a parting blade may stand out; from memory, unconfirmed
BLADE_PASSES = 0.5  # mm a parting blade must reach past the middle; common practice, no source
WORKING_MARGIN = 30.0  # °C over the liquidus at the joint; common practice, no source
BRAZING = 450.0  # °C above which soldering is called brazing; UK HSE EIS31 rev. 1
# Speed of sound along a bar, m/s: square root of modulus over density. Steel: 207 GPa, 7850 kg/m3; the others from
# memory, unconfirmed.
_SOUND = {"brass": 3500.0, "bronze": 3500.0, "copper": 3600.0, "iron": 3900.0, "acetal": 1400.0, "nylon": 1500.0}
_SOUND_STEEL = 5135.0
ROOM = 20.0  # °C at which a cavity was closed

_CANTILEVER = 1.8751040687**2  # first root of cos(x)cosh(x) = -1, squared: a beam held at one end
_REFERENCE_LOSS = 2 / 3  # of the grip is gone at the reference speed of DIN 6386


def advance_time(*, gap: float, speed: float, advance: float) -> float:
    """Seconds in which a tool crosses a gap in mm under power, at one advance (lead of the thread, or feed; mm) a turn.

    >>> advance_time(gap=1.5, speed=90, advance=1.0)
    1.0
    """
    return 60 * gap / (speed * advance)


def highest_speed(*, gap: float, advance: float, time: float = REACTION) -> float:
    """The speed in rev/min at which a gap is crossed in just the time [s] needed to act.

    >>> highest_speed(gap=1.5, advance=1.0)
    90.0
    """
    return 60 * gap / (advance * time)


def gap_needed(*, speed: float, advance: float, time: float = REACTION) -> float:
    """How much free way in mm a person needs at a speed: the way the tool goes in the time [s] needed to act.

    >>> gap_needed(speed=90, advance=1.0)
    1.5
    """
    return speed * advance * time / 60


def whirl_speed(*, diameter: float, length: float, sound: float = 5135.0) -> float:
    """The speed at which a round bar held at one end bends out of line by itself.

    diameter: Diameter of the bar. [mm]
    length: From the last real support to the free end, over 0. [mm]
    sound: Square root of modulus over density of the material; steel is 5135. [m/s]
    Returns: Lowest whirl speed. [rev/min]
    Source: First bending frequency of an cantilever (beam theory): 60/(2 pi) 1.8751² /L² times square root of (E I/(rho
        A)).

    >>> round(whirl_speed(diameter=6, length=600))
    718
    """
    per_second = _CANTILEVER * (diameter / 4) * sound * 1000 / length**2
    return 60 / (2 * pi) * per_second


def longest_free_bar(*, diameter: float, speed: float, sound: float = 5135.0) -> float:
    """How far a bar may stand out behind its last support at a speed, with half the whirl speed as the limit.

    diameter: Diameter of the bar. [mm]
    speed: Spindle speed, over 0. [rev/min]
    sound: Square root of modulus over density; steel is 5135. [m/s]
    Returns: Longest free length. [mm]
    Source: As `whirl_speed`; the one half is engineering judgement.

    >>> round(longest_free_bar(diameter=6, speed=359.2))
    600
    """
    at_one = whirl_speed(diameter=diameter, length=1.0, sound=sound)
    return sqrt(HALF_SPEED * at_one / speed)


def grip_left(*, speed: float, marked: float) -> float:
    """The share of the standstill grip that jaws keep on the outside of a bar, if the mark is the reference speed.

    speed: Spindle speed. [rev/min]
    marked: Maximum speed marked on the chuck, over 0. [rev/min]
    Returns: 1 at rest, one third at the mark; may be negative above it. [ratio]
    Source: DIN 6386: at the reference speed a third of the grip is left. The loss grows with the speed squared.

    >>> grip_left(speed=2000, marked=2000)
    0.333
    """
    return 1 - _REFERENCE_LOSS * (speed / marked) ** 2


def unbalance_force(*, mass: float, offset: float, speed: float) -> float:
    """The pull in N, turning with the spindle, of a mass in kg off centre by mm: mass x offset x angular speed squared.

    >>> unbalance_force(mass=0.2, offset=5, speed=1000)
    10.97
    """
    return mass * offset / 1000 * (2 * pi * speed / 60) ** 2


def cavity_pressure(*, hot: float, cold: float = ROOM) -> float:
    """How many times the pressure rises of dry air that was shut in a cavity when cold [°C] and is heated: the law of ideal
    gases at constant volume. Trapped water or oil is far worse.

    >>> cavity_pressure(hot=650)
    3.15
    """
    return (hot + 273.15) / (cold + 273.15)


def sound_in(material: str) -> float:
    """Speed of sound along a bar of a material, steel's when it is not known. [m/s]

    >>> sound_in("free-cutting brass"), sound_in("")
    (3500.0, 5135.0)
    """
    return next((value for word, value in _SOUND.items() if word in material), _SOUND_STEEL)
