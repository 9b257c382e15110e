"""How the work is held and driven now: told once for a set-up, quantities and not yes or no, and read by every caution."""

from __future__ import annotations

from dataclasses import dataclass

from engine.base.declare import choice, flag, length
from engine.situation import Situation

HELD_BY = (
    "three-jaw",
    "four-jaw",
    "soft jaws",
    "collet",
    "between centres",
    "faceplate",
    "threaded stub",
    "arbor",
    "dividing head",
    "vice",
    "V-block",
    "clamps",
    "hand",
)
SUPPORTS = ("none", "centre", "fixed steady", "travelling steady")


@dataclass(frozen=True, slots=True, kw_only=True)
class SetUp:
    """One holding of the work. What is not told is None: nobody knows it."""

    machine: str | None = choice(
        "Machine", ("lathe", "mill", "bench"), required=False, empty="the operation's own"
    )
    held_by: str | None = choice("Held by", HELD_BY, required=False, empty="not told")
    grip: float | None = length(
        "Gripped length", required=False, empty="not told", example="20", help="How much of it the jaws hold."
    )
    stick_out: float | None = length(
        "Stands out",
        required=False,
        empty="not told",
        example="40",
        help="From the jaws to the end of what is cut.",
    )
    support: str | None = choice("Support", SUPPORTS, required=False, empty="not told")
    rear: float | None = length(
        "Bar behind the headstock", low=-1e-9, required=False, empty="not told", example="0",
        help="How far the bar sticks out at the rear with nothing round it. 0: not at all.",
    )  # fmt: skip
    power: str | None = choice(
        "Power", ("on", "unplugged"), required=False, empty="not told",
        help="Whether the machine can start while hands are in it.",
    )  # fmt: skip
    tap_driven_by: str | None = choice("Tap driven by", ("hand", "spindle"), required=False, empty="not told")
    reverse: bool | None = flag("Cuts in reverse", required=False, empty="not told")
    off_centre: bool | None = flag("Work off centre", required=False, empty="not told")


def situation_of(set_up: SetUp) -> Situation:
    """What a set-up says of the moment.

    Examples
    --------
    >>> situation_of(SetUp(held_by="collet", stick_out=30.0)).stick_out
    30.0
    """
    return Situation(
        machine=set_up.machine or "",  # type: ignore[arg-type]
        held_by=set_up.held_by or "",
        grip=set_up.grip,
        stick_out=set_up.stick_out,
        support=set_up.support or "",
        rear=set_up.rear,
        power=set_up.power or "",
        tap_driven_by=set_up.tap_driven_by or "",
        reverse=set_up.reverse,
        off_centre=set_up.off_centre,
    )
