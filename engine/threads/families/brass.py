"""Brass threads, 26 to the inch at every size: 1/4 BSB, 1/4 brass."""

from __future__ import annotations

from fractions import Fraction

from engine.base.quantity import MM_PER_INCH
from engine.threads import form
from engine.threads.families.whitworth import CLASSES, USUAL, borrowed, bs84
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.series import inch_entries
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Limits, Written

_NOTES = borrowed("Brass threads have no standard limits")


def _read(written: Written, mark: Mark) -> Thread:
    return read_pair(written, mark, FAMILY, special="BSB special")


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    depth = Fraction("0.640327") * thread.pitch / MM_PER_INCH
    return bs84(thread, classes, engagement, depth, _NOTES)


FAMILY = Family(
    id="brass",
    name="brass",
    place=60,
    standard="the brass series",
    sizes="Whitworth form, 26 threads per inch",
    marks={"brass": r"b\.?s\.?b(?:rass)?\.? | brass"},
    read=_read,
    write=pair_words,
    pairs=lambda: inch_entries("brass", "brass", "BSB"),
    form=lambda thread: form.whitworth(float(thread.pitch), "BS 84"),
    limits=_limits,
    classes=CLASSES,
    inch=True,
    by_engagement=True,
    usual=USUAL,
)
