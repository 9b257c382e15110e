"""The published series: which diameters go with which pitches, family by family."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH
from engine.base.tables import rows
from engine.threads.thread import Family, Thread

FAMILIES: tuple[Family, ...] = (
    "metric",
    "unified",
    "whitworth",
    "ba",
    "me",
    "brass",
    "cycle",
    "g",
    "r",
    "npt",
    "tr",
    "acme",
)


_exact = cache(Fraction)  # the same few pitches and diameters stand in every table; reading one is slow


@dataclass(frozen=True, slots=True)
class Entry:
    """One pair of a published series. Diameter and pitch in mm, exact; `size` as the standard names it.

    `listed` is "memory", "formula" or "trade list" where the membership does not come from a readable standard.
    """

    family: Family
    series: str
    size: str
    diameter: Fraction
    pitch: Fraction
    listed: str = ""


@cache
def entries(family: Family) -> tuple[Entry, ...]:
    """Return every pair of a family, smallest diameter first, in the order of preference at one diameter.

    Parameters
    ----------
    family : str
        Such as `metric`.

    Returns
    -------
    entries : tuple of Entry
        The pairs.

    Sources
    -------
    ISO 261, ASME B1.1, BS 84, BS 93, BS 811, ISO 228-1, ISO 7-1, ASME B1.20.1, ISO 2904, ASME B1.5: the files under
    engine/data/threads.

    Examples
    --------
    >>> [float(e.pitch) for e in entries("metric") if e.size == "10"]
    [1.5, 1.25, 1.0, 0.75]
    """
    found = _LOADERS[family]()
    return tuple(sorted(found, key=lambda entry: float(entry.diameter)))  # fractions compare slowly


def at_diameter(family: Family, diameter: Fraction) -> tuple[Entry, ...]:
    """Return the pairs of a family at one diameter, preferred first.

    Parameters
    ----------
    family : str
        Such as `metric`.
    diameter : Fraction
        Nominal diameter. [mm]

    Returns
    -------
    entries : tuple of Entry
        None, one or more.

    Sources
    -------
    As for `entries`.

    Examples
    --------
    >>> [e.series for e in at_diameter("unified", Fraction(127, 20))][:3]
    ['UNC', 'UNF', 'UNEF']
    """
    return _by_diameter(family).get(round(float(diameter), 3), ())


@cache
def _by_diameter(family: Family) -> dict[float, tuple[Entry, ...]]:
    index: dict[float, tuple[Entry, ...]] = {}
    for entry in entries(family):
        key = round(float(entry.diameter), 3)
        index[key] = (*index.get(key, ()), entry)
    return index


@cache
def by_size(family: Family) -> dict[str, tuple[Entry, ...]]:
    """Return the pairs of a family by the name of their size (`1/4`, `#10`, `4`).

    Parameters
    ----------
    family : str
        Such as `g`.

    Returns
    -------
    index : dict
        Size to its pairs, preferred first.

    Sources
    -------
    As for `entries`.

    Examples
    --------
    >>> by_size("g")["1/4"][0].pitch
    Fraction(127, 95)
    """
    index: dict[str, tuple[Entry, ...]] = {}
    for entry in entries(family):
        index[entry.size] = (*index.get(entry.size, ()), entry)
    return index


_LISTINGS = {
    "memory": "is in its series from memory, unconfirmed",
    "trade list": "was found in a trade list only",
    "trade use": "is not in the standard, but in common use",
}


def standing(thread: Thread) -> str:
    """Say what is unusual about a thread's place in its series.

    Parameters
    ----------
    thread : Thread
        The thread.

    Returns
    -------
    text : str
        One clause with the thread's name; "" for a pair that a standard lists.

    Sources
    -------
    The marks in the files under engine/data/threads.

    Examples
    --------
    >>> from engine.threads.designation import parse
    >>> standing(parse("M10x1.4 special"))
    'M10x1.4 special is no pair of the tables here: worked as a special thread'
    """
    if thread.special:
        return f"{thread} is no pair of the tables here: worked as a special thread"
    for entry in at_diameter(thread.family, Fraction(thread.diameter)):
        if entry.pitch == thread.pitch and entry.listed in _LISTINGS:
            return f"{thread} {_LISTINGS[entry.listed]}"
    return ""


def inches(size: str) -> Fraction:
    """Return an inch size of a table in inches: `1 1/8`, `#10`, `.056`.

    Parameters
    ----------
    size : str
        The size, as a table names it.

    Returns
    -------
    inches : Fraction
        The size. [in]

    Raises
    ------
    ValueError
        If it is no size.

    Sources
    -------
    Number sizes: 0.060 in + 0.013 in for each number (ASME B1.1).

    Examples
    --------
    >>> inches("1 1/8"), float(inches("#10"))
    (Fraction(9, 8), 0.19)
    """
    if size.startswith("#"):
        return Fraction(60 + 13 * int(size[1:]), 1000)
    return sum(map(_exact, size.split()), Fraction(0))


def _inch_entries(family: Family, name: str, series: str = "") -> list[Entry]:
    found = []
    for row in rows(f"threads/{name}.csv"):
        size = row["size"].replace("No. ", "#")  # a line of the file may not begin with #: that is a comment
        pitch = MM_PER_INCH / _exact(row["tpi"])
        label = row.get("series") or series
        found.append(Entry(family, label, size, inches(size) * MM_PER_INCH, pitch, row.get("listed", "")))
    return found


def _metric() -> list[Entry]:
    return [
        Entry("metric", row["series"], row["d"], _exact(row["d"]), _exact(row["pitch"]))
        for row in rows("threads/iso261.csv")
    ]


def _ba() -> list[Entry]:
    return [
        Entry("ba", "BA", row["number"], _exact(row["major"]), _exact(row["pitch"]), row["listed"])
        for row in rows("threads/ba.csv")
    ]


def _trapezoidal() -> list[Entry]:
    return [
        Entry("tr", "Tr", row["d"], _exact(row["d"]), _exact(row["pitch"]), row["listed"])
        for row in rows("threads/iso2904.csv")
    ]


def _pipe(family: Family, name: str, series: str) -> list[Entry]:
    return [
        Entry(family, series, row["size"], _exact(row["major"]), MM_PER_INCH / _exact(row["tpi"]))
        for row in rows(f"threads/{name}.csv")
    ]


def beyond(family: Family, diameter: Fraction, series: str = "") -> tuple[Entry, Entry] | None:
    """Return the smallest and the largest thread that the tables hold, if a diameter lies outside them.

    Parameters
    ----------
    family : str
        The family.
    diameter : Fraction
        Nominal diameter. [mm]
    series : str
        Of this series only; all when empty.

    Returns
    -------
    ends : tuple of Entry, or None
        None if the diameter lies between them.

    Raises
    ------
    ValueError
        If the family has no such series.

    Sources
    -------
    The tables of engine/data/threads: a standard may go on where they end.

    Examples
    --------
    >>> [float(entry.diameter) for entry in beyond("metric", Fraction(110))]
    [1.0, 100.0]
    """
    held = [entry for entry in entries(family) if not series or entry.series == series]
    return None if held[0].diameter <= diameter <= held[-1].diameter else (held[0], held[-1])


def _npt() -> list[Entry]:
    return [
        Entry(
            "npt", "NPT", row["size"], _exact(row["outside"]) * MM_PER_INCH, MM_PER_INCH / _exact(row["tpi"])
        )
        for row in rows("threads/npt.csv")
    ]


_LOADERS: dict[Family, Callable[[], list[Entry]]] = {
    "metric": _metric,
    "unified": lambda: _inch_entries("unified", "asme_b1_1"),
    "whitworth": lambda: _inch_entries("whitworth", "bs84"),
    "ba": _ba,
    "me": lambda: _inch_entries("me", "me", "ME"),
    "brass": lambda: _inch_entries("brass", "brass", "BSB"),
    "cycle": lambda: _inch_entries("cycle", "bs811", "BSC"),
    "g": lambda: _pipe("g", "iso228", "G"),
    "r": lambda: _pipe("r", "iso7", "R"),
    "npt": _npt,
    "tr": _trapezoidal,
    "acme": lambda: _inch_entries("acme", "acme", "ACME"),
}
