"""How deep a tapped hole goes, and how far each tap of a set gets in it."""

from __future__ import annotations

from collections.abc import Sequence

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.sums import Sum, mm, num
from engine.base.tables import rows
from engine.shop.model import Shop
from engine.threads.owned import cut_by
from engine.threads.thread import Thread


@dataclass(frozen=True, slots=True)
class BlindDepth:
    """How deep a blind hole goes at full diameter for a depth of usable thread, in mm."""

    depth: float
    beyond: float
    source: str


@dataclass(frozen=True, slots=True)
class HandTap:
    """A tap: how many threads its lead has, how deep it leaves full thread in the hole, in mm."""

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


LEADS = (("taper", 8), ("second", 5), ("bottoming", 2))  # threads of lead of a hand set: common practice, no source
_SPIRAL = (("spiral point", 5), ("spiral flute", 3))  # threads of lead: a tap maker's technical page
TAP_NAMES = {
    "taper": "taper",
    "second": "second (US: plug)",
    "bottoming": "bottoming (UK: plug)",
    "spiral point": "spiral point",
    "spiral flute": "spiral flute",
}


def taps_at_hand(thread: Thread, shop: Shop) -> tuple[tuple[str, int], ...]:
    r"""The cutting taps for a thread with the threads of their leads, the longest first: as the shop lists them for that
    thread, else a hand set.

    >>> from engine.shop.file import parse
    >>> from engine.threads.designation import parse as size
    >>> shop = parse("[[tap_kinds]]\nsize = 'M6'\nkind = 'spiral flute'")
    >>> [taps_at_hand(size(one), shop) for one in ("M6", "M5")]
    [(('spiral flute', 3),), (('taper', 8), ('second', 5), ('bottoming', 2))]
    """
    kinds = {tap.kind for tap in shop.tap_kinds if cut_by(tap.size) == cut_by(thread)}
    every = sorted((*LEADS, *_SPIRAL), key=lambda one: -one[1])
    hand = dict(LEADS)
    found = tuple(one for one in every if one[0] in kinds or ("hand set" in kinds and one[0] in hand))
    return found or LEADS


def blind_taps(thread: Thread, shop: Shop, hole_depth: float) -> tuple[HandTap, ...]:
    """The taps for a blind hole and how deep [mm] each leaves full thread in it; a spiral point, which pushes its chips
    to the bottom, only where there is no other.

    Leads of a hand set of 8, 5 and 2 threads: common practice, no source (DIN 352 has 6, 4 and 2; ASME B94.9 7 to 10, 3
    to 5 and 1 to 2).

    >>> from engine.shop.model import Shop
    >>> from engine.threads.designation import parse
    >>> [(t.name, t.full_thread) for t in blind_taps(parse("M6"), Shop(), 17)]
    [('taper', 9.0), ('second', 12.0), ('bottoming', 15.0)]
    """
    at_hand, pitch = taps_at_hand(thread, shop), float(thread.pitch)
    fit = [one for one in at_hand if one[0] != "spiral point"] or at_hand
    return tuple(HandTap(name, lead, max(hole_depth - lead * pitch, 0)) for name, lead in fit)


def through_tap(thread: Thread, shop: Shop, thickness: float) -> HandTap:
    """The tap that goes right through a thickness [mm]: a spiral point, else the taper tap, else the longest lead."""
    at_hand = dict(taps_at_hand(thread, shop))
    name = next(one for one in ("spiral point", "taper", *at_hand) if one in at_hand)
    return HandTap(name, at_hand[name], thickness)


def one_after_another(names: Sequence[str]) -> str:
    """The taps as they are used.

    >>> one_after_another(["taper", "second"]), one_after_another(["spiral flute"])
    ('taper, then second tap (US: plug)', 'the spiral flute tap alone')
    """
    last = TAP_NAMES[names[-1]]
    called = last.replace(" (", " tap (") if "(" in last else f"{last} tap"
    if len(names) == 1:
        return f"the {called} alone"
    return f"{', '.join(TAP_NAMES[name] for name in names[:-1])}, then {called}"


def tap_for(thread: Thread, shop: Shop, *, depth: float, hole_depth: float | None) -> HandTap:
    """The tap at hand that gets a thread full to a depth [mm]: right through where there is no `hole_depth`, else the
    first that does it in a blind hole so deep."""
    if hole_depth is None:
        return through_tap(thread, shop, depth)
    return needed_tap(blind_taps(thread, shop, hole_depth), depth)


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
