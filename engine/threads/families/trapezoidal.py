"""ISO trapezoidal threads: Tr12x3, Tr14x6(P3), Tr40x14(P7)LH-7e."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from engine.base.records import replace
from engine.base.sums import Sum, mm, num
from engine.base.tables import rows
from engine.base.words import put, say
from engine.threads.form import form, trapezoid
from engine.threads.iso965 import (
    LARGEST,
    SMALLEST,
    Tolerance,
    deviation,
    diameter_range,
    nut_minor_tolerance,
    pitch_by_formula,
    screw_major_tolerance,
)
from engine.threads.limits import worked
from engine.threads.metric_sizes import NUM, fraction, no_diameter, pair
from engine.threads.series import at_diameter, metric_entries
from engine.threads.stress import mean_area
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Limits, Written
from engine.threads.written import count_starts, made, plain, read_class, refuse, unread

_OUTSIDE = "no tolerances are held above 355 mm: sizes by the form, no limits"
_BY_FORMULA = (
    "ISO 2903 has no tolerance for this pair: those of the ISO metric formulas, which may be one step (6 %) off"
)
_WRITTEN = rf"(?xi) tr\s*{NUM}\s*(?:x\s*{NUM}\s*(?:\(\s*p\s*{NUM}\s*\)|p\s*{NUM})?)?\s*(.*)"


def _read(written: Written, mark: Mark) -> Thread:
    """ISO 2902, ISO 2904: diameter, pitch or lead with pitch, hand, class."""
    found = re.fullmatch(_WRITTEN, written.body)
    if not found:
        raise unread(written)
    diameter, first, bracketed, joined, rest = found.groups()
    size = Fraction(diameter.rstrip("."))
    second = fraction(bracketed or joined)
    pitch = second if second is not None else fraction(first)
    if pitch is None:
        known = at_diameter("tr", size)
        if not known:
            raise no_diameter(written, FAMILY, size, None)
        choices = " or ".join(f"Tr{plain(size)}x{plain(e.pitch)}" for e in known)
        raise refuse(written.text, f"Tr{plain(size)} needs its pitch: {choices}", choices)
    entry = pair(written, FAMILY, size, pitch)
    starts = count_starts(written, fraction(first) if second is not None else None, entry.pitch)
    tolerance = read_class("tr", written, rest)
    marked = f"(P{plain(entry.pitch)})" if starts > 1 else ""
    name = f"Tr{plain(size)}x{plain(entry.pitch * starts)}{marked}" + ("LH" if written.left_hand else "")
    special = " special" if entry.series == "special" else ""
    name += (f"-{tolerance}" if tolerance else "") + special
    return made(written, replace(entry, series="Tr"), name, starts, tolerance)


def _clearance(thread: Thread) -> float:
    """ISO 2904: ac by pitch."""
    pitch = thread.pitch
    return 0.15 if pitch < 2 else 0.25 if pitch <= 5 else 0.5 if pitch <= 12 else 1.0


@cache
def _by_pitch() -> dict[float, dict[str, str]]:
    return {float(row["pitch"]): row for row in rows("threads/iso2903.csv")}


@cache
def _by_range() -> dict[tuple[float, float], dict[str, str]]:
    table = rows("threads/iso2903_pitch_diameter.csv")
    return {(float(row["upto"]), float(row["pitch"])): row for row in table}


def _value(pitch: float, column: str) -> Tolerance:
    """es of a position, Td (4h) or TD1 (4H) of a pitch; for other pitches the formulas of the ISO metric system."""
    row = _by_pitch().get(pitch)
    if row is not None:
        mark = ", from memory" if row["standing"] == "memory" or column in ("td1", "es_c") else ""
        return Tolerance(float(row[column]) / 1000, f"ISO 2903{mark}")
    if column.startswith("es"):
        e = -deviation(pitch, "e").value
        if column == "es_c":
            return Tolerance(2 * e, "twice position e of the ISO 965-1 formulas, not in ISO 2903")
        return Tolerance(e, "ISO 965-1 formulas, not in ISO 2903")
    found = screw_major_tolerance(pitch, "4") if column == "td" else nut_minor_tolerance(pitch, "4")
    return Tolerance(found.value, "ISO 965-1, grade 4, not in ISO 2903")


def _pitch_tolerance(diameter: float, pitch: float, grade: str, *, nut: bool) -> Tolerance:
    row = _by_range().get((diameter_range(diameter)[1], pitch))
    if row is not None:
        column = f"{'nut' if nut else 'td2'}_{grade}"
        mark = "" if row["standing"] == "read" and column == "td2_7" else ", from memory"
        return Tolerance(float(row[column]) / 1000, f"ISO 2903{mark}")
    found = pitch_by_formula(diameter, pitch, grade, nut=nut)
    return Tolerance(found.value, f"ISO 965-1 formulas, grade {grade}, not in ISO 2903")


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ISO 2903, ISO 2904: medium fit 7e and 7H, coarse 8e or 8c and 8H or 9H. Tr12x3 - 7e: pitch diameter 10.191 to
    10.415; the minor of the screw has the deviation of its class, the nut none."""
    diameter, pitch, gap = thread.diameter, float(thread.pitch), _clearance(thread)
    screw, nut = classes.screw or FAMILY.usual[0], classes.nut or FAMILY.usual[1]
    d, p, ac = mm(diameter, symbol="d"), mm(pitch, symbol="P"), mm(gap, symbol="clearance")
    effective, minor, core = d - p / 2, d - p, d - p - 2 * ac
    basic = worked({"pitch_basic": effective, "minor_basic": minor}, float)
    basic |= {"screw_class": screw, "nut_class": nut, "major_basic": diameter, "source": "ISO 2904"}
    if not SMALLEST < diameter <= LARGEST:
        return Limits(**basic, notes=(_OUTSIDE,))
    es, td, td1 = _value(pitch, f"es_{screw[1]}"), _value(pitch, "td"), _value(pitch, "td1")
    td2 = _pitch_tolerance(diameter, pitch, screw[0], nut=False)
    td2_nut = _pitch_tolerance(diameter, pitch, nut[0], nut=True)
    outside = any("not in ISO 2903" in found.source for found in (es, td, td1, td2, td2_nut))
    below, tol = mm(es.value, symbol=f"deviation {screw[1]}"), mm(td2.value, symbol="Td2")
    sums: dict[str, Sum] = {
        "ext_major_max": d,
        "ext_major_min": d - mm(td.value, symbol="Td"),
        "ext_pitch_max": effective - below,
        "ext_pitch_min": (effective - below).known(symbol="largest") - tol,
        "ext_minor_max": core,
        "ext_minor_min": core.known(symbol="largest") - (num(1.25) * tol + below),
        "int_minor_min": minor,
        "int_minor_max": minor.known(symbol="smallest") + mm(td1.value, symbol="TD1"),
        "int_pitch_min": effective,
        "int_pitch_max": effective.known(symbol="smallest") + mm(td2_nut.value, symbol="TD2"),
        "int_major_min": d + 2 * ac,
        "allowance": below,
    }
    found = worked(sums, lambda size: round(size, 4), beside=basic)
    found["working"]["allowance"] = say(f"deviation {screw[1]} at a pitch of {{pitch}}", pitch=put(pitch))
    sources = dict.fromkeys(("ext_pitch_max", "allowance"), es.source)
    sources |= dict.fromkeys(("ext_pitch_min", "ext_minor_min"), td2.source)
    sources |= {"ext_major_min": f"{td.source}, grade 4", "int_minor_max": f"{td1.source}, grade 4"}
    sources |= {"int_pitch_max": td2_nut.source}
    return Limits(**found, notes=(_BY_FORMULA,) if outside else (), sources=sources)


FAMILY = Family(
    "tr", "ISO trapezoidal", 110, "ISO 2904", "ISO 2904", letter="Tr", read=_read,
    write=lambda entry: f"Tr{plain(entry.diameter)}x{plain(entry.pitch)}",
    pairs=lambda: metric_entries("tr", "iso2904", "Tr"),
    form=lambda thread: trapezoid(
        float(thread.pitch), angle=30.0, gap=_clearance(thread), source="ISO 2904", profile="trapezoidal"
    ),
    limits=_limits,
    classes=Grammar("7e|8[ec]|9c", "[789]H", "7e, 8e, 8c or 9c for a screw, 7H, 8H or 9H for a nut", nut_first=True),
    clearance=_clearance, stress_area=lambda thread: mean_area(thread, thread.diameter - 2 * form(thread).depth),
    charted=False, formed=False, usual=("7e", "7H"),
)  # fmt: skip
