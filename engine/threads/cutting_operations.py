"""Operations about cutting and measuring a thread."""

from __future__ import annotations

from engine.threads.gears_operations import OPERATIONS as _GEARS

OPERATIONS = {**_GEARS}
