"""Parallel pipe threads: G 1/4, G 1/4 A, 1/4 BSP."""

from __future__ import annotations

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import mm
from engine.base.tables import rows
from engine.base.words import Text
from engine.threads import form
from engine.threads.inch_pairs import around, by_name, finish
from engine.threads.limits import ruled
from engine.threads.series import exact
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Entry, Limits, Written


def pairs(family: str, table: str, series: str) -> list[Entry]:
    """The sizes of a pipe thread's table: named in inches, measured in millimetres, pitched in threads per inch."""
    return [
        Entry(family, series, row["size"], exact(row["major"]), MM_PER_INCH / exact(row["tpi"]))
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
    major, pitch, minor = row["major"], row["pitch_diameter"], row["minor"]
    td2 = row["td2_a" if name == "A" else "td2_b"]
    tolerance = mm(td2, symbol=f"tolerance of class {name}")
    basic = {where: mm(row[where], symbol="basic") for where in ("major", "pitch_diameter", "minor")}
    working: dict[str, Text] = {
        "pitch_basic": "tabulated",
        "minor_basic": "tabulated",
        "ext_major_max": "basic size",
        "ext_major_min": ruled(basic["major"] - mm(row["td"], symbol="tolerance")),
        "ext_pitch_max": "basic size",
        "ext_pitch_min": ruled(basic["pitch_diameter"] - tolerance),
        "ext_minor_max": "basic size",
        "int_minor_min": "basic size",
        "int_minor_max": ruled(basic["minor"] + mm(row["td1_internal"], symbol="tolerance")),
        "int_pitch_min": "basic size",
        "int_pitch_max": ruled(basic["pitch_diameter"] + mm(row["td2_internal"], symbol="tolerance")),
        "int_major_min": "basic size",
        "allowance": "ISO 228-1 has none",
    }
    return Limits(
        screw_class=name,
        nut_class="one class",
        major_basic=major,
        pitch_basic=pitch,
        minor_basic=minor,
        source="ISO 228-1:2000 Table 1",
        ext_major_max=major,
        ext_major_min=round(major - row["td"], 3),
        ext_pitch_max=pitch,
        ext_pitch_min=round(pitch - td2, 3),
        ext_minor_max=minor,
        int_minor_min=minor,
        int_minor_max=round(minor + row["td1_internal"], 3),
        int_pitch_min=pitch,
        int_pitch_max=round(pitch + row["td2_internal"], 3),
        int_major_min=major,
        allowance=0.0,
        working=working,
    )


FAMILY = Family(
    id="g",
    name="parallel pipe (G)",
    place=80,
    standard="ISO 228-1",
    sizes="ISO 228-1",
    marks={"g": "g", "bsp": r"b\.?s\.?p(?!\.?\s?t)\.?\s?p?(?:\.|l)?"},
    read=_read,
    write=lambda entry: f"G {entry.size}",
    pairs=lambda: pairs("g", "iso228", "G"),
    form=lambda thread: form.whitworth(float(thread.pitch), "ISO 228-1"),
    limits=_limits,
    classes=Grammar("[AB]", "", "A or B", "upper"),
    tpi=True,
    usual=("A", ""),
)
