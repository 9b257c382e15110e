"""Unified threads: 1/4-20 UNC-2A, #10-32, .190-32 UNF, .750-.0625P-.1875L (3 STARTS) UNS-2A, 1/4-24 UNS."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import cache

from engine.base.quantity import INCH_MM, MM_PER_INCH
from engine.base.records import dataclass, replace
from engine.base.sums import Sum, mm, num
from engine.base.words import Text, say
from engine.threads.form import sixty
from engine.threads.inch_pairs import around, pair_words
from engine.threads.inch_sizes import INCH_MARK, NUMBER, SIZE, number_size, read_inches, write_inches
from engine.threads.limits import ruled, sized, to_inch_places
from engine.threads.series import at_diameter, beyond, entries, inch_entries
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Area, Classes, Entry, Limits, Written
from engine.threads.written import check_special, count_starts, escape, made, plain, read_class, refuse, unread

_SERIES = {"UNC", "UNF", "UNEF", "UN", "UNS"}
# A bare whole number is a number size if its pitch is at most this share of that size.
_NUMBER_CARRIES = Fraction(3, 10)
_LARGEST_NUMBER = 12
_SAID_TWICE = r"(.+[-x\s]\s*([0-9]{1,2}))[\s-]+\2-?"  # 1 1/8-8 8UN: the series of constant pitch by its number


@cache
def _body() -> re.Pattern[str]:
    """Size, inch mark, pitch or threads per inch, lead, and the rest; compiled when the first inch size is read."""
    return re.compile(
        rf"""(?xi) (?P<size>{SIZE})\s*(?P<mark>{INCH_MARK})?\s*
        (?:(?:-|x|\s)\s*(?:(?P<pitch>{NUMBER})\s*p(?![a-z])|(?P<tpi>{SIZE})\s*(?:t\.?p\.?i\.?)?)\s*
           (?:[-\s]\s*(?P<lead>{NUMBER})\s*l(?![a-z]))?)?\s*(?P<rest>.*)"""
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


def _read(written: Written, mark: Mark) -> Thread:
    """ASME B1.1 clause 6; ASME Y14.6 for several starts."""
    size_text, rest = around(written, mark)
    if said_twice := re.fullmatch(_SAID_TWICE, size_text):
        size_text = said_twice[1]
    parts = _parts(written, size_text, "".join(mark.word.upper().split()), rest)
    entry, name = _choose(written, parts)
    starts = count_starts(written, parts.lead and parts.lead * MM_PER_INCH, entry.pitch)
    tolerance = read_class("unified", written, parts.rest)
    size, tpi = _size_name(entry, name), plain(MM_PER_INCH / entry.pitch)
    lead = f"-{plain(entry.pitch * starts / MM_PER_INCH)}L ({starts} STARTS)" if starts > 1 else ""
    tail = [f"{size}-{tpi}{lead} {name}", tolerance, "LH" if written.left_hand else ""]
    designation = "-".join(part for part in tail if part)
    return made(written, replace(entry, series=name), designation, starts, tolerance)


def _parts(written: Written, body: str, series: str, rest: str) -> _Parts:
    found = _body().fullmatch(body)
    size = read_inches(found["size"]) if found else None
    if not found or size is None or (series.replace("R", "", 1) if series else "UN") not in _SERIES:
        raise unread(written)
    count = read_inches(found["tpi"]) if found["tpi"] else None
    tpi = count[0] if count else None
    if found["pitch"] and Fraction(found["pitch"]) > 0:
        exact = 1 / Fraction(found["pitch"])
        whole = Fraction(round(exact * 2), 2)
        tpi = whole if abs(whole - exact) <= exact / 200 else exact
    if tpi is not None and tpi <= 0:
        raise unread(written)
    style = "inches" if found["mark"] and size[1] == "whole" else size[1]
    lead = Fraction(found["lead"]) if found["lead"] else None
    return _Parts(size[0], style, tpi, lead, series, f"{found['rest']} {rest}")


def _choose(written: Written, parts: _Parts) -> tuple[Entry, str]:
    """The pair that is meant and its series name."""
    base = parts.series.replace("R", "", 1)
    known = [e for size in _sizes(parts) for e in at_diameter("unified", size * MM_PER_INCH)]
    if base == "UNS":
        return _special(written, parts, known), parts.series
    matching = [e for e in known if (parts.tpi is None or e.pitch * parts.tpi == MM_PER_INCH)]
    if parts.tpi is None:
        matching = [e for e in matching if e.series == base] if base else matching
        if len(matching) != 1:
            raise _which(written, matching or known)
    elif base:
        matching = [e for e in matching if e.series == base or base == "UN"]
    if not matching:
        if written.special and parts.tpi is not None:
            return _special(written, parts, known), "UNS"
        raise _no_pair(written, parts, known)
    entry = matching[0]  # UNC, UNF, UNEF stand before the constant-pitch series
    return entry, f"UNR{entry.series[2:]}" if "R" in parts.series else entry.series


def _sizes(parts: _Parts) -> list[Fraction]:
    """What the size may mean: a bare whole number is a number size or whole inches."""
    if parts.style != "whole":
        return [parts.size]
    number = [number_size(parts.size)] if parts.size <= _LARGEST_NUMBER else []
    return number + ([parts.size] if parts.size else [])


def _special(written: Written, parts: _Parts, known: list[Entry]) -> Entry:
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
    if number.denominator == 1 and 0 <= number <= _LARGEST_NUMBER:
        return f"#{number}"
    return write_inches(size, joint="-")


def _size_name(entry: Entry, series: str) -> str:
    """The size as ASME B1.1 writes it; whole inches with decimals where a number size might be read."""
    name = _named_size(entry.diameter / MM_PER_INCH)
    if name.isdigit() and series.endswith("S"):
        number = number_size(int(name))
        if int(name) <= _LARGEST_NUMBER and entry.pitch <= _NUMBER_CARRIES * number * MM_PER_INCH:
            return f"{name}.000"
    return name.removeprefix("#")


def _pair_name(entry: Entry) -> str:
    return f"{entry.size.replace(' ', '-')}-{plain(MM_PER_INCH / entry.pitch)} {entry.series}"


def _which(written: Written, known: list[Entry]) -> Exception:
    """The refusal of a size that fits several pairs, or none."""
    if not known:
        if held := _held(written):
            return refuse(written.text, f"{written.text} is outside the tables here, which hold {held}")
        return refuse(written.text, f"{written.text} is no size of ASME B1.1{_nearest(written)}")
    named = [_pair_name(e) for e in known[:6]]
    if re.fullmatch(NUMBER, written.body) and _coarse(Fraction(written.body)):
        named.insert(0, f"M{written.body}")
    choices = ", ".join(named)
    marked = re.search(r"(?i)un", written.body)
    other = "" if marked else " or another series (BSW, BSF, ME, BSB, BSC, G, R, NPT)"
    return refuse(written.text, f"{written.text} may be {choices}{other}; write which", choices)


def _coarse(size: Fraction) -> bool:
    return any(entry.series == "coarse" for entry in at_diameter("metric", size))


def _size_of(written: Written) -> Fraction | None:
    found = re.match(rf"(?i)({SIZE})", written.body)
    size = read_inches(found[1]) if found else None
    return size[0] if size else None


def _held(written: Written) -> str:
    """The sizes that the tables hold, if the one written lies outside them."""
    size = _size_of(written)
    ends = beyond("unified", size * MM_PER_INCH) if size is not None else None
    return f"ASME B1.1 from {ends[0].size} to {ends[1].size} in" if ends else ""


def _nearest(written: Written) -> str:
    size = _size_of(written)
    if size is None:
        return ""
    near = min(entries("unified"), key=lambda e: abs(e.diameter - size * MM_PER_INCH))
    return f": the nearest is {_pair_name(near)}"


def _no_pair(written: Written, parts: _Parts, known: list[Entry]) -> Exception:
    size, tpi = _sizes(parts)[-1], plain(parts.tpi or 0)
    pitch = MM_PER_INCH / (parts.tpi or 1)
    same = [e for e in known if e.diameter == size * MM_PER_INCH] or known
    same = sorted(same, key=lambda e: abs(e.pitch - pitch))[:4]
    choices = ", ".join(_pair_name(e) for e in same)
    near = choices or _nearest(written).removeprefix(": ")
    name = f"{_named_size(size)}-{tpi}"
    said = f"{name} {parts.series}".strip()
    held = "" if choices else _held(written)
    meant = escape(name, size * MM_PER_INCH, pitch, "UNS")
    if held:
        return refuse(written.text, f"{said} is outside the tables here, which hold {held}{meant}", held)
    return refuse(written.text, f"{said} is not a pair of ASME B1.1: {near}{meant}", near)


# Limits: the formulas and the rounding of ASME B1.1.

_FACTORS = {"1A": "1.5", "2A": "1", "3A": "0.75", "1B": "1.95", "2B": "1.3", "3B": "0.975"}
_SOURCE = "ASME B1.1-2019: formulas and six-decimal rounding (worked examples, Machinery's Handbook, 31st ed., p. 2011)"
_SMALL = Decimal("0.138")  # in; from here nut minor diameters are rounded to 3 decimals
_PLACES = {n: Decimal(1).scaleb(-n) for n in (3, 4, 6, 8)}
_T = "0.0015 D^(1/3) + 0.0015 LE^(1/2) + 0.015 P^(2/3) in inches"


def _round(value: float | Decimal, places: int) -> Decimal:
    number = value if isinstance(value, Decimal) else Decimal(repr(value))
    return number.quantize(_PLACES[places], ROUND_HALF_UP)


def _mm(inches: Decimal) -> float:
    return float(inches * Decimal(str(INCH_MM)))


def _in(inches: Decimal, symbol: str) -> Sum:
    return mm(_mm(inches), symbol=symbol)


def _engagement(thread: Thread, diameter: float, pitch: float, engagement: float | None) -> tuple[float, Text]:
    """Length of engagement in inches and what it is called in the working: D, or 9 P of a fine constant pitch."""
    if engagement is not None:
        return engagement / float(MM_PER_INCH), mm(engagement)
    base = thread.series.replace("R", "", 1)
    constant = base in ("UNEF", "UNS") or (base == "UN" and thread.threads_per_inch > 8)
    return (9 * pitch, "9 P") if constant else (diameter, "D")


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.1-2019: each limit is built on limits already rounded (worked examples, Machinery's Handbook, 31st ed.,
    pp. 2011-2016)."""
    screw, nut = classes.screw or FAMILY.usual[0], classes.nut or FAMILY.usual[1]
    # To four decimals, as the worked examples take it (19/64 in is 0.2969).
    diameter = _round(thread.diameter / float(MM_PER_INCH), 4)
    pitch = _round(float(thread.pitch / MM_PER_INCH), 8)
    length, length_name = _engagement(thread, float(diameter), float(pitch), engagement)
    tolerance = _round(0.0015 * float(diameter) ** (1 / 3) + 0.0015 * length**0.5 + 0.015 * float(pitch) ** (2 / 3), 6)
    height = _round(Decimal("0.64951905") * pitch, 6)
    rows = _screw_side(screw, diameter, pitch, height, tolerance, length_name)
    rows |= _nut_side(nut, diameter, pitch, height, tolerance)
    return Limits(
        screw_class=screw, nut_class=nut, major_basic=thread.diameter, source=_SOURCE,
        notes=_notes(float(diameter), float(pitch), length, engagement),
        sources={"ext_minor_max": "ASME B1.1-2019, UNR minor diameter, a reference figure good to 0.0001 in"},
        **sized({name: (_mm(inches), working) for name, (inches, working) in rows.items()}),
    )  # fmt: skip


