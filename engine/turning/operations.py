"""The operations of the turning pane."""

from __future__ import annotations

from engine.turning.bar_operations import OPERATIONS as _BAR
from engine.turning.overhang_operations import OPERATIONS as _OVERHANG
from engine.turning.speed_operations import OPERATIONS as _SPEEDS

OPERATIONS = {**_SPEEDS, **_OVERHANG, **_BAR}
