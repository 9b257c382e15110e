"""The operations of the drilling pane."""

from __future__ import annotations

from engine.drilling.circle_operations import OPERATIONS as _CIRCLE
from engine.drilling.plan_operations import OPERATIONS as _PLAN

OPERATIONS = {**_PLAN, **_CIRCLE}
