"""Square threads, as shops have cut them: Sq20x4, Sq20x8(P4), 1-4 SQUARE. No standard lists them."""

from __future__ import annotations

import re
from fractions import Fraction

from engine.base.quantity import MM_PER_INCH
from engine.base.sums import mm
from engine.threads.form import even
from engine.threads.inch_sizes import INCH_MARK, SIZE, read_inches, write_inches
from engine.threads.limits import worked
from engine.threads.metric_sizes import NUM, fraction
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Classes, Entry, Form, Limits, Written
from engine.threads.written import check_special, count_starts, made, plain, refuse, unread

_METRIC = rf"(?xi) (?:sq\s*)?{NUM}\s*(?:mm)?\s*x\s*{NUM}\s*(?:mm)?\s*(?:\(\s*p\s*{NUM}\s*\))?\s*"
_INCH = rf"(?xi) (?:sq\s*)?({SIZE})\s*{INCH_MARK}?\s*(?:-|\s|x)\s*({SIZE})\s*(?:t\.?p\.?i\.?)?\s*"
_NOTE = (
    "no standard: groove and ridge half the pitch wide and half the pitch deep; the nut is cut to the screw, "
    "its groove a little wider (shop practice)"
)


def _read(written: Written, mark: Mark) -> Thread:
    """A diameter and a pitch in mm joined by x, or inches and threads per inch; any pair that can be cut."""
    body = (mark.before or mark.after).strip(" -.")
    if found := re.fullmatch(_METRIC, body):
        size, first, second = (fraction(text) for text in found.groups())
        if size is None or first is None:
            raise unread(written)
        pitch, lead = (second, first) if second is not None else (first, None)
        starts = _checked(written, size, pitch, lead)
        marked = f"(P{plain(pitch)})" if starts > 1 else ""
        return _built(written, size, pitch, starts, f"Sq{plain(size)}x{plain(pitch * starts)}{marked}", plain(size))
    found = re.fullmatch(_INCH, body)
    sizes = [read_inches(text) for text in found.groups()] if found else []
    if len(sizes) != 2 or sizes[0] is None or sizes[1] is None or not sizes[1][0]:
        text = f"{written.text} needs a diameter and a pitch, such as Sq20x4 or 1-4 SQUARE"
        raise refuse(written.text, text)
    across, pitch = sizes[0][0] * MM_PER_INCH, MM_PER_INCH / sizes[1][0]
    starts = _checked(written, across, pitch, None)
    size_name = write_inches(sizes[0][0], joint="-")
    marked = f" ({starts} STARTS)" if starts > 1 else ""
    return _built(written, across, pitch, starts, f"{size_name}-{plain(sizes[1][0])} SQUARE{marked}", size_name)


def _checked(written: Written, size: Fraction, pitch: Fraction, lead: Fraction | None) -> int:
    check_special(written, size, pitch)
    return count_starts(written, lead, pitch)


def _built(written: Written, size: Fraction, pitch: Fraction, starts: int, name: str, size_name: str) -> Thread:
    name += " LH" if written.left_hand else ""
    return made(written, Entry("square", "Sq", size_name, size, pitch), name, starts)


def _form(thread: Thread) -> Form:
    """Half the pitch wide and deep. It has no triangle: a height of one pitch stands for it, so that the pitch line
    lies halfway down the groove."""
    pitch = float(thread.pitch)
    half, source = pitch / 2, "half the pitch wide and deep: an apprentice's textbook of turning, 1914; no standard"
    return even("square", 0.0, pitch, half, "P ÷ 2", mm(pitch) / 2, source, flats=(half, half))


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    d, p = mm(thread.diameter, symbol="D"), mm(float(thread.pitch), symbol="P")
    basic = worked({"pitch_basic": d - p / 2, "minor_basic": d - p}, float)
    source = "shop practice, no standard"
    return Limits(screw_class="", nut_class="", major_basic=thread.diameter, source=source, notes=(_NOTE,), **basic)


FAMILY = Family(
    "square", "square", 140, "shop practice", "shop practice, no standard", letter="Sq",
    marks={"square": "square"}, read=_read, write=lambda entry: f"Sq{plain(entry.diameter)}x{plain(entry.pitch)}",
    pairs=list,  # none: any pair that can be cut
    form=_form, limits=_limits, charted=False, formed=False,
)  # fmt: skip