def _notes(diameter: float, pitch: float, length: float, engagement: float | None) -> tuple[str, ...]:
    notes = []
    if engagement is not None and not 5 * pitch <= length <= 15 * pitch and length > 1.5 * diameter:
        notes.append("the engagement is longer than ASME B1.1 has its tolerances for (1.5 D, or 15 P)")
    notes.append(
        "tables before 2003 round each tolerance to 4 decimals: they may differ by 0.0001 in, 2B minor by 0.001 in"
    )
    return tuple(notes)


def _screw_side(
    name: str, diameter: Decimal, pitch: Decimal, height: Decimal, tolerance: Decimal, length_name: Text
) -> dict[str, tuple[Decimal, Text]]:
    """Each size of the screw in inches, with its working."""
    allowance = _round(_round(Decimal("0.3") * tolerance, 6), 4) if name != "3A" else Decimal(0)
    factor = 0.09 if name == "1A" else 0.06
    crest = _round(factor * float(pitch) ** (2 / 3), 6)
    flank = _round(Decimal(_FACTORS[name]) * tolerance, 6)
    major_max = _round(diameter - allowance, 4)
    pitch_max = _round(major_max - height, 4)
    minor_max = _round(major_max - _round(Decimal("1.19078493") * pitch, 6), 4)
    largest, p, to, rounded = _in(major_max, "largest major"), _in(pitch, "P"), to_inch_places(4), " (rounded root)"
    times = "" if name == "2A" else f"{_FACTORS[name]} x "
    rule = say(f"; tolerance {times}({_T}), engagement LE = {{length}}", length=length_name)
    least = ruled(_in(major_max, "largest") - _in(crest, f"{factor} P^(2/3)"), to)
    thin = ruled(_in(pitch_max, "largest") - _in(flank, "tolerance"), to_inch_places(4, rule))
    room = say("{sum}{to}", sum=num(0.3) * _in(tolerance, ""), to=to) if allowance else "none in class 3A"
    return {
        "ext_major_max": (major_max, ruled(_in(diameter, "D") - _in(allowance, "allowance"), to)),
        "ext_major_min": (_round(major_max - crest, 4), least),
        "ext_pitch_max": (pitch_max, ruled(largest - _in(height, "0.64951905 P"), to)),
        "ext_pitch_min": (_round(pitch_max - flank, 4), thin),
        "ext_minor_max": (minor_max, ruled(largest - num(1.19078493) * p, to_inch_places(4, rounded))),
        "allowance": (allowance, room),
    }


