"""The operations of the indexing pane."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from engine.answer import Answer, Figure
from engine.indexing.dials import dial_setting
from engine.indexing.dividing_operations import OPERATIONS as DIVIDING
from engine.indexing.rotary_operations import OPERATIONS as ROTARY
from engine.inputs import count, length, travel
from engine.operation import Operation
from engine.shop.model import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class HandDialInputs:
    """What `hand-dial` is told."""

    distance: float = length("Distance to move", example="17.35", help="How far the slide is to move.")
    per_turn: Fraction = travel(
        "Travel per turn",
        example="2",
        empty="the cross slide's",
        from_shop=lambda shop: shop.lathe.cross_slide.travel_per_turn,
        help="How far one turn of the handwheel moves the slide.",
    )
    divisions: int = count(
        "Lines on the dial",
        low=1,
        high=2000,
        example="100",
        empty="the cross slide's",
        from_shop=lambda shop: shop.lathe.cross_slide.divisions,
        help="How many lines the dial has in all.",
    )


def _hand_dial(inputs: HandDialInputs, shop: Shop) -> Answer:
    setting = dial_setting(
        distance=inputs.distance, travel_per_turn=inputs.per_turn, divisions=inputs.divisions
    )
    line = float(inputs.per_turn / inputs.divisions)
    division = f"{inputs.distance:g} ÷ {float(inputs.per_turn):g}"
    source = "arithmetic; each position rounded once (common practice, no source)"
    return Answer(
        figures=(
            Figure("turns", "Whole turns", setting.turns, "count", source, f"whole part of {division}"),
            Figure(
                "reading",
                "then to",
                setting.reading,
                "length",
                source,
                f"{setting.lines} lines of {line:g} mm",
            ),
            Figure(
                "error",
                "Left over",
                setting.error,
                "length",
                source,
                "the setting less the distance",
                decimals=4,
            ),
        )
    )


OPERATIONS = {
    **DIVIDING,
    **ROTARY,
    "hand-dial": Operation(
        id="hand-dial",
        inputs=HandDialInputs,
        work=_hand_dial,
        hazards=("turning",),
        example={"distance": "17.35", "per_turn": "2", "divisions": "100"},
        help="Turns a distance into turns of a handwheel and the line to stop at.",
    )
}
