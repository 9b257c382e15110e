"""What to do where the drill or the tap at hand does not reach."""

from __future__ import annotations

from engine.base.answer import Note, info, warning
from engine.base.words import Text, say, shown
from engine.drilling.reach import drill_for, drills_at_hand, tap_reach
from engine.drilling.tap_depth import HandTap
from engine.shop.model import Shop
from engine.threads.thread import Thread


def drill_notes(diameter: float, travel: float, shop: Shop, *, otherwise: Text) -> list[Note]:
    """What to say of a drill [mm] whose tip goes in so deep [mm]: nothing where the first one at hand clears its chips;
    `otherwise` where no owned and no standard drill does."""
    at_hand, found = drills_at_hand(diameter, shop), drill_for(diameter, travel, shop)
    if not at_hand or found == at_hand[0]:
        return []
    first = at_hand[0]
    parts: dict[str, Text] = {"travel": _short(travel), "flute": _short(first.flute), "first": first.name}
    if found is None:
        text = (
            "The tip goes in {travel}; the {flute} flute of a {first} packs, and no longer one clears it: {otherwise}."
        )
        return [warning(text, otherwise=otherwise, **parts)]
    parts |= {"name": found.name, "longer": _short(found.flute)}
    text = "The tip goes in {travel}; the {flute} flute of a {first} packs. "
    if found.owned:
        text += "Take your {name}, flute {longer}, after the short one has led the way."
        return [info(text, **parts)]
    text += "Take a {name}, flute {longer}, after the short one has led the way."
    return [warning(text, **parts)]


def tap_notes(thread: Thread, tap: HandTap, depth: float, hole: float, shop: Shop, *, otherwise: Text) -> list[Note]:
    """What to say of the tap that gets a thread full to a depth [mm] in a hole [mm]: nothing where it reaches so far."""
    reach = tap_reach(thread, hole, shop, tap.name)
    front = depth + tap.lead_threads * float(thread.pitch)
    if front <= reach.depth + 1e-9:
        return []
    text = say("{whose} {size} tap goes in {reach}, to {why} ({source}); this asks for {front}. Open the hole above "
        "the thread to clear it, take a long-shank tap, or {otherwise}.", whose="Your" if reach.owned else "A usual",
        size=str(thread), reach=shown(reach.depth, decimals=0), why=reach.why, source=reach.source,
        front=shown(front, decimals=0, side="up"), otherwise=otherwise)  # fmt: skip
    return [warning(text)]


def _short(length: float) -> Text:
    return shown(length, decimals=1)
