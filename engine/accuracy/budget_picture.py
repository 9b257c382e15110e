"""An error budget drawn: what each cause may do, to one scale, and what they come to together."""

from __future__ import annotations

from collections.abc import Sequence

from engine.accuracy.budget import Share, expanded
from engine.base.answer import Line, Picture, Pointer, Shape
from engine.base.outlines import box, enlarged
from engine.base.words import say, shown

_LONG = 60.0  # mm of paper for the longest bar
_HIGH, _STEP = 3.0, 6.0  # mm of paper: a bar, and from one to the next
_CAUSES = 8  # bars at most; the table has the rest


def budget_picture(shares: Sequence[Share], allowed: float | None) -> Picture:
    """Bars from the largest to the smallest, what they come to below them, and what is allowed as a line. Half ranges."""
    ranked = sorted(shares, key=lambda share: -share.most)[:_CAUSES]
    good = expanded(shares)
    largest = max(good, allowed or 0.0, *(share.most for share in ranked))
    times = enlarged(largest, _LONG)
    shapes: list[Shape] = []
    for k, share in enumerate(ranked):
        y = -k * _STEP
        shapes.append(box(0, y, max(share.most * times, 0.3), y + _HIGH))
        shapes.append(
            Pointer(0, y + _HIGH / 2, say("{cause} {most}", cause=share.cause, most=shown(share.most)), "left")
        )
    y = -len(ranked) * _STEP
    shapes.append(box(0, y, good * times, y + _HIGH, filled=True))
    shapes.append(Pointer(0, y + _HIGH / 2, say("together {good}", good=shown(good, side="up")), "left"))
    if allowed is not None:
        shapes.append(Line(allowed * times, y - 1, allowed * times, _HIGH + 1, 1))
        shapes.append(Pointer(allowed * times, _HIGH + 1, say("allowed {allowed}", allowed=shown(allowed)), "above"))
    alt = say(
        "What each cause may do, and {good} together, drawn {times} times as large as it is.",
        good=shown(good, side="up"),
        times=times,
    )
    return Picture("budget", "What each cause may do, either way", tuple(shapes), alt)
