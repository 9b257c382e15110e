"""What the engine says, before a door knows the unit and the words of the person: templates with quantities in them.

A `Text` is a plain string, a Sum, a quantity, or a template: `say("at least {width} wide", width=shown(0.75))`. A door
writes it with `write(text, unit)`, and puts it into the words of its shop with `in_words`. Nothing in the engine
formats a number; a change of unit only writes the same texts again.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache
from typing import Literal

from engine.base.quantity import bounds_text, show, show_number, show_plain, worked
from engine.base.records import dataclass, replace
from engine.base.rounding import Side
from engine.base.sums import Sum, written

Form = Literal["shown", "bare", "plain", "put", "span"]


@dataclass(frozen=True, slots=True)
class Shown:
    """A quantity in a text. `form`: with its unit, bare digits, without noughts that say nothing, as put into a
    working, or a pair of limits. `own`: the unit it is always said in (a dial, an old law), "" as the screen."""

    value: float
    dimension: str
    form: Form = "shown"
    decimals: int | None = None
    side: Side = "nearest"
    high: float | None = None
    own: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """A template and what stands in its braces. `symbols`: sums in it are written with their symbols."""

    template: str
    parts: Mapping[str, Text]
    symbols: bool = False


Text = str | Said | Shown | Sum


def say(template: str, **parts: Text | int) -> Said:
    """A text with quantities in its braces; a whole number may stand as it is."""
    return Said(template, {k: str(v) if isinstance(v, int) else v for k, v in parts.items()})


def formula(x: Sum) -> Said:
    """A sum written with the symbols of its leaves."""
    return Said("{x}", {"x": x}, symbols=True)


def shown(
    value: float | Sum, dimension: str = "length", *, decimals: int | None = None, side: Side = "nearest"
) -> Shown:
    """A quantity with its unit, rounded as its dimension usually is."""
    if isinstance(value, Sum):
        return Shown(float(value.value), value.dimension, "shown", decimals, side)
    return Shown(float(value), dimension, "shown", decimals, side)


def bare(value: float, dimension: str = "length", *, decimals: int | None = None, side: Side = "nearest") -> Shown:
    """The same without its unit."""
    return Shown(float(value), dimension, "bare", decimals, side)


def plain(value: float, dimension: str = "length") -> Shown:
    """A quantity with its unit and without noughts that say nothing: 500 mm."""
    return Shown(float(value), dimension, "plain")


def put(value: float | Fraction, dimension: str = "length") -> Shown:
    """Digits as they are put into a working: six at most, no unit."""
    return Shown(float(value), dimension, "put")


def span(low: float | None, high: float | None, dimension: str = "length", decimals: int | None = None) -> Shown:
    """A pair of limits, sizes rounded inwards: 19.981 to 20.019. Either may be missing."""
    return Shown(float("nan") if low is None else low, dimension, "span", decimals, "nearest", high)


def figures(value: float, decimals: int = 0) -> Shown:
    """A bare number with so many decimals: a count of diameters, rev/min without their name."""
    return Shown(float(value), "ratio", "bare", decimals)


def general(value: float) -> Shown:
    """A bare number as short as it can be written: 29.5, 3."""
    return Shown(float(value), "ratio", "put")


def own(shown_there: Shown, unit: str) -> Shown:
    """The same quantity, always in that unit: what stands on a machine's dial or in an old law is never converted."""
    return replace(shown_there, own=unit)


def counted(count: int, one: str, many: str = "") -> str:
    """A count with its noun: 1 turn, 2 turns."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def joined(texts: Iterable[Text], between: str = ", ") -> Said:
    """Several texts in a row."""
    parts = {f"t{i}": text for i, text in enumerate(texts)}
    return Said(between.join(f"{{{name}}}" for name in parts), parts)


def write(text: Text, unit: str = "mm") -> str:
    """Write a text for a screen in `mm` or `inch`.

    >>> gap = say("leave {gap} before the shoulder, {times} pitches", gap=shown(3.0, decimals=1), times=2)
    >>> write(gap), write(gap, "inch")
    ('leave 3.0 mm before the shoulder, 2 pitches', 'leave 0.12 in before the shoulder, 2 pitches')
    """
    return _plain(text, unit, False)


def _plain(text: Text, unit: str, symbols: bool) -> str:
    if isinstance(text, str):
        return text
    if isinstance(text, Sum):
        return written(text, unit, symbols=symbols)
    if isinstance(text, Shown):
        return _shown(text, text.own or unit)
    return text.template.format_map({k: _plain(v, unit, text.symbols) for k, v in text.parts.items()})


def _shown(quantity: Shown, unit: str) -> str:
    value, dimension, decimals, side = quantity.value, quantity.dimension, quantity.decimals, quantity.side
    if quantity.form == "shown":
        return show(value, dimension, unit, decimals=decimals, side=side)
    if quantity.form == "bare":
        return show_number(value, dimension, unit, decimals=decimals, side=side)
    if quantity.form == "plain":
        return show_plain(value, dimension, unit)
    if quantity.form == "put":
        return worked(value, unit, dimension)
    return bounds_text(None if value != value else value, quantity.high, unit, dimension, decimals)


# What somebody has written or named stands as it is: words in “ ”, files, paths.
_OWN = r"“[^”]*”|(?<!\S)(?:~|\.{1,2})?/\S+|\S+\.(?:toml|svg|dxf|html|pdf|txt)\b"


@cache
def _american() -> tuple[re.Pattern[str], Mapping[str, str]]:
    from engine.base.tables import rows

    table = {row["british"]: row["american"] for row in rows("words.csv")}
    longest_first = sorted(table, key=len, reverse=True)
    words = r"\b(?:" + "|".join(map(re.escape, longest_first)) + r")\b"
    return re.compile(f"{_OWN}|{words}", re.IGNORECASE), table


def in_words(text: str, words: str) -> str:
    """A text in `british` or `american` words of the trade: the engine writes British ones, one table has the others.
    What stands in “ ” and names of files are somebody's own words, and stay.

    >>> in_words("Clamp it in the vice", "american"), in_words("“by the vice”, vice.toml", "american")
    ('Clamp it in the vise', '“by the vice”, vice.toml')
    """
    if words != "american" or not text:
        return text
    pattern, table = _american()

    def other(found: re.Match[str]) -> str:
        there = table.get(found[0].lower()) or table.get(found[0], found[0])
        return there[0].upper() + there[1:] if found[0][0].isupper() else there

    return pattern.sub(other, text)
