"""What metric designations share: a letter, a diameter and a pitch, found among the pairs of the family's standard."""

from __future__ import annotations

from fractions import Fraction

from engine.threads.series import at_diameter, beyond, entries
from engine.threads.thread import Family
from engine.threads.told import Entry, Written
from engine.threads.written import check_special, escape, plain, refuse

NUM = r"([0-9]{1,3}(?:\.[0-9]{0,4})?|\.[0-9]{1,4})(?![0-9])"


def fraction(text: str | None) -> Fraction | None:
    """A number of a designation, exact; None for none."""
    return Fraction(text.rstrip(".")) if text else None


def pair(written: Written, family: Family, size: Fraction, pitch: Fraction) -> Entry:
    """The pair of the standard, or the special one that was asked for; any other is refused with the nearest."""
    known = at_diameter(family.id, size)
    for entry in known:
        if entry.pitch == pitch:
            return entry
    if written.special:
        check_special(written, size, pitch)
        return Entry(family.id, "special", plain(size), size, pitch, "special")
    if not known:
        raise no_diameter(written, family, size, pitch)
    choices = ", ".join(plain(e.pitch) for e in known)
    name = f"{family.letter}{plain(size)}x{plain(pitch)}"
    words = f"{name} is not an {family.standard} pitch: {choices}{escape(name, size, pitch)}"
    raise refuse(written.text, words, choices)


def no_diameter(written: Written, family: Family, size: Fraction, pitch: Fraction | None) -> Exception:
    """The refusal of a diameter that the standard has not, or that the tables here do not reach."""
    letter, standard = family.letter, family.standard
    name = f"{letter}{plain(size)}x{plain(pitch)}" if pitch else f"{letter}{plain(size)}"
    meant = escape(name, size, pitch) if pitch else ""
    if ends := beyond(family.id, size):
        held = f"{' to '.join(plain(entry.diameter) for entry in ends)} mm"
        words = f"{name} is outside the tables here, which hold {standard} from {held}{meant}"
        return refuse(written.text, words, held)
    diameters = sorted({e.diameter for e in entries(family.id)}, key=lambda d: (abs(d - size), d))
    choices = " and ".join(f"{letter}{plain(d)}" for d in sorted(diameters[:2]))
    return refuse(written.text, f"{name} is not an {standard} size: the nearest are {choices}{meant}", choices)
