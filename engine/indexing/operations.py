"""The operations of the indexing pane."""

from __future__ import annotations

from engine.indexing.dial_operations import OPERATIONS as _DIALS
from engine.indexing.dial_operations import HandDialInputs
from engine.indexing.dividing_operations import OPERATIONS as _DIVIDING
from engine.indexing.flats_operations import OPERATIONS as _FLATS
from engine.indexing.rotary_operations import OPERATIONS as _ROTARY
from engine.indexing.scale_operations import OPERATIONS as _SCALES
from engine.indexing.vernier_operations import OPERATIONS as _VERNIERS

__all__ = ["OPERATIONS", "HandDialInputs"]

OPERATIONS = {**_DIVIDING, **_ROTARY, **_SCALES, **_VERNIERS, **_DIALS, **_FLATS}