def _minor_tolerance(name: str, diameter: float, pitch: float, per_inch: float) -> tuple[float, str]:
    """Tolerance of a nut's minor diameter in inches, and its rule."""
    coarse_rule = 0.25 * pitch - 0.4 * pitch**2, "0.25 P - 0.4 P^2"
    if name != "3B" and diameter >= 0.25:
        return coarse_rule if per_inch >= 4 else (0.15 * pitch, "0.15 P")
    small = min(0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002, 0.394 * pitch)
    if name != "3B":
        floor = coarse_rule
    elif per_inch >= 13:
        floor = 0.23 * pitch - 1.5 * pitch**2, "0.23 P - 1.5 P^2"
    else:
        floor = 0.12 * pitch, "0.12 P"
    return floor if floor[0] > small else (small, "0.05 P^(2/3) + 0.03 P/D - 0.002, at most 0.394 P")


def _nut_side(
    name: str, diameter: Decimal, pitch: Decimal, height: Decimal, tolerance: Decimal
) -> dict[str, tuple[Decimal, Text]]:
    pitch_min = _round(diameter - height, 4)
    flank = _round(Decimal(_FACTORS[name]) * tolerance, 6)
    minor = _round(diameter - _round(Decimal("1.08253175") * pitch, 6), 6)
    size, rule = _minor_tolerance(name, float(diameter), float(pitch), 1 / float(pitch))
    crest = _round(size, 6)
    low, high = (3 if diameter >= _SMALL else 4), (3 if diameter >= _SMALL and name != "3B" else 4)
    d, p = _in(diameter, "D"), _in(pitch, "P")
    effective, across = ruled(d - _in(height, "0.64951905 P"), to_inch_places(4)), d - num(1.08253175) * p
    wide = ruled(_in(minor, "basic") + _in(crest, rule), to_inch_places(high))
    thick = _in(pitch_min, "smallest") + num(float(_FACTORS[name])) * _in(tolerance, "T")
    return {
        "int_minor_min": (_round(minor, low), ruled(across, to_inch_places(low))),
        "int_minor_max": (_round(minor + crest, high), wide),
        "int_pitch_min": (pitch_min, effective),
        "int_pitch_max": (_round(pitch_min + flank, 4), ruled(thick, to_inch_places(4, f"; T = {_T}"))),
        "int_major_min": (_round(diameter, 4), ruled(d)),
        "pitch_basic": (pitch_min, effective),
        "minor_basic": (_round(minor, 4), ruled(across, to_inch_places(4))),
    }


