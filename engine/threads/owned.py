"""What the taps of a shop cut."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from engine.base.refusals import BadInput
from engine.shop.model import Shop
from engine.threads.designation import parse
from engine.threads.thread import Thread

Cut = tuple[object, ...]


def cut_by(thread: Thread) -> Cut:
    """What a tap for a thread cuts, as far as it tells one tap from another."""
    return thread.family, thread.diameter, thread.pitch, thread.starts, thread.left_hand, bool(thread.taper)


def owned_cuts(taps: Iterable[str]) -> frozenset[Cut]:
    """What the taps of a shop cut; a tap whose words are no thread is passed over.

    >>> len(owned_cuts(("M6", "M6x1", "a blunt one")))
    1
    """
    return frozenset(cut for words in taps if (cut := _cut_of(words)) is not None)


def taps_cut(shop: Shop) -> frozenset[Cut]:
    """What all the taps of a shop cut, those listed by kind too."""
    return owned_cuts(shop.taps) | {cut_by(tap.size) for tap in shop.tap_kinds}


@lru_cache(maxsize=512)
def _cut_of(words: str) -> Cut | None:
    try:
        return cut_by(parse(words))
    except BadInput:
        return None
