"""Limits of size of a thread, whatever its family: the record that every family's rule fills in, and the door to it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Any

from engine.base.refusals import check_range
from engine.base.rounding import Side
from engine.base.sums import Sum
from engine.base.words import Said, Text, formula, say
from engine.threads.thread import Thread
from engine.threads.told import Classes, Gauge, Limits
from engine.threads.tolerance import read_tolerance

_NOTHING: Mapping[str, Any] = MappingProxyType({})
# The sizes of a record, in the order they are shown: name, label, how it is rounded when shown.
SIZES: tuple[tuple[str, str, Side], ...] = (
    ("ext_major_max", "Screw: major, largest", "down"),
    ("ext_major_min", "Screw: major, smallest", "up"),
    ("ext_pitch_max", "Screw: pitch diameter, largest", "down"),
    ("ext_pitch_min", "Screw: pitch diameter, smallest", "up"),
    ("ext_minor_max", "Screw: minor, largest", "down"),
    ("ext_minor_min", "Screw: minor, smallest", "up"),
    ("int_minor_min", "Nut: minor, smallest", "up"),
    ("int_minor_max", "Nut: minor, largest", "down"),
    ("int_pitch_min", "Nut: pitch diameter, smallest", "up"),
    ("int_pitch_max", "Nut: pitch diameter, largest", "down"),
    ("int_major_min", "Nut: major, smallest", "up"),
)


def gauge(thread: Thread) -> Gauge | None:
    """The gauging lengths of a taper pipe thread; None for any other.

    >>> from engine.threads.designation import parse
    >>> gauge(parse("R 1/2")).length, gauge(parse("M10"))
    (8.2, None)
    """
    return thread.kind.gauge(thread)


def ruled(x: Sum, more: Text = "") -> Said:
    """A working: the rule in symbols, then in numbers.

    >>> from engine.base.sums import mm
    >>> from engine.base.words import write
    >>> write(ruled(mm(9.026, symbol="d2") - mm(0.032, symbol="deviation g")))
    'd2 - deviation g = 9.026 - 0.032'
    """
    return Said("{rule} = {sum}{more}", {"rule": formula(x), "sum": x, "more": more})


def sized(rows: Mapping[str, tuple[float, Text]], beside: Mapping[str, Any] = _NOTHING) -> dict[str, Any]:
    """Sizes with their workings, as `Limits` takes them, and the ones that are known beside them.

    >>> sized({"ext_major_max": (9.968, "as tabulated")})
    {'ext_major_max': 9.968, 'working': {'ext_major_max': 'as tabulated'}}
    """
    working = {**beside.get("working", {}), **{name: working for name, (_, working) in rows.items()}}
    return {**beside, **{name: size for name, (size, _) in rows.items()}, "working": working}


def worked(
    sums: Mapping[str, Sum], rounding: Callable[[float], float], to: Text = "", *,
    ends: Mapping[str, Text] = _NOTHING, beside: Mapping[str, Any] = _NOTHING,
) -> dict[str, Any]:  # fmt: skip
    """The same by their sums: each rounded as its standard does, which `to` says behind it, or an end of its own.

    >>> from engine.base.sums import mm
    >>> worked({"ext_minor_max": mm(8.16) - mm(0.0321)}, lambda size: round(size, 3))["ext_minor_max"]
    8.128
    """
    rows: dict[str, tuple[float, Text]] = {n: (rounding(float(x)), ruled(x, ends.get(n, to))) for n, x in sums.items()}
    return sized(rows, beside)


def to_inch_places(places: int, more: Text = "") -> Said:
    """The end of a working whose result its standard rounds to so many decimals of an inch."""
    return say("{to}{more}", to=f", to {places} decimals of an inch", more=more)


@lru_cache(maxsize=1024)
def limits(thread: Thread, tolerance: str | None = None, engagement: float | None = None) -> Limits:
    """Return the limits of size of a screw and its nut.

    thread: The thread.
    tolerance: Class of the screw, the nut or both (`6g`, `6H/6g`, `2A`, `close`). None: the one written in the thread,
        and for a side that has none the family's usual one.
    engagement: Length of engagement; it matters to ISO metric, Unified and Whitworth. None: the usual length. [mm]
    Returns: The limits and where they come from. [mm]
    Raises: BadInput if the class is none of the family's, or the standard does not give it for this thread.
    Source: Its family's standard: see `source`, and the files under engine/threads/families.

    M10 - 6g: pitch diameter 8.862 to 8.994 (ASME B1.13M limits listing).

    >>> from engine.threads.designation import parse
    >>> m10 = limits(parse("M10"), "6g")
    >>> m10.ext_pitch_min, m10.ext_pitch_max
    (8.862, 8.994)
    """
    if engagement is not None:
        check_range("engagement", engagement, low=thread.diameter / 100, high=100 * thread.diameter, unit="mm")
    asked = read_tolerance(thread.family, tolerance) if tolerance else Classes(None, None)
    written = read_tolerance(thread.family, thread.tolerance) if thread.tolerance else Classes(None, None)
    classes = Classes(asked.screw or written.screw, asked.nut or written.nut)
    return thread.kind.limits(thread, classes, engagement)
