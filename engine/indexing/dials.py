"""Handwheels and their dials: a distance as whole turns and a line to stop at."""

from __future__ import annotations

from fractions import Fraction
from math import floor
from typing import Literal

from engine.base.records import dataclass, replace
from engine.base.refusals import check_range
from engine.base.setting import Setting, setting_text  # noqa: F401 (an example uses it)
from engine.shop.model import Slide

Towards = Literal["nearest", "short", "past"]
_NOISE = 1_000_000  # parts of a line: a float within one of them stands on the line, so 4.999999999999998 mm is 5


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

    distance: How far to move from zero, 0 or more. [mm]
    travel_per_turn, divisions: Travel for one turn of the handwheel, above 0 [mm]; lines on its dial, 1 or more.
    towards: `nearest` line; `short`: never past the distance (depths); `past`: never short of it.
    Returns: Turns, lines, reading and the error left over. [mm]
    Raises: OutOfRange if the distance is negative or the dial has no lines.
    Source: Each absolute position rounded by itself, so that no error adds up: common practice, no source.

    17.35 mm with 2 mm a turn and 100 lines: 8 turns and 67.5 lines, so 68.

    >>> dial_setting(distance=17.35, travel_per_turn=Fraction(2), divisions=100)
    DialSetting(turns=8, lines=68, reading=1.36, error=0.01)

    A triangle 10 mm across flats is cut (20 - 10) / 2 deep, and sums of floats may fall a hair short of that.

    >>> dial_setting(distance=4.999999999999998, travel_per_turn=Fraction(1), divisions=50, towards="short").turns
    5
    """
    check_range("distance", float(distance), low=0, unit="mm")
    check_range("divisions", divisions, low=1)
    exact = distance if isinstance(distance, Fraction) else Fraction(repr(float(distance)))
    # In whole numbers: a line is top / bottom of a millimetre. Fractions would take four times as long.
    top, bottom = travel_per_turn.numerator, travel_per_turn.denominator * divisions
    whole = _whole_lines(exact.numerator * bottom, exact.denominator * top, towards)
    turns, lines = divmod(whole, divisions)
    beyond = whole * top * exact.denominator - exact.numerator * bottom
    return DialSetting(turns, lines, lines * top / bottom, beyond / (bottom * exact.denominator))


def slide_setting(slide: Slide, distance: float | Fraction, *, towards: Towards = "nearest") -> DialSetting:
    """Turns and reading of an owned slide's dial; a dial that reads diameter shows twice the travel.

    >>> slide = Slide(travel_per_turn=Fraction(2), divisions=80, reads_diameter=True)
    >>> slide_setting(slide, 2.5).reading
    1.0
    """
    setting = dial_setting(
        distance=distance, travel_per_turn=slide.travel_per_turn, divisions=slide.divisions, towards=towards
    )
    return replace(setting, reading=2 * setting.reading) if slide.reads_diameter else setting


def turns_and_lines(setting: DialSetting) -> str:
    """Say a dial's setting in a way that holds in either unit: whole turns and lines of the dial.

    >>> turns_and_lines(DialSetting(1, 40, 0.8, 0.0)), turns_and_lines(DialSetting(0, 1, 0.02, 0.0))
    ('1 turn + 40 lines', '1 line')
    """
    turns = f"{setting.turns} turn{'' if setting.turns == 1 else 's'}" if setting.turns else ""
    lines = f"{setting.lines} line{'' if setting.lines == 1 else 's'}" if setting.lines or not turns else ""
    return " + ".join(filter(None, (turns, lines)))


@dataclass(frozen=True, slots=True)
class DialMove:
    """A move from where a dial stands now.

    `turns` are whole turns of the handwheel, after which the dial shows what it showed before; `remainder` is what
    is then left of the distance; `reading` is what the dial shows at the end, in mm of slide travel; `error` is how far
    the line set lies beyond the distance (below 0: short of it).
    """

    turns: int
    lines: int
    reading: float
    remainder: float
    error: float


def dial_move(
    *, distance: Fraction, start: Fraction, travel_per_turn: Fraction, divisions: int, falling: bool = False
) -> DialMove:
    """Turns and final reading of a move that starts at any reading and goes either way.

    distance: How far to move, 0 or more. [mm]
    start: Where the dial stands now, from its zero; whole turns may be counted in. [mm]
    travel_per_turn, divisions: Travel for one turn of the handwheel, above 0 [mm]; lines on its dial, 1 or more.
    falling: Whether the readings fall as the move is made.
    Returns: The place at the end rounded once to a line. [mm]
    Raises: OutOfRange if the distance is negative or the dial has no lines.
    Source: Each absolute position rounded by itself: common practice, no source.

    From 1.5 mm on a dial of 2 mm and 100 lines, 5 mm on: 2 turns and 1 mm, which passes zero and ends at 0.5.

    >>> dial_move(distance=Fraction(5), start=Fraction(3, 2), travel_per_turn=Fraction(2), divisions=100)
    DialMove(turns=2, lines=25, reading=0.5, remainder=1.0, error=0.0)
    """
    check_range("distance", float(distance), low=0, unit="mm")
    target = start - distance if falling else start + distance
    below = max(-floor(target / travel_per_turn), 0) * travel_per_turn  # whole turns, to count from a zero further down
    end = dial_setting(distance=target + below, travel_per_turn=travel_per_turn, divisions=divisions)
    place = end.turns * travel_per_turn + end.lines * travel_per_turn / divisions - below
    made = start - place if falling else place - start
    turns = max(floor(made / travel_per_turn), 0)
    remainder = distance - turns * travel_per_turn
    return DialMove(turns, end.lines, end.reading, float(remainder), float(made - distance))


def turned_distance(
    *, turns: int, start: Fraction, reading: Fraction, travel_per_turn: Fraction, falling: bool = False
) -> Fraction:
    """How far a slide has moved, from whole turns and the reading that the dial then shows.

    >>> turned_distance(turns=2, start=Fraction(3, 2), reading=Fraction(1, 2), travel_per_turn=Fraction(2))
    Fraction(5, 1)
    """
    part = (start - reading if falling else reading - start) % travel_per_turn
    return turns * travel_per_turn + part


def back_off(*, travel_per_turn: Fraction, backlash: float | None) -> Fraction:
    """How far to turn back past a mark before coming up to it in the working direction.

    travel_per_turn: Travel of the slide for one turn of the handwheel. [mm]
    backlash: How far the handwheel turns before the slide follows, 0 or more. [mm]
    Returns: A quarter of a turn, or twice the backlash if that is more; half a turn while it is not known. [mm]
    Source: Practical Treatise on Milling and Milling Machines, 1914, on backlash: back off a quarter to half a turn,
        come up again in the working direction. Twice the backlash: common practice, no source.

    >>> back_off(travel_per_turn=Fraction(2), backlash=0.1), back_off(travel_per_turn=Fraction(1, 2), backlash=0.2)
    (Fraction(1, 2), Fraction(2, 5))
    """
    if backlash is None:
        return travel_per_turn / 2
    return max(travel_per_turn / 4, 2 * Fraction(repr(float(backlash))))


def _whole_lines(top: int, bottom: int, towards: Towards) -> int:
    """Lines in top / bottom, rounded to a whole one; the noise of a float costs no line."""
    if towards == "short":
        return (top * _NOISE + bottom) // (bottom * _NOISE)
    if towards == "past":
        return -((bottom - top * _NOISE) // (bottom * _NOISE))
    return (2 * top + bottom) // (2 * bottom)


def own_unit(line: Fraction) -> tuple[Literal["mm", "inch"], int]:
    """The unit that a dial is marked in, and the decimals that one of its lines needs.

    Given the value of one line [mm, above 0], the unit that needs fewer digits to write it out: 0.02 mm belongs to a
    metric dial, 0.0254 mm to an inch one, as 0.001 in. How dials are divided: common practice, no source.

    >>> own_unit(Fraction(1, 50)), own_unit(Fraction(254, 10000)), own_unit(Fraction(3, 80))
    (('mm', 2), ('inch', 3), ('mm', 4))
    """
    metric, inch = _decimals(line), _decimals(line * 5 / 127)
    return ("inch", inch) if inch < metric else ("mm", min(metric, _MOST_DECIMALS))


_MOST_DECIMALS = 4


def _decimals(value: Fraction) -> int:
    """Decimals that write it out; one more than a dial could bear where none do."""
    return next((n for n in range(_MOST_DECIMALS + 1) if (value * 10**n).denominator == 1), _MOST_DECIMALS + 1)


def on_dial(
    wheel: str,
    stands: DialSetting | DialMove,
    travel_per_turn: Fraction,
    divisions: int,
    *,
    way: str = "",
    reads_diameter: bool = False,
    distance: float | Fraction = 0.0,
) -> Setting:
    """A worked setting as the hand sets it, in the dial's own unit.

    >>> stands = dial_setting(distance=2.5, travel_per_turn=Fraction(2), divisions=100)
    >>> setting_text(on_dial("Cross slide", stands, Fraction(2), 100, way="in"))
    'Cross slide in: 1 turn, dial 0.50'
    """
    unit, decimals = own_unit(travel_per_turn / divisions * (2 if reads_diameter else 1))
    value = stands.lines * travel_per_turn / divisions * (2 if reads_diameter else 1)
    shows = float(value * 5 / 127 if unit == "inch" else value)
    return Setting(wheel, stands.turns, way, shows, stands.lines, unit, decimals, distance=float(distance))


def on_slide(wheel: str, slide: Slide, stands: DialSetting | DialMove, way: str, distance: float | Fraction) -> Setting:
    """The same on one of the shop's slides, of a move in mm."""
    turn, lines, twice = slide.travel_per_turn, slide.divisions, slide.reads_diameter
    return on_dial(wheel, stands, turn, lines, way=way, reads_diameter=twice, distance=distance)
