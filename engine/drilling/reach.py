"""How deep tools reach: flutes of drills and reamers, thread and neck of taps, as owned or by their standards' lengths."""

from __future__ import annotations

from functools import cache, lru_cache

from engine.base.records import dataclass, replace
from engine.base.tables import rows
from engine.base.tool import Tool
from engine.drilling.sizes import SAME, SERIES, nearest
from engine.drilling.tap_depth import LEADS
from engine.shop.model import Shop
from engine.threads.owned import cut_by
from engine.threads.thread import Thread

_BURIED = 1.5  # diameters of flute that stand out of a hole, so that chips get out (common practice, no source)
_WRENCH = 1.5  # diameters at the end of a tap's shank that its square and the wrench take (common practice)
_HAND_TAP = 5.0  # diameters that a hand tap reaches where its shank is thicker than its hole (common practice)
_NAMES = {
    ("iso", "jobber"): "jobber drill (DIN 338, from memory)",
    ("iso", "long"): "long drill (DIN 340, from memory)",
    ("asme", "jobber"): "jobber drill (ASME B94.11M, from memory)",
    ("iso", "stub"): "stub drill (DIN 1897, from memory)",
    ("asme", "stub"): "screw machine drill (ASME B94.11M, from memory)",
}


@dataclass(frozen=True, slots=True)
class DrillLength:
    """Length of a drill, in mm: its flute, and the depth to which chips still get out. `owned`: the shop lists it."""

    name: str
    flute: float
    usable: float
    owned: bool = False


@dataclass(frozen=True, slots=True)
class TapReach:
    """How deep the front of a tap can go, in mm, and why no deeper."""

    depth: float
    why: str
    source: str
    owned: bool = False


def drill_length(diameter: float, series: str = "jobber") -> DrillLength | None:
    """Length of a drill of a diameter [mm] in a series (stub, jobber, long) of its own system; None outside the table.

    DIN 1897, DIN 338, DIN 340, ASME B94.11M, from memory; an inch drill has no long series here. Chips get out to the
    flute less 1.5 diameters (common practice, no source).

    >>> drill_length(5).flute, drill_length(5, "long").usable, drill_length(30)
    (52.0, 79.5, None)
    """
    standard = "iso" if series == "long" else _standard(diameter)
    for row in rows("drilling/drill_lengths.csv"):
        if (row["standard"], row["series"]) == (standard, series) and float(row["over"]) < diameter <= float(row["to"]):
            return _length(_NAMES[standard, series], float(row["flute"]), diameter)
    return None


def _length(name: str, flute: float, diameter: float, *, owned: bool = False) -> DrillLength:
    return DrillLength(name, flute, max(flute - _BURIED * diameter, 0.0), owned)


@lru_cache(maxsize=256)
def _standard(diameter: float) -> str:
    """Whose lengths a tool has: ASME's where its size is one of the inch series alone."""
    same = {name: abs(nearest(diameter, of=name).diameter - diameter) <= SAME for name in SERIES}
    return "asme" if any(same[name] for name in SERIES if name != "metric") and not same["metric"] else "iso"


def drills_at_hand(diameter: float, shop: Shop) -> tuple[DrillLength, ...]:
    r"""The drills of a diameter [mm] that are there, the shortest first: as the shop lists them, else a jobber drill.

    >>> from engine.shop.file import parse
    >>> shop = parse("[[drill_lengths]]\ndiameter = 6\nflute = 120")
    >>> [drill.usable for size in (6.0, 5.0) for drill in drills_at_hand(size, shop)]
    [111.0, 44.5]
    """
    listed = [one for one in shop.drill_lengths if abs(one.diameter - diameter) <= SAME]
    if not listed:
        usual = drill_length(diameter)
        return (usual,) if usual else ()
    found = []
    for one in listed:
        standard = drill_length(diameter, one.series)
        if one.flute is not None:
            found.append(_length(f"{one.series} drill", one.flute, diameter, owned=True))
        elif standard is not None:
            found.append(replace(standard, owned=True))
    return tuple(sorted(found, key=lambda drill: drill.flute))


def drill_for(diameter: float, travel: float, shop: Shop) -> DrillLength | None:
    """The shortest drill whose flutes clear chips at a depth [mm]: of those at hand, else a standard long one; None
    where none does."""
    longer = drill_length(diameter, "long")
    for found in (*drills_at_hand(diameter, shop), *([longer] if longer else [])):
        if travel <= found.usable + 1e-9:
            return found
    return None


def reamer_length(tool: Tool, kind: str) -> float | None:
    """Length of the flutes of a reamer, of the size at or below its own; None outside the tables (from memory)."""
    standard = _standard(tool.diameter)
    sizes = [
        row
        for row in rows("drilling/reamer_lengths.csv")
        if (row["standard"], row["kind"]) == (standard, kind) and float(row["diameter"]) <= tool.diameter + 1e-6
    ]
    return float(sizes[-1]["flute"]) if sizes and tool.diameter <= 1.1 * float(sizes[-1]["diameter"]) + 1 else None


@cache
def _taps() -> tuple[dict[str, str], ...]:
    return rows("drilling/tap_lengths.csv")


def tap_reach(thread: Thread, hole: float, shop: Shop, name: str = "") -> TapReach:
    """How deep the front of a tap for a thread can go into its hole.

    The deepest of the shop's own taps where it tells their reach; else the deepest of the standards' taps kept here: thread
    and neck where the shank is thicker than the hole, the whole tap less its square where the shank follows.

    thread: what is tapped
    hole: its diameter [mm]
    shop: whose taps they are
    name: of the tap, such as `second`; empty: whichever goes in deepest
    Returns: the depth [mm] and what ends it.
    Source: DIN 371, 374, 376, read in a tap maker's catalogue; DIN 352, ISO 529, from memory; ASME B94.9: Machinery's
        Handbook, 31st ed., p. 986, and memory. Threads without a row: 5 diameters (common practice, no source).

    >>> from engine.shop.model import Shop
    >>> from engine.threads.designation import parse
    >>> found = tap_reach(parse("M6"), 5.0, Shop())
    >>> found.depth, found.source
    (30.0, 'DIN 371')
    """
    own = [
        tap.reach for tap in shop.tap_kinds if tap.reach and cut_by(tap.size) == cut_by(thread) and _is(tap.kind, name)
    ]
    if own:
        return TapReach(max(own), "its shank", "as the shop has it", owned=True)
    found = [_reach(row, thread, hole) for row in _taps() if _cuts(row, thread)]
    if not found:
        return TapReach(_HAND_TAP * thread.diameter, "its shank", "5 diameters: common practice, no source")
    return max(found, key=lambda reach: reach.depth)


def _is(kind: str, name: str) -> bool:
    """Whether a tap of this kind can be the one that is named."""
    return not name or kind == name or (kind == "hand set" and name in dict(LEADS))


def _cuts(row: dict[str, str], thread: Thread) -> bool:
    same_pitch = not row["pitch"] or abs(float(row["pitch"]) - float(thread.pitch)) < 1e-3
    return row["family"] == thread.family and same_pitch and abs(float(row["diameter"]) - thread.diameter) < 2e-3


def _reach(row: dict[str, str], thread: Thread, hole: float) -> TapReach:
    source = row["standard"] + (", from memory" if row["mark"] == "memory" else "")
    if float(row["shank"]) < hole:
        return TapReach(float(row["overall"]) - _WRENCH * thread.diameter, "its square", source)
    return TapReach(float(row["neck"] or row["thread"]), "its shank, thicker than the hole", source)
