"""Where in its limits a cut is to end: at the largest size, the middle, the smallest, or where it fits its mate."""

from __future__ import annotations

from typing import Literal

from engine.base.records import dataclass
from engine.base.refusals import BadInput
from engine.base.words import Text, say, shown

Where = Literal["largest", "middle", "smallest", "mate"]
AIMS: tuple[Where, ...] = ("largest", "middle", "smallest", "mate")
WORDS: dict[str, str] = {"largest": "the largest size", "middle": "the middle", "smallest": "the smallest size",
                         "mate": "its mate"}  # fmt: skip
INSIDE = ("bore",)  # the mate goes into these; every other kind goes into its mate
GOOD_TO = (
    0.006  # mm either way: what a micrometer's reading is good to (engine.jobs.cuts), kept off a limit that is aimed at
)
# What a piece needs to go on its mate by the fingers: common practice, no source.
_ROOMS = {"over wires": 0.03, "diameter": 0.01, "bore": 0.01, "across flats": 0.05}


@dataclass(frozen=True, slots=True)
class Aim:
    """What a cut aims at. `mate` is the mate's size in the terms of this measure and `room` what is to be left between
    the two [mm], where the aim is its mate; `of` says what the mate is and where its size is from."""

    where: Where = "middle"
    mate: float | None = None
    room: float | None = None
    of: str = ""


@dataclass(frozen=True, slots=True)
class Aimed:
    """The limits that hold for an aim, and the size that the last cut is to end at. [mm]"""

    low: float | None
    high: float | None
    size: float
    aim: Aim


def usual_room(kind: str) -> float:
    """The room that a measure of this kind needs to go on its mate by the fingers. [mm]

    >>> usual_room("over wires"), usual_room("length")
    (0.03, 0.02)
    """
    return _ROOMS.get(kind, 0.02)


def aimed(low: float | None, high: float | None, kind: str, aim: Aim) -> Aimed:
    """The size that a cut is to end at.

    low, high: the smallest and the largest permissible size, None without [mm]
    kind: as for engine.jobs.measuring.judge
    aim: what is aimed at; a mate whose size is not known gives the tight end, from where it is tried

    Returns: the size, and the limits that hold: those told, or half the room either way of what fits the mate. A limit that
    is aimed at is kept off by what a reading is good to, or by a quarter of the tolerance where that is less.
    Raises: BadInput if there is no limit at all.
    Source: common practice, no source.

    >>> aimed(19.95, 20.0, "diameter", Aim("largest")).size
    19.994
    >>> found = aimed(19.95, 20.0, "diameter", Aim("mate", mate=20.02, room=0.01))
    >>> round(found.low, 6), round(found.high, 6), round(found.size, 6)
    (20.005, 20.015, 20.01)
    """
    if aim.where == "mate" and aim.mate is not None:
        room = aim.room if aim.room is not None else usual_room(kind)
        size = aim.mate + (room if kind in INSIDE else -room)
        return Aimed(size - room / 2, size + room / 2, size, aim)
    if low is None or high is None:
        one = high if low is None else low
        if one is None:
            raise BadInput("limits", "", "a low or a high limit")
        return Aimed(low, high, one, aim)
    off = min(GOOD_TO, (high - low) / 4)
    first = "smallest" if kind in INSIDE else "largest"  # of a mate nothing is known: the tight end, and then a trial
    where = first if aim.where == "mate" else aim.where
    size = {"largest": high - off, "smallest": low + off}.get(where, (low + high) / 2)
    return Aimed(low, high, size, aim)


def refuse_far_mate(mate: float, typed: str, low: float | None, high: float | None, lead: float | None = None) -> None:
    """Refuse a mate whose size is none in the terms of the measure: a nut's pitch diameter where wires are measured over.

    mate: its size [mm]
    typed: as it was told
    low, high: the smallest and the largest permissible size of this part, None without [mm]
    lead: of a thread that is measured over wires, else None [mm]

    Raises: BadInput where it lies farther from the limits than a quarter of the lead, or than a twentieth of the size.
    Source: common practice, no source; a thread's flanks are engaged over little more than half its pitch.

    >>> refuse_far_mate(14.29, "14.29", 14.201, 14.318, 1.0)
    >>> refuse_far_mate(13.4, "13,4", 14.201, 14.318, 1.0)
    Traceback (most recent call last):
    engine.base.refusals.BadInput: mate: 13,4 cannot be used; accepted: a size near 14.201 mm, as this measure would \
read it.
    """
    ends = [end for end in (low, high) if end is not None]
    if not ends:
        return
    near = min(ends, key=lambda end: abs(mate - end))
    if abs(mate - near) > (lead / 4 if lead else near / 20) and not ends[0] <= mate <= ends[-1]:
        raise BadInput("mate", typed, say("a size near {size}, as this measure would read it", size=shown(near)))


def aim_words(found: Aimed) -> Text:
    """What is aimed at, in words.

    >>> from engine.base.words import write
    >>> write(aim_words(aimed(19.95, 20.0, "diameter", Aim("largest"))))
    'Aims at the largest size: 19.994 mm.'
    """
    aim, size = found.aim, shown(found.size)
    if aim.where != "mate":
        return say("Aims at {where}: {size}.", where=WORDS[aim.where], size=size)
    if aim.mate is None:
        return say("Aims at its mate, of which nothing is known yet: {size} first, then try it on.", size=size)
    text = "Aims at its mate{of}, {mate}: {size}."
    return say(text, of=f" ({aim.of})" if aim.of else "", mate=shown(aim.mate), size=size)