def _stress_area(thread: Thread) -> Area:
    """FED-STD-H28/2B, formula 1b: 0.7854 (D - 0.9743/n)^2, which is D - 0.9743 P squared."""
    inches, tpi = thread.diameter / INCH_MM, float(thread.threads_per_inch)
    value = 0.7854 * (inches - 0.9743 / tpi) ** 2 * INCH_MM**2
    across = mm(thread.diameter) - num(0.9743) * mm(float(thread.pitch))
    return Area(value, "FED-STD-H28/2B, formula 1b", num(0.7854) * across**2)


FAMILY = Family(
    "unified", "Unified", 20, "ASME B1.1", "ASME B1.1", marks={"unified": r"un\s?r?\s?(?:ef|c|f|s)?"}, bare="-x",
    read=_read, write=pair_words, pairs=lambda: inch_entries("unified", "asme_b1_1"),
    form=lambda thread: sixty(float(thread.pitch), "ASME B1.1"), limits=_limits,
    classes=Grammar(
        "[123]A", "[123]B", "1A, 2A or 3A for a screw, 1B, 2B or 3B for a nut (such as 2A)", letters="upper"
    ),
    inch=True, by_engagement=True, stress_area=_stress_area, inch_drills=True, bolts="asme", usual=("2A", "2B"),
    chart_depth=1.299038,
)  # fmt: skip
