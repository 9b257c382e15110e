"""An error budget drawn: what each cause may do, to one scale, and what they come to together."""

from __future__ import annotations

from collections.abc import Sequence

from engine.accuracy.budget import Share, expanded
from engine.base.answer import Label, Line, Picture, Pointer, Shape
from engine.base.outlines import box, enlarged
from engine.base.words import say, shown

_LONG = 60.0  # mm of paper for the longest bar
_HIGH, _STEP = 3.0, 9.0  # mm of paper: a bar, and from one to the next with its words over it
_CAUSES = 3  # bars at most; the table has the rest


def budget_picture(shares: Sequence[Share], allowed: float | None) -> Picture:
    """Bars from the largest to the smallest, what they come to below them, and what is allowed as a line. Half ranges."""
    ranked = sorted(shares, key=lambda share: -share.most)[:_CAUSES]
    good = expanded(shares)
    largest = max(good, allowed or 0.0, *(share.most for share in ranked))
    times = enlarged(largest, _LONG)
    bars = [*((share.cause, share.most) for share in ranked), (say("together"), good)]
    shapes: list[Shape] = []
    for k, (cause, most) in enumerate(bars):
        y = -k * _STEP
        shapes.append(box(0, y, max(most * times, 0.3), y + _HIGH, filled=k == len(ranked)))
        shapes.append(Label(0, y + _HIGH + 2.2, say("{cause} {most}", cause=cause, most=shown(most)), "start"))
    y = -len(ranked) * _STEP
    if allowed is not None:
        shapes.append(Line(allowed * times, y - 1, allowed * times, _HIGH + 4, 1))
        shapes.append(Pointer(allowed * times, _HIGH + 4, say("allowed {allowed}", allowed=shown(allowed)), "above"))
    alt = say(
        "What each cause may do, and {good} together, drawn {times} times as large as it is.",
        good=shown(good, side="up"),
        times=times,
    )
    return Picture("budget", "What each cause may do, either way", tuple(shapes), alt)
