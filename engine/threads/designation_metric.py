"""Reading metric designations: ISO metric (M) and ISO trapezoidal (Tr)."""

from __future__ import annotations

import re
from fractions import Fraction

from engine.threads.series import Entry, at_diameter, beyond, entries
from engine.threads.thread import Family, Thread
from engine.threads.written import (
    Written,
    check_special,
    count_starts,
    escape,
    plain,
    read_class,
    refuse,
    unread,
)

_NUM = r"([0-9]{1,3}(?:\.[0-9]{0,4})?|\.[0-9]{1,4})(?![0-9])"
# Patterns are texts: Python compiles one when it is first used.
_METRIC = rf"""(?xi) m\s*{_NUM}\s*(?:mm)?\s*
    (?: x\s*ph\s*{_NUM}\s*[-\s]*p\s*{_NUM}          # ISO 965-1: M16xPh3P1.5
      | x\s*l\s*{_NUM}\s*[-\s]*p\s*{_NUM}           # ASME B1.13M: M16xL4-P2
      | (?:x|-)\s*{_NUM}\s*(?:mm)?(?![0-9a-z.])
      | \s*(coarse|fine)
    )? (.*)"""
_TRAPEZOIDAL = rf"(?xi) tr\s*{_NUM}\s*(?:x\s*{_NUM}\s*(?:\(\s*p\s*{_NUM}\s*\)|p\s*{_NUM})?)?\s*(.*)"
_GROUP = r"[\s-]+([SNL])(?=$|[\s-])"


def _fraction(text: str | None) -> Fraction | None:
    return Fraction(text.rstrip(".")) if text else None


def read_metric(written: Written) -> Thread:
    """Return an ISO metric thread: diameter, pitch, class, length group, hand.

    Parameters
    ----------
    written : Written
        The writing, with its marks taken out.

    Returns
    -------
    thread : Thread
        The thread.

    Raises
    ------
    BadInput
        If it cannot be used; field `size`.

    Sources
    -------
    ISO 261, ISO 965-1 clause 12, ASME B1.13M.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> str(parse("M16xL4-P2-4h6h (TWO STARTS)"))
    'M16xPh4P2-4h6h'
    """
    found = re.fullmatch(_METRIC, written.body)
    if not found:
        raise unread(written)
    diameter, ph, p1, lead, p2, single, word, rest = found.groups()
    size = Fraction(diameter.rstrip("."))
    pitch = _fraction(p1 or p2 or single)
    entry = _metric_entry(written, size, pitch, (word or "").lower())
    starts = count_starts(written, _fraction(ph or lead), entry.pitch)
    group = re.search(_GROUP, rest) if rest else None
    engagement = group[1] if group else ""
    rest = rest[: group.start()] + rest[group.end() :] if group else rest
    tolerance = read_class("metric", written, rest)
    return _built(written, entry, starts, tolerance, engagement)


def _metric_entry(written: Written, size: Fraction, pitch: Fraction | None, word: str) -> Entry:
    """The pair of ISO 261, or the special one that was asked for."""
    known = at_diameter("metric", size)
    if pitch is None:
        chosen = [e for e in known if e.series == (word or "coarse")]
        if len(chosen) == 1:
            return chosen[0]
        if known:
            choices = " or ".join(f"M{plain(size)}x{plain(e.pitch)}" for e in (chosen or known))
            why = "has more than one fine pitch" if chosen else f"has no {word or 'coarse'} pitch in ISO 261"
            raise refuse(written.text, f"M{plain(size)} {why}: write {choices}", choices)
        raise _no_diameter(written, "metric", "M", "ISO 261", size, pitch)
    return _pair(written, "metric", "M", "ISO 261", size, pitch)


def _pair(
    written: Written, family: Family, letter: str, standard: str, size: Fraction, pitch: Fraction
) -> Entry:
    known = at_diameter(family, size)
    for entry in known:
        if entry.pitch == pitch:
            return entry
    if written.special:
        check_special(written, size, pitch)
        return Entry(family, "special", plain(size), size, pitch)
    if not known:
        raise _no_diameter(written, family, letter, standard, size, pitch)
    choices = ", ".join(plain(e.pitch) for e in known)
    name = f"{letter}{plain(size)}x{plain(pitch)}"
    raise refuse(
        written.text, f"{name} is not an {standard} pitch: {choices}{escape(name, size, pitch)}", choices
    )


