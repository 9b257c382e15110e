"""How deep a tapped hole goes, and how far each tap of a set gets in it."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.refusals import check_range
from engine.base.tables import rows


@dataclass(frozen=True, slots=True)
class BlindDepth:
    """How deep a blind hole goes at full diameter for a depth of usable thread, in mm."""

    depth: float
    beyond: float
    source: str


@dataclass(frozen=True, slots=True)
class HandTap:
    """A tap of a set: how many threads its lead has, how deep it leaves full thread in the hole, in mm."""

    name: str
    lead_threads: int
    full_thread: float


def blind_depth(*, pitch: float, thread_depth: float) -> BlindDepth:
    """Depth of a blind hole at full diameter for a depth of usable thread.

    Parameters
    ----------
    pitch : float
        Pitch, above 0. [mm]
    thread_depth : float
        Depth of usable thread, above 0. [mm]

    Returns
    -------
    depth : BlindDepth
        The usable thread and DIN 76-1's e1 beyond it; the drill's point comes on top. [mm]

    Raises
    ------
    OutOfRange
        If pitch or depth is not above 0.

    Sources
    -------
    DIN 76-1, e1 normal; a pitch between two rows takes the coarser row, one beyond 6 mm 4.2 pitches (common
    practice, no source).

    Examples
    --------
    >>> found = blind_depth(pitch=1, thread_depth=12)
    >>> round(found.depth, 2), found.beyond
    (17.1, 5.1)
    """
    check_range("pitch", pitch, low=1e-6, unit="mm")
    check_range("depth", thread_depth, low=1e-6, unit="mm")
    for row in rows("threads/din76_nut.csv"):
        if pitch <= float(row["pitch"]) + 1e-6:
            exact = abs(pitch - float(row["pitch"])) <= 1e-6
            source = "DIN 76-1, e1 normal" + ("" if exact else f", row of P {row['pitch']} (common practice)")
            return BlindDepth(thread_depth + float(row["e1"]), float(row["e1"]), source)
    return BlindDepth(thread_depth + 4.2 * pitch, 4.2 * pitch, "4.2 pitches: common practice, no source")


def hand_taps(*, pitch: float, hole_depth: float) -> tuple[HandTap, ...]:
    """The three taps of a hand set and how deep each leaves full thread in a blind hole.

    Parameters
    ----------
    pitch : float
        Pitch. [mm]
    hole_depth : float
        Depth of the hole at full diameter. [mm]

    Returns
    -------
    taps : tuple of HandTap
        Taper, second and plug tap. [mm]

    Sources
    -------
    Leads of 8, 5 and 2 threads: common practice, no source.

    Examples
    --------
    >>> [(t.name, t.full_thread) for t in hand_taps(pitch=1, hole_depth=17)]
    [('taper', 9), ('second', 12), ('plug', 15)]
    """
    leads = (("taper", 8), ("second", 5), ("plug", 2))
    return tuple(HandTap(name, lead, max(hole_depth - lead * pitch, 0)) for name, lead in leads)
