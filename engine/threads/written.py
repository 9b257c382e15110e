"""What the readers of designations share: a writing taken apart, its refusal, and the marks of a special thread."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.base.refusals import BadInput
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
    """Return the refusal of a size, in one sentence that names it.

    Examples
    --------
    >>> str(refuse("M13", "M13 has no ISO 261 diameter"))
    'size: M13 has no ISO 261 diameter.'
    """
    return BadInput("size", given, accepted or ACCEPTED, f"size: {sentence}.")


def unread(written: Written) -> BadInput:
    """Return the refusal of a writing that is no thread at all.

    Examples
    --------
    >>> w = Written(text="abc", body="abc", left_hand=False, special=False, starts=0)
    >>> str(unread(w))[:26]
    'size: abc cannot be used; '
    """
    return BadInput("size", written.text, ACCEPTED)


def plain(value: Fraction | float) -> str:
    """Return a number as a designation writes it, without noughts at the end.

    Parameters
    ----------
    value : Fraction or float
        The number. [any]

    Returns
    -------
    text : str
        Such as `1.5`.

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ISO 965-1 clause 12.

    Examples
    --------
    >>> plain(1.50), plain(Fraction(20))
    ('1.5', '20')
    """
    return f"{float(value):.5f}".rstrip("0").rstrip(".")


def read_class(family: Family, written: Written, text: str) -> str:
    """Return the class at the end of a designation, as the standard writes it.

    Parameters
    ----------
    family : str
        The thread's family.
    written : Written
        The writing, with its marks taken out.
    text : str
        What follows the size.

    Returns
    -------
    tolerance : str
        Such as `6H/6g`; "" for none.

    Raises
    ------
    BadInput
        If it is no class of the family; field `size`.

    Sources
    -------
    As for engine.threads.tolerance.read_tolerance.

    Examples
    --------
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
        raise BadInput(
            "size",
            written.text,
            refusal.accepted,
            f"size: {compact} is no tolerance for this thread; accepted: {refusal.accepted}.",
        ) from None


def write_classes(family: Family, classes: Classes) -> str:
    """Return classes as a designation ends with them.

    Parameters
    ----------
    family : str
        The thread's family.
    classes : Classes
        Class of the screw, the nut or both.

    Returns
    -------
    tolerance : str
        ISO writes the nut first, the others the screw.

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    ISO 965-1 clause 12, ASME B1.1 clause 6.

    Examples
    --------
    >>> write_classes("metric", Classes("6g", "6H")), write_classes("unified", Classes("2A", None))
    ('6H/6g', '2A')
    """
    if classes.screw == classes.nut or not (classes.screw and classes.nut):
        return classes.screw or classes.nut or ""
    if family in ("metric", "tr"):
        return f"{classes.nut}/{classes.screw}"
    return f"{classes.screw}/{classes.nut}"


def escape(name: str, diameter: Fraction, pitch: Fraction, mark: str = "special") -> str:
    """Return the end of a refusal that says how the odd pair is written when it is meant, and what becomes of it.

    Parameters
    ----------
    name : str
        The pair as written.
    diameter : Fraction
        Nominal diameter. [mm]
    pitch : Fraction
        Pitch. [mm]
    mark : str
        How the family marks a special thread.

    Returns
    -------
    text : str
        "" if such a thread could not be cut at all.

    Raises
    ------
    ValueError
        Never.

    Sources
    -------
    The rule of engine.threads.designation for odd pitches: ours.

    Examples
    --------
    >>> escape("M10x1.4", Fraction(10), Fraction(7, 5)), escape("M10x9", Fraction(10), Fraction(9))
    ('; if it is meant, write M10x1.4 special, and it is worked as a special thread', '')
    """
    low, high = _pitch_bounds(diameter)
    possible = low <= pitch <= high and Fraction(1, 4) <= diameter <= 400
    return f"; if it is meant, write {name} {mark}, and it is worked as a special thread" if possible else ""


def _pitch_bounds(diameter: Fraction) -> tuple[Fraction, Fraction]:
    """The finest and the coarsest pitch of a special thread: its core keeps about half of the diameter."""
    return max(Fraction(1, 20), diameter / 500), diameter * Fraction(2, 5)


def check_special(written: Written, diameter: Fraction, pitch: Fraction) -> None:
    """Refuse a special thread that could not be cut.

    Parameters
    ----------
    written : Written
        The writing, with its marks taken out.
    diameter : Fraction
        Nominal diameter, 0.25 to 400. [mm]
    pitch : Fraction
        Pitch, at most two fifths of the diameter. [mm]

    Returns
    -------
    nothing : None
        It only refuses.

    Raises
    ------
    BadInput
        If it cannot be used; field `size`.

    Sources
    -------
    Bounds that leave about half of the diameter as core: common practice, no source.

    Examples
    --------
    >>> w = Written(text="M10x1.4", body="M10x1.4", left_hand=False, special=True, starts=0)
    >>> check_special(w, Fraction(10), Fraction(7, 5))
    """
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
    """Return the starts from the lead, from the words, or both; they must agree.

    Parameters
    ----------
    written : Written
        The writing, with its marks taken out.
    lead : Fraction or None
        Lead as written; None if it was not. [mm]
    pitch : Fraction
        Pitch. [mm]

    Returns
    -------
    starts : int
        1 to 20.

    Raises
    ------
    BadInput
        If it cannot be used; field `size`.

    Sources
    -------
    Lead = pitch x starts (ISO 5408).

    Examples
    --------
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
            written.text,
            f"{written.text} does not add up: the lead must be the pitch times 1 to {MOST_STARTS} starts",
        )
    return starts
