"""What the readers of designations share: a writing taken apart, its refusal, and the marks of a special thread."""

from __future__ import annotations

from fractions import Fraction

from engine.base.refusals import BadInput
from engine.base.rounding import short
from engine.threads.thread import Thread
from engine.threads.told import Entry, Written
from engine.threads.tolerance import read_tolerance, write_classes

ACCEPTED = (
    "a thread such as M10, M10x1.25, 1/4-20 UNC, #10-32, 4 BA, 3/8 BSW, 1/4-40 ME, G 1/4, 1/8 NPT, Tr12x3 or 3/4-6 ACME"
)
MOST_STARTS = 20
SMALLEST, LARGEST = Fraction(1, 4), Fraction(400)  # mm; diameters of special threads


def refuse(given: str, sentence: str, accepted: str = "") -> BadInput:
    """The refusal of a size, in one sentence that names it.

    >>> str(refuse("M13", "M13 has no ISO 261 diameter"))
    'size: M13 has no ISO 261 diameter.'
    """
    return BadInput("size", given, accepted or ACCEPTED, f"size: {sentence}.")


def unread(written: Written) -> BadInput:
    """The refusal of a writing that is no thread at all."""
    return BadInput("size", written.text, ACCEPTED)


def plain(value: Fraction | float) -> str:
    """A number as a designation writes it, without noughts at the end (ISO 965-1 clause 12).

    >>> plain(1.50), plain(Fraction(20))
    ('1.5', '20')
    """
    return short(float(value), 5)


def read_class(family: str, written: Written, text: str) -> str:
    """The class at the end of a designation as the standard writes it, "" for none; BadInput, field `size`, for others.

    >>> w = Written(text="M10-6g/6H", body="M10-6g/6H", left_hand=False, special=False, starts=0)
    >>> read_class("metric", w, "- 6g/6H")
    '6H/6g'
    """
    compact = text.strip(" -")
    if not compact:
        return ""
    try:
        return write_classes(family, read_tolerance(family, compact))
    except BadInput as refusal:
        words = f"size: {compact} is no tolerance for this thread; accepted: {refusal.accepted}."
        raise BadInput("size", written.text, refusal.accepted, words) from None


def made(written: Written, entry: Entry, name: str, starts: int = 1, tolerance: str = "", engaged: str = "") -> Thread:
    """The thread of a pair under its designation, with the hand that was written."""
    of_pair = entry.family, entry.series, float(entry.diameter), entry.pitch
    special = entry.listed == "special"
    return Thread(*of_pair, starts, written.left_hand, tolerance, special, name, entry.size, engaged)


def _pitch_bounds(diameter: Fraction) -> tuple[Fraction, Fraction]:
    """The finest and the coarsest pitch of a special thread: its core keeps about half of the diameter (common
    practice, no source)."""
    return max(Fraction(1, 20), diameter / 500), diameter * Fraction(2, 5)


def escape(name: str, diameter: Fraction, pitch: Fraction, mark: str = "special") -> str:
    """The end of a refusal that says how the odd pair is written when it is meant; "" if it could not be cut at all.

    >>> escape("M10x1.4", Fraction(10), Fraction(7, 5)), escape("M10x9", Fraction(10), Fraction(9))
    ('; if it is meant, write M10x1.4 special, and it is worked as a special thread', '')
    """
    low, high = _pitch_bounds(diameter)
    possible = low <= pitch <= high and SMALLEST <= diameter <= LARGEST
    return f"; if it is meant, write {name} {mark}, and it is worked as a special thread" if possible else ""


def check_special(written: Written, diameter: Fraction, pitch: Fraction) -> None:
    """Refuse a special thread that could not be cut: outside 0.25 to 400 mm, or pitched over two fifths of that."""
    if not SMALLEST <= diameter <= LARGEST:
        raise refuse(written.text, f"{written.text} has a diameter outside 0.25 to 400 mm")
    low, high = _pitch_bounds(diameter)
    if not low <= pitch <= high:
        raise refuse(
            written.text,
            f"{written.text} has a pitch that its diameter cannot carry; a special thread may have "
            f"{plain(low)} to {plain(high)} mm",
        )


def count_starts(written: Written, lead: Fraction | None, pitch: Fraction) -> int:
    """The starts, from the lead (pitch x starts, ISO 5408), from the words, or both, which must agree.

    >>> w = Written(text="M10x1.4", body="M10x1.4", left_hand=False, special=True, starts=0)
    >>> count_starts(w, Fraction(3), Fraction(3, 2))
    2
    """
    if pitch <= 0 or (lead is not None and lead <= 0):
        raise refuse(written.text, f"{written.text} has a pitch or lead of nought")
    starts = round(lead / pitch) if lead is not None else (written.starts or 1)
    agrees = lead is None or abs(lead - starts * pitch) <= pitch / 100
    if not 1 <= starts <= MOST_STARTS or not agrees or (written.starts and written.starts != starts):
        raise refuse(
            written.text, f"{written.text} does not add up: the lead must be the pitch times 1 to {MOST_STARTS} starts"
        )
    return starts
