"""The number that tells of a joint that came out wrong, shared by the operations that answer it."""

from __future__ import annotations

from typing import Any

from engine.base.answer import Answer
from engine.base.words import Text, say, shown
from engine.shop.model import Shop

_STEEL_GROWTH = 11.5e-6  # per °C; from memory, unconfirmed
_WARM = 10.0  # °C taken as an example


def warm_growth(inputs: Any, answer: Answer, shop: Shop) -> Text:
    """How much larger steel of that diameter is when it is warm."""
    grown = shown(1000 * _STEEL_GROWTH * _WARM * inputs.diameter, "roughness")
    return say("{warm} warmer, steel is {grown} larger", warm=shown(_WARM, "warmer"), grown=grown)
