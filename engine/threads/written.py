"""What the readers of designations share: a writing taken apart, its refusal, and the marks of a special thread."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from engine.errors import BadInput
from engine.threads.thread import Family
from engine.threads.tolerance import Classes, read_tolerance

ACCEPTED = (
    "a thread such as M10, M10x1.25, 1/4-20 UNC, #10-32, 4 BA, 3/8 BSW, 1/4-40 ME, G 1/4, 1/8 NPT, "
    "Tr12x3 or 3/4-6 ACME"
)
MOST_STARTS = 20


@dataclass(frozen=True, slots=True)
class Written:
    """A writing whose marks for the hand, the starts and `special` have been taken out of `body`."""

    text: str
    body: str
    left_hand: bool
    special: bool
    starts: int


def refuse(given: str, sentence: str, accepted: str = "") -> BadInput:
    """The refusal of a size, in one sentence that names it."""
    return BadInput("size", given, accepted or ACCEPTED, f"size: {sentence}.")


def unread(written: Written) -> BadInput:
    """The refusal of a writing that is no thread at all."""
    return BadInput("size", written.text, ACCEPTED)


def plain(value: Fraction | float) -> str:
    """A number as a designation writes it: no noughts at the end."""
    return f"{float(value):.5f}".rstrip("0").rstrip(".")


def read_class(family: Family, written: Written, text: str) -> str:
    """A class at the end of a designation, as the standard writes it; "" for none."""
    compact = re.sub(r"^[\s-]+|[\s-]+$", "", text)
    if not compact:
        return ""
    try:
        return write_classes(family, read_tolerance(family, compact))
    except BadInput as refusal:
        raise BadInput(
            "size",
            written.text,
            refusal.accepted,
            f"size: {compact} is no tolerance for this thread; accepted: {refusal.accepted}.",
        ) from None


def write_classes(family: Family, classes: Classes) -> str:
    """Classes as a designation ends with them."""
    if classes.screw == classes.nut or not (classes.screw and classes.nut):
        return classes.screw or classes.nut or ""
    if family in ("metric", "tr"):
        return f"{classes.nut}/{classes.screw}"
    return f"{classes.screw}/{classes.nut}"


def escape(name: str, diameter: Fraction, pitch: Fraction) -> str:
    """The end of a refusal that says how the odd pair is written when it is meant, if it can be cut at all."""
    low, high = _pitch_bounds(diameter)
    possible = low <= pitch <= high and Fraction(1, 4) <= diameter <= 400
    return f"; for it all the same write {name} special" if possible else ""


def _pitch_bounds(diameter: Fraction) -> tuple[Fraction, Fraction]:
    """The finest and the coarsest pitch of a special thread: its core keeps about half of the diameter."""
    return max(Fraction(1, 20), diameter / 500), diameter * Fraction(2, 5)


def check_special(written: Written, diameter: Fraction, pitch: Fraction) -> None:
    """Refuse a special thread that could not be cut: its core would be too thin, or it is out of all bounds."""
    if not Fraction(1, 4) <= diameter <= 400:
        raise refuse(written.text, f"{written.text} has a diameter outside 0.25 to 400 mm")
    low, high = _pitch_bounds(diameter)
    if not low <= pitch <= high:
        raise refuse(
            written.text,
            f"{written.text} has a pitch that its diameter cannot carry; a special thread may have "
            f"{plain(low)} to {plain(high)} mm",
        )


def count_starts(written: Written, lead: Fraction | None, pitch: Fraction) -> int:
    """Starts from the lead, from the words, or both; they must agree."""
    if pitch <= 0 or (lead is not None and lead <= 0):
        raise refuse(written.text, f"{written.text} has a pitch or lead of nought")
    starts = round(lead / pitch) if lead is not None else (written.starts or 1)
    agrees = lead is None or abs(lead - starts * pitch) <= pitch / 100
    if not 1 <= starts <= MOST_STARTS or not agrees or (written.starts and written.starts != starts):
        raise refuse(
            written.text,
            f"{written.text} does not add up: the lead must be the pitch times 1 to {MOST_STARTS} starts",
        )
    return starts
