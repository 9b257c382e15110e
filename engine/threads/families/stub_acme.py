"""Stub Acme threads: 1/2-10 STUB ACME, 3/4-6 STUB ACME LH."""

from __future__ import annotations

from engine.threads.families.acme import clearance, general_purpose, smallest_area
from engine.threads.form import trapezoid
from engine.threads.inch_pairs import pair_words, read_pair
from engine.threads.series import inch_entries
from engine.threads.thread import Family, Grammar, Mark, Thread
from engine.threads.told import Classes, Form, Limits, Written

_SOURCE = "ASME B1.8 form; allowance and tolerance of Acme class 2G, minor and major limits from memory, unconfirmed"


def _read(written: Written, mark: Mark) -> Thread:
    return read_pair(written, mark, FAMILY, special="STUB ACME special", joint="-")


def _form(thread: Thread) -> Form:
    """ASME B1.8: 29 degrees, basic depth 0.3 P, crest 0.4224 P."""
    return trapezoid(
        float(thread.pitch), angle=29.0, gap=clearance(thread), source="ASME B1.8", profile="Acme", depth=0.3
    )


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    return general_purpose(thread, "2", "2", depth=0.3, smallest_crest=0.0, root=1.0, sources=(_SOURCE, _SOURCE))


FAMILY = Family(
    id="stub",
    name="stub Acme",
    place=130,
    standard="the ASME B1.8 series",
    sizes="ASME B1.8",
    marks={"stub": r"stub\s*acme"},
    read=_read,
    write=pair_words,
    pairs=lambda: inch_entries("stub", "acme", "STUB ACME"),
    form=_form,
    limits=_limits,
    classes=Grammar("2G", "2G", "2G", "upper"),
    inch=True,
    clearance=clearance,
    stress_area=smallest_area,
    charted=False,
    formed=False,
    usual=("2G", "2G"),
)
