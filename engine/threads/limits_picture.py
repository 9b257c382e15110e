"""The limits drawn as bars: screw against nut, each diameter from its own basic size."""

from __future__ import annotations

from math import floor, log10

from engine.base.answer import Label, Line, Picture, Shape
from engine.base.outlines import box
from engine.base.words import Text, bare, general, joined, say, shown
from engine.threads.thread import Thread
from engine.threads.told import Limits

_HALF = 30.0  # mm of paper on either side of the basic size
_BAR = 3.0  # mm: height of a bar
_GROUP = 12.0  # mm from one diameter to the next
_Row = tuple[str, str, str, str, str, str | None]
_ROWS: tuple[_Row, ...] = (
    ("Major", "major_basic", "ext_major_min", "ext_major_max", "int_major_min", None),
    ("Pitch", "pitch_basic", "ext_pitch_min", "ext_pitch_max", "int_pitch_min", "int_pitch_max"),
    ("Minor", "minor_basic", "ext_minor_min", "ext_minor_max", "int_minor_min", "int_minor_max"),
)


def limits_picture(thread: Thread, limits: Limits) -> Picture | None:
    """Draw the limits of a screw and its nut as bars on an exaggerated scale; None where there are none.

    >>> from engine.base.words import write
    >>> from engine.threads.designation import parse
    >>> from engine.threads.limits import limits
    >>> write(limits_picture(parse("M10"), limits(parse("M10"))).alt)[:61]
    'Limits as bars, deviations from the basic size drawn 50 times'
    """
    rows = [row for row in _ROWS if any(_value(limits, name) is not None for name in row[2:])]
    sizes = [(getattr(limits, row[1]), _value(limits, name)) for row in rows for name in row[2:]]
    spans = [abs(value - basic) for basic, value in sizes if value is not None]
    if not spans or max(spans) == 0:
        return None
    scale = _round_scale(_HALF / max(spans))
    shapes: list[Shape] = []
    for index, row in enumerate(rows):
        shapes += _group(limits, row, (len(rows) - index) * _GROUP, scale)
    shapes.append(Line(0.0, 0.0, 0.0, len(rows) * _GROUP - _BAR, 2))
    text = (
        "Limits as bars, deviations from the basic size drawn {scale} times as large; filled: screw, open: nut. {rows}."
    )
    alt = say(text, scale=general(scale), rows=joined([_words(limits, row) for row in rows], "; "))
    return Picture("limits", f"{thread}: screw (filled) against nut (open)", tuple(shapes), alt)


def _value(limits: Limits, name: str | None) -> float | None:
    return limits.size(name) if name else None


def _round_scale(largest: float) -> float:
    """The largest of 1, 2, 5, 10, 20 ... that still fits."""
    power = 10.0 ** floor(log10(largest))
    return max(step * power for step in (1, 2, 5) if step * power <= largest)


def _group(limits: Limits, row: _Row, top: float, scale: float) -> list[Shape]:
    _, basic_name, screw_low, screw_high, nut_low, nut_high = row
    basic = getattr(limits, basic_name)
    shapes: list[Shape] = [Label(-_HALF, top, _words(limits, row), "start")]
    if screw := _ends(limits, screw_low, screw_high, basic, scale):
        shapes.append(box(screw[0], top - 2 * _BAR, screw[1], top - _BAR, filled=True))
    if nut := _ends(limits, nut_low, nut_high, basic, scale):
        shapes.append(box(nut[0], top - 3 * _BAR - 0.5, nut[1], top - 2 * _BAR - 0.5))
    return shapes


def _ends(
    limits: Limits, low_name: str, high_name: str | None, basic: float, scale: float
) -> tuple[float, float] | None:
    """The ends of a bar on paper; one that has no limit on a side runs to the edge there."""
    low, high = _value(limits, low_name), _value(limits, high_name)
    if low is None and high is None:
        return None
    left = -_HALF if low is None else (low - basic) * scale
    right = _HALF if high is None else (high - basic) * scale
    return left, max(right, left)


def _words(limits: Limits, row: _Row) -> Text:
    """One diameter in words."""
    name, basic, *rest = row
    screw, nut = _span("screw", limits, rest[0], rest[1]), _span("nut", limits, rest[2], rest[3])
    said = joined([part for part in (screw, nut) if part])
    return say("{name} {basic}: {said}", name=name, basic=shown(getattr(limits, basic)), said=said)


def _span(whose: str, limits: Limits, low_name: str | None, high_name: str | None) -> Text:
    low, high = _value(limits, low_name), _value(limits, high_name)
    smallest = "" if low is None else bare(low, side="up")
    largest = "" if high is None else bare(high, side="down")
    if not smallest and not largest:
        return ""
    if smallest and largest:
        return say(f"{whose} {{smallest}} to {{largest}}", smallest=smallest, largest=largest)
    return say(f"{whose} {'from' if smallest else 'to'} {{size}}", size=smallest or largest)
