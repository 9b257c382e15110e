"""British Association threads: 4 BA, BA 4, 2 BA close."""

from __future__ import annotations

import re

from engine.base.sums import Sum, mm, num
from engine.base.tables import rows
from engine.base.words import Text, own, say, shown
from engine.threads.form import form, rounded
from engine.threads.inch_pairs import around, finish
from engine.threads.limits import sized, worked
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
    table = rows("threads/ba.csv")
    return [Entry("ba", "BA", r["number"], exact(r["major"]), exact(r["pitch"]), r["listed"]) for r in table]


def _form(thread: Thread) -> Form:
    """BS 93: 47.5 degrees; it rounds the depth to 0.005 mm, the triangle and the radii follow the pitch."""
    pitch = float(thread.pitch)
    depth = round(0.6 * pitch / 0.005 + 1e-9) * 0.005
    to = " to the nearest 0.005 mm"
    return rounded(
        pitch, 0.6, angle=47.5, height=1.136336, radius=0.1808346, source="BS 93", profile="BA", depth=depth, to=to
    )


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """BS 93:2008 Annex B, close or normal; 17 to 25 BA have basic sizes only. 4 BA: effective 3.205, minor 2.81."""
    name = classes.screw or FAMILY.usual[0]
    pitch, major, depth = float(thread.pitch), thread.diameter, form(thread).depth
    number = int(thread.size)
    d, h, p = mm(major, symbol="d"), mm(depth, symbol="depth"), mm(pitch, symbol="p")
    middle, core = d - h, d - 2 * h
    basic = worked({"pitch_basic": middle, "minor_basic": core}, lambda size: round(size, 4))
    basic |= {"screw_class": name, "major_basic": major, "source": _SOURCE}
    if number > _LAST:
        note = f"{thread} lies outside BS 93, which stops at {_LAST} BA: sizes by its formulas, no limits"
        return Limits(**basic, nut_class=name, notes=(note,))
    close = name == "close"
    major_share = 0.15 if close else 0.2 if number <= 10 else 0.25
    share, fixed = (0.08, 0.02) if close else (0.1, 0.025)
    allowance = 0.025 if not close and number <= 10 else 0.0
    less, tolerance = mm(allowance, symbol="allowance"), num(share) * p + mm(fixed)
    sums: dict[str, Sum] = {
        "ext_major_max": d - less,
        "ext_major_min": (d - less).known(symbol="largest") - num(major_share) * p,
        "ext_pitch_max": middle - less,
        "ext_pitch_min": (middle - less).known(symbol="largest") - tolerance,
        "ext_minor_max": core - less,
        "ext_minor_min": (core - less).known(symbol="largest") - 2 * tolerance,
        "int_minor_min": core,
        "int_minor_max": core.known(symbol="smallest") + num(0.375) * p,
        "int_pitch_min": middle,
        "int_pitch_max": middle.known(symbol="smallest") + num(0.12) * p + mm(0.03),
        "int_major_min": d,
    }
    why: Text = "none in this class and size"
    if allowance:
        why = say("{allowance} on normal screws of 0 to 10 BA", allowance=own(shown(0.025), "mm"))
    found = worked(sums, lambda size: round(size, 5), beside=sized({"allowance": (allowance, why)}, basic))
    return Limits(**found, nut_class="normal")


FAMILY = Family(
    "ba", "British Association", 40, "BS 93", "BS 93", marks={"ba": r"b\.?a\.?"}, read=_read,
    write=lambda entry: f"{entry.size} BA", pairs=_pairs, form=_form, limits=_limits,
    classes=Grammar("close|normal", "", "close or normal", "lower"), chart_depth=1.2, usual=("normal", ""),
)  # fmt: skip
