"""British Standard Whitworth and Fine: 3/8 BSW, 1/2-16 BSF close, 1/2-20 Whit.S."""

from __future__ import annotations

from collections.abc import Callable
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from math import sqrt

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import Sum, mm, num
from engine.base.words import Text, say
from engine.threads.form import whitworth
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.limits import to_inch_places, worked
from engine.threads.series import inch_entries
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Form, Limits, Written

CLASSES = Grammar(
    "close|medium|free", "medium|normal", "close, medium or free for a screw, medium or normal for a nut", "lower"
)
USUAL = ("medium", "normal")
_SOURCE = (
    "BS 84:2007 Annex B formulas (coefficients from memory; no printed limits could be read): "
    "within 0.0001 in of the printed table"
)
_PRINTED = "limits worked from formulas, within 0.0001 in of the printed table (engagement = D unless given)"
_T = "T = 0.002 D^(1/3) + 0.003 L^(1/2) + 0.005 p^(1/2) in inches"
_SCREW = {"close": (2 / 3, 0.013), "medium": (1.0, 0.02), "free": (1.5, 0.02)}  # times T; times root p for the minor
_NUT = {"close": 2 / 3, "medium": 1.0, "normal": 1.5}
_ALLOWANCE_UP_TO = 0.75  # in; BS 84 gives larger Medium and Free screws no allowance
_INCH = float(MM_PER_INCH)


def _read(written: Written, mark: Mark) -> Thread:
    any_pair = mark.kind == "whit"
    series = "" if any_pair else mark.kind.upper()
    return read_pair(written, mark, FAMILY, "Whit.S", series=series, any_pair=any_pair)


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """BS 84:2007 rounds the depth to 4 decimals of an inch first: 1 in BSW has a minor diameter of 0.8400 in."""
    depth = Fraction("0.640327") * thread.pitch / MM_PER_INCH
    return bs84(thread, classes, engagement, Fraction(_four(depth)), (_PRINTED,))


def _four(value: float | Fraction) -> Decimal:
    """Inches to four decimals, halves up, as the printed tables round."""
    exact = value if isinstance(value, Fraction) else Fraction(repr(value))
    settled = Decimal(exact.numerator) / Decimal(exact.denominator)
    return settled.quantize(Decimal("0.0001"), ROUND_HALF_UP)


def _mm(inches: Decimal | Fraction) -> float:
    return float(Fraction(inches) * MM_PER_INCH)


