"""ISO trapezoidal threads: Tr12x3, Tr14x6(P3), Tr40x14(P7)LH-7e."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from typing import Any

from engine.base.sums import mm, num
from engine.base.tables import rows
from engine.base.words import Text, put, say
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
from engine.threads.limits import ruled
from engine.threads.metric_sizes import NUM, fraction, no_diameter, pair
from engine.threads.series import at_diameter, metric_entries
from engine.threads.stress import mean_area
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Area, Classes, Form, Limits, Written
from engine.threads.written import count_starts, plain, read_class, refuse, unread

_OUTSIDE = "no tolerances are held above 355 mm: sizes by the form, no limits"
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
    special = entry.series == "special"
    return Thread(
        family="tr",
        series="Tr",
        diameter=float(size),
        pitch=entry.pitch,
        starts=starts,
        left_hand=written.left_hand,
        tolerance=tolerance,
        special=special,
        designation=name + (f"-{tolerance}" if tolerance else "") + (" special" if special else ""),
        size=plain(size),
    )


def _clearance(thread: Thread) -> float:
    """ISO 2904: ac by pitch."""
    pitch = thread.pitch
    return 0.15 if pitch < 2 else 0.25 if pitch <= 5 else 0.5 if pitch <= 12 else 1.0


def _form(thread: Thread) -> Form:
    return trapezoid(float(thread.pitch), angle=30.0, gap=_clearance(thread), source="ISO 2904", profile="trapezoidal")


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
    effective, minor, core = diameter - pitch / 2, diameter - pitch, diameter - pitch - 2 * gap
    d, p, ac = mm(diameter, symbol="d"), mm(pitch, symbol="P"), mm(gap, symbol="clearance")
    middle = ruled(d - p / 2)
    basics: dict[str, Text] = {"pitch_basic": middle, "minor_basic": ruled(d - p)}
    if not SMALLEST < diameter <= LARGEST:
        return Limits(
            screw_class=screw, nut_class=nut, major_basic=diameter, pitch_basic=effective, minor_basic=minor,
            source="ISO 2904", notes=(_OUTSIDE,), working=basics,
        )  # fmt: skip
    es, td, td1 = _value(pitch, f"es_{screw[1]}"), _value(pitch, "td"), _value(pitch, "td1")
    td2 = _pitch_tolerance(diameter, pitch, screw[0], nut=False)
    td2_nut = _pitch_tolerance(diameter, pitch, nut[0], nut=True)
    notes: list[Text] = []
    if any("not in ISO 2903" in found.source for found in (es, td, td1, td2, td2_nut)):
        notes.append(
            "ISO 2903 has no tolerance for this pair: those of the ISO metric formulas, which may be one step (6 %) off"
        )
    pitch_max = effective - es.value
    sizes: dict[str, Any] = {
        "ext_major_max": diameter,
        "ext_major_min": diameter - td.value,
        "ext_pitch_max": pitch_max,
        "ext_pitch_min": pitch_max - td2.value,
        "ext_minor_max": core,
        "ext_minor_min": core - (1.25 * td2.value + es.value),
        "int_minor_min": minor,
        "int_minor_max": minor + td1.value,
        "int_pitch_min": effective,
        "int_pitch_max": effective + td2_nut.value,
        "int_major_min": diameter + 2 * gap,
        "allowance": es.value,
    }
    below, tol = mm(es.value, symbol=f"deviation {screw[1]}"), mm(td2.value, symbol="Td2")
    working: dict[str, Text] = {
        **basics,
        "ext_major_max": ruled(d),
        "ext_major_min": ruled(d - mm(td.value, symbol="Td")),
        "ext_pitch_max": ruled(d - p / 2 - below),
        "ext_pitch_min": ruled(mm(pitch_max, symbol="largest") - tol),
        "ext_minor_max": ruled(d - p - 2 * ac),
        "ext_minor_min": ruled(mm(core, symbol="largest") - (num(1.25) * tol + below)),
        "int_minor_min": ruled(d - p),
        "int_minor_max": ruled(mm(minor, symbol="smallest") + mm(td1.value, symbol="TD1")),
        "int_pitch_min": middle,
        "int_pitch_max": ruled(mm(effective, symbol="smallest") + mm(td2_nut.value, symbol="TD2")),
        "int_major_min": ruled(d + 2 * ac),
        "allowance": say(f"deviation {screw[1]} at a pitch of {{pitch}}", pitch=put(pitch)),
    }
    return Limits(
        screw_class=screw,
        nut_class=nut,
        major_basic=diameter,
        pitch_basic=effective,
        minor_basic=minor,
        source="ISO 2904",
        notes=tuple(notes),
        sources={
            "ext_major_min": f"{td.source}, grade 4",
            "ext_pitch_max": es.source,
            "ext_pitch_min": td2.source,
            "ext_minor_min": td2.source,
            "int_minor_max": f"{td1.source}, grade 4",
            "int_pitch_max": td2_nut.source,
            "allowance": es.source,
        },
        working=working,
        **{name: round(value, 4) for name, value in sizes.items()},
    )


def _stress_area(thread: Thread) -> Area:
    return mean_area(thread, thread.diameter - 2 * form(thread).depth)


FAMILY = Family(
    id="tr",
    name="ISO trapezoidal",
    place=110,
    standard="ISO 2904",
    sizes="ISO 2904",
    letter="Tr",
    read=_read,
    write=lambda entry: f"Tr{plain(entry.diameter)}x{plain(entry.pitch)}",
    pairs=lambda: metric_entries("tr", "iso2904", "Tr"),
    form=_form,
    limits=_limits,
    classes=Grammar("7e|8[ec]|9c", "[789]H", "7e, 8e, 8c or 9c for a screw, 7H, 8H or 9H for a nut", nut_first=True),
    clearance=_clearance,
    stress_area=_stress_area,
    charted=False,
    formed=False,
    usual=("7e", "7H"),
)
