"""The operations of fits, balls, solder and retaining compounds."""

from __future__ import annotations

from engine.joining.ball_operations import OPERATIONS as _BALL
from engine.joining.fit_operations import OPERATIONS as _FIT
from engine.joining.solder_operations import OPERATIONS as _SOLDER

OPERATIONS = {**_FIT, **_BALL, **_SOLDER}
