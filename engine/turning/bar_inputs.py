"""What `bar-plan` is told."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from engine.base import declare as ask
from engine.turning.bar import MOST_PARTS


@dataclass(frozen=True, slots=True, kw_only=True)
class BarPlanInputs:
    """What `bar-plan` is told."""

    parts: int = ask.count(
        "Parts",
        low=1,
        high=MOST_PARTS,
        example="3",
        help="How many are made from the bar without letting go of it.",
    )
    length: float = ask.length("Length of a part", high=2000, example="12", help="Finished length.")
    blade: float = ask.length(
        "Width of the blade",
        low=0.3,
        high=12,
        example="2",
        empty="the shop's blade",
        from_shop=lambda shop: shop.lathe.blade.width,
        help="Each part costs one cut of it.",
    )
    facing: float = ask.length(
        "Facing",
        default=0.5,
        low=-1e-9,
        high=20,
        example="0.5",
        empty="0.5 mm, on an inch bench 0.02 in",
        from_shop=lambda shop: 0.508 if shop.unit == "inch" else 0.5,
        help="Taken off the end of the bar before each part.",
    )
    grip: float = ask.length(
        "Held in the jaws",
        low=-1e-9,
        high=500,
        example="20",
        empty="the length of the jaws",
        from_shop=lambda shop: shop.lathe.chuck.jaw_length,
        help="Bar inside the chuck.",
    )
    end_waste: float | None = ask.length(
        "Between last cut and jaws",
        low=-1e-9,
        high=500,
        required=False,
        example="5",
        empty="5 mm, or what the drill needs",
        help="Room for the blade, and for the hole that runs on into the stub.",
    )
    drill: float | None = ask.diameter(
        "Drill",
        high=200,
        required=False,
        example="10.5",
        empty="none, or pitch below the thread",
        help="Diameter of the drill that goes through all the parts at once.",
    )
    thread: Any = ask.thread(
        "Thread",
        required=False,
        example="M12x1.5",
        empty="not tapped",
        help="Thread that is tapped through all the parts at once.",
    )
    back: float = ask.length(
        "Left for facing the back",
        default=0.0,
        low=-1e-9,
        high=20,
        example="0.3",
        help="Extra on each part when its parted side is faced afterwards.",
    )
    diameter: float | None = ask.length(
        "Diameter of the bar",
        high=500,
        required=False,
        example="20",
        empty="not given",
        help="Says whether the bar stands out too far.",
    )
