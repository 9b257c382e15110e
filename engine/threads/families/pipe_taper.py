"""Taper pipe threads and their nuts: R 1/2, Rc 1/2, Rp 1/2 (parallel nut), 1/2 BSPT."""

from __future__ import annotations

from fractions import Fraction

from engine.base.records import replace
from engine.base.sums import Sum, mm
from engine.threads import form
from engine.threads.families.pipe_parallel import pairs, row_of
from engine.threads.inch_pairs import around, by_name, finish
from engine.threads.limits import worked
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Gauge, Limits, Written

_FROM_MEMORY = "ISO 7-1:1994, at the gauge plane (tolerance from memory, agrees with its turns of thread)"


def _read(written: Written, mark: Mark) -> Thread:
    size, rest = around(written, mark)
    series = mark.word.strip().capitalize() if mark.kind == "r" else "R"
    entry = replace(by_name(written, FAMILY, size), series=series)
    return finish(written, entry, f"{series} {entry.size}", 1, rest)


def _gauge(thread: Thread) -> Gauge:
    row = row_of("iso7", thread.size)
    return Gauge(
        length=row["gauge_length"], shift=row["t1"], shift_turns=row["t1_turns"], nut_shift=row["t2"],
        nut_shift_turns=row["t2_turns"], useful_length=row["useful_length"],
        useful="tabulated; the gauge length and the wrenching allowance",
        source="ISO 7-1:1994; tolerances from memory",
    )  # fmt: skip


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ISO 7-1:1994 at the gauge plane, tolerances from memory: the axial tolerance as a change of diameter."""
    row = row_of("iso7", thread.size)
    parallel = thread.series == "Rp"
    nut = mm(row["rp_tolerance"], symbol="tolerance") if parallel else mm(row["t2"], symbol="T2") / 16
    sums: dict[str, Sum] = {}
    for side, shift in (("ext", mm(row["t1"], symbol="T1") / 16), ("int", nut)):
        for where in ("major", "pitch", "minor"):
            basic = mm(row["pitch_diameter" if where == "pitch" else where], symbol="basic")
            sums |= {f"{side}_{where}_max": basic + shift, f"{side}_{where}_min": basic - shift}
    found = worked(sums, float)
    found["working"] |= {"pitch_basic": "tabulated", "minor_basic": "tabulated"}
    del found["int_major_max"]
    kind = "parallel nut, Rp" if parallel else "taper nut, Rc"
    note = f"taper screw 1 in 16, {kind}: diameters at the gauge plane, the tolerance is where the plane lies"
    return Limits(
        screw_class="R", nut_class="Rp" if parallel else "Rc", major_basic=row["major"],
        pitch_basic=row["pitch_diameter"], minor_basic=row["minor"], source=_FROM_MEMORY, notes=(note,), **found,
    )  # fmt: skip


FAMILY = Family(
    "r", "taper pipe (R)", 90, "ISO 7-1", "ISO 7-1, at the gauge plane",
    marks={"r": "r[pc]?", "bspt": r"b\.?s\.?p\.?\s?t(?:r)?\.?"}, read=_read,
    write=lambda entry: f"{entry.series} {entry.size}", pairs=lambda: pairs("r", "iso7", "R"),
    form=lambda thread: form.whitworth(float(thread.pitch), "ISO 7-1"), limits=_limits, tpi=True,
    taper=Fraction(1, 16), parallel=("Rp",), nut_series=("Rp", "Rc"), gauge=_gauge, charted=False,
)  # fmt: skip