def _no_diameter(
    written: Written, family: Family, letter: str, standard: str, size: Fraction, pitch: Fraction | None
) -> Exception:
    name = f"{letter}{plain(size)}x{plain(pitch)}" if pitch else f"{letter}{plain(size)}"
    meant = escape(name, size, pitch) if pitch else ""
    if ends := beyond(family, size):
        held = " to ".join(f"{letter}{plain(entry.diameter)}" for entry in ends)
        sentence = f"{name} is outside the tables here, which hold {standard} from {held}"
        return refuse(written.text, f"{sentence}{meant}", held)
    diameters = sorted({e.diameter for e in entries(family)}, key=lambda d: (abs(d - size), d))
    choices = " and ".join(f"{letter}{plain(d)}" for d in sorted(diameters[:2]))
    return refuse(
        written.text, f"{name} has no {standard} diameter: the nearest are {choices}{meant}", choices
    )


def _built(written: Written, entry: Entry, starts: int, tolerance: str, engagement: str) -> Thread:
    name = f"M{plain(entry.diameter)}"
    if starts > 1:
        name += f"xPh{plain(entry.pitch * starts)}P{plain(entry.pitch)}"
    elif entry.series != "coarse":
        name += f"x{plain(entry.pitch)}"
    special = entry.series == "special"
    parts = [name, tolerance, engagement, "LH" if written.left_hand else ""]
    designation = "-".join(part for part in parts if part) + (" special" if special else "")
    return Thread(
        family="metric",
        series=entry.series,
        diameter=float(entry.diameter),
        pitch=entry.pitch,
        starts=starts,
        left_hand=written.left_hand,
        tolerance=tolerance,
        special=special,
        designation=designation,
        size=plain(entry.diameter),
        engagement=engagement,
    )


def read_trapezoidal(written: Written) -> Thread:
    """Return an ISO trapezoidal thread: diameter, pitch or lead with pitch, hand, class.

    Parameters
    ----------
    written : Written
        The writing, with its marks taken out.

    Returns
    -------
    thread : Thread
        The thread.

    Raises
    ------
    BadInput
        If it cannot be used; field `size`.

    Sources
    -------
    ISO 2902, ISO 2904.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> str(parse("Tr14x6(P3) 7e"))
    'Tr14x6(P3)-7e'
    """
    found = re.fullmatch(_TRAPEZOIDAL, written.body)
    if not found:
        raise unread(written)
    diameter, first, bracketed, joined, rest = found.groups()
    size = Fraction(diameter.rstrip("."))
    second = _fraction(bracketed or joined)
    pitch = second if second is not None else _fraction(first)
    if pitch is None:
        known = at_diameter("tr", size)
        if not known:
            raise _no_diameter(written, "tr", "Tr", "ISO 2904", size, None)
        choices = " or ".join(f"Tr{plain(size)}x{plain(e.pitch)}" for e in known)
        raise refuse(written.text, f"Tr{plain(size)} needs its pitch: {choices}", choices)
    entry = _pair(written, "tr", "Tr", "ISO 2904", size, pitch)
    starts = count_starts(written, _fraction(first) if second is not None else None, entry.pitch)
    tolerance = read_class("tr", written, rest)
    name = f"Tr{plain(size)}x{plain(entry.pitch * starts)}" + (
        f"(P{plain(entry.pitch)})" if starts > 1 else ""
    )
    special = entry.series == "special"
    designation = name + ("LH" if written.left_hand else "") + (f"-{tolerance}" if tolerance else "")
    return Thread(
        family="tr",
        series="Tr",
        diameter=float(size),
        pitch=entry.pitch,
        starts=starts,
        left_hand=written.left_hand,
        tolerance=tolerance,
        special=special,
        designation=designation + (" special" if special else ""),
        size=plain(size),
    )
