"""Operations about the size, limits and strength of a thread."""

from __future__ import annotations

from engine.base.operation import Operation
from engine.threads.identify_operations import OPERATIONS as _IDENTIFY
from engine.threads.limits_operations import OPERATIONS as _LIMITS
from engine.threads.relief_operations import OPERATIONS as _RELIEF
from engine.threads.strength_operations import OPERATIONS as _STRENGTH

OPERATIONS: dict[str, Operation] = {**_LIMITS, **_IDENTIFY, **_STRENGTH, **_RELIEF}
