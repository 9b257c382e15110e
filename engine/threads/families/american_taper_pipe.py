"""American taper pipe threads: 1/8 NPT, 1/8-27 NPT."""

from __future__ import annotations

from fractions import Fraction
from math import radians, tan

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import INCH, Sum, mm, num
from engine.base.words import formula, say
from engine.threads.families.pipe_parallel import pairs, row_of
from engine.threads.form import even
from engine.threads.inch_pairs import around, by_name, finish
from engine.threads.limits import ruled, sized, worked
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Form, Gauge, Limits, Written
from engine.threads.written import plain

_INCH = float(MM_PER_INCH)


def _read(written: Written, mark: Mark) -> Thread:
    size, rest = around(written, mark)
    entry = by_name(written, FAMILY, size)
    name = f"{entry.size.replace(' ', '-')}-{plain(MM_PER_INCH / entry.pitch)} NPT"
    return finish(written, entry, name, 1, rest, "-")


def _form(thread: Thread) -> Form:
    """ASME B1.20.1: 60 degrees, 0.8 p deep, cut short alike at crest and root."""
    pitch = float(thread.pitch)
    height, depth = 0.866025404 * pitch, 0.8 * pitch
    flat, source = (height - depth) * tan(radians(30)), "ASME B1.20.1: depth 0.8 p"
    return even("taper pipe", 60.0, height, depth, "0.8 P", num(0.8) * mm(pitch), source, flats=(flat, flat))


def _gauge(thread: Thread) -> Gauge:
    """L1 as tabulated, L2 = (0.80 D + 6.8) p; one turn either way from memory."""
    row, pitch = row_of("npt", thread.size), float(thread.pitch)
    useful = (num(0.8) * (mm(thread.diameter, symbol="D") / INCH) + num(6.8)) * mm(pitch, symbol="p")
    return Gauge(
        length=row["l1"] * _INCH, shift=pitch, shift_turns=1.0, nut_shift=pitch, nut_shift_turns=1.0,
        useful_length=(0.8 * row["outside"] + 6.8) * pitch, useful=ruled(useful),
        source="ASME B1.20.1; one turn either way from memory",
    )  # fmt: skip


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """ASME B1.20.1 at the hand-tight plane: E0 = D - (0.05 D + 1.1) p, E1 = E0 + L1/16; 1/8: E1 0.37360 in."""
    p, across = mm(float(thread.pitch), symbol="p"), mm(thread.diameter, symbol="D")
    first = across - (num(0.05) * (across / INCH) + num(1.1)) * p
    one = first.known(symbol="E0") + mm(_gauge(thread).length, symbol="L1") / 16
    tight = one.known(symbol="E1")
    sums: dict[str, Sum] = {"major_basic": tight + num(0.8) * p, "minor_basic": tight - num(0.8) * p}
    for side in ("ext", "int"):
        sums |= {f"{side}_pitch_max": tight + p / 16, f"{side}_pitch_min": tight - p / 16}
    text = "E1 = {rule} = {sum}; E0 = {first} = {digits}"
    plane = say(text, rule=formula(one), sum=one, first=formula(first), digits=first)
    return Limits(
        screw_class="NPT", nut_class="NPT",
        source="ASME B1.20.1, at the hand-tight plane (one turn either way from memory)",
        notes=("taper 1 in 16: diameters at the hand-tight plane, where screw and nut meet by hand",),
        **worked(sums, float, beside=sized({"pitch_basic": (float(one), plane)})),
    )  # fmt: skip


FAMILY = Family(
    "npt", "American taper pipe", 100, "ASME B1.20.1", "ASME B1.20.1, at the hand-tight plane",
    marks={"npt": r"n\.?p\.?t\.?"}, read=_read, write=lambda entry: f"{entry.size} NPT",
    pairs=lambda: pairs("npt", "npt", "NPT", "outside", MM_PER_INCH), form=_form, limits=_limits, inch=True,
    taper=Fraction(1, 16), gauge=_gauge, charted=False,
)  # fmt: skip
