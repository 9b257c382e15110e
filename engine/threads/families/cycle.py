"""British Standard Cycle threads: 1/4 BSC, 1/4-26 CEI."""

from __future__ import annotations

from fractions import Fraction

from engine.base.quantity import MM_PER_INCH
from engine.threads.families.whitworth import CLASSES, USUAL, borrowed, bs84
from engine.threads.form import rounded
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.series import inch_entries
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Form, Limits, Written

_NOTES = borrowed("no limits of BS 811 could be read")


def _read(written: Written, mark: Mark) -> Thread:
    return read_pair(written, mark, FAMILY, special="BSC special")


def _form(thread: Thread) -> Form:
    """BS 811: 60 degrees, rounded, 0.532692 P deep."""
    pitch = float(thread.pitch)
    return rounded(
        pitch, angle=60.0, height=0.866025, depth=0.532692 * pitch, radius=1 / 6,
        source="BS 811", profile="cycle", factor=0.532692,
    )  # fmt: skip


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    """Basic sizes of BS 811 (1/4 x 26: minor diameter 0.2090 in), the fit of BS 84."""
    depth = Fraction("0.532692") * thread.pitch / MM_PER_INCH
    return bs84(thread, classes, engagement, depth, _NOTES)


FAMILY = Family(
    id="cycle",
    name="British Standard Cycle",
    place=70,
    standard="BS 811",
    sizes="BS 811",
    marks={"cycle": r"b\.?s\.?c(?:y(?:cle)?)?\.? | c\.?e\.?i\.? | cycle"},
    read=_read,
    write=pair_words,
    pairs=lambda: inch_entries("cycle", "bs811", "BSC"),
    form=_form,
    limits=_limits,
    classes=CLASSES,
    inch=True,
    by_engagement=True,
    usual=USUAL,
)
