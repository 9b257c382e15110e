"""Parallel pipe threads: G 1/4, G 1/4 A, 1/4 BSP."""

from __future__ import annotations

from fractions import Fraction

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import mm
from engine.base.tables import rows
from engine.threads import form
from engine.threads.inch_pairs import around, by_name, finish
from engine.threads.limits import sized, worked
from engine.threads.series import exact
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Entry, Limits, Written


def pairs(family: str, table: str, series: str, across: str = "major", unit: Fraction = Fraction(1)) -> list[Entry]:
    """The sizes of a pipe thread's table: named in inches, measured in millimetres or another `unit` of as many, pitched in
    threads per inch."""
    return [
        Entry(family, series, row["size"], exact(row[across]) * unit, MM_PER_INCH / exact(row["tpi"]))
        for row in rows(f"threads/{table}.csv")
    ]


def row_of(table: str, size: str) -> dict[str, float]:
    """The numbers of one size."""
    row = next(row for row in rows(f"threads/{table}.csv") if row["size"] == size)
    return {key: float(value) for key, value in row.items() if key != "size"}


def _read(written: Written, mark: Mark) -> Thread:
    size, rest = around(written, mark)
    entry = by_name(written, FAMILY, size)
    return finish(written, entry, f"G {entry.size}", 1, rest)


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ISO 228-1:2000 Table 1: a screw of class A or B, one nut."""
    row = row_of("iso228", thread.size)
    name = classes.screw or FAMILY.usual[0]
    major, pitch, minor = (mm(row[where], symbol="basic") for where in ("major", "pitch_diameter", "minor"))
    basic = dict.fromkeys(("ext_major_max", "int_major_min"), major)
    basic |= dict.fromkeys(("ext_pitch_max", "int_pitch_min"), pitch)
    basic |= dict.fromkeys(("ext_minor_max", "int_minor_min"), minor)
    known = sized({size: (float(x), "basic size") for size, x in basic.items()})
    known |= {"screw_class": name, "nut_class": "one class", "major_basic": float(major), "allowance": 0.0}
    known["working"] |= {"pitch_basic": "tabulated", "minor_basic": "tabulated", "allowance": "ISO 228-1 has none"}
    sums = {
        "ext_major_min": major - mm(row["td"], symbol="tolerance"),
        "ext_pitch_min": pitch - mm(row[f"td2_{name.lower()}"], symbol=f"tolerance of class {name}"),
        "int_minor_max": minor + mm(row["td1_internal"], symbol="tolerance"),
        "int_pitch_max": pitch + mm(row["td2_internal"], symbol="tolerance"),
    }
    found = worked(sums, lambda size: round(size, 3), beside=known)
    return Limits(pitch_basic=float(pitch), minor_basic=float(minor), source="ISO 228-1:2000 Table 1", **found)


FAMILY = Family(
    "g", "parallel pipe (G)", 80, "ISO 228-1", "ISO 228-1",
    marks={"g": "g", "bsp": r"b\.?s\.?p(?!\.?\s?t)\.?\s?p?(?:\.|l)?"}, read=_read,
    write=lambda entry: f"G {entry.size}", pairs=lambda: pairs("g", "iso228", "G"),
    form=lambda thread: form.whitworth(float(thread.pitch), "ISO 228-1"), limits=_limits,
    classes=Grammar("[AB]", "", "A or B", "upper"), tpi=True, usual=("A", ""),
)  # fmt: skip
