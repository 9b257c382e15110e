"""British Association threads: 4 BA, BA 4, 2 BA close."""

from __future__ import annotations

import re
from typing import Any

from engine.base.sums import mm, num
from engine.base.words import Text, own, say, shown
from engine.threads.form import form, rounded
from engine.threads.inch_pairs import around, finish
from engine.threads.limits import ruled
from engine.threads.series import by_size, exact
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Entry, Form, Limits, Written
from engine.threads.written import refuse

_LAST = 16  # BS 93 stops at 16 BA
_SOURCE = "BS 93:2008 Annex B formulas (as in Machinery's Handbook, 31st ed., p. 2115)"


def _read(written: Written, mark: Mark) -> Thread:
    size, rest = around(written, mark)
    number = re.fullmatch(r"(?i)(?:#|no\.?|number)?\s*([0-9]{1,2})", size)
    entry = by_size("ba").get(str(int(number[1]))) if number else None
    if not entry:
        raise refuse(written.text, f"{written.text} is no BA size: 0 BA to 25 BA", "0 BA to 25 BA")
    return finish(written, entry[0], f"{entry[0].size} BA", 1, rest)


def _pairs() -> list[Entry]:
    from engine.base.tables import rows

    return [
        Entry("ba", "BA", row["number"], exact(row["major"]), exact(row["pitch"]), row["listed"])
        for row in rows("threads/ba.csv")
    ]


def _form(thread: Thread) -> Form:
    """BS 93: 47.5 degrees; it rounds the depth to 0.005 mm, the triangle and the radii follow the pitch."""
    pitch = float(thread.pitch)
    depth = round(0.6 * pitch / 0.005 + 1e-9) * 0.005
    return rounded(
        pitch, angle=47.5, height=1.136336, depth=depth, radius=0.1808346,
        source="BS 93", profile="BA", factor=0.6, to=" to the nearest 0.005 mm",
    )  # fmt: skip


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """BS 93:2008 Annex B, close or normal; 17 to 25 BA have basic sizes only. 4 BA: effective 3.205, minor 2.81."""
    name = classes.screw or FAMILY.usual[0]
    pitch, major, depth = float(thread.pitch), thread.diameter, form(thread).depth
    effective, minor = round(major - depth, 4), round(major - 2 * depth, 4)
    number = int(thread.size)
    d, h, p = mm(major, symbol="d"), mm(depth, symbol="depth"), mm(pitch, symbol="p")
    basics: dict[str, Text] = {"pitch_basic": ruled(d - h), "minor_basic": ruled(d - 2 * h)}
    if number > _LAST:
        note = f"{thread} lies outside BS 93, which stops at {_LAST} BA: sizes by its formulas, no limits"
        return Limits(
            screw_class=name, nut_class=name, major_basic=major, pitch_basic=effective, minor_basic=minor,
            source=_SOURCE, notes=(note,), working=basics,
        )  # fmt: skip
    close = name == "close"
    major_share = 0.15 if close else 0.2 if number <= 10 else 0.25
    share, fixed = (0.08, 0.02) if close else (0.1, 0.025)
    tol_major, tol_pitch = major_share * pitch, share * pitch + fixed
    allowance = 0.025 if not close and number <= 10 else 0.0
    sizes: dict[str, Any] = {
        "ext_major_max": major - allowance,
        "ext_major_min": major - allowance - tol_major,
        "ext_pitch_max": effective - allowance,
        "ext_pitch_min": effective - allowance - tol_pitch,
        "ext_minor_max": minor - allowance,
        "ext_minor_min": minor - allowance - 2 * tol_pitch,
        "int_minor_min": minor,
        "int_minor_max": minor + 0.375 * pitch,
        "int_pitch_min": effective,
        "int_pitch_max": effective + 0.12 * pitch + 0.03,
        "int_major_min": major,
    }
    largest = {where: mm(sizes[f"ext_{where}_max"], symbol="largest") for where in ("major", "pitch", "minor")}
    less = mm(allowance, symbol="allowance")
    tolerance = num(share) * p + mm(fixed)
    working: dict[str, Text] = {
        **basics,
        "ext_major_max": ruled(d - less),
        "ext_major_min": ruled(largest["major"] - num(major_share) * p),
        "ext_pitch_max": ruled(d - h - less),
        "ext_pitch_min": ruled(largest["pitch"] - tolerance),
        "ext_minor_max": ruled(d - 2 * h - less),
        "ext_minor_min": ruled(largest["minor"] - 2 * tolerance),
        "int_minor_min": ruled(d - 2 * h),
        "int_minor_max": ruled(mm(minor, symbol="smallest") + num(0.375) * p),
        "int_pitch_min": ruled(d - h),
        "int_pitch_max": ruled(mm(effective, symbol="smallest") + num(0.12) * p + mm(0.03)),
        "int_major_min": ruled(d),
        "allowance": say("{allowance} on normal screws of 0 to 10 BA", allowance=own(shown(0.025), "mm"))
        if allowance
        else "none in this class and size",
    }
    return Limits(
        screw_class=name,
        nut_class="normal",
        major_basic=major,
        pitch_basic=effective,
        minor_basic=minor,
        source=_SOURCE,
        allowance=allowance,
        working=working,
        **{key: round(value, 5) for key, value in sizes.items()},
    )


FAMILY = Family(
    id="ba",
    name="British Association",
    place=40,
    standard="BS 93",
    sizes="BS 93",
    marks={"ba": r"b\.?a\.?"},
    read=_read,
    write=lambda entry: f"{entry.size} BA",
    pairs=_pairs,
    form=_form,
    limits=_limits,
    classes=Grammar("close|normal", "", "close or normal", "lower"),
    chart_depth=1.2,
    usual=("normal", ""),
)
