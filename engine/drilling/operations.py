"""The operations of the drilling pane."""

from __future__ import annotations

from engine.drilling.circle_operations import OPERATIONS as _CIRCLE
from engine.drilling.plan_operations import OPERATIONS as _PLAN
from engine.drilling.ream_operations import OPERATIONS as _REAM
from engine.drilling.seat_operations import OPERATIONS as _SEATS
from engine.drilling.size_operations import OPERATIONS as _SIZES
from engine.drilling.tap_operations import OPERATIONS as _TAP

OPERATIONS = {**_TAP, **_SIZES, **_SEATS, **_PLAN, **_REAM, **_CIRCLE}
