"""Reading Unified designations: `1/4-20 UNC-2A`, `#10-32`, `.190-32 UNF`, `.750-.0625P-.1875L (3 STARTS) UNS-2A`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH
from engine.threads.inch_sizes import NUMBER, SIZE, read_inches, write_inches
from engine.threads.series import Entry, at_diameter, beyond, entries
from engine.threads.thread import Thread
from engine.threads.written import (
    Written,
    check_special,
    count_starts,
    escape,
    plain,
    read_class,
    refuse,
    unread,
)

_SERIES = {"UNC", "UNF", "UNEF", "UN", "UNS"}
# A bare whole number is a number size if its pitch is at most this share of that size.
_NUMBER_CARRIES = Fraction(3, 10)
_LARGEST_NUMBER = 12


@cache
def _body() -> re.Pattern[str]:
    """Size, pitch or threads per inch, lead, and the rest; compiled when the first inch size is read."""
    return re.compile(
        rf"""(?xi) ({SIZE})\s*(?:"|''|inch|in\.?)?\s*
        (?:(?:-|x|\s)\s*(?:({NUMBER})\s*p(?![a-z])|({SIZE})\s*(?:t\.?p\.?i\.?)?)\s*
           (?:[-\s]\s*({NUMBER})\s*l(?![a-z]))?)?\s*(.*)"""
    )


@dataclass(frozen=True, slots=True)
class _Parts:
    """A Unified writing taken apart; size and lead in inches."""

    size: Fraction
    style: str
    tpi: Fraction | None
    lead: Fraction | None
    series: str
    rest: str


def read_unified(written: Written, body: str, series: str, rest: str) -> Thread:
    """Return a Unified thread.

    Parameters
    ----------
    written : Written
        The writing, with its marks taken out.
    body : str
        What stands before the series word, or all of it.
    series : str
        The series word in capitals; "" for none.
    rest : str
        What follows the series word.

    Returns
    -------
    thread : Thread
        The thread.

    Raises
    ------
    BadInput
        If it cannot be used; field `size`.

    Sources
    -------
    ASME B1.1 clause 6; ASME Y14.6 for several starts.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> str(parse(".750-16-.1875L (3 STARTS) UNS-2A"))
    '3/4-16-0.1875L (3 STARTS) UNS-2A'
    """
    parts = _parts(written, body, series, rest)
    entry, name = _choose(written, parts)
    starts = count_starts(written, parts.lead and parts.lead * MM_PER_INCH, entry.pitch)
    tolerance = read_class("unified", written, parts.rest)
    tpi = plain(MM_PER_INCH / entry.pitch)
    size = _size_name(entry, name)
    lead = f"-{plain(entry.pitch * starts / MM_PER_INCH)}L ({starts} STARTS)" if starts > 1 else ""
    tail = [f"{size}-{tpi}{lead} {name}", tolerance, "LH" if written.left_hand else ""]
    return Thread(
        family="unified",
        series=name,
        diameter=float(entry.diameter),
        pitch=entry.pitch,
        starts=starts,
        left_hand=written.left_hand,
        tolerance=tolerance,
        special=entry.listed == "special",
        designation="-".join(part for part in tail if part),
        size=entry.size,
    )


def _parts(written: Written, body: str, series: str, rest: str) -> _Parts:
    found = _body().fullmatch(body)
    if not found:
        raise unread(written)
    size = read_inches(found[1])
    if size is None or (series.replace("R", "", 1) if series else "UN") not in _SERIES:
        raise unread(written)
    tpi = read_inches(found[3])[0] if found[3] and read_inches(found[3]) else None  # type: ignore[index]
    if found[2] and Fraction(found[2]) > 0:
        exact = 1 / Fraction(found[2])
        whole = Fraction(round(exact * 2), 2)
        tpi = whole if abs(whole - exact) <= exact / 200 else exact
    if tpi is not None and tpi <= 0:
        raise unread(written)
    return _Parts(
        size[0], size[1], tpi, Fraction(found[4]) if found[4] else None, series, f"{found[5]} {rest}"
    )


def _choose(written: Written, parts: _Parts) -> tuple[Entry, str]:
    """The pair that is meant and its series name."""
    base = parts.series.replace("R", "", 1)
    rounded_root = "R" in parts.series
    known = [e for size in _sizes(parts) for e in at_diameter("unified", size * MM_PER_INCH)]
    if base == "UNS":
        return _unified_special(written, parts, known), parts.series
    matching = [e for e in known if (parts.tpi is None or e.pitch * parts.tpi == MM_PER_INCH)]
    if parts.tpi is None:
        matching = [e for e in matching if e.series == base] if base else matching
        if len(matching) != 1:
            raise _which(written, matching or known)
    elif base:
        matching = [e for e in matching if e.series == base or base == "UN"]
    if not matching:
        if written.special and parts.tpi is not None:
            return _unified_special(written, parts, known), "UNS"
        raise _no_pair(written, parts, known)
    entry = matching[0]  # UNC, UNF, UNEF stand before the constant-pitch series
    return entry, f"UNR{entry.series[2:]}" if rounded_root else entry.series


def _sizes(parts: _Parts) -> list[Fraction]:
    """What the size may mean: a bare whole number is a number size or whole inches."""
    if parts.style != "whole":
        return [parts.size]
    number = [_number_size(parts.size)] if parts.size <= _LARGEST_NUMBER else []
    return number + ([parts.size] if parts.size else [])


def _number_size(number: Fraction) -> Fraction:
    return (60 + 13 * number) / 1000


def _unified_special(written: Written, parts: _Parts, known: list[Entry]) -> Entry:
    if parts.tpi is None:
        raise refuse(written.text, f"{written.text} needs its threads per inch, such as 1/4-24 UNS")
    pitch = MM_PER_INCH / parts.tpi
    for entry in known:
        if entry.pitch == pitch:
            return entry
    sizes = _sizes(parts)
    size = sizes[0] if len(sizes) == 1 or 1 / parts.tpi <= _NUMBER_CARRIES * sizes[0] else sizes[1]
    check_special(written, size * MM_PER_INCH, pitch)
    return Entry("unified", "UNS", _named_size(size), size * MM_PER_INCH, pitch, "special")


def _named_size(size: Fraction) -> str:
    number = (size * 1000 - 60) / 13
    if number.denominator == 1 and 0 <= number <= 12:
        return f"#{number}"
    return write_inches(size, joint="-")


def _size_name(entry: Entry, series: str) -> str:
    """The size as ASME B1.1 writes it; whole inches with decimals where a number size might be read."""
    name = _named_size(entry.diameter / MM_PER_INCH)
    if name.isdigit() and series.endswith("S"):
        number = _number_size(Fraction(name))
        if int(name) <= _LARGEST_NUMBER and entry.pitch <= _NUMBER_CARRIES * number * MM_PER_INCH:
            return f"{name}.000"
    return name.removeprefix("#")


def _pair_name(entry: Entry) -> str:
    size = entry.size.replace(" ", "-")
    return f"{size}-{plain(MM_PER_INCH / entry.pitch)} {entry.series}"


def _which(written: Written, known: list[Entry]) -> Exception:
    """The refusal of a size that fits several pairs, or none."""
    if not known:
        if held := _held(written):
            return refuse(written.text, f"{written.text} is outside the tables here, which hold {held}")
        return refuse(written.text, f"{written.text} is no size of ASME B1.1{_nearest(written)}")
    named = [_pair_name(e) for e in known[:6]]
    if re.fullmatch(r"[0-9.]+", written.body):
        named.insert(0, f"M{written.body}")
    choices = ", ".join(named)
    other = (
        "" if re.search(r"(?i)un", written.body) else " or another series (BSW, BSF, ME, BSB, BSC, G, R, NPT)"
    )
    return refuse(written.text, f"{written.text} may be {choices}{other}; write which", choices)


def _held(written: Written) -> str:
    """The sizes that the tables hold, if the one written lies outside them."""
    found = re.match(rf"(?i)({SIZE})", written.body)
    size = read_inches(found[1]) if found else None
    ends = beyond("unified", size[0] * MM_PER_INCH) if size else None
    return f"ASME B1.1 from {ends[0].size} to {ends[1].size} in" if ends else ""


def _nearest(written: Written) -> str:
    found = re.match(rf"(?i)({SIZE})", written.body)
    size = read_inches(found[1]) if found else None
    if size is None:
        return ""
    near = sorted(entries("unified"), key=lambda e: abs(e.diameter - size[0] * MM_PER_INCH))
    return f": the nearest is {_pair_name(near[0])}"


def _no_pair(written: Written, parts: _Parts, known: list[Entry]) -> Exception:
    tpi = plain(parts.tpi or 0)
    size = _sizes(parts)[-1]
    name = f"{_named_size(size)}-{tpi}"
    pitch = MM_PER_INCH / (parts.tpi or 1)
    same = [e for e in known if e.diameter == size * MM_PER_INCH] or known
    same = sorted(same, key=lambda e: abs(e.pitch - pitch))[:4]
    choices = ", ".join(_pair_name(e) for e in same)
    near = choices or _nearest(written).removeprefix(": ")
    shown = f"{name} {parts.series}".strip()
    held = "" if choices else _held(written)
    meant = escape(name, size * MM_PER_INCH, pitch, "UNS")
    if held:
        return refuse(written.text, f"{shown} is outside the tables here, which hold {held}{meant}", held)
    return refuse(written.text, f"{shown} is not a pair of ASME B1.1: {near}{meant}", near)
