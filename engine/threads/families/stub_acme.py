"""Stub Acme threads: 1/2-10 STUB ACME, 3/4-6 STUB ACME LH. ASME B1.8: 29 degrees, basic depth 0.3 P, crest 0.4224 P."""

from __future__ import annotations

from engine.threads.families.acme import acme, general_purpose
from engine.threads.thread import Grammar, Thread
from engine.threads.told import Classes, Limits

_SOURCE = "ASME B1.8 form; allowance and tolerance of Acme class 2G, minor and major limits from memory, unconfirmed"


def _limits(thread: Thread, classes: Classes, engagement: float | None) -> Limits:
    return general_purpose(thread, "2", "2", depth=0.3, smallest_crest=0.0, root=1.0, sources=(_SOURCE, _SOURCE))


FAMILY = acme(
    "stub", "stub Acme", 130, "ASME B1.8", mark=r"stub\s*acme", series="STUB ACME", depth=0.3, limits=_limits,
    classes=Grammar("2G", "2G", "2G", "upper"),
)  # fmt: skip
