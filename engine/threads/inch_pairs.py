"""What designations in inches share: a size, threads per inch and the name of a series, before it or behind it."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH
from engine.threads.inch_sizes import INCH_MARK, NUMBER, SIZE, inches, read_inches, write_inches
from engine.threads.series import at_diameter, beyond, by_size
from engine.threads.thread import Family, Mark, Thread
from engine.threads.told import Entry, Written
from engine.threads.written import check_special, count_starts, escape, made, plain, read_class, refuse, unread


@cache
def _inch() -> re.Pattern[str]:
    """Size, threads per inch and lead of a series that names its sizes in inches."""
    return re.compile(
        rf"""(?xi) ({SIZE})\s*{INCH_MARK}?\s*
        (?:(?:-|x|\s)\s*({SIZE})\s*(?:t\.?p\.?i\.?)?\s*(?:-\s*({NUMBER})\s*l(?![a-z])\s*)?)?\s*-?\s*"""
    )


def around(written: Written, mark: Mark) -> tuple[str, str]:
    """The size of a writing and what follows it: before the series (4 BA), or behind it (BA 4, ME 1/4x40, G 1/4 A)."""
    if mark.before:
        return mark.before, mark.after
    text = mark.after.strip(" .-")
    found = _inch().match(text)
    if not found:
        raise unread(written)
    return found[0].strip(" -"), text[found.end() :]


def by_name(written: Written, family: Family, size: str) -> Entry:
    """The entry of a family whose size is a name, not a diameter; the pitch may be written too and must be right."""
    found = _inch().fullmatch(size)
    named = read_inches(found[1]) if found else None
    if not found or named is None:
        raise unread(written)
    sizes = by_size(family.id)
    known = sizes.get(write_inches(named[0]))
    if not known:
        near = sorted(sizes, key=lambda s: abs(inches(s) - named[0]))[:2]
        choices = " and ".join(family.write(sizes[s][0]) for s in near)
        words = f"{written.text} is no size of {family.standard}: the nearest are {choices}"
        raise refuse(written.text, words, choices)
    tpi = read_inches(found[2]) if found[2] else None
    if found[2] and (tpi is None or known[0].pitch * tpi[0] != MM_PER_INCH):
        right = plain(MM_PER_INCH / known[0].pitch)
        words = f"{written.text} has another pitch in {family.standard}: {right} threads per inch"
        raise refuse(written.text, words)
    return known[0]


def read_pair(
    written: Written,
    mark: Mark,
    family: Family,
    special: str,
    joint: str = " ",
    series: str = "",
    any_pair: bool = False,
) -> Thread:
    """A size with its threads per inch, both in inches.

    `series` is the one of the family's series that the mark names, "" where it names all. `special` is how a pair of no
    table is marked: a word that takes the series' place (Whit.S), or the series and "special". `any_pair`: the mark
    itself says that such a pair is meant. `joint` stands between the parts of the designation.
    """
    size, rest = around(written, mark)
    found = _inch().fullmatch(size)
    across = read_inches(found[1]) if found else None
    if not found or across is None or across[1] == "number":
        raise unread(written)
    pairs = _Pairs(written, family, series, special, joint)
    entry = pairs.entry(across[0], found[2], any_pair)
    lead = Fraction(found[3]) * MM_PER_INCH if found[3] else None
    starts = count_starts(written, lead, entry.pitch)
    return finish(written, entry, pairs.name(entry, starts), starts, rest, joint)


class _Pairs:
    """The pairs of one series, and the refusals of those that it has not."""

    def __init__(self, written: Written, family: Family, series: str, special: str, joint: str) -> None:
        self.written, self.family, self.series, self.joint = written, family, series, joint
        self.special = special  # Whit.S, or "ACME special"

    def entry(self, size: Fraction, tpi_text: str | None, any_pair: bool) -> Entry:
        held = at_diameter(self.family.id, size * MM_PER_INCH)
        known = [entry for entry in held if self.series in ("", entry.series)]
        if tpi_text is None:
            return self._only(size, known, any_pair)
        tpi = read_inches(tpi_text)
        if tpi is None or tpi[0] <= 0:
            raise unread(self.written)
        pitch = MM_PER_INCH / tpi[0]
        for entry in known:
            if entry.pitch == pitch:
                return entry
        if self.written.special or any_pair:
            check_special(self.written, size * MM_PER_INCH, pitch)
            name = self.special.removesuffix(" special")
            return Entry(self.family.id, name, write_inches(size), size * MM_PER_INCH, pitch, "special")
        raise self._no_pair(size, tpi[0], known)

    def _only(self, size: Fraction, known: list[Entry], first: bool) -> Entry:
        """The one pair of a size; `first`: the first of several, where the mark has always meant it (3/8 Whit)."""
        text, standard = self.written.text, self.family.standard
        if len(known) == 1 or (known and first):
            return known[0]
        if known:
            choices = self._names(known)
            raise refuse(text, f"{text} needs its threads per inch: {choices}", choices)
        if held := self._held(size):
            raise refuse(text, f"{text} is outside the tables here, which hold {standard}{held}")
        raise refuse(text, f"{text} is no size of {standard}: the nearest are {self._neighbours(size)}")

    def _no_pair(self, size: Fraction, tpi: Fraction, known: list[Entry]) -> Exception:
        text, standard = self.written.text, self.family.standard
        bare = f"{write_inches(size, joint=self.joint)}-{plain(tpi)}"
        name = f"{bare} {self.series or self.special.removesuffix(' special')}"
        meant = escape(bare, size * MM_PER_INCH, MM_PER_INCH / tpi, self.special)
        if held := self._held(size):
            return refuse(text, f"{name} is outside the tables here, which hold {standard}{held}{meant}")
        near = self._names(known) or self._neighbours(size)
        return refuse(text, f"{name} is not a pair of {standard}: {near}{meant}", near)

    def _names(self, known: list[Entry]) -> str:
        return ", ".join(self.name(entry, 1) for entry in known)

    def _held(self, size: Fraction) -> str:
        """The sizes that the tables hold, if a size in inches lies outside them."""
        ends = beyond(self.family.id, size * MM_PER_INCH, self.series)
        return " from " + " to ".join(self.name(entry, 1) for entry in ends) if ends else ""

    def _neighbours(self, size: Fraction) -> str:
        """The nearest sizes of the series."""
        groups = by_size(self.family.id).values()
        held = [e for group in groups for e in group if not self.series or e.series == self.series]
        held.sort(key=lambda e: (abs(e.diameter - size * MM_PER_INCH), e.diameter))
        return " and ".join(self.name(e, 1) for e in held[:2])

    def name(self, entry: Entry, starts: int) -> str:
        """Size, threads per inch, lead and series."""
        size = write_inches(entry.diameter / MM_PER_INCH, joint=self.joint)
        lead = f"-{plain(entry.pitch * starts / MM_PER_INCH)}L ({starts} STARTS)" if starts > 1 else ""
        return f"{size}-{plain(MM_PER_INCH / entry.pitch)}{lead} {entry.series}"


def pair_words(entry: Entry) -> str:
    """A published pair as it is written: 1 1/8-9 BSF.

    >>> from engine.threads.series import entries
    >>> pair_words(entries("whitworth")[-1])
    '6-2.5 BSW'
    """
    size = entry.size if entry.size.startswith("#") else write_inches(entry.diameter / MM_PER_INCH)
    return f"{size}-{plain(MM_PER_INCH / entry.pitch)} {entry.series}"


def finish(written: Written, entry: Entry, name: str, starts: int, rest: str, joint: str = " ") -> Thread:
    """The thread of an entry, with the hand and the class that follow its name."""
    tolerance = read_class(entry.family, written, rest)
    parts = [name, "LH" if written.left_hand else "", tolerance]
    marked = " special" if entry.listed == "special" and not entry.series.endswith(".S") else ""
    return made(written, entry, joint.join(part for part in parts if part) + marked, starts, tolerance)
