"""Miniature threads for watches and instruments: 0.80 UNM, S 0.8 (ISO 1501 has the same sizes and basic form)."""

from __future__ import annotations

import re
from fractions import Fraction

from engine.base.rounding import rounded
from engine.base.sums import mm, num
from engine.base.words import own, say, shown
from engine.threads.limits import worked
from engine.threads.metric_sizes import NUM
from engine.threads.series import at_diameter, entries, metric_entries
from engine.threads.stress import mean_area
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Entry, Form, Limits, Written
from engine.threads.written import made, refuse, unread

_WRITTEN = rf"(?xi) (?:s\s*)?{NUM}\s*(?:mm)?\s*(x.*)?"
_SOURCE = "ASME B1.10, Unified miniature (Machinery's Handbook, 31st ed., Table 5)"
_NOTE = "limits of ASME B1.10, one class and no allowance; the classes of ISO 1501 are not held"


def _read(written: Written, mark: Mark) -> Thread:
    found = re.fullmatch(_WRITTEN, mark.before or mark.after.strip())
    if not found:
        raise unread(written)
    size = Fraction(found[1].rstrip("."))
    if found[2]:
        saw = f"{written.text} names a pitch: S with a pitch is a saw-tooth thread (DIN 513), not among the families"
        raise refuse(written.text, f"{saw} here")
    known = at_diameter("miniature", size)
    if not known:
        near = sorted(entries("miniature"), key=lambda e: abs(e.diameter - size))[:2]
        choices = " and ".join(_write(entry) for entry in near)
        text = f"{written.text} is no size of {FAMILY.standard}: the nearest are {choices}"
        raise refuse(written.text, text, choices)
    return made(written, known[0], _write(known[0]) + ("-LH" if written.left_hand else ""))


def _write(entry: Entry) -> str:
    return f"{rounded(float(entry.diameter), 2)} UNM"


def _form(thread: Thread) -> Form:
    """60 degrees; the screw is cut 0.6 P deep, the nut's bore leaves 0.52 P (basic form of ASME B1.10)."""
    pitch = float(thread.pitch)
    height = 0.866025404 * pitch
    return Form(
        profile="60 degree", included_angle=60.0, height=height, basic_depth=0.52 * pitch,
        crest_truncation=height / 8, root_truncation=height * 7 / 8 - 0.6 * pitch, crest_flat=pitch / 8,
        root_flat=0.18224 * pitch, depth=0.6 * pitch, nut_depth=0.556 * pitch, source="ASME B1.10", rule="0.6 P",
        rule_sum=num(0.6) * mm(pitch),
    )  # fmt: skip


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.10: formulas fitted to its table, which they give whole; each limit to 0.001 mm."""
    major, pitch = thread.diameter, float(thread.pitch)
    d, p = mm(major, symbol="D"), mm(pitch, symbol="P")
    effective, root, hole = d - num(0.649519) * p, d - num(1.2) * p, d - num(1.04) * p
    d2 = mm(round(float(effective), 3), symbol="d2")
    sums = {
        "ext_major_max": d,
        "ext_major_min": d - (num(0.12) * p + mm(0.006)),
        "ext_pitch_max": effective,
        "ext_pitch_min": d2 - (num(0.08) * p + mm(0.008)),
        "ext_minor_max": root,
        "ext_minor_min": root - (num(0.16) * p + mm(0.008)),
        "int_minor_min": hole,
        "int_minor_max": hole + (num(0.32) * p + mm(0.012)),
        "int_pitch_min": effective,
        "int_pitch_max": d2 + (num(0.08) * p + mm(0.008)),
        "int_major_min": d + num(0.072) * p,
        "pitch_basic": effective,
        "minor_basic": hole,
    }
    to = say(", to {step}", step=own(shown(0.001), "mm"))
    found = worked(sums, lambda size: round(size, 3), to)
    return Limits(screw_class="UNM", nut_class="UNM", major_basic=major, source=_SOURCE, notes=(_NOTE,), **found)


FAMILY = Family(
    "miniature", "miniature", 150, "ASME B1.10 and ISO 1501", "ASME B1.10, as ISO 1501", letter="S",
    marks={"unm": "unm"}, read=_read, write=_write, pairs=lambda: metric_entries("miniature", "iso1501", "UNM"),
    form=_form, limits=_limits, formed=False,
    stress_area=lambda thread: mean_area(thread, thread.diameter - 1.2 * float(thread.pitch)),
)  # fmt: skip
