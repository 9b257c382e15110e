"""Reading designations in inches and by number: Unified, Whitworth, BA, ME, brass, cycle, pipe and Acme."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH
from engine.threads.designation_unified import read_unified
from engine.threads.inch_sizes import NUMBER, SIZE, read_inches, write_inches
from engine.threads.series import Entry, at_diameter, beyond, by_size
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

_PLAIN_FAMILIES: dict[str, Family] = {
    "bsw": "whitworth",
    "bsf": "whitworth",
    "whit": "whitworth",
    "me": "me",
    "bsb": "brass",
    "bsc": "cycle",
    "acme": "acme",
    "npt": "npt",
}
_STANDARDS = {
    "whitworth": "BS 84",
    "me": "the model engineer series",
    "brass": "the brass series",
    "cycle": "BS 811",
    "acme": "the ASME B1.5 series",
    "npt": "ASME B1.20.1",
    "g": "ISO 228-1",
    "r": "ISO 7-1",
}
_NAMES: dict[Family, str] = {"me": "ME", "brass": "BSB", "cycle": "BSC", "acme": "ACME", "npt": "NPT"}


@cache
def _series() -> re.Pattern[str]:
    """How each series is written; the first that fits is taken, so the longer names stand first."""
    return re.compile(
        r"""(?xi) (?<![a-z])(?:
          (?P<other> nptf | npsm | npsc | npsf | npsl | nps | unj[a-z]* | stub\s*acme | buttress )
        | (?P<unified> un\s?r?\s?(?:ef|c|f|s)? )
        | (?P<npt> n\.?p\.?t\.? )
        | (?P<bspt> b\.?s\.?p\.?\s?t(?:r)?\.? )
        | (?P<bsp> b\.?s\.?p\.?\s?p?(?:\.|l)? )
        | (?P<bsw> b\.?s\.?w\.? )
        | (?P<bsf> b\.?s\.?f\.? )
        | (?P<bsb> b\.?s\.?b(?:rass)?\.? | brass )
        | (?P<bsc> b\.?s\.?c(?:y(?:cle)?)?\.? | c\.?e\.?i\.? | cycle )
        | (?P<whit> whit(?:worth)?\.?(?:\s?s(?:pecial)?\.?(?![a-z]))? )
        | (?P<ba> b\.?a\.? )
        | (?P<me> m\.?e\.? | model\s?engineer )
        | (?P<acme> acme )
        | (?P<g> g )
        | (?P<r> r[pc]? )
        )(?![a-z])"""
    )


@cache
def _inch() -> re.Pattern[str]:
    """Size, threads per inch and lead of a series that names its sizes in inches."""
    return re.compile(
        rf"""(?xi) ({SIZE})\s*(?:"|''|inch|in\.?)?\s*
        (?:(?:-|x|\s)\s*({SIZE})\s*(?:t\.?p\.?i\.?)?\s*(?:-\s*({NUMBER})\s*l(?![a-z])\s*)?)?\s*-?\s*"""
    )


def read_inch(written: Written) -> Thread:
    """Return a thread that is not metric: the series word says which family.

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
    ASME B1.1, BS 84, BS 93, BS 811, ISO 228-1, ISO 7-1, ASME B1.20.1, ASME B1.5.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> str(parse("1/2 BSF close"))
    '1/2-16 BSF close'
    """
    found = _series().search(written.body)
    if not found:
        return read_unified(written, written.body, "", "")
    kind = str(found.lastgroup)
    before, after = written.body[: found.start()].strip(" -"), written.body[found.end() :]
    if kind == "other":
        raise refuse(written.text, f"{found[0].strip().upper()} threads are not among the families here")
    if not before:  # the series stands first: BA 4, ME 1/4x40, G 1/4 A
        before, after = _size_after(written, after)
    if kind == "unified":
        return read_unified(written, before, "".join(found[0].upper().split()), after)
    if kind == "ba":
        return _read_ba(written, before, after)
    if kind in ("g", "r", "bsp", "bspt"):
        return _read_pipe(written, kind, found[0], before, after)
    return _read_pair(written, kind, found[0], before, after)


def _size_after(written: Written, after: str) -> tuple[str, str]:
    text = after.strip(" .-")
    found = _inch().match(text)
    if not found:
        raise unread(written)
    return found[0].strip(" -"), text[found.end() :]


def _read_ba(written: Written, size: str, rest: str) -> Thread:
    number = re.fullmatch(r"(?i)(?:#|no\.?|number)?\s*([0-9]{1,2})", size)
    entry = by_size("ba").get(str(int(number[1]))) if number else None
    if not entry:
        raise refuse(written.text, f"{written.text} is no BA size: 0 BA to 25 BA", "0 BA to 25 BA")
    return _finish(written, entry[0], f"{entry[0].size} BA", 1, rest)


def _read_pipe(written: Written, kind: str, word: str, size: str, rest: str) -> Thread:
    family: Family = "r" if kind in ("r", "bspt") else "g"
    series = word.capitalize() if kind == "r" else ("R" if kind == "bspt" else "G")
    entry = _named(written, family, series, size)
    entry = Entry(family, series, entry.size, entry.diameter, entry.pitch, entry.listed)
    return _finish(written, entry, f"{series} {entry.size}", 1, rest)


def _named(written: Written, family: Family, series: str, size: str) -> Entry:
    """The entry of a family whose size is a name, not a diameter; the pitch may be written too and must be right."""
    found = _inch().fullmatch(size)
    inches = read_inches(found[1]) if found else None
    if not found or inches is None:
        raise unread(written)
    known = by_size(family).get(write_inches(inches[0]))
    if not known:
        near = sorted(by_size(family), key=lambda s: abs(sum(map(Fraction, s.split())) - inches[0]))[:2]
        choices = " and ".join(f"{series} {s}" if family != "npt" else f"{s} NPT" for s in near)
        raise refuse(
            written.text,
            f"{written.text} is no size of {_STANDARDS[family]}: the nearest are {choices}",
            choices,
        )
    tpi = read_inches(found[2]) if found[2] else None
    if found[2] and (tpi is None or known[0].pitch * tpi[0] != MM_PER_INCH):
        right = plain(MM_PER_INCH / known[0].pitch)
        raise refuse(
            written.text,
            f"{written.text} has another pitch in {_STANDARDS[family]}: {right} threads per inch",
        )
    return known[0]


def _read_pair(written: Written, kind: str, word: str, size: str, rest: str) -> Thread:
    family = _PLAIN_FAMILIES[kind]
    if family == "npt":
        entry = _named(written, "npt", "NPT", size)
        name = f"{entry.size.replace(' ', '-')}-{plain(MM_PER_INCH / entry.pitch)} NPT"
        return _finish(written, entry, name, 1, rest)
    found = _inch().fullmatch(size)
    inches = read_inches(found[1]) if found else None
    if not found or inches is None or inches[1] == "number":
        raise unread(written)
    entry = _pair_entry(written, family, kind, word, inches[0], found[2])
    lead = Fraction(found[3]) * MM_PER_INCH if found[3] else None
    starts = count_starts(written, lead, entry.pitch)
    return _finish(written, entry, _pair_name(entry, starts), starts, rest)


def _pair_entry(
    written: Written, family: Family, kind: str, word: str, size: Fraction, tpi_text: str | None
) -> Entry:
    series = {"bsw": "BSW", "bsf": "BSF"}.get(kind, "")
    standard = _STANDARDS[family]
    known = [e for e in at_diameter(family, size * MM_PER_INCH) if not series or e.series == series]
    shown = series or _NAMES.get(family, "Whit.")
    choices = ", ".join(_pair_name(e, 1) for e in known)
    if tpi_text is None:
        if kind == "whit" and known:
            known = known[:1]
        if len(known) == 1:
            return known[0]
        if known:
            raise refuse(written.text, f"{written.text} needs its threads per inch: {choices}", choices)
        if held := _held(family, series, size):
            raise refuse(
                written.text, f"{written.text} is outside the tables here, which hold {standard}{held}"
            )
        raise refuse(
            written.text, f"{written.text} is no size of {standard}{_neighbours(family, series, size)}"
        )
    tpi = read_inches(tpi_text)
    if tpi is None or tpi[0] <= 0:
        raise unread(written)
    pitch = MM_PER_INCH / tpi[0]
    for entry in known:
        if entry.pitch == pitch:
            return entry
    if written.special or kind == "whit":
        check_special(written, size * MM_PER_INCH, pitch)
        name = "Whit.S" if family == "whitworth" else known[0].series if known else _NAMES[family]
        return Entry(family, name, write_inches(size), size * MM_PER_INCH, pitch, "special")
    name = f"{write_inches(size)}-{plain(tpi[0])}"
    mark = "Whit.S" if family == "whitworth" else f"{shown} special"
    meant = escape(name, size * MM_PER_INCH, pitch, mark)
    if held := _held(family, series, size):
        sentence = f"{name} {shown} is outside the tables here, which hold {standard}{held}{meant}"
        raise refuse(written.text, sentence)
    near = choices or _neighbours(family, series, size).removeprefix(": ")
    raise refuse(written.text, f"{name} {shown} is not a pair of {standard}: {near}{meant}", near)


def _held(family: Family, series: str, size: Fraction) -> str:
    """The sizes that the tables hold, if a size in inches lies outside them."""
    ends = beyond(family, size * MM_PER_INCH, series)
    return " from " + " to ".join(_pair_name(entry, 1) for entry in ends) if ends else ""


def _neighbours(family: Family, series: str, size: Fraction) -> str:
    """The nearest sizes of the series, for a refusal."""
    entries = [e for group in by_size(family).values() for e in group if not series or e.series == series]
    entries.sort(key=lambda e: (abs(e.diameter - size * MM_PER_INCH), e.diameter))
    return ": the nearest are " + " and ".join(_pair_name(e, 1) for e in entries[:2])


def _pair_name(entry: Entry, starts: int) -> str:
    """Size, threads per inch and series as these families write them."""
    size = write_inches(entry.diameter / MM_PER_INCH, joint="-" if entry.family == "acme" else " ")
    lead = f"-{plain(entry.pitch * starts / MM_PER_INCH)}L ({starts} STARTS)" if starts > 1 else ""
    return f"{size}-{plain(MM_PER_INCH / entry.pitch)}{lead} {entry.series}"


def _finish(written: Written, entry: Entry, name: str, starts: int, rest: str) -> Thread:
    tolerance = read_class(entry.family, written, rest)
    special = entry.listed == "special"
    joint = "-" if entry.family in ("acme", "npt") else " "
    parts = [name, "LH" if written.left_hand else "", tolerance]
    marked = " special" if special and entry.family != "whitworth" else ""
    return Thread(
        family=entry.family,
        series=entry.series,
        diameter=float(entry.diameter),
        pitch=entry.pitch,
        starts=starts,
        left_hand=written.left_hand,
        tolerance=tolerance,
        special=special,
        designation=joint.join(part for part in parts if part) + marked,
        size=entry.size,
    )
