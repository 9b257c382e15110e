"""Running a knurl: how far in, where along the bar, and how many turns."""

from __future__ import annotations

from math import ceil

from engine.base.records import dataclass
from engine.base.refusals import check_range
from engine.base.tables import rows

FIRST_BITE = 0.5  # of the wheel's width on the work when it is pressed in: a wheel maker's page
OVERLAP = 0.25  # of the wheel's width, so that it drops into the teeth it made: common practice
PRESS_TURNS = 10  # turns of the work at full depth; 3 to 10: from memory, unconfirmed
CHAMFER = 0.5  # of the pitch, the least width of the lead chamfer: a cut-knurl tool's manual
MOST_PASSES = 200


@dataclass(frozen=True, slots=True)
class Pass:
    """One move of the knurl. `edge`: where the wheel's chuck-side edge ends up, from the end face. [mm]"""

    what: str
    edge: float
    turns: int


def infeed_for(*, pitch: float, growth_factor: float, method: str) -> float:
    """Return how far a wheel goes in from the touch, on the radius.

    pitch: Pitch square to the teeth, above 0. [mm]
    growth_factor: Growth of the diameter in pitches (DIN 82). [-]
    method: `form` or `cut`.
    Returns: Half a pitch of tooth depth (90 degree wheel), less what the metal rises to meet it when formed. [mm]
    Raises: OutOfRange if the pitch is not above 0.
    Source: DIN 82:1973 growth; a tool maker's sheet closes a pitch of 2 mm by 0.5 mm on the radius.

    >>> infeed_for(pitch=2, growth_factor=0.5, method="form")
    0.5
    """
    check_range("pitch", pitch, low=1e-6, unit="mm")
    depth = pitch / 2
    return depth - growth_factor * pitch / 2 if method == "form" else depth


def fed_along(*, width: float, wheel: float, start: float, feed: float, cut: bool = False) -> tuple[Pass, ...]:
    """Return the moves of a knurl that is fed along: formed there and back, cut there alone.

    width, wheel: Of the knurl and of the wheel, above 0. [mm]
    start: Where the knurl begins, from the end face, 0 or more. [mm]
    feed: Feed a turn, above 0. [mm]
    cut: Whether the wheel takes metal away: it cuts with its edge, so it is always fed, and has no way back.
    Returns: One when a wheel that forms is as wide as the knurl.
    Raises: OutOfRange if a number lies outside its range.
    Source: Half the wheel on the work at first: a wheel maker's page. Once along and once back, a cut knurl along only:
        common practice, no source.

    >>> [(p.what, p.edge) for p in fed_along(width=20, wheel=8, start=0, feed=0.1)]
    [('press in', 4.0), ('feed along', 20), ('feed back', 4.0)]
    >>> [(p.what, p.edge) for p in fed_along(width=6, wheel=8, start=0, feed=0.1, cut=True)]
    [('set in', 3.0), ('feed along', 6)]
    """
    _check(width=width, wheel=wheel, start=start, feed=feed)
    if cut:
        first = start + min(FIRST_BITE * wheel, width / 2)
        turns = ceil((start + width - first) / feed)
        return Pass("set in", first, PRESS_TURNS), Pass("feed along", start + width, turns)
    if width <= wheel:
        return (Pass("press in", start + width, PRESS_TURNS),)
    first = start + (wheel if start else FIRST_BITE * wheel)
    turns = ceil((start + width - first) / feed)
    return (
        Pass("press in", first, PRESS_TURNS),
        Pass("feed along", start + width, turns),
        Pass("feed back", first, turns),
    )


def pressed(*, width: float, wheel: float, start: float) -> tuple[Pass, ...]:
    """Return the moves of a weak holder: plunge, move, plunge, each overlapping the one before.

    width, wheel: Of the knurl and of the wheel, above 0. [mm]
    start: Where the knurl begins, from the end face, 0 or more. [mm]
    Returns: Evenly spaced plunges; the last one ends the knurl.
    Raises: OutOfRange if a number lies outside its range, or more than 200 plunges are asked for.
    Source: A quarter of the wheel as overlap: common practice, no source.

    >>> [p.edge for p in pressed(width=20, wheel=8, start=0)]
    [8.0, 14.0, 20.0]
    """
    _check(width=width, wheel=wheel, start=start, feed=1.0)
    if width <= wheel:
        return (Pass("press in", start + width, PRESS_TURNS),)
    moves = max(ceil((width - wheel) / (wheel * (1 - OVERLAP)) - 1e-9), 1)
    check_range("width", width, low=0, high=wheel * (1 + (MOST_PASSES - 1) * (1 - OVERLAP)), unit="mm")
    step = (width - wheel) / moves
    edges = [start + wheel + k * step for k in range(moves + 1)]
    return tuple(Pass("press in" if k == 0 else "move and press in", edge, PRESS_TURNS) for k, edge in enumerate(edges))


def _check(*, width: float, wheel: float, start: float, feed: float) -> None:
    check_range("width", width, low=1e-6, unit="mm")
    check_range("wheel_width", wheel, low=1e-6, unit="mm")
    check_range("start", start, low=0, unit="mm")
    check_range("feed", feed, low=1e-6, unit="mm")


def lubricant(group: str) -> str:
    """Return what to put on the work for a knurl.

    group: The material's group.
    Returns: Such as `cutting oil, plenty`.
    Source: Common practice, no source.

    >>> lubricant("mild_steel")
    'cutting oil, plenty'
    """
    table = {row["group"]: row["words"] for row in rows("knurling/lubricants.csv")}
    return table.get(group, table["other"])
