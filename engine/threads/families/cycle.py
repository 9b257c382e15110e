"""British Standard Cycle threads: 1/4 BSC, 1/4-26 CEI."""

from __future__ import annotations

from engine.threads.families.whitworth import borrowing
from engine.threads.form import rounded
from engine.threads.thread import Thread
from engine.threads.told import Form


def _form(thread: Thread) -> Form:
    """BS 811: 60 degrees, rounded, 0.532692 P deep: 1/4 x 26 has a minor diameter of 0.2090 in."""
    pitch = float(thread.pitch)
    return rounded(pitch, 0.532692, angle=60.0, height=0.866025, radius=1 / 6, source="BS 811", profile="cycle")


FAMILY = borrowing(
    "cycle", "British Standard Cycle", 70, "BS 811", "BS 811",
    mark=r"b\.?s\.?c(?:y(?:cle)?)?\.? | c\.?e\.?i\.? | cycle", table="bs811", series="BSC",
    why="no limits of BS 811 could be read", depth="0.532692", form=_form,
)  # fmt: skip