def bs84(
    thread: Thread, classes: Classes, engagement: float | None, depth: Fraction, notes: tuple[Text, ...]
) -> Limits:
    """Return limits by the fit of BS 84.

    thread: A thread with rounded crest and root, in inches.
    classes: Classes asked for; None for medium screws and normal nuts.
    engagement: Length of engagement; None for the diameter. [mm]
    depth: Depth of the form. [in]
    notes: What is worth saying beside them.
    Returns: Worked in inches, each limit to 0.0001 in. [mm]
    Source: BS 84:2007 Annex B; within 0.0001 in of the printed table for BSW and BSF of 1/16 to 6 in.

    >>> from engine.threads.designation import parse
    >>> round(bs84(parse("1/4 BSC"), Classes(None, None), None, Fraction("0.0205"), ()).minor_basic / 25.4, 4)
    0.209
    """
    screw, nut = classes.screw or USUAL[0], classes.nut or USUAL[1]
    diameter = Fraction(round(float(thread.diameter / MM_PER_INCH), 6)).limit_denominator(100_000)
    pitch = float(thread.pitch / MM_PER_INCH)
    length = float(diameter) if engagement is None else engagement / _INCH
    tolerance = 0.002 * float(diameter) ** (1 / 3) + 0.003 * sqrt(length) + 0.005 * sqrt(pitch)
    allowance = 0.3 * tolerance if screw != "close" and diameter <= _ALLOWANCE_UP_TO else 0.0
    factor, minor_factor = _SCREW[screw]
    flat = 0.004 if 1 / pitch >= 26 else 0.005 if 1 / pitch >= 22 else 0.007
    d, h, t, less = _in(float(diameter), "D"), _in(float(depth), "h"), _in(tolerance, "T"), _in(allowance, "allowance")
    major, effective, minor = d - less, d - h - less, d - 2 * h - less
    part = t if factor == 1 else num(factor) * t
    sums: dict[str, Sum] = {
        "pitch_basic": d - h,
        "minor_basic": d - 2 * h,
        "ext_major_max": major,
        "ext_major_min": major.known(symbol="largest") - (part + _root(0.01, pitch)),
        "ext_pitch_max": effective,
        "ext_pitch_min": effective.known(symbol="largest") - part,
        "ext_minor_max": minor,
        "ext_minor_min": minor.known(symbol="largest") - (part + _root(minor_factor, pitch)),
        "int_minor_min": d - 2 * h,
        "int_minor_max": (d - 2 * h).known(symbol="smallest") + num(0.2) * _in(pitch, "p") + _in(flat, "flat"),
        "int_pitch_min": d - h,
        "int_pitch_max": (d - h).known(symbol="smallest") + (t if nut == "medium" else num(_NUT[nut]) * t),
        "int_major_min": d,
        "allowance": num(0.3) * t,
    }
    told = to_inch_places(4, say(f"; {_T}, L = {{length}} engaged", length=_in(length, "")))
    ends: dict[str, Text] = {"pitch_basic": "", "minor_basic": "", "ext_pitch_min": told}
    found = worked(sums, lambda size: _mm(_four(round(size / _INCH, 9))), to_inch_places(4), ends=ends)
    found |= {"pitch_basic": _mm(diameter - depth), "minor_basic": _mm(diameter - 2 * depth)}
    if not allowance:
        found["allowance"], found["working"]["allowance"] = 0.0, "none in this class and size"
    return Limits(screw_class=screw, nut_class=nut, major_basic=thread.diameter, source=_SOURCE, notes=notes, **found)


def borrowing(
    id: str, name: str, place: int, standard: str, sizes: str, *, mark: str, table: str, series: str, why: str,
    depth: str = "0.640327", form: Callable[[Thread], Form] = lambda thread: whitworth(float(thread.pitch), "BS 84"),
) -> Family:  # fmt: skip
    """A family in inches that has no limits of its own, and takes those of BS 84 worked for its sizes; `depth` in pitches,
    `mark` the pattern it is known by."""
    notes = (f"{why}: these are the BS 84 fit worked for this size (common practice, no source)",)

    def limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
        return bs84(thread, classes, engagement, Fraction(depth) * thread.pitch / MM_PER_INCH, notes)

    found: Family = Family(
        id, name, place, standard, sizes,
        read=lambda written, mark: read_pair(written, mark, found, f"{series} special"), write=pair_words,
        pairs=lambda: inch_entries(id, table, series), form=form, limits=limits, marks={id: mark}, classes=CLASSES,
        inch=True, by_engagement=True, usual=USUAL,
    )  # fmt: skip
    return found


def _root(times: float, pitch: float) -> Sum:
    return _in(times * sqrt(pitch), f"{times} p^(1/2)")


def _in(inches: float, symbol: str) -> Sum:
    return mm(inches * _INCH, symbol=symbol)


FAMILY = Family(
    "whitworth", "British Standard Whitworth", 30, "BS 84", "BS 84 (depth rounded to 0.0001 in first)",
    marks={
        "bsw": r"b\.?s\.?w\.?",
        "bsf": r"b\.?s\.?f\.?",
        "whit": r"whit(?:worth)?\.?(?:\s?s(?:pecial)?\.?(?![a-z]))?",
    },
    read=_read, write=pair_words, pairs=lambda: inch_entries("whitworth", "bs84"),
    form=lambda thread: whitworth(float(thread.pitch), "BS 84"), limits=_limits, classes=CLASSES, inch=True,
    by_engagement=True, usual=USUAL,
)  # fmt: skip
