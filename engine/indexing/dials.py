"""Handwheels and their dials: a distance as whole turns and a line to stop at."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from engine.errors import check_range
from engine.shop.model import Slide

Towards = Literal["nearest", "short", "past"]


@dataclass(frozen=True, slots=True)
class DialSetting:
    """Where a handwheel stands: whole turns from its zero, and lines of the dial past the last whole turn.

    `reading` is what the dial shows there, in mm of slide travel; `error` is how far the rounded setting lies
    beyond the distance asked for (negative: short of it).
    """

    turns: int
    lines: int
    reading: float
    error: float


def dial_setting(
    *, distance: float | Fraction, travel_per_turn: Fraction, divisions: int, towards: Towards = "nearest"
) -> DialSetting:
    """Turns and lines of a dial for a distance from its zero, rounded once to a whole line.

    Parameters
    ----------
    distance : float or Fraction
        How far to move from zero, 0 or more. [mm]
    travel_per_turn : Fraction
        Travel of the slide for one turn of the handwheel, above 0. [mm]
    divisions : int
        Lines on the dial, 1 or more.
    towards : str
        `nearest` line; `short`: never past the distance (depths); `past`: never short of it.

    Returns
    -------
    setting : DialSetting
        Turns, lines, reading and the error left over. [mm]

    Raises
    ------
    OutOfRange
        If the distance is negative or the dial has no lines.

    Sources
    -------
    Each absolute position rounded by itself, so that no error adds up: common practice, no source.

    Examples
    --------
    17.35 mm with 2 mm a turn and 100 lines: 8 turns and 67.5 lines, so 68.

    >>> dial_setting(distance=17.35, travel_per_turn=Fraction(2), divisions=100)
    DialSetting(turns=8, lines=68, reading=1.36, error=0.01)
    """
    check_range("distance", float(distance), low=0, unit="mm")
    check_range("divisions", divisions, low=1)
    line = travel_per_turn / divisions
    exact = (distance if isinstance(distance, Fraction) else Fraction(repr(float(distance)))) / line
    whole = _whole_lines(exact, towards)
    turns, lines = divmod(whole, divisions)
    return DialSetting(turns, lines, float(lines * line), float((whole - exact) * line))


def slide_setting(slide: Slide, distance: float | Fraction, *, towards: Towards = "nearest") -> DialSetting:
    """Turns and reading of an owned slide's dial; a dial that reads diameter shows twice the travel.

    Parameters
    ----------
    slide : Slide
        The slide, from the shop.
    distance : float or Fraction
        How far the slide is to move from its zero, 0 or more. [mm]
    towards : str
        As for `dial_setting`.

    Returns
    -------
    setting : DialSetting
        `reading` is what stands on the dial; `error` stays in travel of the slide. [mm]

    Raises
    ------
    OutOfRange
        If the distance is negative.

    Sources
    -------
    As for `dial_setting`.

    Examples
    --------
    >>> slide = Slide(travel_per_turn=Fraction(2), divisions=80, reads_diameter=True)
    >>> slide_setting(slide, 2.5).reading
    1.0
    """
    setting = dial_setting(
        distance=distance,
        travel_per_turn=slide.travel_per_turn,
        divisions=slide.divisions,
        towards=towards,
    )
    shown = setting.reading * (2 if slide.reads_diameter else 1)
    return replace(setting, reading=shown)


def _whole_lines(exact: Fraction, towards: Towards) -> int:
    if towards == "short":
        return floor(exact)
    if towards == "past":
        return ceil(exact)
    return floor(exact + Fraction(1, 2))
