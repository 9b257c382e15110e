"""How deep a tapped hole goes, and how far each tap of a set gets in it."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.refusals import check_range
from engine.base.sums import Sum, mm, num
from engine.base.tables import rows
from engine.threads.thread import Thread


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

    pitch: Pitch, above 0. [mm]
    thread_depth: Depth of usable thread, above 0. [mm]
    Returns: The usable thread and DIN 76-1's e1 beyond it; the drill's point comes on top. [mm]
    Raises: OutOfRange if pitch or depth is not above 0.
    Source: DIN 76-1, e1 normal; a pitch between two rows takes the coarser row, one beyond 6 mm 4.2 pitches (common
        practice, no source).

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


LEADS = (("taper", 8), ("second", 5), ("bottoming", 2))  # threads of lead: common practice, no source
TAP_NAMES = {"taper": "taper", "second": "second (US: plug)", "bottoming": "bottoming (UK: plug)"}


def hand_taps(*, pitch: float, hole_depth: float) -> tuple[HandTap, ...]:
    """The three taps of a hand set and how deep [mm] each leaves full thread in a blind hole.

    Their leads of 8, 5 and 2 threads: common practice, no source (DIN 352 has 6, 4 and 2; ASME B94.9 7 to 10, 3 to 5
    and 1 to 2).

    >>> [(t.name, t.full_thread) for t in hand_taps(pitch=1, hole_depth=17)]
    [('taper', 9), ('second', 12), ('bottoming', 15)]
    """
    return tuple(HandTap(name, lead, max(hole_depth - lead * pitch, 0)) for name, lead in LEADS)


def needed_tap(taps: tuple[HandTap, ...], depth: float) -> HandTap:
    """The first tap of a set that leaves full thread to a depth; the last where none does."""
    return next((tap for tap in taps if tap.full_thread >= depth - 1e-9), taps[-1])


def tap_turns(*, depth: float, thread: Thread, lead_threads: int) -> Sum:
    """Turns of a tap from its first bite until the thread is full to a depth.

    depth: Depth of full thread, or the thickness of a through hole. [mm]
    thread: The thread.
    lead_threads: Threads of the tap's lead, which go in beyond the full thread.
    Returns: depth / lead + threads of lead / starts. [-]
    Source: Arithmetic. The leads: common practice, no source.

    M6 12 mm deep with the second tap: 12 threads and 5 of lead.

    >>> from engine.threads.designation import parse
    >>> tap_turns(depth=12, thread=parse("M6"), lead_threads=5).value
    17.0
    """
    lead = num(lead_threads)
    return mm(depth) / mm(float(thread.lead)) + (lead / num(thread.starts) if thread.starts > 1 else lead)
