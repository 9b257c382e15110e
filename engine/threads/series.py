"""The published series: which diameters go with which pitches, family by family."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from engine.base.quantity import MM_PER_INCH
from engine.base.tables import rows
from engine.threads.inch_sizes import inches
from engine.threads.thread import Thread, family
from engine.threads.told import Entry

exact = cache(Fraction)  # the same few pitches and diameters stand in every table; reading one is slow


@cache
def entries(name: str) -> tuple[Entry, ...]:
    """Every pair of a family, smallest diameter first, in the order of preference at one diameter.

    >>> [float(e.pitch) for e in entries("metric") if e.size == "10"]
    [1.5, 1.25, 1.0, 0.75]
    """
    return tuple([entry for _, together in sorted(_by_diameter(name).items()) for entry in together])


def at_diameter(name: str, diameter: Fraction) -> tuple[Entry, ...]:
    """The pairs of a family at one diameter in mm, preferred first.

    >>> [e.series for e in at_diameter("unified", Fraction(127, 20))][:3]
    ['UNC', 'UNF', 'UNEF']
    """
    return _by_diameter(name).get(round(float(diameter), 3), ())


@cache
def _by_diameter(name: str) -> dict[float, tuple[Entry, ...]]:
    index: dict[float, tuple[Entry, ...]] = {}
    last, key = None, 0.0
    for entry in family(name).pairs():
        if (
            entry.diameter is not last
        ):  # those of one diameter stand together, and a fraction is slow to turn into a float
            last, key = entry.diameter, round(float(entry.diameter), 3)
        index[key] = (*index.get(key, ()), entry)
    return index


@cache
def by_size(name: str) -> dict[str, tuple[Entry, ...]]:
    """The pairs of a family by the name of their size (`1/4`, `#10`, `4`), preferred first.

    >>> by_size("g")["1/4"][0].pitch
    Fraction(127, 95)
    """
    index: dict[str, tuple[Entry, ...]] = {}
    for entry in entries(name):
        index[entry.size] = (*index.get(entry.size, ()), entry)
    return index


_LISTINGS = {
    "memory": "is in its series from memory, unconfirmed",
    "trade list": "was found in a trade list only",
    "trade use": "is not in the standard, but in common use",
}


def standing(thread: Thread) -> str:
    """What is unusual about a thread's place in its series, in one clause; "" for a pair that a standard lists.

    >>> from engine.threads.designation import parse
    >>> standing(parse("M10x1.4 special"))
    'M10x1.4 special is no pair of the tables here: worked as a special thread'
    """
    if thread.special:
        return f"{thread} is no pair of the tables here: worked as a special thread"
    for entry in at_diameter(thread.family, Fraction(thread.diameter)):
        if entry.pitch == thread.pitch and entry.listed:
            words = _LISTINGS.get(entry.listed)
            return f"{thread} {words}" if words else ""
    return ""


def beyond(name: str, diameter: Fraction, series: str = "") -> tuple[Entry, Entry] | None:
    """The smallest and the largest thread that the tables hold (of one series), if a diameter in mm lies outside them.

    >>> [float(entry.diameter) for entry in beyond("metric", Fraction(1100))]
    [1.0, 300.0]
    """
    held = [entry for entry in entries(name) if not series or entry.series == series]
    return None if held[0].diameter <= diameter <= held[-1].diameter else (held[0], held[-1])


def inch_entries(name: str, table: str, series: str = "") -> list[Entry]:
    """The pairs of a table in inches and threads per inch; its column `series`, where it has one, names each row's."""
    found = []
    for row in rows(f"threads/{table}.csv"):
        size = row["size"].replace("No. ", "#")  # a line of the file may not begin with #: that is a comment
        label = row.get("series") or series
        found.append(Entry(name, label, size, _inch_size(size), _per_inch(row["tpi"]), row.get("listed", "")))
    return found


@cache
def _inch_size(size: str) -> Fraction:
    return inches(size) * MM_PER_INCH


@cache
def _per_inch(count: str) -> Fraction:
    return MM_PER_INCH / Fraction(count)


def metric_entries(name: str, table: str, series: str = "", size: str = "d") -> list[Entry]:
    """The pairs of a table in millimetres; its column `series`, where it has one, names each row's."""
    return [
        Entry(name, row.get("series") or series, row[size], exact(row["d"]), exact(row["pitch"]), row.get("listed", ""))
        for row in rows(f"threads/{table}.csv")
    ]


def named(entry: Entry) -> Thread:
    """The thread of a published pair, read from the standard's writing of it.

    >>> str(named(entries("ba")[-1]))
    '0 BA'
    """
    from engine.threads.designation import parse_of

    return parse_of(entry.family, family(entry.family).write(entry))
