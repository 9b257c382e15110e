"""American taper pipe threads: 1/8 NPT, 1/8-27 NPT."""

from __future__ import annotations

from fractions import Fraction
from math import radians, tan

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import INCH, mm, num
from engine.base.tables import rows
from engine.base.words import Text, formula, say
from engine.threads.families.pipe_parallel import row_of
from engine.threads.inch_pairs import around, by_name, finish
from engine.threads.limits import ruled
from engine.threads.series import exact
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Entry, Form, Gauge, Limits, Written
from engine.threads.written import plain

_INCH = float(MM_PER_INCH)


def _read(written: Written, mark: Mark) -> Thread:
    size, rest = around(written, mark)
    entry = by_name(written, FAMILY, size)
    name = f"{entry.size.replace(' ', '-')}-{plain(MM_PER_INCH / entry.pitch)} NPT"
    return finish(written, entry, name, 1, rest, "-")


def _pairs() -> list[Entry]:
    return [
        Entry("npt", "NPT", row["size"], exact(row["outside"]) * MM_PER_INCH, MM_PER_INCH / exact(row["tpi"]))
        for row in rows("threads/npt.csv")
    ]


def _form(thread: Thread) -> Form:
    """ASME B1.20.1: 60 degrees, 0.8 p deep, cut short alike at crest and root."""
    pitch = float(thread.pitch)
    height, depth = 0.866025404 * pitch, 0.8 * pitch
    truncation = (height - depth) / 2
    flat = 2 * truncation * tan(radians(30))
    return Form(
        profile="taper pipe",
        included_angle=60.0,
        height=height,
        basic_depth=depth,
        crest_truncation=truncation,
        root_truncation=truncation,
        crest_flat=flat,
        root_flat=flat,
        depth=depth,
        nut_depth=depth,
        source="ASME B1.20.1: depth 0.8 p",
        rule="0.8 P",
        rule_sum=num(0.8) * mm(pitch),
    )


def _gauge(thread: Thread) -> Gauge:
    """L1 as tabulated, L2 = (0.80 D + 6.8) p; one turn either way from memory."""
    row, pitch = row_of("npt", thread.size), float(thread.pitch)
    useful = (num(0.8) * (mm(thread.diameter, symbol="D") / INCH) + num(6.8)) * mm(pitch, symbol="p")
    return Gauge(
        length=row["l1"] * _INCH,
        shift=pitch,
        shift_turns=1.0,
        nut_shift=pitch,
        nut_shift_turns=1.0,
        useful_length=(0.8 * row["outside"] + 6.8) * pitch,
        useful=ruled(useful),
        source="ASME B1.20.1; one turn either way from memory",
    )


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.20.1 at the hand-tight plane: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16; 1/8: E1 0.37360 in."""
    length, pitch = _gauge(thread).length, float(thread.pitch)
    small_end = thread.diameter - (0.05 * thread.diameter / _INCH + 1.1) * pitch
    plane = small_end + length / 16
    turn = pitch / 16
    p, across = mm(pitch, symbol="p"), mm(thread.diameter, symbol="D")
    tight = mm(plane, symbol="E1")
    first = across - (num(0.05) * (across / INCH) + num(1.1)) * p
    one, other = mm(small_end, symbol="E0") + mm(length, symbol="L1") / 16, tight - p / 16
    working: dict[str, Text] = {
        "pitch_basic": say("E1 = {rule} = {sum}; E0 = {first} = {digits}", rule=formula(one), sum=one,
                           first=formula(first), digits=first),
        "major_basic": ruled(tight + num(0.8) * p),
        "minor_basic": ruled(tight - num(0.8) * p),
    }  # fmt: skip
    for side in ("ext", "int"):
        working |= {f"{side}_pitch_max": ruled(tight + p / 16), f"{side}_pitch_min": ruled(other)}
    return Limits(
        screw_class="NPT",
        nut_class="NPT",
        major_basic=plane + 0.8 * pitch,
        pitch_basic=plane,
        minor_basic=plane - 0.8 * pitch,
        source="ASME B1.20.1, at the hand-tight plane (one turn either way from memory)",
        ext_pitch_max=plane + turn,
        ext_pitch_min=plane - turn,
        int_pitch_min=plane - turn,
        int_pitch_max=plane + turn,
        notes=("taper 1 in 16: diameters at the hand-tight plane, where screw and nut meet by hand",),
        working=working,
    )


FAMILY = Family(
    id="npt",
    name="American taper pipe",
    place=100,
    standard="ASME B1.20.1",
    sizes="ASME B1.20.1, at the hand-tight plane",
    marks={"npt": r"n\.?p\.?t\.?"},
    read=_read,
    write=lambda entry: f"{entry.size} NPT",
    pairs=_pairs,
    form=_form,
    limits=_limits,
    inch=True,
    taper=Fraction(1, 16),
    gauge=_gauge,
    charted=False,
)
