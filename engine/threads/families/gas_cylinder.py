"""Threads of gas cylinder outlets, Whitworth form on a metric diameter: W 21.8x1/14, W 24.32x1/14."""

from __future__ import annotations

import re
from fractions import Fraction

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import mm, num
from engine.base.tables import rows
from engine.threads import form
from engine.threads.inch_sizes import MIXED, inches
from engine.threads.limits import worked
from engine.threads.metric_sizes import NUM
from engine.threads.series import at_diameter, entries, exact
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Entry, Limits, Written
from engine.threads.written import made, plain, refuse

_WRITTEN = rf"(?xi) w\s*{NUM}\s*(?:mm)?\s*(?:x\s*1\s*/\s*([0-9]{{1,2}})\s*(?:\"|in)?)?\s*(.*)"
_NOTE = (
    "limits of DIN 477 are not held: sizes by the Whitworth form; cylinders and their valves stand under pressure and "
    "are work for a licensed test station"
)


def _read(written: Written, mark: Mark) -> Thread:
    found = re.fullmatch(_WRITTEN, mark.after)
    known = at_diameter("gas", Fraction(found[1].rstrip("."))) if found else ()
    whitworth = re.match(rf"(?i)w\s*({MIXED})", mark.after)
    if whitworth and at_diameter("whitworth", inches(whitworth[1]) * MM_PER_INCH):
        inch = f"{whitworth[1]} BSW"
        raise refuse(written.text, f"{written.text} is a Whitworth thread: write {inch}", inch)
    if not found or not known or found[3] or (found[2] and known[0].pitch != MM_PER_INCH / int(found[2])):
        choices = ", ".join(_write(entry) for entry in entries("gas"))
        text = f"{written.text} is no cylinder thread of DIN 477 held here: {choices} (its taper necks are not)"
        raise refuse(written.text, text, choices)
    return made(written, known[0], _write(known[0]) + (" LH" if written.left_hand else ""))


def _write(entry: Entry) -> str:
    return f"W {plain(entry.diameter)}x1/{plain(MM_PER_INCH / entry.pitch)}"


def _pairs() -> list[Entry]:
    return [
        Entry("gas", "W", row["d"], exact(row["d"]), MM_PER_INCH / exact(row["tpi"]), row["listed"])
        for row in rows("threads/din477.csv")
    ]


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Basic sizes by the Whitworth form; DIN 477's own limits could not be read."""
    d, p = mm(thread.diameter, symbol="d"), mm(float(thread.pitch), symbol="P")
    basic = worked({"pitch_basic": d - num(0.640327) * p, "minor_basic": d - num(1.280654) * p}, float)
    source = "Whitworth form on the diameters of DIN 477 (from memory)"
    return Limits(screw_class="", nut_class="", major_basic=thread.diameter, source=source, notes=(_NOTE,), **basic)


FAMILY = Family(
    "gas", "gas cylinder", 160, "DIN 477", "DIN 477 diameters (from memory), Whitworth form", letter="W",
    read=_read, write=_write, pairs=_pairs, form=lambda thread: form.whitworth(float(thread.pitch), "Whitworth form"),
    limits=_limits, tpi=True, formed=False,
)  # fmt: skip
